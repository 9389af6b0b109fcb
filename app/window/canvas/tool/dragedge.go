package tool

import (
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
)

// DragEdge pushes one edge sideways.
type DragEdge struct {
	dragging
	target hit.Target
	from   geometry.Point
}

// Name implements State.
func (d *DragEdge) Name() string { return "Move edge" }

// Begin notes where the drag began.
func (d *DragEdge) Begin(m *Machine) { d.from = m.View.Plan(m.down) }

// Drag implements State.
func (d *DragEdge) Drag(m *Machine) {
	base := m.Doc.BasePlan()
	l := base.Loops()[d.target.Loop]
	n := len(l)
	i, j := d.target.Index, (d.target.Index+1)%n
	a, b := l.Ends(i)
	// The edge, not the pointer, is what lines up with things.
	by := sideways(a, b, m.View.Plan(m.Pointer).Sub(d.from))
	edge := geometry.Along(a, leftOf(a, b), -by)
	r := m.request()
	r.Plan = base
	r.Pointer = m.View.Screen(edge)
	r.Except = func(loop, k int) bool { return loop == d.target.Loop && (k == i || k == j) }
	m.Snap = snap.To(r)
	by = sideways(a, b, m.Snap.At.Sub(a))
	m.preview(base.MoveEdge(d.target.Loop, i, by))
}

// Release implements State.
func (d *DragEdge) Release(m *Machine) { m.drop("Move " + edgeName(d.target.Loop, d.target.Index)) }

// Overlay implements State.
func (d *DragEdge) Overlay(m *Machine, o *Overlay) { m.snapped(o) }
