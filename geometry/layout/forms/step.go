package forms

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// Steps gives the boards of faces that stand free over a lower slab of the job, which the slab
// is poured against: as high as the step, or as the slab is deep. They hang over the lower slab,
// which may be fresh; a face of the slab that is poured first has the form of its edge.
func Steps(s *slab.Slab, spec Spec) []Form {
	t := forming{Slab: s, spec: spec}
	var out []Form
	for _, m := range s.Meetings {
		if !m.Later || m.Lower <= 0 || !t.Fits("Form boards", t.Run(func(plan.Edge) bool { return true }), spec.Stakes) {
			continue
		}
		side := s.Sides[m.Loop][m.Edge]
		high := min(m.Lower, s.DepthAtFace(side))
		f := Form{Loop: m.Loop, Edge: m.Edge, Step: true, A: side.A, B: side.B, Up: -high}
		if m.From > 0 {
			f.A = side.At(m.From, 0)
		}
		if m.To < side.Length {
			f.B = side.At(m.To, 0)
		}
		f.Length = geometry.Distance(f.A, f.B)
		out = t.courses(out, f, high)
	}
	return out
}
