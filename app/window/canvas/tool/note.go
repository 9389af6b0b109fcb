package tool

import (
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

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
	m.Hover = hit.Target{}
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
		sv := m.Doc.Job().Survey.Clone()
		sv.Notes = append(sv.Notes, n)
		m.commitSurvey("Note", sv)
		m.Use(&Select{})
		m.Selected = hit.Target{Kind: hit.Note, Index: len(sv.Notes) - 1}
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
