// Package paint draws anti-aliased lines, areas and labels into an image that
// is used again from frame to frame. It allocates nothing in the steady state.
//
// Coordinates are device pixels; a pixel's centre is at one half. Everything is
// cut to the image, so that any finite coordinate is safe.
package paint

import (
	"image"
	"image/color"
	"math"
	"slices"
)

// Brush draws into Img.
type Brush struct {
	Img   *image.RGBA
	Fonts *Fonts

	rows  [][]float64 // crossings per scan line, kept between fills
	cover []float32
}

// Point is a place in device pixels.
type Point struct{ X, Y float64 }

// Reset makes Img w by h pixels and fills it with c.
func (b *Brush) Reset(w, h int, c color.NRGBA) {
	w, h = max(w, 1), max(h, 1)
	if b.Img == nil || b.Img.Rect.Dx() != w || b.Img.Rect.Dy() != h {
		b.Img = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	if w*h == 0 {
		return
	}
	pix := b.Img.Pix
	r, g, bl, a := premultiply(c)
	pix[0], pix[1], pix[2], pix[3] = r, g, bl, a
	for n := 4; n < len(pix); n *= 2 {
		copy(pix[n:], pix[:n])
	}
}

func premultiply(c color.NRGBA) (r, g, b, a uint8) {
	m := uint32(c.A)
	return uint8(uint32(c.R) * m / 255), uint8(uint32(c.G) * m / 255), uint8(uint32(c.B) * m / 255), c.A
}

// blend lays c over the pixel at offset o, with coverage from 0 to 1.
func (b *Brush) blend(o int, c color.NRGBA, coverage float64) {
	b.lay(o, c, uint32(coverage*float64(c.A)+0.5))
}

// lay lays c over the pixel at offset o, with opacity from 0 to 255.
func (b *Brush) lay(o int, c color.NRGBA, a uint32) {
	if a == 0 {
		return
	}
	p := b.Img.Pix[o : o+4 : o+4]
	if a >= 255 {
		p[0], p[1], p[2], p[3] = c.R, c.G, c.B, 255
		return
	}
	q := 255 - a
	// The divisions by 255, exactly rounded, as (x + 128 + (x+128)/256) / 256.
	mix := func(x uint32) uint8 { x += 128; return uint8((x + x>>8) >> 8) }
	p[0] = mix(uint32(c.R)*a + uint32(p[0])*q)
	p[1] = mix(uint32(c.G)*a + uint32(p[1])*q)
	p[2] = mix(uint32(c.B)*a + uint32(p[2])*q)
	p[3] = mix(255*a + uint32(p[3])*q)
}

// Line draws a straight line with square-cut ends.
func (b *Brush) Line(p, q Point, width float64, c color.NRGBA) {
	w, h := float64(b.Img.Rect.Dx()), float64(b.Img.Rect.Dy())
	pad := width/2 + 1
	p, q, ok := cut(p, q, -pad, -pad, w+pad, h+pad)
	if !ok || c.A == 0 {
		return
	}
	dx, dy := q.X-p.X, q.Y-p.Y
	length := math.Hypot(dx, dy)
	if length < 1e-9 {
		return
	}
	half := max(width, 1) / 2
	fade := min(width, 1) // thinner than a pixel: one pixel, fainter
	ux, uy := dx/length, dy/length
	steep := math.Abs(dy) > math.Abs(dx)
	// Walk along the major axis; at each step cover the few pixels across.
	major0, major1 := p.X, q.X
	slope, base := 0.0, 0.0
	limit := w
	across := h
	if steep {
		major0, major1 = p.Y, q.Y
		slope = dx / dy
		base = p.X - slope*p.Y
		limit, across = h, w
	} else {
		slope = dy / dx
		base = p.Y - slope*p.X
	}
	if major0 > major1 {
		major0, major1 = major1, major0
	}
	reach := (half + 0.5) * math.Sqrt(1+slope*slope)
	stretch := reach / (half + 0.5)
	from, to := int(max(0, math.Floor(major0-half))), int(min(limit-1, math.Ceil(major1+half)))
	stride := b.Img.Stride
	stepM, stepN := 4, stride // how far apart pixels are along and across
	if steep {
		stepM, stepN = stride, 4
	}
	alongM, alongN := ux, uy // how fast the place along the line grows
	if steep {
		alongM, alongN = uy, ux
	}
	begin := p.X*ux + p.Y*uy
	alpha := float64(c.A) * fade
	// Away from its ends the line's coverage depends on the distance alone.
	safe := 1 + reach
	for m := from; m <= to; m++ {
		at := float64(m) + 0.5
		centre := slope*at + base
		lo, hi := int(max(0, math.Floor(centre-reach))), int(min(across-1, math.Ceil(centre+reach)))
		if lo > hi {
			continue
		}
		t := at*alongM + centre*alongN - begin
		inner := t > safe && length-t > safe
		o := m*stepM + lo*stepN
		d := (float64(lo) + 0.5 - centre) / stretch
		for n := lo; n <= hi; n, o, d = n+1, o+stepN, d+1/stretch {
			cov := half + 0.5 - math.Abs(d)
			if cov <= 0 {
				continue
			}
			if cov > 1 {
				cov = 1
			}
			if !inner {
				s := at*alongM + (float64(n)+0.5)*alongN - begin
				end := min(s, length-s) + 0.5
				if end <= 0 {
					continue
				}
				cov *= min(end, 1)
			}
			b.lay(o, c, uint32(cov*alpha+0.5))
		}
	}
}

// cut gives the part of p-q inside the box, by the method of Liang and Barsky
// (ACM Transactions on Graphics 3(1), 1984).
func cut(p, q Point, x0, y0, x1, y1 float64) (Point, Point, bool) {
	dx, dy := q.X-p.X, q.Y-p.Y
	if math.IsNaN(dx) || math.IsNaN(dy) || math.IsInf(dx, 0) || math.IsInf(dy, 0) {
		return p, q, false
	}
	t0, t1 := 0.0, 1.0
	for _, e := range [4][2]float64{{-dx, p.X - x0}, {dx, x1 - p.X}, {-dy, p.Y - y0}, {dy, y1 - p.Y}} {
		switch {
		case e[0] == 0 && e[1] < 0:
			return p, q, false
		case e[0] < 0:
			t0 = max(t0, e[1]/e[0])
		case e[0] > 0:
			t1 = min(t1, e[1]/e[0])
		}
	}
	if t0 > t1 {
		return p, q, false
	}
	return Point{p.X + t0*dx, p.Y + t0*dy}, Point{p.X + t1*dx, p.Y + t1*dy}, true
}

// Dashes draws a line of strokes on long, off apart.
func (b *Brush) Dashes(p, q Point, on, off, width float64, c color.NRGBA) {
	w, h := float64(b.Img.Rect.Dx()), float64(b.Img.Rect.Dy())
	length := math.Hypot(q.X-p.X, q.Y-p.Y)
	if !(length > 0) || !(on+off > 0.5) {
		return
	}
	r, s, ok := cut(p, q, -8, -8, w+8, h+8)
	if !ok {
		return
	}
	ux, uy := (q.X-p.X)/length, (q.Y-p.Y)/length
	from := math.Hypot(r.X-p.X, r.Y-p.Y)
	to := math.Hypot(s.X-p.X, s.Y-p.Y)
	period := on + off
	for t := math.Floor(from/period) * period; t < to; t += period {
		a, z := max(t, from), min(t+on, to)
		if z > a {
			b.Line(Point{p.X + ux*a, p.Y + uy*a}, Point{p.X + ux*z, p.Y + uy*z}, width, c)
		}
	}
}

// Polyline joins points; closed joins the last to the first.
func (b *Brush) Polyline(ps []Point, closed bool, width float64, c color.NRGBA) {
	for i := 1; i < len(ps); i++ {
		b.Line(ps[i-1], ps[i], width, c)
	}
	if n := len(ps); closed && n > 2 {
		b.Line(ps[n-1], ps[0], width, c)
	}
}

// Circle draws a ring, or a disc where width is 0.
func (b *Brush) Circle(at Point, radius, width float64, c color.NRGBA) {
	w, h := b.Img.Rect.Dx(), b.Img.Rect.Dy()
	out := radius + width/2 + 1
	if !(out > 0) || out > 4000 {
		return
	}
	x0, x1 := max(0, int(at.X-out)), min(w-1, int(at.X+out))
	y0, y1 := max(0, int(at.Y-out)), min(h-1, int(at.Y+out))
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			d := math.Hypot(float64(x)+0.5-at.X, float64(y)+0.5-at.Y)
			cov := radius + 0.5 - d
			if width > 0 {
				cov = width/2 + 0.5 - math.Abs(d-radius)
			}
			if cov > 0 {
				b.blend(y*b.Img.Stride+x*4, c, min(cov, 1))
			}
		}
	}
}

// Rect fills an axis-parallel box.
func (b *Brush) Rect(x0, y0, x1, y1 float64, c color.NRGBA) {
	w, h := float64(b.Img.Rect.Dx()), float64(b.Img.Rect.Dy())
	x0, y0, x1, y1 = max(x0, 0), max(y0, 0), min(x1, w), min(y1, h)
	if !(x0 < x1 && y0 < y1) {
		return
	}
	if c.A == 255 && y1-y0 <= 1 && y0 == math.Floor(y0) && x0 == 0 && x1 == w { // a line across
		row := b.Img.Pix[int(y0)*b.Img.Stride:][:int(w)*4]
		row[0], row[1], row[2], row[3] = c.R, c.G, c.B, 255
		for n := 4; n < len(row); n *= 2 {
			copy(row[n:], row[:n])
		}
		return
	}
	for y := int(y0); float64(y) < y1; y++ {
		cy := min(float64(y)+1, y1) - max(float64(y), y0)
		for x := int(x0); float64(x) < x1; x++ {
			cx := min(float64(x)+1, x1) - max(float64(x), x0)
			b.blend(y*b.Img.Stride+x*4, c, cx*cy)
		}
	}
}

// samples is how many scan lines make one row of pixels of an area.
const samples = 4

// Fill fills the rings by the even-odd rule, so that holes stay open.
func (b *Brush) Fill(rings [][]Point, c color.NRGBA) {
	w, h := b.Img.Rect.Dx(), b.Img.Rect.Dy()
	n := h * samples
	if len(b.rows) < n {
		b.rows = make([][]float64, n)
	}
	if len(b.cover) < w+2 {
		b.cover = make([]float32, w+2)
	}
	top, bottom := n, -1
	for _, r := range rings {
		for i, p := range r {
			q := r[(i+1)%len(r)]
			if p.Y > q.Y {
				p, q = q, p
			}
			if !(p.Y < q.Y) || q.Y < 0 || p.Y > float64(h) || math.IsInf(q.X-p.X, 0) {
				continue
			}
			s0 := max(0, int(math.Ceil(p.Y*samples-0.5)))
			s1 := min(n-1, int(math.Ceil(q.Y*samples-0.5))-1)
			slope := (q.X - p.X) / (q.Y - p.Y)
			for s := s0; s <= s1; s++ {
				y := (float64(s) + 0.5) / samples
				b.rows[s] = append(b.rows[s], p.X+slope*(y-p.Y))
			}
			if s0 <= s1 {
				top, bottom = min(top, s0), max(bottom, s1)
			}
		}
	}
	for y := top / samples; y*samples <= bottom; y++ {
		lo, hi := w, -1
		for s := y * samples; s < (y+1)*samples; s++ {
			xs := b.rows[s]
			slices.Sort(xs)
			for i := 0; i+1 < len(xs); i += 2 {
				x0, x1 := max(xs[i], 0), min(xs[i+1], float64(w))
				if x0 >= x1 {
					continue
				}
				a, z := int(x0), min(int(x1), w-1)
				lo, hi = min(lo, a), max(hi, z)
				// Coverage is kept as its change from pixel to pixel.
				b.cover[a] += float32(float64(a)+1-x0) / samples
				b.cover[a+1] += float32(x0-float64(a)) / samples
				b.cover[z] -= float32(float64(z)+1-x1) / samples
				b.cover[z+1] -= float32(x1-float64(z)) / samples
			}
			b.rows[s] = xs[:0]
		}
		if hi < 0 {
			continue
		}
		o := y*b.Img.Stride + lo*4
		sum := float32(0)
		for x := lo; x <= hi; x, o = x+1, o+4 {
			sum += b.cover[x]
			b.cover[x] = 0
			if sum > 0.998 && c.A == 255 {
				p := b.Img.Pix[o : o+4 : o+4]
				p[0], p[1], p[2], p[3] = c.R, c.G, c.B, 255
				continue
			}
			b.lay(o, c, uint32(min(max(sum, 0), 1)*float32(c.A)+0.5))
		}
		b.cover[hi+1], b.cover[min(hi+2, len(b.cover)-1)] = 0, 0
	}
}
