package tool

import (
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
)

// DragMark moves a benchmark, a note, or the end of a note's leader.
type DragMark struct {
	dragging
	target hit.Target
	from   geometry.Point
	anchor geometry.Point
}

// Name implements State.
func (d *DragMark) Name() string {
	switch {
	case d.target.Kind == hit.Benchmark:
		return "Move benchmark"
	case d.target.Sub == 1:
		return "Move leader"
	}
	return "Move note"
}

// Begin notes where the drag began.
func (d *DragMark) Begin(m *Machine) {
	d.from = m.View.Plan(m.down)
	sv := m.Doc.Base().Survey
	switch {
	case d.target.Kind == hit.Benchmark:
		d.anchor = sv.Benchmarks[d.target.Index].At
	case d.target.Sub == 1:
		d.anchor = sv.Notes[d.target.Index].To
	default:
		d.anchor = sv.Notes[d.target.Index].At
	}
}

// Drag implements State.
func (d *DragMark) Drag(m *Machine) {
	j := m.Doc.Base()
	r := m.request()
	r.Pointer = m.View.Screen(d.anchor.Add(m.View.Plan(m.Pointer).Sub(d.from)))
	m.Snap = snap.To(r)
	if sv, ok := movedMark(j.Survey, d.target, m.Snap.At.Sub(d.anchor)); ok {
		j.Survey = sv
		m.Doc.Preview(j)
	}
}

// Release implements State.
func (d *DragMark) Release(m *Machine) { m.drop(d.Name()) }

// Overlay implements State.
func (d *DragMark) Overlay(m *Machine, o *Overlay) { m.snapped(o) }
