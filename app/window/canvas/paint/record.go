package paint

import (
	"image"
	"image/color"
	"math"
	"runtime"
	"sync/atomic"

	"haunchbook.example/app/guard"
)

// Between Begin and End a Brush notes what is to be drawn; End draws it on all
// processors, each with bands of the image of its own. Go lets the others begin
// with what is noted so far, while more is made ready. The picture is the same as
// without. All is kept for the next time.
type recording struct {
	ops    []op
	points []Point
	rings  []int32 // where in points each ring of an area ends
	bands  []band
	n      int // of bands that are used
	next   atomic.Int32
	done   guard.Group
	gone   bool // what was noted before is being drawn
	later  *recording
}

// band is some rows of the image, with what is to be drawn in them.
type band struct {
	Brush
	y0, y1 int
	ops    []int32
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

// bandsEach is how many bands there are for each processor: what is drawn is not
// spread evenly.
const bandsEach = 6

// Begin starts to note what is drawn.
func (b *Brush) Begin() {
	b.record.begin(b.Img.Rect.Dy())
	b.record.gone = false
	b.noting = &b.record
}

func (r *recording) begin(h int) {
	r.ops, r.points, r.rings = r.ops[:0], r.points[:0], r.rings[:0]
	workers := min(runtime.GOMAXPROCS(0), 4)
	if r.n = workers * bandsEach; workers == 1 || h < 8*r.n {
		r.n = 1
	}
	for len(r.bands) < r.n {
		r.bands = append(r.bands, band{Brush: Brush{Img: &image.RGBA{}}})
	}
	for k := range r.n {
		t := &r.bands[k]
		t.y0, t.y1, t.ops = h*k/r.n, h*(k+1)/r.n, t.ops[:0]
	}
	r.next.Store(0)
}

// Go begins to draw what was noted since Begin, on the processors beside this one.
func (b *Brush) Go() {
	r := &b.record
	if r.later == nil {
		r.later = &recording{}
	}
	r.later.begin(b.Img.Rect.Dy())
	r.gone = true
	b.noting = r.later
	r.start(b)
}

// start draws on the other processors.
func (r *recording) start(b *Brush) {
	for range r.n/bandsEach - 1 {
		r.done.Go(func() { r.work(b) })
	}
}

// work draws one band after the other, as long as there are any.
func (r *recording) work(b *Brush) {
	for {
		k := int(r.next.Add(1)) - 1
		if k >= r.n {
			return
		}
		b.playBand(r, &r.bands[k])
	}
}

// End draws what was noted since Begin.
func (b *Brush) End() {
	r := &b.record
	if b.noting = nil; !r.gone {
		r.start(b)
	}
	r.work(b)
	r.done.Wait()
	if r.gone {
		r.later.start(b)
		r.later.work(b)
		r.later.done.Wait()
	}
}

// playBand draws what is noted in the rows of a band.
func (b *Brush) playBand(r *recording, t *band) {
	w, dy := b.Img.Rect.Dx(), float64(t.y0)
	*t.Img = image.RGBA{Pix: b.Img.Pix[t.y0*b.Img.Stride : t.y1*b.Img.Stride], Stride: b.Img.Stride, Rect: image.Rect(0, 0, w, t.y1-t.y0)}
	for _, i := range t.ops {
		o := &r.ops[i]
		p, q := o.a, o.b
		p.Y -= dy
		switch o.kind {
		case strokeOp:
			q.Y -= dy
			t.strokeNow(p, q, o.width, o.c, o.on, o.off, 0)
		case circleOp:
			t.Circle(p, q.X, o.width, o.c)
		case rectOp:
			t.Rect(p.X, p.Y, q.X, q.Y-dy, o.c)
		case maskOp:
			t.stamp(o.mask, int(o.x), int(o.y)-t.y0, o.c)
		case fillOp:
			t.fillNoted(r, o, dy)
		}
	}
}

// fillNoted fills a noted area, moved up by dy.
func (b *Brush) fillNoted(r *recording, o *op, dy float64) {
	k, at := 0, o.first
	for _, end := range r.rings[o.from:o.to] {
		if len(b.moved) <= k {
			b.moved = append(b.moved, nil)
		}
		ring := b.moved[k][:0]
		for _, p := range r.points[at:end] {
			ring = append(ring, Point{p.X, p.Y - dy})
		}
		b.moved[k] = ring
		k, at = k+1, end
	}
	b.Fill(b.moved[:k], o.c)
}

// note adds an op that draws in the rows from above to beneath.
func (b *Brush) note(o op, above, beneath float64) {
	r := b.noting
	h := float64(b.Img.Rect.Dy())
	if !(beneath >= 0 && above <= h) {
		return
	}
	i, per := int32(len(r.ops)), h/float64(r.n)
	r.ops = append(r.ops, o)
	// A row at a border of bands, which are whole rows, may be in either.
	first, last := max(0, int((above-1)/per)), min(r.n-1, int((beneath+1)/per))
	for k := first; k <= last; k++ {
		r.bands[k].ops = append(r.bands[k].ops, i)
	}
}

// noteFill adds an area.
func (b *Brush) noteFill(rings [][]Point, c color.NRGBA) {
	r := b.noting
	o := op{kind: fillOp, c: c, from: int32(len(r.rings)), first: int32(len(r.points))}
	above, beneath := math.Inf(1), math.Inf(-1)
	for _, ring := range rings {
		for _, p := range ring {
			above, beneath = min(above, p.Y), max(beneath, p.Y)
		}
		r.points = append(r.points, ring...)
		r.rings = append(r.rings, int32(len(r.points)))
	}
	o.to = int32(len(r.rings))
	b.note(o, above, beneath)
}
