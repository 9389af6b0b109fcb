package tool

import (
	"slices"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

var lines = &list[plan.Line]{
	called: "line",
	help:   "Drag to move; Delete removes it; arrows nudge",
	rank:   rankPoint,
	in:     func(j *job.Job, slab int) *[]plan.Line { return &j.Slabs[slab].Lines },
	own:    func(l *plan.Line) { l.Path = slices.Clone(l.Path) },
	whole:  linePath,
	points: linePath,
	near: func(o On, l plan.Line, r *Reach, t Target) {
		path := l.Path
		if l.Kind == plan.Tubing {
			floor := l.Floor()
			path = append(floor, floor[0])
			if r.Wants(rankHole) && plane.In(floor, o.View.Plan(r.At)) { // after all that stands within it
				r.Offer(rankHole, 0, 1, t)
			}
		}
		for i := 1; i < len(path); i++ {
			r.Offer(rankBody, r.segment(o, path[i-1], path[i])/edgeReach, 1, t)
		}
	},
	outline: func(m *Machine, o *Overlay, l plan.Line, sub int, s Style) {
		if l.Kind == plan.Tubing {
			m.closed(o, l.Floor(), s)
		} else {
			m.path(o, l.Path, s)
		}
		if sub >= 0 {
			o.ring(m, l.Path[sub], 7, s)
		}
	},
	clear: func(l plan.Line, sub int) geometry.Ring { return geometry.Ring{l.Path[max(sub, 0)]} },
	describe: func(_ *Machine, f bind.Fields[plan.Line], _ Sheet) {
		f.At("slabs[].lines[]").Rows("name")
		lineSizes(f)
	},
}

// Pipe is the kind of what runs along and under the slab: drain lines, conduit, tubing.
var Pipe Kind = lines

func linePath(l *plan.Line) (ps []*geometry.Point) {
	for i := range l.Path {
		ps = append(ps, &l.Path[i])
	}
	return ps
}

func lineSizes(f bind.Fields[plan.Line]) {
	f.At("slabs[].lines[]").Rows("kind", "diameter", "cover", "endcover", "height", "spacing", "longest", "lead")
}

// nextLine gives the fields of the next line.
func nextLine(m *Machine, s Sheet) {
	s.Heading("Next line")
	lineSizes(nextOf(s, &m.NewLine))
	s.Explain("Drain line, trench drain, conduit, tubing: click its middle point by point; Enter finishes it. Of tubing click two opposite corners of the floor that it warms, or the corners round it.")
}
