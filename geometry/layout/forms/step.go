package forms

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// Steps gives the boards of faces that stand free over a lower slab of the job, or over the curb
// on its edge, which the slab is poured against: as high as the step, or as the slab is deep. They hang over the lower slab,
// which may be fresh; a face of the slab that is poured first has the form of its edge.
func Steps(s *slab.Slab, spec Spec) []Form {
	t := forming{Slab: s, spec: spec}
	var out []Form
	for _, m := range s.Meetings {
		if !m.Later || m.Lower <= 0 || !t.Fits("Form boards", t.Run(func(plan.Edge) bool { return true }), spec.Stakes) {
			continue
		}
		side := s.Sides[m.Loop][m.Edge]
		for _, on := range s.Faces(m) {
			if on.Most <= 0 {
				continue
			}
			high := min(on.Most, s.DepthAtFace(side))
			f := Form{Loop: m.Loop, Edge: m.Edge, Step: true, A: side.A, B: side.B, Up: -high}
			if on.From > 0 {
				f.A = side.At(on.From, 0)
			}
			if on.To < side.Length {
				f.B = side.At(on.To, 0)
			}
			f.Length = geometry.Distance(f.A, f.B)
			out = t.courses(out, f, high)
		}
	}
	return out
}
