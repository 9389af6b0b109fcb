package tool

import (
	"haunchbook.example/app/window/canvas/hit"
)

// dragging is what all drags share: Esc and leaving take the thing back.
type dragging struct{ still }

func (dragging) Help(*Machine) Help {
	return Help{"Release to place; hold Shift to move freely", "", "Put it back"}
}

func (dragging) Back(m *Machine) bool {
	m.pressed = false
	m.Use(&Select{})
	return true
}

// drop ends a drag.
func (m *Machine) drop(label string) {
	if m.Doc.Previewing() {
		m.Doc.Commit(label, m.Doc.Job())
	}
	m.state = &Select{}
	m.Hover = hit.Target{}
}
