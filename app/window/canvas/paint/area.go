package paint

import (
	"image/color"
	"math"
)

// noteFill adds an area, to each tile with what of it lies there: so that a tile
// knows an area again whose corner moved elsewhere.
func (b *Brush) noteFill(rings [][]Point, c color.NRGBA) {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, ring := range rings {
		for _, p := range ring {
			x0, y0, x1, y1 = min(x0, p.X), min(y0, p.Y), max(x1, p.X), max(y1, p.Y)
		}
	}
	c0, c1, r0, r1, ok := b.touched(x0, y0, x1, y1)
	if !ok {
		return
	}
	const far = 1 << 24 // a share of what is farther is no number any more
	if c0 == c1 && r0 == r1 || x0 < -far || y0 < -far || x1 > far || y1 > far {
		i := b.notedFill(rings, c)
		for k := r0; k <= r1; k++ {
			b.list(i, k, c0, c1)
		}
		return
	}
	for k := r0; k <= r1; k++ {
		box := b.record.tiles[k*b.record.columns].box
		lane := b.clips[0].within(rings, sideY, float64(box.Min.Y), float64(box.Max.Y))
		for x := c0; x <= c1; x++ {
			box := b.record.tiles[k*b.record.columns+x].box
			if part := b.clips[1].within(lane, sideX, float64(box.Min.X), float64(box.Max.X)); len(part) > 0 {
				b.list(b.notedFill(part, c), k, x, x)
			}
		}
	}
}

func (b *Brush) notedFill(rings [][]Point, c color.NRGBA) int32 {
	n := b.noting
	o := op{kind: fillOp, c: c, from: int32(len(n.rings)), first: int32(len(n.points))}
	for _, ring := range rings {
		n.points = append(n.points, ring...)
		n.rings = append(n.rings, int32(len(n.points)))
	}
	o.to = int32(len(n.rings))
	return b.noted(o)
}

// clip cuts areas to a lane, by the method of Sutherland and Hodgman (Communications of
// the ACM 17(1), 1974). Where it leaves edges that lie on one another along the border,
// the even-odd rule passes them over.
type clip struct {
	once []Point
	out  [][]Point
}

type side bool

const sideX, sideY side = false, true

// of gives a point's place across the lane, and along it.
func (s side) of(p Point) (across, along float64) {
	if s == sideY {
		return p.Y, p.X
	}
	return p.X, p.Y
}

// at gives the point there.
func (s side) at(across, along float64) Point {
	if s == sideY {
		return Point{along, across}
	}
	return Point{across, along}
}

// within gives what of an area lies from lo to hi. It is good until the next call.
func (c *clip) within(rings [][]Point, s side, lo, hi float64) [][]Point {
	n := 0
	for _, r := range rings {
		if len(c.out) <= n {
			c.out = append(c.out, nil)
		}
		c.once = cutAt(c.once[:0], r, s, lo, 1)
		c.out[n] = cutAt(c.out[n][:0], c.once, s, hi, -1)
		if len(c.out[n]) > 2 {
			n++
		}
	}
	return c.out[:n]
}

// cutAt appends what of a ring lies on the side of a border where sign says: 1 above it.
func cutAt(to, ring []Point, s side, border, sign float64) []Point {
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		pa, pl := s.of(p)
		qa, ql := s.of(q)
		in, next := (pa-border)*sign >= 0, (qa-border)*sign >= 0
		if in {
			to = append(to, p)
		}
		if in != next {
			to = append(to, s.at(border, pl+(ql-pl)*((border-pa)/(qa-pa))))
		}
	}
	return to
}
