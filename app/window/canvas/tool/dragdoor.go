package tool

import (
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

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
		m.Snap.Name = "centered on the edge"
	} else {
		step := geometry.Inch
		if m.Units() == geometry.Millimeters {
			step = geometry.Centimeter
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
	to := l.Length(d.target.Index) - door.From - door.Width
	o.label(door.From.Text(m.Units())+" from one corner, "+to.Text(m.Units())+" from the other", offset(m.Pointer, 16, 20), Value)
	if m.Snap.Name != "" {
		o.label(m.Snap.Name, offset(m.Pointer, 16, 44), Guide)
	}
}

func offset(s view.XY, dx, dy float64) view.XY { return view.XY{X: s.X + dx, Y: s.Y + dy} }
