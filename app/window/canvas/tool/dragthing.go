package tool

import (
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
)

// DragThing moves a pad, a strip, a fall, a hole or the whole slab.
type DragThing struct {
	dragging
	target hit.Target
	from   geometry.Point
	anchor geometry.Point // a point of the thing that snaps
}

// Name implements State.
func (d *DragThing) Name() string { return "Move" }

// Begin notes where the drag began.
func (d *DragThing) Begin(m *Machine) {
	d.from = m.View.Plan(m.down)
	p := m.Doc.BasePlan()
	d.anchor = d.from
	switch t := d.target; t.Kind {
	case hit.Pad:
		d.anchor = p.Pads[t.Index].Center
	case hit.Strip:
		d.anchor = p.Strips[t.Index].Path[max(t.Sub, 0)]
	case hit.Fall:
		f := p.Top.Falls[t.Index]
		d.anchor = f.From
		if t.Sub == 1 {
			d.anchor = f.To
		}
	case hit.Slab:
		// The corner nearest to where it was taken is the one that snaps.
		l := p.Loops()[t.Loop]
		d.anchor = l[0].At
		for _, e := range l {
			if geometry.Distance(e.At, d.from) < geometry.Distance(d.anchor, d.from) {
				d.anchor = e.At
			}
		}
	}
}

// Drag implements State.
func (d *DragThing) Drag(m *Machine) {
	base := m.Doc.BasePlan()
	r := m.request()
	r.Plan = base
	r.Pointer = m.View.Screen(d.anchor.Add(m.View.Plan(m.Pointer).Sub(d.from)))
	if d.target.Kind == hit.Slab {
		r.Except = func(loop, _ int) bool { return d.target.Loop == 0 || loop == d.target.Loop }
	}
	m.Snap = snap.To(r)
	m.preview(moved(base, d.target, m.Snap.At.Sub(d.anchor)))
}

// Release implements State.
func (d *DragThing) Release(m *Machine) { m.drop("Move") }

// Overlay implements State.
func (d *DragThing) Overlay(m *Machine, o *Overlay) { m.snapped(o) }
