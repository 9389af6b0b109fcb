package paint

import (
	"image/color"
	"math"
	mathbits "math/bits"
	"slices"
)

// Fill fills the rings by the even-odd rule, so that holes stay open.
func (b *Brush) Fill(rings [][]Point, c color.NRGBA) {
	if b.noting != nil {
		b.noteFill(rings, c)
		return
	}
	w, h := b.Img.Rect.Dx(), b.Img.Rect.Dy()
	n := h * samples
	if len(b.cover) < w+2 {
		b.cover = make([]float32, w+2)
		b.touch = make([]uint64, w/64+2)
	}
	ink := inkOf(c)
	if len(rings) == 1 && convex(rings[0]) {
		b.fillConvex(rings[0], &ink)
		return
	}
	if len(b.rows) < n {
		b.rows = make([][]float64, n)
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
			if len(xs) == 2 {
				if xs[0] > xs[1] {
					xs[0], xs[1] = xs[1], xs[0]
				}
			} else {
				slices.Sort(xs)
			}
			for i := 0; i+1 < len(xs); i += 2 {
				x0, x1 := max(xs[i], 0), min(xs[i+1], float64(w))
				if x0 >= x1 {
					continue
				}
				a, z := b.stretch(x0, x1, w)
				lo, hi = min(lo, a), max(hi, z)
			}
			b.rows[s] = xs[:0]
		}
		if hi < 0 {
			continue
		}
		b.sweep(y, lo, hi, &ink)
	}
}

// stretch adds what one scan line covers of a row, from x0 to x1, and gives the
// first and the last pixel of it. Coverage is kept as its change from pixel to
// pixel.
func (b *Brush) stretch(x0, x1 float64, w int) (a, z int) {
	a, z = int(x0), min(int(x1), w-1)
	b.cover[a] += float32(float64(a)+1-x0) / samples
	b.cover[a+1] += float32(x0-float64(a)) / samples
	b.cover[z] -= float32(float64(z)+1-x1) / samples
	b.cover[z+1] -= float32(x1-float64(z)) / samples
	b.touch[a>>6] |= 1 << (a & 63)
	b.touch[(a+1)>>6] |= 1 << ((a + 1) & 63)
	b.touch[z>>6] |= 1 << (z & 63)
	b.touch[(z+1)>>6] |= 1 << ((z + 1) & 63)
	return a, z
}

// fewCorners is how many corners an area has that is looked at for being convex.
const fewCorners = 8

// convex tells whether a ring of few corners is convex: then each scan line
// crosses it in one stretch.
func convex(r []Point) bool {
	if len(r) < 3 || len(r) > fewCorners {
		return false
	}
	left, right := false, false
	for i, a := range r {
		b, c := r[(i+1)%len(r)], r[(i+2)%len(r)]
		turn := (b.X-a.X)*(c.Y-b.Y) - (b.Y-a.Y)*(c.X-b.X)
		left, right = left || turn > 0, right || turn < 0
		if !(turn == turn) || left && right {
			return false
		}
	}
	// A star of one sense turns more than once: its corners go up and down oftener.
	ups := 0
	for i, a := range r {
		b, c := r[(i+1)%len(r)], r[(i+2)%len(r)]
		if a.Y < b.Y && c.Y < b.Y {
			ups++
		}
	}
	return ups < 2
}

// fillConvex fills a convex ring.
func (b *Brush) fillConvex(r []Point, c *ink) {
	w, h := b.Img.Rect.Dx(), b.Img.Rect.Dy()
	type side struct{ y0, y1, x, slope float64 }
	var sides [fewCorners]side
	n := 0
	above, beneath := math.Inf(1), math.Inf(-1)
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if p.Y > q.Y {
			p, q = q, p
		}
		if p.Y < q.Y && !math.IsInf(q.X-p.X, 0) {
			slope := (q.X - p.X) / (q.Y - p.Y)
			sides[n] = side{p.Y, q.Y, p.X - slope*p.Y, slope}
			n++
		}
		above, beneath = min(above, p.Y), max(beneath, q.Y)
	}
	top, bottom := max(0, int(math.Floor(max(above, 0)))), min(h-1, int(math.Floor(min(beneath, float64(h)))))
	for y := top; y <= bottom; y++ {
		lo, hi := w, -1
		for s := range samples {
			at := float64(y) + (float64(s)+0.5)/samples
			x0, x1 := math.Inf(1), math.Inf(-1)
			for i := range n {
				if e := &sides[i]; at > e.y0 && at <= e.y1 {
					x := e.x + e.slope*at
					x0, x1 = min(x0, x), max(x1, x)
				}
			}
			if x0, x1 = max(x0, 0), min(x1, float64(w)); x0 < x1 {
				a, z := b.stretch(x0, x1, w)
				lo, hi = min(lo, a), max(hi, z)
			}
		}
		if hi >= 0 {
			b.sweep(y, lo, hi, c)
		}
	}
}

// sweep lays one row of an area from its changes of coverage, and clears them.
func (b *Brush) sweep(y, lo, hi int, c *ink) {
	pix, row := b.Img.Pix, y*b.Img.Stride
	sum, from := float32(0), lo
	for k := lo >> 6; k <= (hi+1)>>6; k++ {
		bits := b.touch[k]
		b.touch[k] = 0
		for ; bits != 0; bits &= bits - 1 {
			x := k<<6 + mathbits.TrailingZeros64(bits)
			run(pix, row+from*4, min(x, hi+1)-from, c, uint32(min(max(sum, 0), 1)*float32(c.alpha)+0.5))
			sum += b.cover[x]
			b.cover[x] = 0
			from = x
		}
	}
}
