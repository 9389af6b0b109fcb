package tool

import (
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

var embeds = &list[plan.Embed]{
	called: "embed",
	help:   "Drag to move; Delete removes it; arrows nudge",
	in:     func(j *job.Job, slab int) *[]plan.Embed { return &j.Slabs[slab].Embeds },
	whole:  func(e *plan.Embed) []*geometry.Point { return []*geometry.Point{&e.Center} },
	near: func(o On, e plan.Embed, r *Reach, t Target) {
		r.Point(o, rankPoint, e.Center, t) // a pipe is small on the screen
		if r.Wants(rankBody) && plane.In(e.Ring(), o.View.Plan(r.At)) {
			r.Offer(rankBody, 0, 1, t)
		}
	},
	outline: func(m *Machine, o *Overlay, e plan.Embed, _ int, s Style) { m.closed(o, e.Ring(), s) },
	clear:   func(e plan.Embed, _ int) geometry.Ring { return geometry.Ring{e.Center} },
	describe: func(_ *Machine, f bind.Fields[plan.Embed], _ Sheet) {
		f = f.At("slabs[].embeds[]")
		f.Rows("name")
		embedSizes(f)
		f.Rows("turn", "center")
	},
}

// Embed is the kind of what is set before the pour and stays in the concrete.
var Embed Kind = embeds

func embedSizes(f bind.Fields[plan.Embed]) {
	f.At("slabs[].embeds[]").Rows("kind", "width", "length", "deep")
}

// PlaceEmbed puts the embed that the machine holds ready.
type PlaceEmbed struct{ byMiddle }

// Name implements State.
func (*PlaceEmbed) Name() string { return "Place embed" }

// Help implements State.
func (s *PlaceEmbed) Help(*Machine) Help { return s.help("Stop placing embeds") }

// Press implements State.
func (s *PlaceEmbed) Press(m *Machine) { s.put(m, m.Snap.At) }

// Enter implements State.
func (s *PlaceEmbed) Enter(m *Machine, text string) {
	if at, ok := typedPlace(m, text); ok {
		s.put(m, at)
	}
}

func (s *PlaceEmbed) put(m *Machine, at geometry.Point) {
	e := m.NewEmbed
	e.Center = at
	embeds.put(m, "Place an embed", e)
}

// Describe gives the fields of the next embed.
func (*PlaceEmbed) Describe(m *Machine, s Sheet) {
	s.Heading("Next embed")
	embedSizes(nextOf(s, &m.NewEmbed))
	s.Buttons(m.tool("Drain line, trench drain, conduit, tubing (Q)", func() State { return &Chain{What: Piping} }))
	s.Explain("What is set before the pour and stays: a sleeve, a pipe that comes up, a drain, a post base, a plate. Click its middle on the plan, or type where it is from the datum: 12' along, 4' off.")
}

// Overlay implements State.
func (s *PlaceEmbed) Overlay(m *Machine, o *Overlay) {
	s.draft(m, o, func(middle geometry.Point) geometry.Ring {
		e := m.NewEmbed
		e.Center = middle
		return e.Ring()
	})
}
