package drawing

import (
	"math"

	"haunchbook.example/geometry/plane"
)

// room keeps what of a sheet is taken, so that the next line or text finds a free
// place. What was taken last can be given back. It allocates nothing once it has
// held as many boxes before.
type room struct {
	cell   float64
	all    Rect // beyond it nothing is looked for
	index  plane.Index
	boxes  []takenBox
	points points
	way    int             // the direction that places are tried in
	last   [directions]int // what was run into last that way: the next place tried is near by
}

type takenBox struct {
	Box
	bounds  Rect
	upright bool
	is      taken
}

// taken tells what a box is of.
type taken uint8

const (
	takenLine taken = 1 << iota
	takenText
	takenFine // of lines, those of dimensions and leaders
	takenAny  = takenLine | takenText
)

// reset empties the room. Cell is about how large what is taken is, apart how far the
// points lie apart that are looked at first.
func (r *room) reset(cell, apart float64, all Rect) {
	r.cell, r.all, r.boxes = cell, all, r.boxes[:0]
	r.index.Reset(cell)
	r.points.reset(all, apart)
}

// take takes a box. A long slanted one is taken in pieces, so that it is looked at
// only where it is.
func (r *room) take(b Box, is taken) {
	if long := 2 * r.cell; !b.Upright() && b.L > long {
		n := int(2*b.L/long) + 1
		step := b.L / float64(n)
		for k := range n {
			r.add(Box{b.Mid.Toward(b.Along, float64(2*k+1)*step-b.L), b.Along, step, b.H}, is)
		}
		return
	}
	r.add(b, is)
}

func (r *room) add(b Box, is taken) {
	t := takenBox{b, b.Bounds(), b.Upright(), is}
	r.points.take(&t, len(r.boxes))
	r.boxes = append(r.boxes, t)
	r.index.Add(plane.Box{MinX: t.bounds.X0, MinY: t.bounds.Y0, MaxX: t.bounds.X1, MaxY: t.bounds.Y1})
}

// held is how much is taken, to give back what comes after.
func (r *room) held() int { return len(r.boxes) }

// giveBack takes nothing but what was held.
func (r *room) giveBack(n int) {
	if n < len(r.boxes) {
		for k := n; k < len(r.boxes); k++ {
			r.points.giveBack(&r.boxes[k], k)
		}
		r.boxes = r.boxes[:n]
		r.index.Forget(n)
	}
}

// each calls f with every box of the kinds asked for that b runs into, with some
// more than once, until f says stop.
func (r *room) each(b Box, kinds taken, f func(*Box) bool) {
	bounds, upright := b.Bounds(), b.Upright()
	r.index.Visit(plane.Box{MinX: bounds.X0, MinY: bounds.Y0, MaxX: bounds.X1, MaxY: bounds.Y1}, func(k int32) bool {
		o := &r.boxes[k]
		return !o.in(b, bounds, upright, kinds) || f(&o.Box)
	})
}

// in tells whether b runs into the box and it is of the kinds asked for.
func (o *takenBox) in(b Box, bounds Rect, upright bool, kinds taken) bool {
	return o.is&kinds != 0 && o.bounds.Overlaps(bounds) && (o.upright && upright || o.Hits(b))
}

// free tells whether b runs into nothing of the kinds asked for.
func (r *room) free(b Box, kinds taken) bool { return r.freeIn(b, b.Bounds(), kinds) }

// freeIn is free for a box whose bounds are known.
func (r *room) freeIn(b Box, bounds Rect, kinds taken) bool {
	upright := b.Upright()
	last := &r.last[r.way]
	if *last < len(r.boxes) && r.boxes[*last].in(b, bounds, upright, kinds) {
		return false
	}
	if upright {
		if by := r.points.in(bounds) - 1; by >= 0 && r.boxes[by].in(b, bounds, upright, kinds) {
			*last = by
			return false
		}
	}
	free := true
	r.index.Visit(plane.Box{MinX: bounds.X0, MinY: bounds.Y0, MaxX: bounds.X1, MaxY: bounds.Y1}, func(k int32) bool {
		if r.boxes[k].in(b, bounds, upright, kinds) {
			*last, free = int(k), false
		}
		return free
	})
	return free
}

// until gives how far at the least a box must go in a direction to come clear of what it
// ran into last on the way that is tried. At is the bounds of the box.
func (r *room) until(b Box, at Rect, u Vec) float64 {
	const slack = 1e-6 // mm: what touches is apart
	o := &r.boxes[r.last[r.way]]
	far := min(ahead(u.X, at.X0, at.X1, o.bounds.X0, o.bounds.X1), ahead(u.Y, at.Y0, at.Y1, o.bounds.Y0, o.bounds.Y1))
	if !o.upright || !b.Upright() {
		v := b.Mid.Sub(o.Mid)
		for _, axis := range [4]Vec{b.Along, b.Along.Left(), o.Along, o.Along.Left()} {
			half := b.spread(axis) + o.spread(axis) - slack
			far = min(far, ahead(u.Dot(axis), v.Dot(axis), v.Dot(axis), -half, half))
		}
	}
	return max(0, far-slack)
}

// ahead gives when the stretch from a to b, moving at a speed, has passed that from c to d.
func ahead(speed, a, b, c, d float64) float64 {
	switch {
	case speed > 0:
		return (d - a) / speed
	case speed < 0:
		return (c - b) / speed
	}
	return math.Inf(1)
}
