package tool

import (
	"fmt"

	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

type door struct{ none }

// Door is the kind of the doors on edges.
var Door Kind = door{}

func (door) Called(On, Target) string { return "a door" }

func (door) Help(Target) string { return "Drag along the edge; click its numbers to type them" }

func (door) Typed() planview.MeasureKind { return planview.DoorFrom }

// doorOf gives the door of a target; nil where it is gone.
func doorOf(p *plan.Plan, t Target) *plan.Door {
	e := edgeOf(p, t)
	if e == nil || t.Sub < 0 || t.Sub >= len(e.Doors) {
		return nil
	}
	return &e.Doors[t.Sub]
}

func (door) Has(o On, t Target) bool { p := o.Plan(); return doorOf(&p, t) != nil }

// Move moves a door along its edge.
func (door) Move(o On, t Target, by geometry.Point) (job.Job, Target, error) {
	p := o.Plan()
	at := doorOf(&p, t)
	if at == nil {
		return o.Job, t, errGone
	}
	a, b := p.Loops()[t.Loop].Ends(t.Index)
	d := *at
	d.From += plan.Foot(a, b, a.Add(by))
	j, err := o.with(p.SetDoor(t.Loop, t.Index, t.Sub, d))
	return j, t, err
}

func (door) Remove(o On, t Target) (job.Job, error) {
	return o.less(plan.Thing{Kind: plan.KindDoor, Loop: t.Loop, Index: t.Index, Sub: t.Sub})
}

func (door) Outline(m *Machine, o *Overlay, t Target, s Style) {
	p := m.Plan()
	if d := doorOf(&p, t); d != nil {
		if a, b := p.Loops()[t.Loop].Ends(t.Index); a != b {
			o.line(m, geometry.Along(a, b, d.From), geometry.Along(a, b, d.From+d.Width), s)
		}
	}
}

// Drag slides a door along its edge, held where it was taken.
func (door) Drag(m *Machine, d *Drag) (job.Job, Target, error) {
	o, t := m.base(), d.target
	p := o.Plan()
	l, is := p.Loops()[t.Loop], *doorOf(&p, t)
	a, b := l.Ends(t.Index)
	grip := plan.Foot(a, b, d.from) - is.From
	is.From = m.place(a, b, l.Length(t.Index), is.Width, plan.Foot(a, b, m.View.Plan(m.Pointer))-grip)
	j, err := o.with(p.SetDoor(t.Loop, t.Index, t.Sub, is))
	return j, t, err
}

func (door) Beside(m *Machine, t Target) string {
	p := m.Plan()
	d := doorOf(&p, t)
	if d == nil {
		return ""
	}
	return fromCorners(m, d.From, lengthOf(p, t)-d.From-d.Width)
}

// fromCorners says how far something stands from the two corners of its edge.
func fromCorners(m *Machine, from, to geometry.Length) string {
	return from.Text(m.Units()) + " from one corner, " + to.Text(m.Units()) + " from the other"
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
		from = from.Round(m.along())
	}
	from = max(0, min(from, length-width))
	if a != b {
		m.Snap.At = geometry.Along(a, b, from)
	}
	return from
}

// along is what places along an edge are rounded to: an inch or a centimeter, with
// Shift the finest step.
func (m *Machine) along() geometry.Length { return nudgeStep(m.Units(), Mods{Shift: m.Mods.Shift}) }

// Describe gives the fields of a door on an edge.
func (door) Describe(m *Machine, t Target, s Sheet) {
	s.Heading(fmt.Sprintf("Door on %s", edgeName(t)))
	f := fieldsOf(m, s, "Change a door", func(p *plan.Plan) *plan.Door { return doorOf(p, t) })
	f = f.At("slabs[].outline[].doors[]")
	f.Rows("name")
	m.ofDoor(f)
	f.Rows("from")
	bind.Length(s, field.ToEnd.Label, func() geometry.Length {
		d := f.Get()
		return lengthOf(m.Plan(), t) - d.From - d.Width
	}, func(l geometry.Length) error {
		return f.Put("Place", func(d *plan.Door) { d.From = lengthOf(m.Plan(), t) - d.Width - l })
	})
	s.Buttons(m.removal("Remove door"))
}

// ofDoor adds the fields of a door wherever it is placed.
func (m *Machine) ofDoor(f bind.Fields[plan.Door]) {
	f = f.At("slabs[].outline[].doors[]")
	f.Rows("kind", "width")
	named(f, f.Label("section"), "the edge's own", m.sectionNames, func(d *plan.Door) *string { return &d.Section })
	f.Rows("runout", "lip.inset", "lip.drop")
}
