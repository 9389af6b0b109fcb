package tool

import (
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/geometry/plan"
)

// Sets says which property painting sets.
type Sets uint8

const (
	SetsSection Sets = iota
	SetsWall
	SetsJoint
)

// Brush is what painting puts on each edge that is clicked.
type Brush struct {
	Sets    Sets
	Section string
	Wall    string
}

// put changes an edge. Painting a joint over a joint takes it off again.
func (b Brush) put(e *plan.Edge) {
	switch b.Sets {
	case SetsSection:
		e.Section = b.Section
	case SetsWall:
		e.Wall = b.Wall
	case SetsJoint:
		e.SetJoint(!e.Joint)
	}
}

// what names the change.
func (b Brush) what() string {
	switch b.Sets {
	case SetsWall:
		if b.Wall == "" {
			return "No wall on "
		}
		return b.Wall + " wall on "
	case SetsJoint:
		return "Joint on "
	}
	if b.Section == "" {
		return "No section on "
	}
	return b.Section + " on "
}

// Paint puts a section, a wall or the joint on edges, one click each.
type Paint struct{ still }

// Name implements State.
func (*Paint) Name() string { return "Paint edges" }

// Help implements State.
func (*Paint) Help(m *Machine) Help {
	return Help{"Click edges to put on: " + m.Brush.label(), "On the selected edge", "Stop painting"}
}

func (b Brush) label() string {
	switch b.Sets {
	case SetsWall:
		if b.Wall == "" {
			return "no wall"
		}
		return b.Wall + " wall"
	case SetsJoint:
		return "joint with the old slab"
	}
	if b.Section == "" {
		return "no section"
	}
	return "section " + b.Section
}

// Move implements State.
func (*Paint) Move(m *Machine) { m.Hover = m.edgeUnder() }

// edgeUnder gives the edge under the pointer, the whole edge for a door.
func (m *Machine) edgeUnder() hit.Target {
	t := hit.At(m.Plan(), m.View, nil, m.Pointer)
	if t.Kind == hit.Door {
		t = hit.Target{Kind: hit.Edge, Loop: t.Loop, Index: t.Index}
	}
	if t.Kind != hit.Edge {
		return hit.Target{}
	}
	return t
}

// Press implements State.
func (s *Paint) Press(m *Machine) {
	if t := m.edgeUnder(); t.Kind == hit.Edge {
		s.paint(m, t)
		return
	}
	m.chooseUnder()
}

// Key implements State.
func (s *Paint) Key(m *Machine, key string) bool {
	if key == Tab {
		m.next(m.Mods.Shift)
		for range things(m.Plan()) {
			if m.Selected.Kind == hit.Edge {
				break
			}
			m.next(m.Mods.Shift)
		}
		return true
	}
	return false
}

// Enter implements State.
func (s *Paint) Enter(m *Machine, _ string) {
	if m.Selected.Kind == hit.Edge {
		s.paint(m, m.Selected)
	}
}

func (s *Paint) paint(m *Machine, t hit.Target) {
	p, err := m.Plan().SetEdge(t.Loop, t.Index, m.Brush.put)
	m.commit(m.Brush.what()+edgeName(t.Loop, t.Index), p, err)
	m.Selected = t
}

// Overlay implements State.
func (*Paint) Overlay(m *Machine, o *Overlay) {
	if m.Inside {
		o.label(m.Brush.label(), offset(m.Pointer, 16, 18), Value)
	}
}
