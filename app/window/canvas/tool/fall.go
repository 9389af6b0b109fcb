package tool

import (
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

var falls = &list[plan.Fall]{
	called: "fall",
	help:   "Drag to move; Delete removes it; arrows nudge",
	rank:   rankPoint,
	in:     func(j *job.Job, slab int) *[]plan.Fall { return &j.Slabs[slab].Top.Falls },
	whole:  fallEnds,
	points: fallEnds,
	near: func(o On, f plan.Fall, r *Reach, t Target) {
		r.Offer(rankBody, r.segment(o, f.From, f.To)/edgeReach, 1, t)
	},
	outline: func(m *Machine, o *Overlay, f plan.Fall, sub int, s Style) {
		o.line(m, f.From, f.To, s)
		if sub >= 0 {
			o.ring(m, *fallEnds(&f)[sub], 7, s)
		}
	},
	clear: func(f plan.Fall, sub int) geometry.Ring {
		if sub == 0 {
			return geometry.Ring{f.From}
		}
		return geometry.Ring{f.To} // the low end, as at a drain, for the whole of it too
	},
	describe: func(m *Machine, f bind.Fields[plan.Fall], s Sheet) {
		f.At("slabs[].top.falls[]").Rows("drop")
		m.ofTop(s)
	},
}

// Fall is the kind of the falls of the top.
var Fall Kind = falls

func fallEnds(f *plan.Fall) []*geometry.Point { return []*geometry.Point{&f.From, &f.To} }

// ofTop adds how falls meet and how the ground is cut under them.
func (m *Machine) ofTop(s bind.Holder) {
	f := fieldsOf(m, s, "Change the top", func(p *plan.Plan) *plan.Plan { return p })
	f.At("slabs[]").Rows("top.meet", "base")
	m.curbTops(s)
}

// curbTops adds how the tops of curbs run, where there are some and the top falls.
func (m *Machine) curbTops(s bind.Holder) {
	p := m.Plan()
	if !p.Curbed() || len(p.Top.Falls)+len(p.Top.Breaks) == 0 {
		return
	}
	fieldsOf(m, s, "Change the curbs", func(p *plan.Plan) *plan.Plan { return p }).At("slabs[]").Rows("top.curbs")
}

// PlaceFall draws a fall of the top from its high to its low end; the drop is
// typed.
type PlaceFall struct {
	still
	from, to *geometry.Point
}

// Name implements State.
func (*PlaceFall) Name() string { return "Fall of the top" }

// Help implements State.
func (f *PlaceFall) Help(m *Machine) Help {
	switch {
	case f.from == nil:
		return Help{"Click the high end", "", "Stop"}
	case f.to == nil:
		return Help{"Click the low end, as at the door or the drain", "", "Choose the high end again"}
	}
	return Help{"Type how much lower the low end is: 3 1/2\", 1/8\" per ft or 1 %", "Set the fall", "Choose the low end again"}
}

// Move implements State.
func (f *PlaceFall) Move(m *Machine) {
	r := m.request()
	if f.to == nil {
		r.Anchor = f.from
	}
	m.Snap = snap.To(r)
}

// Drag implements State.
func (f *PlaceFall) Drag(m *Machine) { f.Move(m) }

// Press implements State.
func (f *PlaceFall) Press(m *Machine) {
	f.Move(m)
	at := m.Snap.At
	switch {
	case f.from == nil:
		f.from = &at
	case f.to == nil && at != *f.from:
		f.to = &at
	}
}

// Takes implements State.
func (f *PlaceFall) Takes(_ *Machine, r rune) bool { return f.to != nil && startsNumber(r) }

// Meaning says how what is typed is read: as a drop, per foot, or in percent.
func (f *PlaceFall) Meaning(m *Machine, text string) (string, error) {
	run := geometry.Distance(*f.from, *f.to)
	drop, err := geometry.ParseFall(text, run, m.Units())
	return geometry.FallText(drop, run, m.Units()), err
}

// Enter implements State.
func (f *PlaceFall) Enter(m *Machine, text string) {
	if f.to == nil {
		return
	}
	drop, err := geometry.ParseFall(text, geometry.Distance(*f.from, *f.to), m.Units())
	if err != nil {
		m.say(err)
		return
	}
	falls.put(m, "Fall of "+drop.Text(m.Units()), plan.Fall{From: *f.from, To: *f.to, Drop: drop})
}

// Back implements State.
func (f *PlaceFall) Back(*Machine) bool {
	switch {
	case f.to != nil:
		f.to = nil
	case f.from != nil:
		f.from = nil
	default:
		return false
	}
	return true
}

// Length gives the length of the fall.
func (f *PlaceFall) Length(m *Machine) string {
	if f.from == nil {
		return ""
	}
	if f.to != nil {
		return legText(m, *f.from, *f.to)
	}
	return legText(m, *f.from, m.Snap.At)
}

// Describe gives how falls meet, and the way to what bends the top otherwise.
func (*PlaceFall) Describe(m *Machine, s Sheet) {
	s.Heading("Next fall of the top")
	m.ofTop(s)
	s.Buttons(m.tool("Apron or ramp: a bend of the top (/)", func() State { return &PlaceBreak{} }))
	s.Explain("A plane that falls: click where it is high and where it is low, then type the drop.")
}

// Overlay implements State.
func (f *PlaceFall) Overlay(m *Machine, o *Overlay) {
	if f.from != nil {
		to := m.Snap.At
		if f.to != nil {
			to = *f.to
		}
		o.line(m, *f.from, to, Draft)
		o.ring(m, *f.from, 5, Draft)
		if f.to != nil {
			text := "Drop?"
			if m.Text != "" {
				text = m.Typing()
			}
			o.label(text, offset(m.View.Screen(to), 14, -16), Question)
			return
		}
	}
	if m.Inside {
		m.clear(o, geometry.Ring{m.Snap.At})
	}
	m.snapped(o)
}
