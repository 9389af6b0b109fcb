package bars

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
)

// radius gives the radius that a row has along the arc that a side is a chord of: what is
// left of the arc's, or more of it where it bows into the slab. It is 0 along a straight
// edge, and less than a bar is bent to where the arc is too tight for the row.
func (t *steel) radius(s slab.Side, r row) geometry.Length {
	c := t.Edge(s).Chord
	if c.N < 2 {
		return 0
	}
	l := t.Loops[s.Loop]
	first := (s.Edge - c.K + len(l)) % len(l)
	a, _ := l.Whole(first)
	inset := r.inset
	if c.Middle < 0 {
		inset = -inset
	}
	return geometry.Length(math.Max(1, float64(a.Radius()-inset)))
}
