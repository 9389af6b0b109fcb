package solid

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// region is the slab in plan: the outline less the holes. The slab is left of
// each side. Its places are meters from the low corner of the outline's box.
type region struct {
	plane.Frame
	loops [][]plane.Vec
	sides [][2]plane.Vec
	on    *plane.Sides
}

func newRegion(p plan.Plan) *region {
	rings := p.Region()
	lo, _ := rings[0].Bounds()
	r := &region{Frame: plane.NewFrame(lo, 0), on: plane.NewSides(rings)}
	corners := make([]plane.Vec, 0, r.on.Len())
	r.sides = make([][2]plane.Vec, 0, r.on.Len())
	r.loops = make([][]plane.Vec, 0, len(rings))
	for _, ring := range rings {
		from := len(corners)
		for _, at := range ring {
			corners = append(corners, r.In(at))
		}
		loop := corners[from:len(corners):len(corners)]
		r.loops = append(r.loops, loop)
		for i, a := range loop {
			r.sides = append(r.sides, [2]plane.Vec{a, loop[(i+1)%len(loop)]})
		}
	}
	return r
}

// contains tells whether the place nearest to v that is whole nanometers lies on
// the slab.
func (r *region) contains(v plane.Vec) bool { return r.on.Contains(r.Out(v)) }

// near appends to dst the sides near a box.
func (r *region) near(b plane.Box, dst []int32) []int32 {
	x, y := float64(r.Origin.X), float64(r.Origin.Y)
	return r.on.Near(plane.Box{MinX: x + 1e9*b.MinX - 1, MinY: y + 1e9*b.MinY - 1, MaxX: x + 1e9*b.MaxX + 1, MaxY: y + 1e9*b.MaxY + 1}, dst)
}

// integrate gives the integral of f over the part of the slab within a convex
// polygon, or over all of it for nil.
func (r *region) integrate(within []plane.Vec, f plane.Linear) float64 {
	var c plane.Clipper
	sum := 0.0
	for _, loop := range r.loops {
		sum += plane.Integral(c.Within(loop, within, tiny), f)
	}
	return sum
}

// band is a strip of the plan along a straight base: from base distance from to
// to along u from o, and inward (left) through the stations. Its ends lean
// outward by k0 and k1 per unit inward: 0 is square, otherwise a miter.
type band struct {
	o, u     plane.Vec
	from, to float64
	k0, k1   float64
	stations []station
	ramp     *plane.Linear // where given, in u and v: the underside is no deeper
	attached bool          // only what is connected to the base within the slab counts
	onSide   bool          // the base is a side of the slab
}

// station is a point of a band's underside, v in from the base.
type station struct{ v, depth float64 }

// toPlan turns band coordinates into plan coordinates.
func (b *band) toPlan(u, v float64) plane.Vec {
	n := b.u.Left()
	return plane.Vec{X: b.o.X + b.u.X*u + n.X*v, Y: b.o.Y + b.u.Y*u + n.Y*v}
}

// toBand turns plan coordinates into band coordinates.
func (b *band) toBand(p plane.Vec) plane.Vec {
	d := p.Sub(b.o)
	return plane.Vec{X: d.Dot(b.u), Y: b.u.Cross(d)}
}

// planeOf turns a plane over band coordinates into one over plan coordinates.
func (b *band) planeOf(f plane.Linear) plane.Linear {
	n := b.u.Left()
	g := b.u.Times(f.G.X).Add(n.Times(f.G.Y))
	return plane.Linear{C: f.C - g.Dot(b.o), G: g}
}

func (b *band) left(v float64) float64  { return b.from - b.k0*v }
func (b *band) right(v float64) float64 { return b.to + b.k1*v }

func (b *band) reach() float64 { return b.stations[len(b.stations)-1].v }

// trapezoid is a part of a band between two distances from the base.
type trapezoid struct {
	v0, v1         float64
	l0, r0, l1, r1 float64 // left and right ends at v0 and at v1
	slab           int
	attached       bool
}

// sweeper cuts bands into trapezoids. Its buffers serve one band after another.
type sweeper struct {
	*region
	found  []int32
	sides  [][2]plane.Vec // near the band, in band coordinates
	events []float64
	cross  []crossing
	traps  []trapezoid
	first  []int // of each slab, in traps
}

type crossing struct {
	u, u0, u1 float64 // at the slab's middle, start and end
	enters    bool    // the slab's concrete begins here, for growing u
}

// within gives the parts of b on the slab, each between two neighboring
// stations; valid until the next call.
//
// It sweeps from the base inward. Between two events (stations, corners, sides
// that cross the band's ends) no side begins, ends or crosses another, so the
// slab's cross-section is a set of intervals whose ends move along straight
// lines: trapezoids. Two trapezoids on both sides of an event are connected
// where their intervals overlap.
func (w *sweeper) within(b *band) []trapezoid {
	w.traps = w.traps[:0]
	w.gather(b)
	if len(w.sides) == 0 && (b.onSide || w.contains(b.toPlan((b.from+b.to)/2, b.reach()/2))) {
		for i := 1; i < len(b.stations); i++ {
			v0, v1 := b.stations[i-1].v, b.stations[i].v
			w.traps = append(w.traps, trapezoid{v0, v1, b.left(v0), b.right(v0), b.left(v1), b.right(v1), i, true})
		}
		return w.traps
	}
	if len(w.sides) == 0 {
		return nil
	}
	w.findEvents(b)
	w.first = w.first[:0]
	for i := 1; i < len(w.events); i++ {
		w.first = append(w.first, len(w.traps))
		w.slab(b, i-1, w.events[i-1], w.events[i])
	}
	w.first = append(w.first, len(w.traps))
	if b.attached {
		w.attach(b)
	}
	return slices.DeleteFunc(w.traps, func(t trapezoid) bool { return b.attached && !t.attached })
}

// gather finds the sides that run through the inside of the band.
func (w *sweeper) gather(b *band) {
	w.sides = w.sides[:0]
	R := b.reach()
	quad := [4]plane.Vec{b.toPlan(b.left(0), 0), b.toPlan(b.right(0), 0), b.toPlan(b.right(R), R), b.toPlan(b.left(R), R)}
	w.found = w.near(plane.BoxAround(quad[:]...), w.found[:0])
	found := false
	for _, i := range w.found {
		s := [2]plane.Vec{b.toBand(w.region.sides[i][0]), b.toBand(w.region.sides[i][1])}
		w.sides = append(w.sides, s)
		found = found || b.crossedBy(s)
	}
	if !found {
		w.sides = w.sides[:0]
	}
}

// crossedBy tells whether a side runs through the inside of the band, deeper in
// than a nanometer.
func (b *band) crossedBy(s [2]plane.Vec) bool {
	t0, t1 := 0.0, 1.0
	for _, f := range b.bounds() {
		t0, t1 = plane.ClipLine(s[0], s[1], f.Plus(-tiny), t0, t1)
	}
	return t0 < t1
}

// bounds gives the four sides of the band, in band coordinates: its two ends last.
func (b *band) bounds() [4]plane.Linear {
	return [4]plane.Linear{
		{G: plane.Vec{Y: 1}}, {C: b.reach(), G: plane.Vec{Y: -1}},
		{C: -b.from, G: plane.Vec{X: 1, Y: b.k0}}, {C: b.to, G: plane.Vec{X: -1, Y: b.k1}},
	}
}

// findEvents lists the distances from the base where the cross-section changes
// its kind.
func (w *sweeper) findEvents(b *band) {
	w.events = w.events[:0]
	R := b.reach()
	add := func(v float64) {
		if v > 0 && v < R {
			w.events = append(w.events, v)
		}
	}
	for _, st := range b.stations {
		w.events = append(w.events, st.v)
	}
	ends := b.bounds()
	for _, s := range w.sides {
		add(s[0].Y)
		add(s[1].Y)
		for _, f := range ends[2:] {
			fa, fb := f.At(s[0]), f.At(s[1])
			if (fa < 0) != (fb < 0) {
				add(between(s[0].Y, s[1].Y, fa/(fa-fb)))
			}
		}
	}
	slices.Sort(w.events)
	// Events nearer than a tenth of a nanometer are one.
	w.events = slices.CompactFunc(w.events, func(a, b float64) bool { return math.Abs(a-b) < tiny/10 })
}

// slab adds the trapezoids between two neighboring events.
func (w *sweeper) slab(b *band, number int, v0, v1 float64) {
	vm := (v0 + v1) / 2
	w.cross = w.cross[:0]
	for _, s := range w.sides {
		lo, hi := s[0], s[1]
		if lo.Y > hi.Y {
			lo, hi = hi, lo
		}
		if lo.Y > vm || hi.Y <= vm {
			continue
		}
		at := func(v float64) float64 {
			return between(lo.X, hi.X, min(max((v-lo.Y)/(hi.Y-lo.Y), 0), 1))
		}
		// The slab is left of a side: right of one that comes down.
		w.cross = append(w.cross, crossing{at(vm), at(v0), at(v1), s[0].Y > s[1].Y})
	}
	slices.SortFunc(w.cross, func(a, b crossing) int { return cmp.Compare(a.u, b.u) })

	left := crossing{b.left(vm), b.left(v0), b.left(v1), true}
	right := crossing{b.right(vm), b.right(v0), b.right(v1), false}
	in := w.concreteAt(b, vm)
	start := left
	for _, c := range w.cross {
		switch {
		case c.u <= left.u:
		case c.u >= right.u:
		case c.enters:
			start, in = c, true
		case in:
			w.interval(number, v0, v1, start, c)
			in = false
		}
	}
	if in {
		w.interval(number, v0, v1, start, right)
	}
}

func (w *sweeper) interval(number int, v0, v1 float64, l, r crossing) {
	t := trapezoid{v0, v1, l.u0, max(l.u0, r.u0), l.u1, max(l.u1, r.u1), number, false}
	if t.r0-t.l0 > tiny || t.r1-t.l1 > tiny {
		w.traps = append(w.traps, t)
	}
}

// concreteAt tells whether the slab is there at the band's left end, at distance
// v from the base. The first side within the band tells; without one, the side
// of the slab that is the band's base does. Sides beyond the band's ends tell
// nothing, since others between may not have been gathered.
func (w *sweeper) concreteAt(b *band, v float64) bool {
	l, r := b.left(v), b.right(v)
	for _, c := range w.cross { // in order of u
		if c.u > l && c.u < r {
			return !c.enters
		}
	}
	u := between(l, r, 0.4142135)
	if !b.onSide || u < b.from || u > b.to {
		return w.contains(b.toPlan(u, v))
	}
	in := true
	for _, s := range w.sides {
		if (s[0].X > u) != (s[1].X > u) {
			if y := between(s[0].Y, s[1].Y, (u-s[0].X)/(s[1].X-s[0].X)); y > tiny && y < v {
				in = !in
			}
		}
	}
	return in
}

// attach marks the trapezoids that are connected to the base, by flooding from
// it.
func (w *sweeper) attach(b *band) {
	var queue []int
	visit := func(i int) {
		if !w.traps[i].attached {
			w.traps[i].attached = true
			queue = append(queue, i)
		}
	}
	if len(w.first) < 2 {
		return
	}
	for i := w.first[0]; i < w.first[1]; i++ {
		if t := w.traps[i]; min(t.r0, b.to)-max(t.l0, b.from) > tiny {
			visit(i)
		}
	}
	slabs := len(w.first) - 1
	for len(queue) > 0 {
		t := w.traps[queue[len(queue)-1]]
		queue = queue[:len(queue)-1]
		if t.slab+1 < slabs {
			for i := w.first[t.slab+1]; i < w.first[t.slab+2]; i++ {
				if n := w.traps[i]; min(t.r1, n.r0)-max(t.l1, n.l0) > tiny {
					visit(i)
				}
			}
		}
		if t.slab > 0 {
			for i := w.first[t.slab-1]; i < w.first[t.slab]; i++ {
				if n := w.traps[i]; min(t.r0, n.r1)-max(t.l0, n.l1) > tiny {
					visit(i)
				}
			}
		}
	}
}

func between(a, b, t float64) float64 { return a + (b-a)*t }
