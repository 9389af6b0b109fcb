package tool

import (
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

var pads = &list[plan.Pad]{
	called: "pad",
	help:   "Drag to move; Delete removes it; arrows nudge",
	in:     func(j *job.Job, slab int) *[]plan.Pad { return &j.Slabs[slab].Pads },
	whole:  func(p *plan.Pad) []*geometry.Point { return []*geometry.Point{&p.Center} },
	near: func(o On, p plan.Pad, r *Reach, t Target) {
		if r.Wants(rankBody) && plane.In(p.Ring(), o.View.Plan(r.At)) {
			r.Offer(rankBody, 0, 1, t)
		}
	},
	outline: func(m *Machine, o *Overlay, p plan.Pad, _ int, s Style) { m.closed(o, p.Ring(), s) },
	clear:   func(p plan.Pad, _ int) geometry.Ring { return geometry.Ring{p.Center} },
	describe: func(_ *Machine, f bind.Fields[plan.Pad], _ Sheet) {
		f = f.At("slabs[].pads[]")
		f.Rows("name")
		padSizes(f)
		f.Rows("turn", "center")
	},
}

// Pad is the kind of the pads under posts.
var Pad Kind = pads

func padSizes(f bind.Fields[plan.Pad]) {
	f.At("slabs[].pads[]").Rows("width", "length", "depth", "taper", "isolation", "blockout")
}

// PlacePad puts the pad that the machine holds ready under a post.
type PlacePad struct{ byMiddle }

// Name implements State.
func (*PlacePad) Name() string { return "Place pad" }

// Help implements State.
func (s *PlacePad) Help(*Machine) Help { return s.help("Stop placing pads") }

// Press implements State.
func (s *PlacePad) Press(m *Machine) { s.put(m, m.Snap.At) }

// Enter implements State.
func (s *PlacePad) Enter(m *Machine, text string) {
	if at, ok := typedPlace(m, text); ok {
		s.put(m, at)
	}
}

func (s *PlacePad) put(m *Machine, at geometry.Point) {
	p := m.NewPad
	p.Center = at
	pads.put(m, "Place a pad", p)
}

// Describe gives the fields of the next pad.
func (*PlacePad) Describe(m *Machine, s Sheet) {
	s.Heading("Next pad")
	padSizes(nextOf(s, &m.NewPad))
	s.Buttons(m.tool("Sleeve, drain, post base, plate (I)", func() State { return &PlaceEmbed{} }))
	s.Explain("Click its middle on the plan, or type where it is from the datum: 12' along, 4' off; or 12' right, 4' up of it.")
}

// Overlay implements State.
func (s *PlacePad) Overlay(m *Machine, o *Overlay) {
	s.draft(m, o, func(middle geometry.Point) geometry.Ring {
		p := m.NewPad
		p.Center = middle
		return p.Ring()
	})
}
