package tool

import (
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
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
