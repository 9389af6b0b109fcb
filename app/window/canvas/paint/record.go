package paint

import (
	"image"
	"image/color"
	"math"
	"sync/atomic"

	"haunchbook.example/app/guard"
)

// Between Begin and End a Brush notes what is to be drawn; End draws it on all
// processors, each with tiles of the image of its own. Go lets the others begin
// with what is noted so far, while more is made ready. The picture is the same as
// without. A tile in which all is noted that was noted last time is left as it is,
// so that a picture costs what changes in it. All is kept for the next time.
type recording struct {
	now, last frame
	part      int    // which part of now is being noted
	tiles     []tile // row by row
	columns   int    // of tiles
	rows      int
	known     bool // Img is as last says
	next      atomic.Int32
	done      guard.Group
}

// frame is what is noted from Begin to End: before Go, and after it.
type frame struct {
	ground ground
	parts  [2]part
}

// part is things to be drawn, and which of them lie in each tile.
type part struct {
	ops    []op
	points []Point
	rings  []int32 // where in points each ring of an area ends
	in     [][]int32
}

// op is one thing to be drawn.
type op struct {
	kind     opKind
	c        color.NRGBA
	a, b     Point
	width    float64 // and the radius of a circle in b.X
	on, off  float64
	mask     *image.Alpha
	x, y     int32 // of the mask
	from, to int32 // in rings
	first    int32 // in points
}

type opKind uint8

const (
	strokeOp opKind = iota
	circleOp
	rectOp
	maskOp
	fillOp
)

// Begin starts to note what is drawn, the ground too.
func (b *Brush) Begin(w, h int) {
	r := &b.record
	r.known = b.sized(w, h) && r.known
	r.cut(b.Img.Rect.Dx(), b.Img.Rect.Dy())
	r.now, r.last = r.last, r.now
	for i := range r.now.parts {
		r.now.parts[i].clear(len(r.tiles))
	}
	r.part, b.noting = 0, &r.now.parts[0]
}

func (p *part) clear(tiles int) {
	p.ops, p.points, p.rings = p.ops[:0], p.points[:0], p.rings[:0]
	for len(p.in) < tiles {
		p.in = append(p.in, nil)
	}
	for k := range p.in {
		p.in[k] = p.in[k][:0]
	}
}

// Go begins to draw what was noted since Begin, on the processors beside this one.
func (b *Brush) Go() {
	r := &b.record
	r.part, b.noting = 1, &r.now.parts[1]
	r.start(b, 0)
}

// End draws what was noted since Begin.
func (b *Brush) End() {
	r := &b.record
	b.noting = nil
	if r.part == 0 {
		r.start(b, 0)
	}
	r.finish(b, 0)
	r.start(b, 1)
	r.finish(b, 1)
	r.known = true
}

// note adds an op that draws within a box.
func (b *Brush) note(o op, x0, y0, x1, y1 float64) {
	if c0, c1, r0, r1, ok := b.touched(x0, y0, x1, y1); ok {
		i := b.noted(o)
		for k := r0; k <= r1; k++ {
			b.list(i, k, c0, c1)
		}
	}
}

// touched gives from which column to which, and from which row to which, a box lies on
// tiles; false where it is off the image.
func (b *Brush) touched(x0, y0, x1, y1 float64) (c0, c1, r0, r1 int, ok bool) {
	w, h := float64(b.Img.Rect.Dx()), float64(b.Img.Rect.Dy())
	if !(x1 >= 0 && x0 <= w && y1 >= 0 && y0 <= h) {
		return 0, 0, 0, 0, false
	}
	c0, c1 = reach(x0, x1, w, b.record.columns)
	r0, r1 = reach(y0, y1, h, b.record.rows)
	return c0, c1, r0, r1, true
}

// noteStroke adds a line, to the tiles along it.
func (b *Brush) noteStroke(o op) {
	w, h := float64(b.Img.Rect.Dx()), float64(b.Img.Rect.Dy())
	pad := o.width/2 + 1
	p, q := o.a, o.b
	if p.Y > q.Y {
		p, q = q, p
	}
	if !(q.Y+pad >= 0 && p.Y-pad <= h) {
		return
	}
	i := b.noted(o)
	rows := b.record.rows
	r0, r1 := reach(p.Y-pad, q.Y+pad, h, rows)
	slope, per := (q.X-p.X)/(q.Y-p.Y), h/float64(rows)
	for k := r0; k <= r1; k++ {
		x0, x1 := min(p.X, q.X), max(p.X, q.X)
		if r1 > r0 && math.Abs(slope) < 1e6 {
			// Where it is from above this row of tiles to beneath it.
			t0, t1 := max(float64(k)*per-pad-2, p.Y), min(float64(k+1)*per+pad+2, q.Y)
			a, z := p.X+slope*(t0-p.Y), p.X+slope*(t1-p.Y)
			x0, x1 = max(x0, min(a, z)), min(x1, max(a, z))
		}
		if x1+pad < 0 || x0-pad > w {
			continue
		}
		c0, c1 := reach(x0-pad, x1+pad, w, b.record.columns)
		b.list(i, k, c0, c1)
	}
}

func (b *Brush) noted(o op) int32 {
	b.noting.ops = append(b.noting.ops, o)
	return int32(len(b.noting.ops) - 1)
}

// list adds an op to the tiles from column to column of a row of them.
func (b *Brush) list(i int32, row, c0, c1 int) {
	in := b.noting.in[row*b.record.columns:]
	for c := c0; c <= c1; c++ {
		in[c] = append(in[c], i)
	}
}

// reach gives the first and the last of n equal parts of a length that a stretch of
// it touches. A pixel at a border of tiles, which are whole pixels, may be in either.
func reach(from, to, length float64, n int) (first, last int) {
	per := length / float64(n)
	return max(0, min(n-1, int((max(from, 0)-1)/per))), max(0, min(n-1, int((min(to, length)+1)/per)))
}
