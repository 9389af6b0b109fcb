package tool

import (
	"fmt"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/snap"
)

// DragCorner moves one corner.
type DragCorner struct {
	dragging
	target hit.Target
}

// Name implements State.
func (d *DragCorner) Name() string { return "Move corner" }

// Drag implements State.
func (d *DragCorner) Drag(m *Machine) {
	base := m.Doc.BasePlan()
	r := m.request()
	r.Plan = base
	r.Except = func(loop, i int) bool { return loop == d.target.Loop && i == d.target.Index }
	m.Snap = snap.To(r)
	m.preview(base.MoveCorner(d.target.Loop, d.target.Index, m.Snap.At))
}

// Release implements State.
func (d *DragCorner) Release(m *Machine) { m.drop(fmt.Sprintf("Move corner %d", d.target.Index+1)) }

// Overlay implements State.
func (d *DragCorner) Overlay(m *Machine, o *Overlay) { m.snapped(o) }
