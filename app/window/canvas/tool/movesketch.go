package tool

import (
	"haunchbook.example/app/window/canvas/sketch"
	"haunchbook.example/geometry"
)

// MoveSketch drags the sketch.
type MoveSketch struct {
	still
	from geometry.Point
}

// Name implements State.
func (*MoveSketch) Name() string { return "Move sketch" }

// Help implements State.
func (*MoveSketch) Help(m *Machine) Help {
	if m.Doc.Job().Sketch.Locked {
		return Help{"The sketch is locked; unlock it to move it", "", "Done"}
	}
	return Help{"Drag the sketch", "", "Done"}
}

// Press implements State.
func (s *MoveSketch) Press(m *Machine) { s.from = m.View.Plan(m.Pointer) }

// Drag implements State.
func (s *MoveSketch) Drag(m *Machine) {
	j := m.Doc.Base()
	if j.Sketch.Locked || !j.Sketch.Any() {
		m.StartPan()
		return
	}
	j.Sketch.Corners = sketch.Move(j.Sketch.Corners, m.View.Plan(m.Pointer).Sub(s.from))
	m.Doc.Preview(j)
}

// Release implements State.
func (*MoveSketch) Release(m *Machine) {
	if m.Doc.Previewing() {
		m.Doc.Commit("Move the sketch", m.Doc.Job())
	}
}

// Back implements State.
func (*MoveSketch) Back(m *Machine) bool {
	was := m.Doc.Previewing()
	m.pressed = false
	m.Doc.Cancel()
	return was
}
