package solid

import (
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// Curbs gives the curbs on the solid's edges with their tops level, where its plan asks for
// that and the top falls; else as they are.
func (s *Solid) Curbs(c plan.Curbs) plan.Curbs {
	t := s.top
	if c.None() || s.plan.Top.Curbs != plan.CurbsLevel || t == nil || !slices.ContainsFunc(t.planes, func(f plane.Linear) bool { return f.G != (plane.Vec{}) }) {
		return c
	}
	high := t.highest(s.region)
	o := plan.Over{High: geometry.FromMeters(high), Frame: s.region.Frame, Most: t.ridge}
	for _, i := range t.live {
		o.Planes = append(o.Planes, t.planes[i].Negated().Plus(high))
	}
	return c.Raised(o, func(k int) plane.Region {
		var ring geometry.Ring
		for _, v := range t.counts(corners(t.around), t.live[k]) {
			ring = append(ring, s.region.Out(v))
		}
		return plane.Region{ring}
	})
}

// highest gives the greatest height on the slab: the lowest place of the top turned over.
func (t *top) highest(r *region) float64 {
	over := top{ridge: !t.ridge, around: t.around, live: t.live}
	for _, f := range t.planes {
		over.planes = append(over.planes, f.Negated())
	}
	return -over.lowest(r)
}
