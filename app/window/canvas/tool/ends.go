package tool

import (
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
)

// byEnds draws what runs straight from one place to another.
type byEnds struct {
	still
	from *geometry.Point
}

// Takes implements State.
func (*byEnds) Takes(_ *Machine, r rune) bool { return startsNumber(r) }

// Meaning says how what is typed is read.
func (*byEnds) Meaning(m *Machine, text string) (string, error) { return placeMeaning(m, text) }

// Move implements State.
func (e *byEnds) Move(m *Machine) {
	r := m.request()
	r.Anchor = e.from
	m.Snap = snap.To(r)
}

// Drag implements State.
func (e *byEnds) Drag(m *Machine) { e.Move(m) }

// press takes the place under the pointer, and typed one that was typed: made is called with
// both ends once they are there.
func (e *byEnds) press(m *Machine, made func(a, b geometry.Point)) {
	e.Move(m)
	e.take(m, m.Snap.At, made)
}

func (e *byEnds) typed(m *Machine, text string, made func(a, b geometry.Point)) {
	if at, ok := typedPlace(m, text); ok {
		e.take(m, at, made)
	}
}

func (e *byEnds) take(m *Machine, at geometry.Point, made func(a, b geometry.Point)) {
	switch {
	case e.from == nil:
		e.from = &at
		m.Text = ""
	case at != *e.from:
		made(*e.from, at)
	}
}

// Back implements State.
func (e *byEnds) Back(*Machine) bool {
	if e.from == nil {
		return false
	}
	e.from = nil
	return true
}

// Length gives the length of it as it is drawn.
func (e *byEnds) Length(m *Machine) string {
	if e.from == nil {
		return ""
	}
	return legText(m, *e.from, m.Snap.At)
}

// Overlay implements State.
func (e *byEnds) Overlay(m *Machine, o *Overlay) {
	if e.from != nil {
		o.line(m, *e.from, m.Snap.At, Draft)
		o.ring(m, *e.from, 5, Draft)
	}
	if m.Inside {
		m.clear(o, geometry.Ring{m.Snap.At})
	}
	if m.Text != "" {
		o.label(m.Typing(), offset(m.Pointer, 16, -18), Typing)
	}
	m.snapped(o)
}
