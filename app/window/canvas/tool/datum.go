package tool

import (
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// measured measures the fields of places from the datum of the slab that is worked on.
func (m *Machine) measured() bind.Origin { return bind.FromDatum(m.Doc.Plan) }

// from says how a place is measured: "8'-0\" along 1–2, 4'-0\" off".
func (m *Machine) from(at geometry.Point) string {
	p := m.Plan()
	d := p.Datum()
	q := d.Of(at)
	x, y := q.X.Text(m.Units()), q.Y.Text(m.Units())
	if len(p.Outline) == 0 {
		return x + " right, " + y + " up"
	}
	return x + " along " + d.Side() + ", " + y + " off"
}

// datum marks the corner that positions are measured from: an arrow along its side and
// one square off it, outside the slab.
func (m *Machine) datum(o *Overlay) {
	p := m.Plan()
	if len(p.Outline) < 3 {
		return
	}
	d := p.Datum()
	at := m.View.Screen(d.At())
	to := func(along, off float64) view.XY { // pixels
		return m.View.Screen(d.Place(geometry.Point{X: m.View.Length(along), Y: m.View.Length(off)}))
	}
	const away, long, head = 7, 26, 5
	for _, arrow := range [][3]view.XY{
		{to(long, -away), to(long-head, -away-head), to(long-head, -away+head)},
		{to(-away, long), to(-away-head, long-head), to(-away+head, long-head)},
	} {
		for _, end := range arrow[1:] {
			o.Lines = append(o.Lines, Line{arrow[0], end, Origin})
		}
	}
	o.Lines = append(o.Lines, Line{to(-away, -away), to(long, -away), Origin}, Line{to(-away, -away), to(-away, long), Origin})
	o.Rings = append(o.Rings, Ring{at, 4, Origin})
}

// clear measures how far something is from the edges of the outline, along the datum's
// side and square off it: each way to the nearer of the two edges.
func (m *Machine) clear(o *Overlay, of geometry.Ring) {
	p := m.Plan()
	if len(p.Outline) < 3 || len(of) == 0 {
		return
	}
	d := p.Datum()
	for _, way := range []geometry.Point{{X: 1}, {Y: 1}} {
		best, found := [2]geometry.Point{}, false
		for _, sign := range []geometry.Length{-1, 1} {
			from := foremost(d, of, geometry.Point{X: way.X * sign, Y: way.Y * sign})
			far := d.Of(from).Add(geometry.Point{X: way.X * sign * reachOfSlab, Y: way.Y * sign * reachOfSlab})
			for i := range p.Outline {
				a, b := p.Outline.Ends(i)
				at, ok := geometry.Meet(from, d.Place(far), a, b)
				if ok && (!found || geometry.Distance(from, at) < geometry.Distance(best[0], best[1])) {
					best, found = [2]geometry.Point{from, at}, true
				}
			}
		}
		if !found || best[0] == best[1] {
			continue
		}
		o.line(m, best[0], best[1], Guide)
		a, b := m.View.Screen(best[0]), m.View.Screen(best[1])
		o.label(geometry.Distance(best[0], best[1]).Text(m.Units()), view.XY{X: (a.X + b.X) / 2, Y: (a.Y+b.Y)/2 - 10}, Value)
	}
}

// reachOfSlab is farther than a slab reaches.
const reachOfSlab = 4000 * geometry.Foot

// foremost gives the place of a ring that lies farthest a way from the datum, in the
// middle of where several do.
func foremost(d plan.Datum, of geometry.Ring, way geometry.Point) geometry.Point {
	var sum geometry.Point
	n, most := geometry.Length(0), geometry.Length(0)
	for _, q := range of {
		at := d.Of(q)
		by := at.X*way.X + at.Y*way.Y
		switch {
		case n == 0 || by > most+geometry.Micrometer:
			sum, n, most = q, 1, by
		case by > most-geometry.Micrometer:
			sum, n = sum.Add(q), n+1
		}
	}
	return geometry.Point{X: sum.X / n, Y: sum.Y / n}
}
