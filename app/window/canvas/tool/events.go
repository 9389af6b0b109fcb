package tool

import (
	"math"

	"haunchbook.example/app/window/canvas/view"
)

// PointerMoved follows the pointer.
func (m *Machine) PointerMoved(s view.XY, mods Mods) {
	if !finite(s) {
		return
	}
	m.Pointer, m.Mods, m.Inside = s, mods, true
	if m.panning {
		m.View = m.View.Pan(s.X-m.last.X, s.Y-m.last.Y)
		m.Moved = true
		m.last = s
		m.changed()
		return
	}
	m.moved()
}

func finite(s view.XY) bool {
	return !math.IsNaN(s.X+s.Y) && !math.IsInf(s.X, 0) && !math.IsInf(s.Y, 0)
}

func (m *Machine) moved() {
	m.resnap()
	if m.pressed {
		if m.dragged || view.Distance(m.down, m.Pointer) > dragStart {
			m.dragged = true
			m.state.Drag(m)
		}
	} else {
		m.state.Move(m)
	}
	m.changed()
}

// PointerLeft is called when the pointer leaves the plan.
func (m *Machine) PointerLeft() {
	m.Inside = false
	m.Hover = Target{}
	m.changed()
}

// Pressed follows a button going down.
func (m *Machine) Pressed(s view.XY, b Button, mods Mods) {
	m.Pointer, m.Mods, m.Inside = s, mods, true
	m.resnap()
	switch b {
	case Middle:
		m.panning, m.last = true, s
	case Secondary:
		m.Key(Escape, mods)
		return
	default:
		m.Notice, m.Info, m.Beacon = "", "", nil
		m.pressed, m.dragged, m.down = true, false, s
		m.state.Press(m)
	}
	m.changed()
}

// Released follows a button going up, and the end of a drag however it ends; it
// may be called more than once.
func (m *Machine) Released() {
	m.panning = false
	if m.pressed {
		m.pressed = false
		m.state.Release(m)
		m.dragged = false
	}
	m.changed()
}

// Dragged tells whether the pointer has moved since the press.
func (m *Machine) Dragged() bool { return m.dragged }

// StartPan makes the drag under way move the view.
func (m *Machine) StartPan() {
	m.pressed, m.panning, m.last = false, true, m.Pointer
}

// DoubleClicked follows the second press of a double click.
func (m *Machine) DoubleClicked() {
	m.state.Double(m)
	m.changed()
}

// Key follows a key that is not text; true if it was used.
func (m *Machine) Key(key string, mods Mods) bool {
	m.Mods = mods
	used := m.key(key)
	if used {
		if !m.pressed {
			m.resnap()
			m.state.Move(m)
		}
		m.changed()
	}
	return used
}

func (m *Machine) key(key string) bool {
	switch key {
	case "KP_Enter":
		key = Enter
	case Escape:
		m.back()
		return true
	case Backspace:
		if m.Text != "" {
			r := []rune(m.Text)
			m.Text, m.Notice = string(r[:len(r)-1]), ""
			return true
		}
	}
	if key == Enter {
		text := m.Text
		m.Notice = ""
		m.state.Enter(m, text)
		return true
	}
	return m.state.Key(m, key)
}

// back takes one step back: what is typed, a step of the state, the state, the
// selection.
func (m *Machine) back() {
	switch {
	case m.Text != "":
		m.Text, m.Notice = "", ""
	case m.state.Back(m):
	case m.state.Name() != selectName:
		m.Use(&Select{})
	case m.Selected.Kind != nil:
		m.Selected = Target{}
	default:
		m.Notice, m.Beacon = "", nil
	}
}

// Rune follows typed text; true if it was used.
func (m *Machine) Rune(r rune) bool {
	if m.Text == "" && (r == '(' || r == ')') && m.Key(ArcKey, m.Mods) {
		return true
	}
	if m.Text == "" && !m.state.Takes(m, r) {
		return false
	}
	if len(m.Text) > m.room() {
		return true
	}
	m.Text, m.Notice = m.Text+string(r), ""
	m.changed()
	return true
}

// writer is a state that takes words, which have no meaning to be shown.
type writer interface {
	Writes() bool
}

func (m *Machine) writes() bool {
	w, ok := m.state.(writer)
	return ok && w.Writes()
}

// room is how many bytes may be typed.
func (m *Machine) room() int {
	if m.writes() {
		return 400
	}
	return 60
}

// startsNumber tells whether a rune begins a length or a sum.
func startsNumber(r rune) bool {
	return r >= '0' && r <= '9' || r == '.' || r == '-' || r == '½' || r == '¼' || r == '¾' || r == '='
}
