package tool

import (
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
)

// beside gives the other slabs, to snap to.
func (m *Machine) beside() []snap.Other {
	if v := m.Doc.Version(); m.others == nil || v != m.othersFor {
		m.others, m.othersFor = []snap.Other{}, v
		for k, p := range m.Doc.Job().Slabs {
			if k != m.Doc.Slab() && len(p.Outline) > 0 {
				m.others = append(m.others, snap.Other{Name: p.Called(k), Plan: p})
			}
		}
	}
	return m.others
}

// Choose works on slab k.
func (m *Machine) Choose(k int) {
	m.Selected, m.Hover = Target{}, Target{}
	m.Doc.Choose(k)
	m.Info = "Now on " + m.Plan().Called(m.Doc.Slab())
	if ring := m.Plan().Outline.Rim(); len(ring) > 0 && !m.seen(ring) {
		m.Fit()
	}
	m.resnap()
	m.changed()
}

// otherKind is the kind of the slabs beside the one that is worked on.
type otherKind struct{ none }

// Other is the kind of a slab beside the one that is worked on.
var Other Kind = otherKind{}

// besideUnder gives which of the other slabs is under the pointer.
func (m *Machine) besideUnder() Target {
	o := m.on()
	for k, p := range o.Job.Slabs {
		if k == m.Doc.Slab() || len(p.Outline) == 0 {
			continue
		}
		r := newReach(m.Pointer)
		for _, kind := range []Kind{Corner, Edge, Slab} {
			kind.Near(On{Job: o.Job, Slab: k, View: o.View}, r)
		}
		if r.rank < rankNone {
			return Target{Kind: Other, Index: k}
		}
	}
	return Target{}
}

// Outline outlines another slab and names it.
func (otherKind) Outline(m *Machine, o *Overlay, t Target, s Style) {
	if slabs := m.Doc.Job().Slabs; t.Index < len(slabs) {
		p := slabs[t.Index]
		m.closed(o, p.Outline.Rim(), s)
		o.label(p.Called(t.Index)+": click to work on it", offset(m.Pointer, 16, 20), Value)
	}
}

// chooseUnder works on the other slab under the pointer, if there is one, with the
// tool at hand.
func (m *Machine) chooseUnder() bool {
	t := m.besideUnder()
	if t.Kind != Other {
		return false
	}
	m.Choose(t.Index)
	m.Info += ": click again"
	return true
}

// seen tells whether a part of an outline's box is on the screen.
func (m *Machine) seen(ring geometry.Ring) bool {
	lo, hi := ring.Bounds()
	a, b := m.View.Screen(lo), m.View.Screen(hi)
	return b.X > 0 && a.X < m.View.W && a.Y > 0 && b.Y < m.View.H
}

// step works on the slab so many further on.
func (m *Machine) step(by int) {
	n := len(m.Doc.Job().Slabs)
	if n < 2 {
		m.Notice = "There is one slab; S begins another"
		return
	}
	m.Choose(((m.Doc.Slab()+by)%n + n) % n)
	m.Selected = Target{Kind: Slab}
}

// origin gives where what is drawn from sizes alone begins.
func (m *Machine) origin(what Draws) geometry.Point {
	if what != Outline {
		return geometry.Point{}
	}
	return m.Doc.Origin()
}

// replaces warns that an outline is there already.
func (m *Machine) replaces(what Draws) string {
	if what != Outline || len(m.Plan().Outline) == 0 {
		return ""
	}
	return "; it replaces this outline (S begins another slab)"
}
