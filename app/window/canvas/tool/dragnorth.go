package tool

import (
	"fmt"
	"math"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/geometry/plan"
)

// DragNorth turns the arrow in the corner of the screen.
type DragNorth struct{ dragging }

// Name implements State.
func (*DragNorth) Name() string { return "Turn north" }

// Help implements State.
func (*DragNorth) Help(*Machine) Help {
	return Help{"Release to set it; hold Shift for tenths of a degree", "", "Put it back"}
}

// Drag implements State.
func (*DragNorth) Drag(m *Machine) {
	at, r := hit.NorthArrow(m.View)
	dx, dy := m.Pointer.X-at.X, at.Y-m.Pointer.Y
	if math.Hypot(dx, dy) < r/4 {
		return // too near to the middle to say which way
	}
	j := m.Doc.Base()
	j.Survey = j.Survey.Clone()
	j.Survey.North = plan.North{Known: true, Turn: m.heldTurn(math.Atan2(dx, dy) * 180 / math.Pi)}
	m.Doc.Preview(j)
}

// Release implements State.
func (d *DragNorth) Release(m *Machine) {
	m.drop(fmt.Sprintf("North at %g°", m.Doc.Job().Survey.North.Turn))
}

// Overlay implements State.
func (*DragNorth) Overlay(m *Machine, o *Overlay) {
	o.label(fmt.Sprintf("N  %g°", m.Doc.Job().Survey.North.Turn), offset(m.Pointer, -60, 24), Value)
}
