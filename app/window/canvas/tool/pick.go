package tool

import (
	"fmt"

	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
)

// pick is what the tools that fit the picture share: points picked on it.
type pick struct {
	still
	points []geometry.Point
	want   int
}

// Move implements State.
func (s *pick) Move(m *Machine) {
	m.Hover = Target{}
	// On the picture: the places of the plan are no help, what is drawn on it is.
	at := m.View.Plan(m.Pointer)
	m.Snap = snap.Result{At: at}
	if m.Sketch != nil && !m.Mods.Shift {
		if mark, ok := m.Sketch(at, m.View.Length(snap.Reach)); ok {
			m.Snap = snap.Result{At: mark.At, Sort: markSort(mark), Name: mark.Name()}
		}
	}
}

// Drag implements State.
func (s *pick) Drag(m *Machine) { s.Move(m) }

// Press implements State.
func (s *pick) Press(m *Machine) {
	s.Move(m)
	if len(s.points) < s.want {
		s.points = append(s.points, m.Snap.At)
	}
}

// Back implements State.
func (s *pick) Back(*Machine) bool {
	if len(s.points) == 0 {
		return false
	}
	s.points = s.points[:len(s.points)-1]
	return true
}

// Takes implements State.
func (s *pick) Takes(_ *Machine, r rune) bool {
	return len(s.points) == s.want && startsNumber(r)
}

// overlay shows the points picked and asks for what is missing.
func (s *pick) overlay(m *Machine, o *Overlay, closed bool, question string) {
	m.path(o, s.points, Draft)
	n := len(s.points)
	for i, p := range s.points {
		o.ring(m, p, 5, Draft)
		o.label(fmt.Sprint(i+1), offset(m.View.Screen(p), -18, -14), Guide)
	}
	if n > 0 && n < s.want && m.Inside {
		o.line(m, s.points[n-1], m.Snap.At, Draft)
	}
	if n == s.want {
		if closed {
			o.line(m, s.points[n-1], s.points[0], Draft)
		}
		text := question
		if m.Text != "" {
			text = m.Typing()
		}
		a, b := m.View.Screen(s.points[0]), m.View.Screen(s.points[1])
		o.label(text, view.XY{X: (a.X + b.X) / 2, Y: (a.Y+b.Y)/2 + 26}, Question)
		return
	}
	if m.Inside && m.Snap.Name != "" {
		m.snapped(o)
	}
}

// markSort says what was found on the sketch.
func markSort(m snap.Mark) snap.Sort {
	if m.Corner {
		return snap.Corner
	}
	return snap.Line
}
