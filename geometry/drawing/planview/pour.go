package planview

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
)

// Pour is the day of the pour as positions.
type Pour struct {
	Lines  []Line // of lanes and bays, each once
	Bays   []Bay
	Pads   []Spot
	Trucks []Spot
	Reach  geometry.Length // of the chute or hose from a truck's place; 0 for anywhere
}

// Line is a border between lanes, or between the bays of one.
type Line struct {
	A, B geometry.Point
	Lane bool
}

// Bay is what is placed in one go.
type Bay struct {
	Middle geometry.Point  // a place in it
	Size   geometry.Length // how wide it is there, about
	Name   string          // its number in the order of placing: "3"
	Text   string          // the same with what is to be said of it
	Takes  string          // the concrete it takes
	More   string          // what is said after that on a screen; a sheet has it in a table
}

// Spot is a named place.
type Spot struct {
	Name string
	At   geometry.Point
}

// pour draws lanes and bays, wet pads, trucks and how far they reach, and numbers
// the bays in the order they are placed.
func (m *Maker) pour(p *Pour) {
	m.d.Quiet = false
	for _, l := range p.Lines {
		style := drawing.BayLine
		if l.Lane {
			style = drawing.LaneLine
		}
		m.d.Stroke(drawing.Pencil{Layer: drawing.Pour, Style: style}, l.A, l.B)
	}
	label := drawing.Label{Layer: drawing.Pour, Style: drawing.LaneLine, Type: drawing.Small}
	for _, t := range p.Trucks {
		l := label
		m.lines = append(m.lines[:0], t.Name)
		l.Of, l.At, l.Frame, l.Dark, l.Rim, l.Weight, l.Type = "Truck or pump", t.At, drawing.InBox, true, true, fixedWeight, drawing.Body|drawing.Bold
		if l.Fixed = m.o.Screen; !l.Fixed {
			l.Near, l.Reach = 3, 40
		}
		m.d.Label(l, m.lines, drawing.At(t.At))
		if p.Reach <= 0 {
			continue
		}
		m.d.Circle(drawing.Pencil{Layer: drawing.Pour, Style: drawing.ReachLine}, t.At, p.Reach, 0, 0, false)
		l = label
		m.lines = append(m.lines[:0], m.d.Join("reach ", m.d.Text(p.Reach)))
		var round [8]drawing.Spot
		for k, v := range [8]geometry.Point{{Y: 100}, {Y: -100}, {X: 100}, {X: -100}, {X: 71, Y: 71}, {X: -71, Y: 71}, {X: 71, Y: -71}, {X: -71, Y: -71}} {
			round[k] = drawing.At(t.At.Add(geometry.Point{X: p.Reach / 100 * v.X, Y: p.Reach / 100 * v.Y}))
		}
		l.At, l.Weight, l.Optional = t.At, placeWeight-5, true
		m.d.Label(l, m.lines, round[:]...)
	}
	for i := range p.Bays {
		b := &p.Bays[i]
		if m.o.Screen && m.small(b.Size, 5) {
			continue // no room for its number
		}
		l := label
		l.Of, l.Weight, l.At, l.Near, l.Reach, l.Short = m.d.Join("Bay ", b.Name), placeWeight-3, b.Middle, 12, 0, b.Name
		step := max(b.Size/5, 5*m.o.Detail+geometry.Length(1))
		side := 8 * step / 5
		var at [9]drawing.Spot
		for k, v := range [9]geometry.Point{{}, {Y: step}, {Y: -step}, {X: -side}, {X: side}, {X: -side, Y: step}, {X: side, Y: step}, {X: -side, Y: -step}, {X: side, Y: -step}} {
			at[k] = drawing.At(b.Middle.Add(v))
		}
		if m.lines = append(m.lines[:0], b.Text, m.d.Join(b.Takes, b.More)); m.o.Screen && m.small(b.Size, 20) { // no room for more than the number
			m.lines = append(m.lines[:0], b.Name)
		}
		if !m.o.Screen {
			l.Type, m.lines[0], m.lines[1] = drawing.Head|drawing.Bold, b.Name, b.Takes
		}
		m.d.Label(l, m.lines, at[:]...)
	}
	var named geometry.Point
	for n, w := range p.Pads {
		m.d.Mark(drawing.Pencil{Layer: drawing.Pour, Style: drawing.PadMark}, drawing.WetPad, w.At, geometry.Point{})
		if n > 0 && m.small(geometry.Distance(named, w.At), 10) {
			continue // its name would stand on the one before
		}
		named = w.At
		l := label
		m.lines = append(m.lines[:0], w.Name)
		l.Of, l.At, l.Prefer, l.Start, l.Near, l.Reach, l.Weight = "Wet pad", w.At, geometry.Point{X: 1, Y: 1}, 1.8, 6, 40, placeWeight-4
		m.d.Label(l, m.lines)
	}
}
