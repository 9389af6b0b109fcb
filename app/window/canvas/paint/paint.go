// Package paint draws anti-aliased lines, areas and labels into an image that
// is used again from frame to frame. It allocates nothing in the steady state.
//
// Coordinates are device pixels; a pixel's center is at one half. Everything is
// cut to the image, so that any finite coordinate is safe.
package paint

import (
	"encoding/binary"
	"image"
	"image/color"
	"math"
)

// Brush draws into Img.
type Brush struct {
	Img   *image.RGBA
	Fonts *Fonts

	rows  [][]float64 // crossings per scan line, kept between fills
	cover []float32
	touch []uint64 // a bit for each pixel of a row whose cover changes
	box   []Point  // scratch
	one   [][]Point

	discs  map[disc]*image.Alpha // of small circles, kept
	record recording
	noting *part     // nil while things are drawn at once
	moved  [][]Point // scratch of an area in a tile
	clips  [2]clip   // and of its parts
}

// Point is a place in device pixels.
type Point struct{ X, Y float64 }

// Reset makes Img w by h pixels and fills it with c.
func (b *Brush) Reset(w, h int, c color.NRGBA) {
	b.Ruled(w, h, c)
}

// ink is a color made ready to be laid over pixels.
type ink struct {
	rb, ga uint32 // red and blue, green and full opacity, each in the low byte of a half
	solid  uint32 // the pixel it makes where it covers
	alpha  uint32 // from 0 to 256
}

func inkOf(c color.NRGBA) ink {
	return ink{
		rb: uint32(c.R) | uint32(c.B)<<16, ga: uint32(c.G) | 255<<16,
		solid: uint32(c.R) | uint32(c.G)<<8 | uint32(c.B)<<16 | 255<<24,
		alpha: uint32(c.A) + uint32(c.A)>>7,
	}
}

// lay lays ink over the pixel at offset o, with opacity a from 0 to 256. Two
// channels are mixed at a time, each in sixteen bits of its own.
func lay(pix []uint8, o int, c *ink, a uint32) {
	p := pix[o : o+4]
	v, q := binary.LittleEndian.Uint32(p), 256-a
	rb := (v&0xff00ff*q + c.rb*a + 0x800080) >> 8 & 0xff00ff
	ga := (v>>8&0xff00ff*q + c.ga*a + 0x800080) & 0xff00ff00
	binary.LittleEndian.PutUint32(p, rb|ga)
}

// run lays ink over n pixels from offset o on.
func run(pix []uint8, o, n int, c *ink, a uint32) {
	switch {
	case n <= 0 || a == 0:
	case a < 256:
		for e := o + 4*n; o < e; o += 4 {
			lay(pix, o, c, a)
		}
	case n < 24:
		for e := o + 4*n; o < e; o += 4 {
			binary.LittleEndian.PutUint32(pix[o:o+4:o+4], c.solid)
		}
	default:
		row := pix[o : o+4*n]
		binary.LittleEndian.PutUint32(row, c.solid)
		for k := 4; k < len(row); k *= 2 {
			copy(row[k:], row[:k])
		}
	}
}

// column lays ink over n pixels from offset o down.
func (b *Brush) column(o, n int, c *ink, a uint32) {
	pix, stride := b.Img.Pix, b.Img.Stride
	for ; n > 0 && a > 0; n-- {
		lay(pix, o, c, a)
		o += stride
	}
}

// Line draws a straight line with square-cut ends.
func (b *Brush) Line(p, q Point, width float64, c color.NRGBA) {
	b.stroke(p, q, width, c, 0, 0, 0)
}

// unit is how many units of the inner loop make a pixel.
const unit = 1 << 16

// faint is how little of a pixel a line covers that is not worth drawing.
const faint = unit / 16

// widest is how wide a line may be, pixels.
const widest = 4096

// stroke draws a line, or where on is not 0 dashes, the first of which began
// phase before p.
func (b *Brush) stroke(p, q Point, width float64, c color.NRGBA, on, off, phase float64) {
	if b.outside(p, q, width/2+1) {
		return
	}
	if b.noting != nil {
		b.noteStroke(op{kind: strokeOp, c: c, a: p, b: q, width: width, on: on, off: off})
		return
	}
	b.strokeNow(p, q, width, c, on, off, phase)
}

// strokeNow draws a line or dashes that may be on the image.
func (b *Brush) strokeNow(p, q Point, width float64, c color.NRGBA, on, off, phase float64) {
	w, h := float64(b.Img.Rect.Dx()), float64(b.Img.Rect.Dy())
	pad := width/2 + 1
	from := p
	// As it is before it is cut, so that each part of it is drawn alike.
	straight := math.Abs(q.X-p.X) < 1e-3 || math.Abs(q.Y-p.Y) < 1e-3
	p, q, ok := cut(p, q, -pad, -pad, w+pad, h+pad)
	if !ok || c.A == 0 {
		return
	}
	dx, dy := q.X-p.X, q.Y-p.Y
	length := math.Sqrt(dx*dx + dy*dy)
	if length < 1e-9 {
		return
	}
	if width < 1 { // thinner than a pixel: one pixel, fainter
		c.A = uint8(float64(c.A)*max(width, 0) + 0.5)
	}
	half := min(max(width, 1), widest) / 2
	wide := half > thick && on <= 0 && min(math.Abs(dx), math.Abs(dy)) > 0.1*length
	ink := inkOf(c)
	piece := func(p, q Point, length float64) {
		switch {
		case straight:
			b.straight(p, q, half, c)
		case wide:
			b.band(p, q, length, half, c)
		default:
			b.thin(p, q, length, half, &ink)
		}
	}
	if on <= 0 {
		piece(p, q, length)
		return
	}
	period := on + off
	phase += math.Sqrt((p.X-from.X)*(p.X-from.X) + (p.Y-from.Y)*(p.Y-from.Y))
	ux, uy := dx/length, dy/length
	for t := -math.Mod(phase, period); t < length; t += period {
		if s, e := max(t, 0), min(t+on, length); e > s {
			piece(Point{p.X + ux*s, p.Y + uy*s}, Point{p.X + ux*e, p.Y + uy*e}, e-s)
		}
	}
}

// outside tells whether a line is surely off the image.
func (b *Brush) outside(p, q Point, pad float64) bool {
	w, h := float64(b.Img.Rect.Dx())+pad, float64(b.Img.Rect.Dy())+pad
	return p.Y < -pad && q.Y < -pad || p.Y > h && q.Y > h || p.X < -pad && q.X < -pad || p.X > w && q.X > w
}

// thick is from what half width on the ends of a slanted line must be cut square
// to be right: on a thin line, or near an axis, the eye cannot tell.
const thick = 1.5

// band fills a wide line as the box that it is.
func (b *Brush) band(p, q Point, length, half float64, c color.NRGBA) {
	x, y := -(q.Y-p.Y)/length*half, (q.X-p.X)/length*half
	b.box = append(b.box[:0], Point{p.X + x, p.Y + y}, Point{q.X + x, q.Y + y}, Point{q.X - x, q.Y - y}, Point{p.X - x, p.Y - y})
	b.one = append(b.one[:0], b.box)
	b.Fill(b.one, c)
}

// thin walks along the longer axis of a line and covers at each step the pixels
// across that it passes, by how much of each.
func (b *Brush) thin(p, q Point, length, half float64, c *ink) {
	limit, across := b.Img.Rect.Dx(), b.Img.Rect.Dy()
	stepM, stepN := 4, b.Img.Stride // how far apart pixels are along and across
	if math.Abs(q.Y-p.Y) > math.Abs(q.X-p.X) {
		limit, across, stepM, stepN = across, limit, stepN, stepM
		p, q = Point{p.Y, p.X}, Point{q.Y, q.X}
	}
	if p.X > q.X {
		p, q = q, p
	}
	slope := (q.Y - p.Y) / (q.X - p.X)
	m0, m1 := max(0, int(math.Floor(p.X))), min(limit-1, int(math.Ceil(q.X))-1)
	if m0 > m1 {
		return
	}
	fix := func(f float64) int { return int(f * unit) }
	// What it covers across, from low to low plus tall.
	tall, rise := fix(2*half*length/(q.X-p.X)), fix(slope)
	low := fix(p.Y+slope*(float64(m0)+0.5-p.X)) - tall/2
	alpha := c.alpha
	first := uint32(min(1, float64(m0)+1-p.X, q.X-float64(m0))*float64(alpha) + 0.5)
	last := uint32(min(1, q.X-float64(m1))*float64(alpha) + 0.5)
	pix := b.Img.Pix
	for m, row := m0, m0*stepM; m <= m1; m, row = m+1, row+stepM {
		a := alpha
		if m == m0 {
			a = first
		} else if m == m1 {
			a = last
		}
		high := low + tall
		n, end := low>>16, high>>16
		part := unit - low&(unit-1)
		if n == end {
			part = tall
		}
		if n >= 0 && end < across {
			o := row + n*stepN
			if part > faint {
				lay(pix, o, c, uint32(part)>>8*a>>8)
			}
			if n < end {
				for n++; n < end; n++ {
					o += stepN
					lay(pix, o, c, a)
				}
				if part = high & (unit - 1); part > faint {
					lay(pix, o+stepN, c, uint32(part)>>8*a>>8)
				}
			}
		} else {
			for ; n <= end; n, part = n+1, unit {
				if n == high>>16 && n != low>>16 {
					part = high & (unit - 1)
				}
				if n >= 0 && n < across {
					lay(pix, row+n*stepN, c, uint32(part)>>8*a>>8)
				}
			}
		}
		low += rise
	}
}

// straight draws a stroke along a row or a column of pixels, which is a box.
func (b *Brush) straight(p, q Point, half float64, c color.NRGBA) {
	if math.Abs(q.X-p.X) >= math.Abs(q.Y-p.Y) {
		at := (p.Y + q.Y) / 2
		b.Rect(min(p.X, q.X), at-half, max(p.X, q.X), at+half, c)
		return
	}
	at := (p.X + q.X) / 2
	b.Rect(at-half, min(p.Y, q.Y), at+half, max(p.Y, q.Y), c)
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
	if on > 0 && on+off > 0.5 {
		b.stroke(p, q, width, c, on, off, 0)
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

// Rect fills an axis-parallel box.
func (b *Brush) Rect(x0, y0, x1, y1 float64, c color.NRGBA) {
	w, h := float64(b.Img.Rect.Dx()), float64(b.Img.Rect.Dy())
	x0, y0, x1, y1 = max(x0, 0), max(y0, 0), min(x1, w), min(y1, h)
	if !(x0 < x1 && y0 < y1) || c.A == 0 {
		return
	}
	if b.noting != nil {
		b.note(op{kind: rectOp, c: c, a: Point{x0, y0}, b: Point{x1, y1}}, x0, y0, x1, y1)
		return
	}
	ink := inkOf(c)
	// Whole pixels from left to right, and parts of pixels beside them.
	left, right := int(math.Ceil(x0)), int(x1)
	before, after := float64(left)-x0, x1-float64(right)
	if left > right { // all within one pixel
		left, before, after = right, 0, x1-x0
	}
	part := func(f float64) uint32 { return uint32(f*float64(ink.alpha) + 0.5) }
	if right-left <= 2 && y1-y0 > 3 { // a line down
		top, bottom := int(math.Ceil(y0)), int(y1)
		for x, cx := left-1, before; x <= right; x++ {
			if cx > 0 {
				o := top*b.Img.Stride + x*4
				b.column(o, bottom-top, &ink, part(cx))
				if f := float64(top) - y0; f > 0 {
					lay(b.Img.Pix, o-b.Img.Stride, &ink, part(cx*f))
				}
				if f := y1 - float64(bottom); f > 0 {
					lay(b.Img.Pix, bottom*b.Img.Stride+x*4, &ink, part(cx*f))
				}
			}
			if cx = 1; x+1 == right {
				cx = after
			}
		}
		return
	}
	for y := int(y0); float64(y) < y1; y++ {
		cy := min(float64(y)+1, y1) - max(float64(y), y0)
		o := y*b.Img.Stride + left*4
		if before > 0 {
			lay(b.Img.Pix, o-4, &ink, part(cy*before))
		}
		run(b.Img.Pix, o, right-left, &ink, part(cy))
		if after > 0 {
			lay(b.Img.Pix, o+4*(right-left), &ink, part(cy*after))
		}
	}
}

// samples is how many scan lines make one row of pixels of an area.
const samples = 4
