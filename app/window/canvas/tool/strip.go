package tool

import (
	"slices"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

var strips = &list[plan.Strip]{
	called: "thickened strip",
	help:   "Drag to move; Delete removes it; arrows nudge",
	rank:   rankPoint,
	in:     func(j *job.Job, slab int) *[]plan.Strip { return &j.Slabs[slab].Strips },
	own:    func(s *plan.Strip) { s.Path = slices.Clone(s.Path) },
	whole:  stripPath,
	points: stripPath,
	near: func(o On, s plan.Strip, r *Reach, t Target) {
		if !r.Wants(rankBody) {
			return
		}
		for i := 1; i < len(s.Path); i++ {
			half := max(o.View.Pixels(s.Bottom)/2, edgeReach)
			if away := r.segment(o, s.Path[i-1], s.Path[i]); away < half {
				r.Offer(rankBody, away/half, 1, t)
			}
		}
	},
	outline: func(m *Machine, o *Overlay, s plan.Strip, sub int, st Style) {
		m.path(o, s.Path, st)
		if sub >= 0 {
			o.ring(m, s.Path[sub], 7, st)
		}
	},
	describe: func(_ *Machine, f bind.Fields[plan.Strip], _ Sheet) {
		f.At("slabs[].strips[]").Rows("name")
		stripSizes(f)
	},
}

// Strip is the kind of the thickened strips.
var Strip Kind = strips

func stripPath(s *plan.Strip) (ps []*geometry.Point) {
	for i := range s.Path {
		ps = append(ps, &s.Path[i])
	}
	return ps
}

func stripSizes(f bind.Fields[plan.Strip]) {
	f.At("slabs[].strips[]").Rows("bottom", "depth", "taper")
}
