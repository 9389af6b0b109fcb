package tool

import (
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
)

// Drag moves a thing with the pointer, until the button is let go. Esc and leaving
// take it back.
type Drag struct {
	still
	target Target
	from   geometry.Point // where the pointer took it
	anchor geometry.Point // the point of it that snaps
	name   string
}

// newDrag begins a drag where the button went down.
func (m *Machine) newDrag(t Target) *Drag {
	d := &Drag{target: t, from: m.View.Plan(m.down), name: "Move " + t.Kind.Called(m.on(), t)}
	d.anchor = t.Kind.Anchor(m.base(), t, d.from)
	return d
}

// Name implements State.
func (d *Drag) Name() string { return d.name }

// Help implements State.
func (*Drag) Help(*Machine) Help {
	return Help{"Release to place; hold Shift to move freely", "", "Put it back"}
}

// Drag implements State.
func (d *Drag) Drag(m *Machine) {
	var j job.Job
	var t Target
	var err error
	if k, ok := d.target.Kind.(dragged); ok {
		j, t, err = k.Drag(m, d)
	} else {
		j, t, err = d.snapped(m)
	}
	if err != nil {
		m.say(err)
		return
	}
	m.Doc.Preview(j)
	m.Selected = t
}

// snapped moves the thing so that its anchor is where it snaps.
func (d *Drag) snapped(m *Machine) (job.Job, Target, error) {
	o := m.base()
	r := m.request()
	r.Plan = o.Plan()
	r.Pointer = m.View.Screen(d.anchor.Add(m.View.Plan(m.Pointer).Sub(d.from)))
	if d.target.Kind == Slab {
		r.Except = func(loop, _ int) bool { return d.target.Loop == 0 || loop == d.target.Loop }
	}
	m.Snap = snap.To(r)
	return d.target.Kind.Move(o, d.target, m.Snap.At.Sub(d.anchor))
}

// Release implements State.
func (d *Drag) Release(m *Machine) {
	if m.Doc.Previewing() {
		m.Doc.Commit(d.name, m.Doc.Job())
	}
	m.state = &Select{}
	m.Hover = Target{}
}

// Back implements State.
func (d *Drag) Back(m *Machine) bool {
	m.pressed = false
	m.Selected = d.target
	m.Use(&Select{})
	return true
}

// Overlay implements State.
func (d *Drag) Overlay(m *Machine, o *Overlay) {
	k, ok := d.target.Kind.(besides)
	if !ok {
		m.snapped(o)
		return
	}
	o.label(k.Beside(m, m.Selected), offset(m.Pointer, 16, 20), Value)
}

func offset(s view.XY, dx, dy float64) view.XY { return view.XY{X: s.X + dx, Y: s.Y + dy} }
