package tool

import (
	"fmt"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
)

type corner struct{}

// Corner is the kind of the corners of an outline or a hole.
var Corner Kind = corner{}

func (corner) Called(_ On, t Target) string { return fmt.Sprintf("corner %d", t.Index+1) }

func (corner) Help(Target) string { return "Drag to move; Delete removes it; arrows nudge" }

func (corner) All(o On) []Target { return nil } // each before its edge: see edge.All

func (corner) Has(o On, t Target) bool { p := o.Plan(); return edgeOf(&p, t) != nil }

func (c corner) Near(o On, r *Reach) {
	for k, l := range o.Plan().Loops() {
		for i, e := range l {
			r.Point(o, rankPoint, e.At, Target{Kind: c, Loop: k, Index: i})
		}
	}
}

func (corner) Anchor(o On, t Target, _ geometry.Point) geometry.Point {
	return o.Plan().Loops()[t.Loop][t.Index].At
}

func (c corner) Move(o On, t Target, by geometry.Point) (job.Job, Target, error) {
	if !c.Has(o, t) {
		return o.Job, t, errGone
	}
	p := o.Plan()
	j, err := o.with(p.MoveCorner(t.Loop, t.Index, p.Loops()[t.Loop][t.Index].At.Add(by)))
	return j, t, err
}

func (corner) Remove(o On, t Target) (job.Job, error) {
	return o.with(o.Plan().RemoveCorner(t.Loop, t.Index))
}

func (c corner) Outline(m *Machine, o *Overlay, t Target, s Style) {
	if p := m.Plan(); c.Has(m.on(), t) {
		o.ring(m, p.Loops()[t.Loop][t.Index].At, 7, s)
	}
}

func (c corner) Describe(m *Machine, t Target, s Sheet) {
	s.Heading(title(c.Called(m.on(), t)))
	at := bind.Of(s, func() (at geometry.Point) {
		if l := loopOf(m.Plan(), t); l != nil {
			at = l[t.Index].At
		}
		return at
	}, func(_ string, change func(*geometry.Point)) error {
		to := loopOf(m.Plan(), t)[t.Index].At
		change(&to)
		p, err := m.Plan().MoveCorner(t.Loop, t.Index, to)
		if err == nil {
			m.Doc.CommitPlan("Move "+c.Called(m.on(), t), p)
		}
		return err
	})
	at.From(m.measured()).Place(func(p *geometry.Point) *geometry.Point { return p })
	if d := m.Plan().Datum(); t.Loop == 0 && d.Corner == t.Index {
		s.Explain("Positions on this slab are measured from here, along " + d.Side() + " and square off it, in the window and on the sheets.")
	} else if t.Loop == 0 {
		s.Buttons(Do{"Measure from here", func() error {
			p, err := m.Plan().WithDatum(t.Index)
			m.commit("Measure from "+c.Called(m.on(), t), p, err)
			return nil
		}})
	}
	c.describeRounding(m, t, s)
	s.Buttons(m.removal("Remove corner"))
}

// Drag moves the corner itself to where it snaps, but not to itself.
func (corner) Drag(m *Machine, d *Drag) (job.Job, Target, error) {
	o := m.base()
	r := m.request()
	r.Plan = o.Plan()
	r.Except = func(loop, i int) bool { return loop == d.target.Loop && i == d.target.Index }
	m.Snap = snap.To(r)
	j, err := o.with(o.Plan().MoveCorner(d.target.Loop, d.target.Index, m.Snap.At))
	return j, d.target, err
}
