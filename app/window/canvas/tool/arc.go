package tool

import (
	"haunchbook.example/app/window/bind"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/arc"
	"haunchbook.example/geometry/plan"
)

// shallow is what share of its chord the middle ordinate of a new arc is.
const shallow = 8

// bow makes a straight edge an arc, to be bent on or typed.
func (m *Machine) bow(t Target) {
	l := loopOf(m.Plan(), t)
	if l == nil {
		return
	}
	step := m.along()
	p, err := m.Plan().SetMiddle(t.Loop, t.Index, max((l.Length(t.Index)/shallow).Round(step), step))
	m.commit("Bow "+edgeName(t)+" out", p, err)
}

// describeArc gives the fields of an edge that is an arc; false where it is none.
func (e edge) describeArc(m *Machine, t Target, s Sheet) bool {
	arcOf := func() plan.Loop { return loopOf(m.Plan(), t) }
	if l := arcOf(); l == nil || l[t.Index].Middle == 0 {
		return false
	}
	bind.Size(s, "Radius", func() (r geometry.Length) {
		if l := arcOf(); l != nil {
			r = l.Arc(t.Index).Radius()
		}
		return r
	}, func(r geometry.Length) error {
		p, err := m.Plan().SetRadius(t.Loop, t.Index, r)
		if err == nil {
			m.Doc.CommitPlan("Set the radius of "+edgeName(t)+" to "+r.Text(m.Units()), p)
		}
		return err
	})
	f := fieldsOf(m, s, "Change "+edgeName(t), func(p *plan.Plan) *plan.Edge { return edgeOf(p, t) }).At("slabs[].outline[]")
	label := f.Label("middle")
	bind.Length(s, label, func() (middle geometry.Length) {
		if l := arcOf(); l != nil {
			middle = told(l.Arc(t.Index), m.Units())
		}
		return middle
	}, func(middle geometry.Length) error {
		return f.Put(label, func(e *plan.Edge) { e.Middle = middle })
	})
	curb(f)
	m.onEdge(f) // with the wall, to be taken off: none stands on an arc
	if f.Get().Joint {
		s.Check(f.Label("joint"), func() bool { return f.Get().Joint }, func(v bool) error {
			return f.Put("Joint", func(e *plan.Edge) { e.SetJoint(v) })
		})
	}
	l, u := arcOf(), m.Units()
	s.Explain("Chord " + l.Arc(t.Index).Chord().Text(u) + "; along the arc " + l.Length(t.Index).Text(u) + ". Drag it to bend it.")
	s.Buttons(Do{"Make it straight", func() error {
		p, err := m.Plan().SetMiddle(t.Loop, t.Index, 0)
		m.commit("Straighten "+edgeName(t), p, err)
		m.changed()
		return nil
	}}, m.tool("Through a point… (()", func() State { return &ArcThrough{of: t} }))
	s.Buttons(m.page("Section library…", Sections))
	return true
}

// told gives the middle ordinate of an arc as it is said: to what a tape shows where it follows
// from a radius that was typed.
func told(a arc.Arc, u geometry.Units) geometry.Length {
	step := geometry.Sixteenth
	if u == geometry.Millimeters {
		step = geometry.Millimeter
	}
	if r := a.Radius(); r.Round(step) != r {
		return a.Middle
	}
	return a.Middle.Round(step)
}

// describeRounding gives the field by which a corner is rounded, where both its edges are
// straight.
func (c corner) describeRounding(m *Machine, t Target, s Sheet) {
	l := loopOf(m.Plan(), t)
	if l == nil || l[t.Index].Middle != 0 || l[(t.Index+len(l)-1)%len(l)].Middle != 0 {
		return
	}
	bind.Size(s, "Rounded, radius", func() geometry.Length { return 0 }, func(r geometry.Length) error {
		p, err := m.Plan().RoundCorner(t.Loop, t.Index, r)
		if err == nil {
			m.Doc.CommitPlan("Round "+c.Called(m.on(), t)+" by "+r.Text(m.Units()), p)
			m.Selected = Target{Kind: Edge, Loop: t.Loop, Index: t.Index}
			m.changed()
		}
		return err
	})
}
