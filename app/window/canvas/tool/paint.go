package tool

import (
	"haunchbook.example/app/window/bind"
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

// Press implements State.
func (s *Paint) Press(m *Machine) {
	if t := m.edgeUnder(); t.Kind == Edge {
		s.paint(m, t)
		return
	}
	m.chooseUnder()
}

// Key implements State.
func (s *Paint) Key(m *Machine, key string) bool {
	if key == Tab {
		m.next(m.Mods.Shift)
		for range things(m.on()) {
			if m.Selected.Kind == Edge {
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
	if m.Selected.Kind == Edge {
		s.paint(m, m.Selected)
	}
}

func (s *Paint) paint(m *Machine, t Target) {
	p, err := m.Plan().SetEdge(t.Loop, t.Index, m.Brush.put)
	m.commit(m.Brush.what()+edgeName(t), p, err)
	m.Selected = t
}

// Overlay implements State.
func (*Paint) Overlay(m *Machine, o *Overlay) {
	if m.Inside {
		o.label(m.Brush.label(), offset(m.Pointer, 16, 18), Value)
	}
}

// Describe gives what painting puts on edges.
func (*Paint) Describe(m *Machine, s Sheet) {
	s.Heading("Paint edges with")
	brush := bind.Of(s, func() Brush { return m.Brush }, func(_ string, change func(*Brush)) error {
		change(&m.Brush)
		m.changed()
		return nil
	})
	bind.OneOf(s, "Paint", []string{"section", "wall", "joint"}, []Sets{SetsSection, SetsWall, SetsJoint}, func() Sets { return m.Brush.Sets }, func(v Sets) error {
		return brush.Put("Paint", func(b *Brush) { b.Sets = v })
	})
	switch m.Brush.Sets {
	case SetsSection:
		named(brush, bind.Row("slabs[].outline[]", "section").Label, "none", m.sectionNames, func(b *Brush) *string { return &b.Section })
		s.Buttons(
			Do{"All but joints", func() error {
				m.Doc.CommitPlan("Section on all edges", m.Doc.Plan().SetAllSections(m.Brush.Section))
				return nil
			}},
			m.page("Library…", Sections),
		)
	case SetsWall:
		named(brush, bind.Row("slabs[].outline[]", "wall").Label, "none", wallNames, func(b *Brush) *string { return &b.Wall })
		s.Buttons(Do{"All but joints", func() error {
			m.Doc.ChangePlan("Wall on all edges", func(p *plan.Plan) {
				for i := range p.Outline {
					if !p.Outline[i].Joint {
						p.Outline[i].Wall = m.Brush.Wall
					}
				}
			})
			return nil
		}})
	case SetsJoint:
		s.Explain("Click an edge that meets the old slab; a second click takes the joint off again.")
	}
}
