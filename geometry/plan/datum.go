package plan

import (
	"fmt"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

// Datum is the corner of an outline that positions on the slab are measured from, as
// with a tape on the ground: along the side that starts there, and square off it to the
// slab's side.
type Datum struct {
	Corner int // of the outline, from 0
	Next   int // the corner that its side leads to
	frame  plane.Frame
}

// Datum gives the datum: the corner that is marked as such, else the first that a straight
// edge starts at, else the first. An arc is measured along its chord. A slab without an
// outline is measured right and up from the drawing's origin.
func (p Plan) Datum() Datum {
	d := Datum{frame: plane.Frame{Along: plane.Vec{X: 1}}}
	n := len(p.Outline)
	if n == 0 {
		return d
	}
	at := slices.IndexFunc(p.Outline, func(e Edge) bool { return e.Datum })
	for i := 0; at < 0 && i < n; i++ {
		if p.Outline[i].Middle == 0 && !p.Outline.OfArc(i) {
			at = i
		}
	}
	at = max(at, 0)
	next := (at + 1) % n
	for p.Outline.Within(next) { // of a plan whose arcs were parted
		next = (next + 1) % n
	}
	d.Corner, d.Next = p.Outline.Drawn(at), p.Outline.Drawn(next)
	a, b := p.Outline[at].At, p.Outline[next].At
	if d.frame.Origin = a; a != b {
		d.frame = plane.FrameAlong(a, b)
	}
	return d
}

// WithDatum gives the plan with corner i of its outline as the datum.
func (p Plan) WithDatum(i int) (Plan, error) {
	return p.edit(0, i, func(l *Loop) error {
		for k := range *l {
			(*l)[k].Datum = k == i
		}
		return nil
	})
}

// Name calls the datum "corner 3".
func (d Datum) Name() string { return fmt.Sprintf("corner %d", d.Corner+1) }

// Side calls the side that is measured along "3–4".
func (d Datum) Side() string { return fmt.Sprintf("%d–%d", d.Corner+1, d.Next+1) }

// At gives where the datum is.
func (d Datum) At() geometry.Point { return d.frame.Origin }

// Of gives where a place lies as it is measured on the ground: X along the datum's side
// and Y square off it, to the slab's side.
func (d Datum) Of(q geometry.Point) geometry.Point {
	v := d.frame.In(q)
	return geometry.Point{X: geometry.FromMeters(v.X), Y: geometry.FromMeters(v.Y)}
}

// Place gives the place that lies so from the datum: what Of gives for it.
func (d Datum) Place(at geometry.Point) geometry.Point {
	return d.frame.Out(plane.Vec{X: at.X.Meters(), Y: at.Y.Meters()})
}
