package tool

import (
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/geometry/plan"
)

// DragBolt slides a bolt mark along its wall.
type DragBolt struct {
	dragging
	target hit.Target
}

// Name implements State.
func (*DragBolt) Name() string { return "Move bolt mark" }

// Drag implements State.
func (d *DragBolt) Drag(m *Machine) {
	base := m.Doc.BasePlan()
	l := base.Loops()[d.target.Loop]
	a, b := l.Ends(d.target.Index)
	if a == b {
		return
	}
	along := m.roundOn(a, b, l.Length(d.target.Index), plan.Foot(a, b, m.View.Plan(m.Pointer)), false)
	p, err := setBolt(base, d.target, along)
	m.preview(p, err)
	if err == nil {
		m.Selected = renumbered(base, p, d.target)
	}
}

// Back implements State.
func (d *DragBolt) Back(m *Machine) bool {
	m.Selected = d.target
	return d.dragging.Back(m)
}

// Release implements State.
func (d *DragBolt) Release(m *Machine) { m.drop("Move a bolt mark") }

// Overlay implements State.
func (d *DragBolt) Overlay(m *Machine, o *Overlay) {
	if !exists(m.Plan(), m.Selected) || m.Selected.Kind != hit.Bolt {
		return
	}
	l := m.Plan().Loops()[m.Selected.Loop]
	along := l[m.Selected.Index].Bolts[m.Selected.Sub].Along
	text := along.Text(m.Units()) + " from one corner, " + (l.Length(m.Selected.Index) - along).Text(m.Units()) + " from the other"
	o.label(text, offset(m.Pointer, 16, 20), Value)
}
