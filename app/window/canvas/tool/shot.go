package tool

import (
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

var shots = &list[plan.Shot]{
	called:  "shot",
	help:    "Drag to move; its height in the panel; Delete removes it",
	in:      func(j *job.Job, _ int) *[]plan.Shot { return &j.Survey.Shots },
	whole:   func(s *plan.Shot) []*geometry.Point { return []*geometry.Point{&s.At} },
	near:    func(o On, s plan.Shot, r *Reach, t Target) { r.Point(o, rankMark, s.At, t) },
	outline: func(m *Machine, o *Overlay, s plan.Shot, _ int, y Style) { o.ring(m, s.At, 8, y) },
	describe: func(_ *Machine, f bind.Fields[plan.Shot], s Sheet) {
		f.At("survey.shots[]").Rows("height", "at")
		s.Explain("A place of the ground, ready for concrete, whose height was measured. The page Ground says what follows.")
	},
}

// Shot is the kind of the places of the ground that were measured.
var Shot Kind = shots
