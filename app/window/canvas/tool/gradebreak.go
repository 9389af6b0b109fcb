package tool

import (
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

var breaks = &list[plan.Break]{
	called: "break",
	help:   "Drag to move; Delete removes it; arrows nudge",
	rank:   rankPoint,
	in:     func(j *job.Job, slab int) *[]plan.Break { return &j.Slabs[slab].Top.Breaks },
	whole:  breakEnds,
	points: breakEnds,
	near: func(o On, b plan.Break, r *Reach, t Target) {
		r.Offer(rankBody, r.segment(o, b.From, b.To)/edgeReach, 1, t)
	},
	outline: func(m *Machine, o *Overlay, b plan.Break, sub int, s Style) {
		o.line(m, b.From, b.To, s)
		if sub >= 0 {
			o.ring(m, *breakEnds(&b)[sub], 7, s)
		}
	},
	clear: func(b plan.Break, sub int) geometry.Ring {
		if sub == 1 {
			return geometry.Ring{b.To}
		}
		return geometry.Ring{b.From}
	},
	describe: func(m *Machine, f bind.Fields[plan.Break], s Sheet) {
		breakSizes(f)
		fieldsOf(m, s, "Change the top", func(p *plan.Plan) *plan.Plan { return p }).At("slabs[]").Rows("base")
		s.Buttons(Do{"The other side", func() error {
			err := f.Put("The other side", func(b *plan.Break) { b.From, b.To = b.To, b.From })
			m.changed()
			return err
		}})
	},
}

// Break is the kind of the lines at which the top breaks, to an apron or a ramp.
var Break Kind = breaks

func breakEnds(b *plan.Break) []*geometry.Point { return []*geometry.Point{&b.From, &b.To} }

func breakSizes(f bind.Fields[plan.Break]) {
	f.At("slabs[].top.breaks[]").Rows("drop", "over")
}

// PlaceBreak draws the line at which the top breaks, and then takes the side on which it
// drops.
type PlaceBreak struct {
	byEnds
	to *geometry.Point
}

// Name implements State.
func (*PlaceBreak) Name() string { return "Apron or ramp" }

// Help implements State.
func (b *PlaceBreak) Help(*Machine) Help {
	switch {
	case b.from == nil:
		return Help{"Click where the top begins to drop or to rise, at one edge, or type the place: 12' along, 0 off", "Set its one end", "Stop"}
	case b.to == nil:
		return Help{"Click where that line ends, at the other edge", "Set its other end", "Choose the one end again"}
	}
	return Help{"Click the side that drops, or type by how much: 1/4\" per ft, 2 %; -1\" per ft rises", "Set the slope", "Choose the other end again"}
}

// Meaning says how what is typed is read.
func (b *PlaceBreak) Meaning(m *Machine, text string) (string, error) {
	if b.to == nil {
		return b.byEnds.Meaning(m, text)
	}
	drop, err := geometry.ParseFall(text, m.NewBreak.Over, m.Units())
	return geometry.FallText(drop, m.NewBreak.Over, m.Units()), err
}

// Move implements State.
func (b *PlaceBreak) Move(m *Machine) {
	if b.to == nil {
		b.byEnds.Move(m)
		return
	}
	m.Snap.At, m.Snap.Name = m.View.Plan(m.Pointer), ""
}

// Drag implements State.
func (b *PlaceBreak) Drag(m *Machine) { b.Move(m) }

// Press implements State.
func (b *PlaceBreak) Press(m *Machine) {
	if b.to == nil {
		b.press(m, b.ended)
		return
	}
	b.Move(m)
	k := m.NewBreak
	if k.From, k.To = *b.from, *b.to; geometry.Orientation(k.From, k.To, m.Snap.At) < 0 {
		k.From, k.To = k.To, k.From
	}
	label := "Apron"
	if k.Drop < 0 {
		label = "Ramp"
	}
	breaks.put(m, label, k)
}

func (b *PlaceBreak) ended(_, to geometry.Point) { b.to = &to }

// Enter implements State.
func (b *PlaceBreak) Enter(m *Machine, text string) {
	if b.to == nil {
		b.typed(m, text, func(from, to geometry.Point) {
			b.ended(from, to)
			m.Text = ""
		})
		return
	}
	if text == "" {
		return
	}
	drop, err := geometry.ParseFall(text, m.NewBreak.Over, m.Units())
	if err != nil {
		m.say(err)
		return
	}
	m.NewBreak.Drop, m.Text = drop, ""
}

// Back implements State.
func (b *PlaceBreak) Back(m *Machine) bool {
	if b.to != nil {
		b.to = nil
		return true
	}
	return b.byEnds.Back(m)
}

// Length gives the length of the line.
func (b *PlaceBreak) Length(m *Machine) string {
	if b.to != nil {
		return legText(m, *b.from, *b.to)
	}
	return b.byEnds.Length(m)
}

// Overlay implements State.
func (b *PlaceBreak) Overlay(m *Machine, o *Overlay) {
	if b.to == nil {
		b.byEnds.Overlay(m, o)
		return
	}
	o.line(m, *b.from, *b.to, Draft)
	for _, p := range [2]geometry.Point{*b.from, *b.to} {
		o.ring(m, p, 5, Draft)
	}
	text := m.Typing()
	if m.Text == "" {
		text = "falls " + geometry.FallText(m.NewBreak.Drop, m.NewBreak.Over, m.Units())
		if m.NewBreak.Drop < 0 {
			text = "rises " + geometry.FallText(-m.NewBreak.Drop, m.NewBreak.Over, m.Units())
		}
	}
	if m.Inside {
		along := plan.Foot(*b.from, *b.to, m.Snap.At)
		o.line(m, geometry.Along(*b.from, *b.to, along), m.Snap.At, Draft)
	}
	o.label(text, offset(m.Pointer, 16, -18), Question)
}

// Describe gives the fields of the next break.
func (*PlaceBreak) Describe(m *Machine, s Sheet) {
	s.Heading("Next apron or ramp")
	breakSizes(nextOf(s, &m.NewBreak))
	s.Explain("The top bends along a line: beyond it an apron drops away, or a ramp rises where the drop is negative. Click both ends of the line, which reaches as far as the slab does, then the side that drops.")
}
