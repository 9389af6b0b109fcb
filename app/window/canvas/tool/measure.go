package tool

import (
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
)

// Measure shows distances between two points; Cut shows the slab cut along them.
type Measure struct {
	still
	Cuts bool
	from *geometry.Point
}

// Name implements State.
func (s *Measure) Name() string {
	if s.Cuts {
		return "Section cut"
	}
	return "Measure"
}

// Help implements State.
func (s *Measure) Help(*Machine) Help {
	do := "Drag, or click two points"
	if s.from != nil {
		do = "Click the second point"
	}
	return Help{do, "", "Stop"}
}

// Move implements State.
func (s *Measure) Move(m *Machine) {
	m.Hover = Target{}
	r := m.request()
	r.Anchor = s.from
	if !s.Cuts {
		r.Square = false
	}
	m.Snap = snap.To(r)
}

// Drag implements State.
func (s *Measure) Drag(m *Machine) { s.Move(m) }

// Press implements State.
func (s *Measure) Press(m *Machine) {
	s.Move(m)
	at := m.Snap.At
	if s.from == nil {
		m.Tape = nil
		s.from = &at
		return
	}
	s.finish(m, at)
}

// Release implements State.
func (s *Measure) Release(m *Machine) {
	if m.Dragged() && s.from != nil && m.Snap.At != *s.from {
		s.finish(m, m.Snap.At)
	}
}

func (s *Measure) finish(m *Machine, at geometry.Point) {
	if at == *s.from {
		return
	}
	m.Tape = &[2]geometry.Point{*s.from, at}
	s.from = nil
	if s.Cuts && m.Cut != nil {
		m.Cut(m.Tape[0], m.Tape[1])
	}
}

// Back implements State.
func (s *Measure) Back(m *Machine) bool {
	was := s.from != nil || m.Tape != nil
	s.from, m.Tape = nil, nil
	return was
}

// Length gives the distance.
func (s *Measure) Length(m *Machine) string {
	switch {
	case s.from != nil:
		return legText(m, *s.from, m.Snap.At)
	case m.Tape != nil:
		return legText(m, m.Tape[0], m.Tape[1])
	}
	return ""
}

// Overlay implements State.
func (s *Measure) Overlay(m *Machine, o *Overlay) {
	a, b := geometry.Point{}, geometry.Point{}
	switch {
	case s.from != nil:
		a, b = *s.from, m.Snap.At
		o.line(m, a, b, Draft)
	case m.Tape != nil:
		a, b = m.Tape[0], m.Tape[1]
	default:
		m.snapped(o)
		return
	}
	d := b.Sub(a)
	text := geometry.Distance(a, b).Text(m.Units())
	if d.X != 0 && d.Y != 0 {
		text += "  (" + d.X.Abs().Text(m.Units()) + " across, " + d.Y.Abs().Text(m.Units()) + " up)"
	}
	o.label(text, offset(m.View.Screen(b), 14, -16), Value)
	m.snapped(o)
}
