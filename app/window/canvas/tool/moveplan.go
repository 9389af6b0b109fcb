package tool

import (
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// MovePlan moves the whole slab from a base point to another, or by typed
// distances.
type MovePlan struct {
	still
	from *geometry.Point
}

// Name implements State.
func (*MovePlan) Name() string { return "Move slab" }

// Help implements State.
func (s *MovePlan) Help(m *Machine) Help {
	if s.from == nil {
		return Help{"Click a point of the slab, or type how far: 2' right, 3' down", "Move it so far", "Stop"}
	}
	return Help{"Click where that point goes", "", "Choose the point again"}
}

// Move implements State.
func (s *MovePlan) Move(m *Machine) {
	r := m.request()
	if s.from != nil {
		r.Anchor = s.from
		r.Plan = plan.Plan{}
		m.Snap = snap.To(r)
		m.preview(m.Doc.BasePlan().Translate(m.Snap.At.Sub(*s.from)), nil)
		return
	}
	m.Snap = snap.To(r)
}

// Press implements State.
func (s *MovePlan) Press(m *Machine) {
	s.Move(m)
	at := m.Snap.At
	if s.from == nil {
		s.from = &at
		return
	}
	m.commit("Move the slab", m.Doc.BasePlan().Translate(at.Sub(*s.from)), nil)
	m.Use(&Select{})
}

// Takes implements State.
func (*MovePlan) Takes(_ *Machine, r rune) bool { return startsNumber(r) }

// Meaning says how what is typed is read.
func (*MovePlan) Meaning(m *Machine, text string) (string, error) {
	by, err := plan.ReadSteps(text, m.course(nil), m.Units())
	return legText(m, geometry.Point{}, by), err
}

// Enter implements State.
func (s *MovePlan) Enter(m *Machine, text string) {
	by, err := plan.ReadSteps(text, m.course(nil), m.Units())
	if err != nil {
		m.say(err)
		return
	}
	m.commit("Move the slab", m.Doc.BasePlan().Translate(by), nil)
	m.Use(&Select{})
}

// Back implements State.
func (s *MovePlan) Back(m *Machine) bool {
	was := s.from != nil
	s.from = nil
	m.Doc.Cancel()
	return was
}

// Overlay implements State.
func (s *MovePlan) Overlay(m *Machine, o *Overlay) {
	if m.Text != "" {
		o.label(m.Typing(), offset(m.Pointer, 16, -18), Typing)
	}
	m.snapped(o)
}
