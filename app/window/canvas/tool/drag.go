package tool

import (
	"fmt"

	"haunchbook/app/window/canvas/hit"
	"haunchbook/app/window/canvas/snap"
	"haunchbook/app/window/canvas/view"
	"haunchbook/geometry"
	"haunchbook/geometry/plan"
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

// DragDoor slides a door along its edge.
type DragDoor struct {
	dragging
	target hit.Target
	grip   geometry.Length // from the near jamb to where it was taken
}

// Name implements State.
func (d *DragDoor) Name() string { return "Move door" }

// Begin notes where the door was taken.
func (d *DragDoor) Begin(m *Machine) {
	l := m.Doc.BasePlan().Loops()[d.target.Loop]
	a, b := l.Ends(d.target.Index)
	d.grip = plan.Foot(a, b, m.View.Plan(m.down)) - l[d.target.Index].Doors[d.target.Sub].From
}

// Drag implements State.
func (d *DragDoor) Drag(m *Machine) {
	base := m.Doc.BasePlan()
	l := base.Loops()[d.target.Loop]
	a, b := l.Ends(d.target.Index)
	door := l[d.target.Index].Doors[d.target.Sub]
	length := l.Length(d.target.Index)
	door.From = m.place(a, b, length, door.Width, plan.Foot(a, b, m.View.Plan(m.Pointer))-d.grip)
	m.preview(base.SetDoor(d.target.Loop, d.target.Index, d.target.Sub, door))
}

// place rounds the place of a door's near jamb, keeps the door on its edge, and
// draws it to the middle.
func (m *Machine) place(a, b geometry.Point, length, width, from geometry.Length) geometry.Length {
	middle := (length - width) / 2
	m.Snap = snap.Result{Name: "on edge"}
	if !m.Mods.Shift && m.View.Pixels((from-middle).Abs()) < 8 {
		from = middle
		m.Snap.Name = "centred on the edge"
	} else {
		step := geometry.Inch
		if m.Units() == geometry.Millimetres {
			step = geometry.Centimetre
		}
		if m.Mods.Shift {
			step = nudgeStep(m.Units(), Mods{Shift: true})
		}
		from = from.Round(step)
	}
	from = max(0, min(from, length-width))
	if a != b {
		m.Snap.At = geometry.Along(a, b, from)
	}
	return from
}

// Release implements State.
func (d *DragDoor) Release(m *Machine) { m.drop("Move a door") }

// Overlay implements State.
func (d *DragDoor) Overlay(m *Machine, o *Overlay) {
	l := m.Plan().Loops()[d.target.Loop]
	door := l[d.target.Index].Doors[d.target.Sub]
	o.label(door.From.Text(m.Units())+" from corner", offset(m.Pointer, 16, 20), Value)
}

func offset(s view.XY, dx, dy float64) view.XY { return view.XY{X: s.X + dx, Y: s.Y + dy} }

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
		d.anchor = p.Pads[t.Index].Centre
	case hit.Strip:
		d.anchor = p.Strips[t.Index].Path[max(t.Sub, 0)]
	case hit.Fall:
		f := p.Top.Falls[t.Index]
		d.anchor = f.From
		if t.Sub == 1 {
			d.anchor = f.To
		}
	case hit.Slab:
		d.anchor = p.Loops()[t.Loop][0].At
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
