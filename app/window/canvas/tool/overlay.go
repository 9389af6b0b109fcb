package tool

import (
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Style says how an overlay shape is drawn.
type Style uint8

const (
	Draft    Style = iota // what is being drawn
	Guide                 // why a snap is where it is
	Hovered               // what a press would take
	Chosen                // what is selected
	Marker                // the snap itself
	Value                 // a number at the pointer
	Typing                // what is being typed
	Question              // a number that is being changed
)

// Overlay is the few shapes above the plan that change with the pointer. It is
// used again from frame to frame.
type Overlay struct {
	Lines  []Line
	Rings  []Ring
	Labels []Label
}

// Line is a straight line on the screen.
type Line struct {
	A, B  view.XY
	Style Style
}

// Ring is a circle on the screen.
type Ring struct {
	At     view.XY
	Radius float64
	Style  Style
}

// Label is text beside a place on the screen.
type Label struct {
	Text  string
	At    view.XY
	Style Style
}

// Reset empties the overlay.
func (o *Overlay) Reset() {
	o.Lines, o.Rings, o.Labels = o.Lines[:0], o.Rings[:0], o.Labels[:0]
}

func (o *Overlay) line(m *Machine, a, b geometry.Point, s Style) {
	o.Lines = append(o.Lines, Line{m.View.Screen(a), m.View.Screen(b), s})
}

func (o *Overlay) ring(m *Machine, at geometry.Point, radius float64, s Style) {
	o.Rings = append(o.Rings, Ring{m.View.Screen(at), radius, s})
}

func (o *Overlay) label(text string, at view.XY, s Style) {
	o.Labels = append(o.Labels, Label{text, at, s})
}

// Overlay gives the shapes above the plan in o.
func (m *Machine) Overlay(o *Overlay) {
	o.Reset()
	m.target(o, m.Selected, Chosen)
	if m.Inside && !m.Hover.On(m.Selected) {
		m.target(o, m.Hover, Hovered)
	}
	if m.Beacon != nil {
		o.ring(m, *m.Beacon, 16, Chosen)
		o.ring(m, *m.Beacon, 26, Marker)
	}
	if m.Tape != nil {
		o.line(m, m.Tape[0], m.Tape[1], Draft)
	}
	m.state.Overlay(m, o)
}

// snapped shows the snap at the pointer, its guides and its name.
func (m *Machine) snapped(o *Overlay) {
	if !m.Inside {
		return
	}
	for _, g := range m.Snap.Guides {
		o.line(m, g[0], g[1], Guide)
	}
	o.ring(m, m.Snap.At, 5, Marker)
	if m.Snap.Name != "" {
		s := m.View.Screen(m.Snap.At)
		o.label(m.Snap.Name, view.XY{X: s.X + 14, Y: s.Y + 16}, Guide)
	}
}

// target outlines a thing.
func (m *Machine) target(o *Overlay, t hit.Target, s Style) {
	p := m.Plan()
	loops := p.Loops()
	switch t.Kind {
	case hit.Corner:
		if t.Loop < len(loops) && t.Index < len(loops[t.Loop]) {
			o.ring(m, loops[t.Loop][t.Index].At, 7, s)
		}
	case hit.Edge, hit.Door:
		if t.Loop >= len(loops) || t.Index >= len(loops[t.Loop]) {
			return
		}
		l := loops[t.Loop]
		a, b := l.Ends(t.Index)
		if t.Kind == hit.Door && a != b {
			if t.Sub >= len(l[t.Index].Doors) {
				return
			}
			d := l[t.Index].Doors[t.Sub]
			a, b = geometry.Along(a, b, d.From), geometry.Along(a, b, d.From+d.Width)
		}
		o.line(m, a, b, s)
	case hit.Bolt:
		if exists(p, t) {
			l := loops[t.Loop]
			if face, inner, ok := l.BoltLine(t.Index, l[t.Index].Bolts[t.Sub].Along); ok {
				o.line(m, face, inner, s)
				o.ring(m, face, 6, s)
			}
		}
	case hit.Benchmark, hit.Note, hit.North:
		m.surveyTarget(o, t, s)
	case hit.Other:
		m.otherTarget(o, t, s)
	case hit.Pad:
		if t.Index < len(p.Pads) {
			m.closed(o, p.Pads[t.Index].Ring(), s)
		}
	case hit.Strip:
		if t.Index < len(p.Strips) {
			m.path(o, p.Strips[t.Index].Path, s)
			if t.Sub >= 0 && t.Sub < len(p.Strips[t.Index].Path) {
				o.ring(m, p.Strips[t.Index].Path[t.Sub], 7, s)
			}
		}
	case hit.Fall:
		if t.Index < len(p.Top.Falls) {
			f := p.Top.Falls[t.Index]
			o.line(m, f.From, f.To, s)
			if t.Sub == 0 {
				o.ring(m, f.From, 7, s)
			} else if t.Sub == 1 {
				o.ring(m, f.To, 7, s)
			}
		}
	case hit.Slab:
		if t.Loop < len(loops) && s == Chosen {
			m.closed(o, loops[t.Loop].Corners(), s)
		}
	case hit.Dim:
		d := t.Dim
		o.box(hit.Box{X0: d.At.X - d.W/2, Y0: d.At.Y - d.H/2, X1: d.At.X + d.W/2, Y1: d.At.Y + d.H/2}, s)
	}
}

func (m *Machine) path(o *Overlay, ps []geometry.Point, s Style) {
	for i := 1; i < len(ps); i++ {
		o.line(m, ps[i-1], ps[i], s)
	}
}

func (m *Machine) closed(o *Overlay, ps geometry.Ring, s Style) {
	m.path(o, ps, s)
	if n := len(ps); n > 2 {
		o.line(m, ps[n-1], ps[0], s)
	}
}

// Exists tells whether the target is still there to be selected.
func (m *Machine) Exists(t hit.Target) bool {
	sv := m.Doc.Job().Survey
	switch t.Kind {
	case hit.North:
		return sv.North.Known
	case hit.Benchmark:
		return t.Index < len(sv.Benchmarks)
	case hit.Note:
		return t.Index < len(sv.Notes) && (t.Sub == 0 || sv.Notes[t.Index].Leader)
	}
	return exists(m.Plan(), t)
}

// exists tells whether the target is on the plan.
func exists(p plan.Plan, t hit.Target) bool {
	loops := p.Loops()
	switch t.Kind {
	case hit.Corner, hit.Edge, hit.Door, hit.Bolt:
		if t.Loop < 0 || t.Loop >= len(loops) || t.Index < 0 || t.Index >= len(loops[t.Loop]) {
			return false
		}
		e := loops[t.Loop][t.Index]
		switch t.Kind {
		case hit.Door:
			return t.Sub >= 0 && t.Sub < len(e.Doors)
		case hit.Bolt:
			return t.Sub >= 0 && t.Sub < len(e.Bolts)
		}
		return true
	case hit.Pad:
		return t.Index < len(p.Pads)
	case hit.Strip:
		return t.Index < len(p.Strips) && t.Sub < len(p.Strips[t.Index].Path)
	case hit.Fall:
		return t.Index < len(p.Top.Falls)
	case hit.Slab:
		return t.Loop < len(loops) && len(loops[t.Loop]) > 0
	}
	return false
}
