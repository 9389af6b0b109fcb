package tool

import (
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
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
	Origin                // where positions are measured from
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
	m.datum(o)
	m.target(o, m.Selected, Chosen)
	m.clear(o, ringOf(m.on(), m.Selected))
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

// snapped marks the snap at the pointer, and shows its guides: a ring, with a dot in it at
// a corner, two strokes through it at the middle of an edge, one on a line. The status
// line says it in words.
func (m *Machine) snapped(o *Overlay) {
	if !m.Inside {
		return
	}
	for _, g := range m.Snap.Guides {
		o.line(m, g[0], g[1], Guide)
	}
	at := m.View.Screen(m.Snap.At)
	stroke := func(dx float64) {
		o.Lines = append(o.Lines, Line{offset(at, dx-2, 8), offset(at, dx+2, -8), Marker})
	}
	o.Rings = append(o.Rings, Ring{at, 5, Marker})
	switch m.Snap.Sort {
	case snap.Corner:
		o.Rings = append(o.Rings, Ring{at, 1.5, Marker})
	case snap.Middle:
		stroke(-2)
		stroke(2)
	case snap.Line:
		stroke(0)
	}
}

// target outlines a thing.
func (m *Machine) target(o *Overlay, t Target, s Style) {
	if t.Kind != nil {
		t.Kind.Outline(m, o, t, s)
	}
}

// box outlines a box on the screen.
func (o *Overlay) box(x0, y0, x1, y1 float64, s Style) {
	x0, y0, x1, y1 = x0-4, y0-3, x1+4, y1+3
	ring := []view.XY{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
	for i, a := range ring {
		o.Lines = append(o.Lines, Line{a, ring[(i+1)%4], s})
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
