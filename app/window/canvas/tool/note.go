package tool

import (
	"errors"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

var notes = &list[plan.Note]{
	called: "note",
	help:   "Drag to move; words in the panel; Delete removes it",
	rank:   rankMark,
	in:     func(j *job.Job, _ int) *[]plan.Note { return &j.Survey.Notes },
	whole:  func(n *plan.Note) []*geometry.Point { return []*geometry.Point{&n.At} },
	points: func(n *plan.Note) []*geometry.Point { // the end of its leader
		if !n.Leader {
			return nil
		}
		return []*geometry.Point{&n.To}
	},
	part: func(n *plan.Note, _ int) { n.Leader, n.To = false, geometry.Point{} },
	near: func(o On, n plan.Note, r *Reach, t Target) {
		if r.Wants(rankNote) && hit.NoteBox(n, o.View, planview.NoteLines(n.Text), o.Measure).Near(r.At, 3) {
			r.Offer(rankNote, 0, 1, t)
		}
	},
	outline: func(m *Machine, o *Overlay, n plan.Note, sub int, s Style) {
		if sub >= 0 {
			o.ring(m, n.To, 7, s)
			return
		}
		b := hit.NoteBox(n, m.View, planview.NoteLines(n.Text), m.Measure)
		o.box(b.X0, b.Y0, b.X1, b.Y1, s)
		if n.Leader {
			o.ring(m, n.To, 4, s)
		}
	},
	describe: func(m *Machine, f bind.Fields[plan.Note], s Sheet) {
		f = f.At("survey.notes[]")
		s.Lines("", bind.Text{Get: func() string { return f.Get().Text }, Set: func(text string) error {
			if text == "" {
				return errNoWords
			}
			return f.Put("Words", func(n *plan.Note) { n.Text = text })
		}})
		s.Check(f.Label("leader"), func() bool { return f.Get().Leader }, func(v bool) error {
			return f.Put("Leader", func(n *plan.Note) {
				n.Leader, n.To = v, geometry.Point{}
				if v { // to the left of the text, to be dragged to what it speaks of
					n.To = n.At.Sub(geometry.Point{X: m.View.Length(60)})
				}
			})
		})
		f.Rows("at")
		s.Explain("Drag the text or the end of its leader on the plan.")
	},
}

var errNoWords = errors.New("a note says something; Delete removes it")

// Note is the kind of the notes on the drawing.
var Note Kind = notes

// PlaceNote writes a note on the drawing: what it speaks of, where it stands, what
// it says.
type PlaceNote struct {
	still
	plain  bool // without a leader
	to, at *geometry.Point
}

// Name implements State.
func (*PlaceNote) Name() string { return "Note" }

// Help implements State.
func (s *PlaceNote) Help(*Machine) Help {
	switch {
	case s.to == nil && !s.plain:
		return Help{"Click what the note speaks of", "No leader", "Stop"}
	case s.at == nil:
		return Help{"Click where the text begins", "", "Back"}
	}
	return Help{"Type the note", "Write it", "Choose its place again"}
}

// Writes implements writer.
func (s *PlaceNote) Writes() bool { return s.at != nil }

// Takes implements State.
func (s *PlaceNote) Takes(*Machine, rune) bool { return s.Writes() }

// Move implements State.
func (s *PlaceNote) Move(m *Machine) {
	m.Hover = Target{}
	r := m.request()
	if s.to != nil { // text stands anywhere
		r.Extra = []geometry.Point{*s.to}
	}
	m.Snap = snap.To(r)
}

// Press implements State.
func (s *PlaceNote) Press(m *Machine) {
	s.Move(m)
	at := m.Snap.At
	switch {
	case s.to == nil && !s.plain:
		s.to = &at
	case s.at == nil && (s.to == nil || at != *s.to):
		s.at = &at
	}
}

// Release implements State: a drag from what it speaks of to where it stands.
func (s *PlaceNote) Release(m *Machine) {
	if m.Dragged() && s.at == nil && s.to != nil && m.Snap.At != *s.to {
		at := m.Snap.At
		s.at = &at
	}
}

// Drag implements State.
func (s *PlaceNote) Drag(m *Machine) { s.Move(m) }

// Enter implements State.
func (s *PlaceNote) Enter(m *Machine, text string) {
	switch {
	case s.at != nil && text != "":
		n := plan.Note{Text: text, At: *s.at}
		if s.to != nil {
			n.Leader, n.To = true, *s.to
		}
		notes.put(m, "Note", n)
	case s.at == nil && s.to == nil:
		s.plain = true
	}
}

// Back implements State.
func (s *PlaceNote) Back(*Machine) bool {
	switch {
	case s.at != nil:
		s.at = nil
	case s.to != nil:
		s.to = nil
	case s.plain:
		s.plain = false
	default:
		return false
	}
	return true
}

// Overlay implements State.
func (s *PlaceNote) Overlay(m *Machine, o *Overlay) {
	if s.to != nil {
		o.ring(m, *s.to, 5, Draft)
		end := m.Snap.At
		if s.at != nil {
			end = *s.at
		}
		if s.at != nil || m.Inside {
			o.line(m, *s.to, end, Draft)
		}
	}
	if s.at == nil {
		m.snapped(o)
		return
	}
	text := "What does it say?"
	if m.Text != "" {
		text = m.Typing()
	}
	o.label(text, m.View.Screen(*s.at), Typing)
}
