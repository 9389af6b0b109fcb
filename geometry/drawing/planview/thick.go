package planview

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
)

var (
	_ = add(kind{layer: drawing.Pads, stage: ground, order: 5, draw: (*Maker).thickenings, write: (*Maker).thickeningNames})
	_ = add(kind{layer: drawing.Openings, stage: lines, order: 8, write: (*Maker).holeNames})
)

// PadRing gives the corners of a pad's flat bottom.
func PadRing(p plan.Pad) [4]geometry.Point {
	w, l := p.Width/2, p.Length/2
	if math.IsNaN(p.Turn) || math.IsInf(p.Turn, 0) {
		p.Turn = 0
	}
	var out [4]geometry.Point
	for i, c := range [4]geometry.Point{{X: -w, Y: -l}, {X: w, Y: -l}, {X: w, Y: l}, {X: -w, Y: l}} {
		out[i] = p.Center.Add(plan.Turn(c, p.Turn))
	}
	return out
}

// thickenings outlines pads and thickened strips, which are the user's own things.
func (m *Maker) thickenings() {
	if !m.o.Screen && m.s.Underside != nil {
		return // the bends of the underside are theirs
	}
	k := drawing.Pencil{Layer: drawing.Pads, Style: drawing.PadLine}
	for i := range m.s.Plan.Pads {
		r := PadRing(m.s.Plan.Pads[i])
		m.d.Ring(k, r[:]...)
	}
	for _, st := range m.s.Plan.Strips {
		for i := 1; i < len(st.Path); i++ {
			a, b := st.Path[i-1], st.Path[i]
			if a == b {
				continue
			}
			v := plan.Turn(geometry.Along(a, b, st.Bottom/2).Sub(a), 90)
			m.d.Stroke(k, a.Add(v), b.Add(v))
			m.d.Stroke(k, a.Sub(v), b.Sub(v))
			m.d.Stroke(drawing.Pencil{Layer: drawing.Pads, Style: drawing.PadAxis}, a, b)
		}
	}
}

// thickeningNames names pads and thickened strips with their sizes.
func (m *Maker) thickeningNames() {
	for i := range m.s.Plan.Pads {
		p := &m.s.Plan.Pads[i]
		l := drawing.Label{
			Layer: drawing.Pads, Style: drawing.NoteText, Type: drawing.Small | drawing.Bold, At: p.Center,
			Near: 3, Reach: 60, Weight: placeWeight,
		}
		if m.o.Screen {
			l.Short = m.called(m.marks().Pad(i), p.Name, "Pad")
			m.lines = append(m.lines[:0], m.depthOf(l.Short, p.Depth))
			l.Start, l.Near, l.Reach = 1.6, 8, 8
			m.d.Label(l, m.lines, drawing.At(p.Center))
			continue
		}
		name := m.called(m.marks().Pad(i), p.Name, "Pad")
		l.Of, m.lines = "Pad "+name, append(m.lines[:0], name+" pad", m.d.Text(p.Width)+" × "+m.d.Text(p.Length)+" × "+m.d.Text(p.Depth)+" deep")
		if out := m.blockOutOf(i); out != "" {
			m.lines = append(m.lines, out)
		}
		r := PadRing(*p)
		lo, hi := geometry.Ring(r[:]).Bounds()
		at := within(lo, hi)
		m.d.Label(l, m.lines, at[:]...)
	}
	for i := range m.s.Plan.Strips {
		st := &m.s.Plan.Strips[i]
		if len(st.Path) < 2 {
			continue
		}
		l := drawing.Label{
			Layer: drawing.Pads, Style: drawing.NoteText, Type: drawing.Small | drawing.Bold, At: drawing.Between(st.Path[0], st.Path[1], 0.5),
			Near: 3, Reach: 60, Weight: placeWeight,
		}
		if m.o.Screen {
			l.Short = m.called(m.marks().Strip(i), st.Name, "Strip")
			m.lines = append(m.lines[:0], m.depthOf(l.Short, st.Depth))
			var at [12]drawing.Spot
			n := 0
			for k := 1; k < len(st.Path) && n < len(at); k++ {
				four := drawing.Beside(st.Path[k-1], st.Path[k], 0, 0.5, 0.25, 0.75)
				n += copy(at[n:], four[:3])
			}
			l.Reach = 0
			m.d.Label(l, m.lines, at[:n]...)
			continue
		}
		name := m.called(m.marks().Strip(i), st.Name, "Strip")
		l.Of, m.lines = "Thickened strip "+name, append(m.lines[:0], name+" thickened strip", m.d.Text(st.Bottom)+" wide, "+m.d.Text(st.Depth)+" deep")
		m.d.Label(l, m.lines)
	}
}

// within gives spots for the name of what fills a box: in it, where the box is
// wide, else over it and under it.
func within(lo, hi geometry.Point) [3]drawing.Spot {
	wide := geometry.Point{X: hi.X - lo.X}
	mid := drawing.Between(lo, hi, 0.5)
	return [3]drawing.Spot{
		{At: mid, Line: wide, Turned: true, Within: true},
		{At: geometry.Point{X: mid.X, Y: hi.Y}, Line: wide, Aside: 0.9, Turned: true},
		{At: geometry.Point{X: mid.X, Y: lo.Y}, Line: wide, Aside: -0.9, Turned: true},
	}
}

// depthOf gives a name with a depth.
func (m *Maker) depthOf(name string, depth geometry.Length) string {
	return m.d.Join(m.d.Join(name, ", "), m.d.Join(m.d.Text(depth), " deep"))
}

// marks gives the marks of what is drawn on the slab; none before it is laid out.
func (m *Maker) marks() (none mark.Names) {
	if m.s.Layout == nil {
		return none
	}
	return m.s.Layout.Marks
}

// called gives a mark with the name that the user gave the thing; where it has
// neither, what it is.
func (m *Maker) called(k mark.Mark, name, kind string) string {
	switch text := k.String(); {
	case text == "" && name == "":
		return kind
	case name == "" || name == text:
		return text
	case text == "":
		return name
	default:
		return m.d.Join(text, m.d.Join(" ", name))
	}
}

// holeNames names the holes, those that are upright rectangles with their size.
func (m *Maker) holeNames() {
	if m.o.Screen {
		return
	}
	for i, h := range m.s.Plan.Holes {
		lo, hi := h.Loop.Rim().Bounds()
		name := m.called(m.marks().Hole(i), h.Name, "Hole")
		l := drawing.Label{
			Layer: drawing.Openings, Style: drawing.NoteText, Type: drawing.Small | drawing.Bold, Of: "Opening " + name,
			At: drawing.Between(lo, hi, 0.5), Near: 6, Reach: 60, Weight: placeWeight,
		}
		m.lines = append(m.lines[:0], name+" opening")
		if upright(h.Loop) {
			m.lines = append(m.lines, m.d.Text(hi.X-lo.X)+" × "+m.d.Text(hi.Y-lo.Y))
		}
		at := within(lo, hi)
		m.d.Label(l, m.lines, at[:]...)
	}
}
