package paint

import (
	"image"
	"image/color"
	"runtime"
	"sync"
	"sync/atomic"
)

// Between Begin and End a Brush notes what is to be drawn; End draws it on all
// processors, each with bands of the image of its own. The picture is the same as
// without. All is kept for the next time.
type recording struct {
	on     bool
	ops    []op
	points []Point
	rings  []int32 // where in points each ring of an area ends
	bands  []Brush
	next   atomic.Int32
	done   sync.WaitGroup
}

// op is one thing to be drawn.
type op struct {
	kind           opKind
	c              color.NRGBA
	a, b           Point
	width          float64 // and the radius of a circle in b.X
	on, off        float64
	mask           *image.Alpha
	x, y           int32   // of the mask
	from, to       int32   // in rings
	first          int32   // in points
	above, beneath float64 // rows that an area lies between
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
const bandsEach = 3

// Begin starts to note what is drawn.
func (b *Brush) Begin() {
	r := &b.record
	r.on = true
	r.ops, r.points, r.rings = r.ops[:0], r.points[:0], r.rings[:0]
}

// End draws what was noted since Begin.
func (b *Brush) End() {
	r := &b.record
	r.on = false
	workers := min(runtime.GOMAXPROCS(0), 4)
	h := b.Img.Rect.Dy()
	n := workers * bandsEach
	if workers == 1 || h < 8*n {
		n, workers = 1, 1
	}
	for len(r.bands) < n {
		r.bands = append(r.bands, Brush{})
	}
	r.next.Store(0)
	work := func() {
		for {
			k := int(r.next.Add(1)) - 1
			if k >= n {
				return
			}
			b.playBand(&r.bands[k], h*k/n, h*(k+1)/n)
		}
	}
	r.done.Add(workers - 1)
	for range workers - 1 {
		go func() {
			defer r.done.Done()
			work()
		}()
	}
	work()
	r.done.Wait()
}

// playBand draws the rows from y0 to before y1.
func (b *Brush) playBand(band *Brush, y0, y1 int) {
	r := &b.record
	if band.Img == nil {
		band.Img = &image.RGBA{}
	}
	w, dy := b.Img.Rect.Dx(), float64(y0)
	*band.Img = image.RGBA{Pix: b.Img.Pix[y0*b.Img.Stride : y1*b.Img.Stride], Stride: b.Img.Stride, Rect: image.Rect(0, 0, w, y1-y0)}
	for i := range r.ops {
		o := &r.ops[i]
		p, q := o.a, o.b
		p.Y -= dy
		switch o.kind {
		case strokeOp:
			q.Y -= dy
			band.stroke(p, q, o.width, o.c, o.on, o.off, 0)
		case circleOp:
			band.Circle(p, q.X, o.width, o.c)
		case rectOp:
			band.Rect(p.X, p.Y, q.X, q.Y-dy, o.c)
		case maskOp:
			band.stamp(o.mask, int(o.x), int(o.y)-y0, o.c)
		case fillOp:
			if o.beneath < dy || o.above > float64(y1) {
				continue
			}
			band.fillNoted(r, o, dy)
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

// note adds an op.
func (b *Brush) note(o op) { b.record.ops = append(b.record.ops, o) }

// noteFill adds an area.
func (b *Brush) noteFill(rings [][]Point, c color.NRGBA) {
	r := &b.record
	o := op{kind: fillOp, c: c, from: int32(len(r.rings)), first: int32(len(r.points)), above: 1e300, beneath: -1e300}
	for _, ring := range rings {
		for _, p := range ring {
			o.above, o.beneath = min(o.above, p.Y), max(o.beneath, p.Y)
		}
		r.points = append(r.points, ring...)
		r.rings = append(r.rings, int32(len(r.points)))
	}
	o.to = int32(len(r.rings))
	if o.beneath >= 0 && o.above <= float64(b.Img.Rect.Dy()) {
		b.note(o)
	}
}
