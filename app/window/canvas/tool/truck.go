package tool

import (
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/geometry"
)

var trucks = &list[geometry.Point]{
	called:  "truck place",
	help:    "Drag to move; Delete removes it; arrows nudge",
	in:      func(j *job.Job, _ int) *[]geometry.Point { return &j.Pour.Stations },
	whole:   func(p *geometry.Point) []*geometry.Point { return []*geometry.Point{p} },
	shown:   func(o On) bool { return o.Pour },
	near:    func(o On, p geometry.Point, r *Reach, t Target) { r.Point(o, rankMark, p, t) },
	outline: func(m *Machine, o *Overlay, p geometry.Point, _ int, s Style) { o.ring(m, p, 10, s) },
	describe: func(_ *Machine, f bind.Fields[geometry.Point], s Sheet) {
		f.Place(func(p *geometry.Point) *geometry.Point { return p })
		s.Explain("Where a truck or pump can stand, as on the page Pour.")
	},
}

// Truck is the kind of the places for trucks, which the layer of the pour shows.
var Truck Kind = trucks
