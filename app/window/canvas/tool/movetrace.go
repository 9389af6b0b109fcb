package tool

import (
	"haunchbook.example/app/window/canvas/trace"
	"haunchbook.example/geometry"
)

// MoveTrace drags the traced picture.
type MoveTrace struct {
	still
	from geometry.Point
}

// Name implements State.
func (*MoveTrace) Name() string { return "Move picture" }

// Help implements State.
func (*MoveTrace) Help(m *Machine) Help {
	if m.Doc.Job().Trace.Locked {
		return Help{"The picture is locked; unlock it to move it", "", "Done"}
	}
	return Help{"Drag the picture", "", "Done"}
}

// Press implements State.
func (s *MoveTrace) Press(m *Machine) { s.from = m.View.Plan(m.Pointer) }

// Drag implements State.
func (s *MoveTrace) Drag(m *Machine) {
	j := m.Doc.Base()
	if j.Trace.Locked || !j.Trace.Any() {
		m.StartPan()
		return
	}
	j.Trace.Corners = trace.Move(j.Trace.Corners, m.View.Plan(m.Pointer).Sub(s.from))
	m.Doc.Preview(j)
}

// Release implements State.
func (*MoveTrace) Release(m *Machine) {
	if m.Doc.Previewing() {
		m.Doc.Commit("Move the picture", m.Doc.Job())
	}
}

// Back implements State.
func (*MoveTrace) Back(m *Machine) bool {
	was := m.Doc.Previewing()
	m.pressed = false
	m.Doc.Cancel()
	return was
}
