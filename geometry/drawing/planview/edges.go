package planview

import (
	"fmt"
	"strconv"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
)

var (
	_ = add(kind{layer: drawing.Outline, stage: ground, order: 0, draw: (*Maker).body})
	_ = add(kind{layer: drawing.Joint, stage: lines, order: 0, draw: (*Maker).joints, write: (*Maker).jointNames})
	_ = add(kind{layer: drawing.Walls, stage: lines, order: 1, draw: (*Maker).wallFaces})
	_ = add(kind{layer: drawing.Outline, stage: lines, order: 2, draw: (*Maker).edges})
	_ = add(kind{layer: drawing.Openings, stage: lines, order: 3, draw: (*Maker).doors, write: (*Maker).doorNames})
	_ = add(kind{layer: drawing.Corners, stage: lines, order: 4, draw: (*Maker).corners, write: (*Maker).cornerNumbers})
	_ = add(kind{layer: drawing.Sections, stage: lines, order: 5, write: (*Maker).sectionLetters})
)

// body fills the slab, its holes left open.
func (m *Maker) body() {
	if len(m.s.Plan.Outline) < 3 {
		return
	}
	for _, l := range m.loops {
		m.around(l)
		m.d.Break()
	}
	m.d.FillPath(drawing.Pencil{Layer: drawing.Outline, Style: drawing.SlabFill})
}

// edges draws the outline and the holes.
func (m *Maker) edges() {
	for _, l := range m.loops {
		if len(l) > 2 && !l.Curved() && !(m.o.Screen && openLoop(l)) && (m.o.Screen || !jointed(l)) {
			m.around(l)
			m.d.StrokePath(edgePencil(plan.Edge{}), true)
			continue
		}
		for i := range l {
			a, b := l.Ends(i)
			if a == b {
				continue
			}
			if l[i].Middle != 0 {
				m.d.Arc(edgePencil(l[i]), l.Arc(i))
				continue
			}
			if !m.o.Screen || len(l[i].Doors) == 0 {
				k := edgePencil(plan.Edge{})
				if !m.o.Screen {
					k = edgePencil(l[i])
				}
				m.d.Stroke(k, a, b)
				continue
			}
			at, length := geometry.Length(0), l.Length(i)
			for _, span := range l.Spans(i) {
				if span.Door < 0 || span.From < at || span.To > length {
					continue
				}
				m.d.Stroke(edgePencil(plan.Edge{}), geometry.Along(a, b, at), geometry.Along(a, b, span.From))
				at = span.To
			}
			if at < length {
				m.d.Stroke(edgePencil(plan.Edge{}), geometry.Along(a, b, at), b)
			}
		}
	}
}

// around adds the rim of a loop to the path that is begun.
func (m *Maker) around(l plan.Loop) {
	if !l.Curved() {
		for i := range l {
			m.d.Point(l[i].At)
		}
		return
	}
	for _, p := range l.Rim() {
		m.d.Point(p)
	}
}

// openLoop tells whether a loop has doors.
func openLoop(l plan.Loop) bool {
	for i := range l {
		if len(l[i].Doors) > 0 {
			return true
		}
	}
	return false
}

// jointed tells whether an edge of a loop is a joint.
func jointed(l plan.Loop) bool {
	for i := range l {
		if l[i].Joint {
			return true
		}
	}
	return false
}

func edgePencil(e plan.Edge) drawing.Pencil {
	if e.Joint {
		return drawing.Pencil{Layer: drawing.Joint, Style: drawing.JointEdge}
	}
	return drawing.Pencil{Layer: drawing.Outline, Style: drawing.EdgeLine}
}

// joints draws the other slab's side of each joint: a second line and hatching.
func (m *Maker) joints() {
	for _, l := range m.loops {
		for i := range l {
			if a, b := l.Ends(i); l[i].Joint && a != b {
				m.d.Stroke(drawing.Pencil{Layer: drawing.Joint, Style: drawing.JointLine, Aside: -1.32}, a, b)
				m.d.Hatch(drawing.Pencil{Layer: drawing.Joint, Style: drawing.JointHatch, Aside: -1.32, Deep: -2.4}, a, b)
			}
		}
	}
}

// jointNames says what is on the far side of a joint.
func (m *Maker) jointNames() {
	for k, l := range m.loops {
		for i := range l {
			a, b := l.Ends(i)
			if !l[i].Joint || a == b || m.o.Screen && m.small(geometry.Distance(a, b), 47) {
				continue
			}
			text := "joint with old slab"
			if k == 0 && m.s.Beyond[i] != "" {
				text = m.s.Beyond[i]
			}
			if step := m.stepAt(k, i); step != "" {
				text += ", " + step
			}
			near, far := drawing.Beside(a, b, 2.4, 0.5, 0.25, 0.75), drawing.Beside(a, b, -4.2, 0.5, 0.3, 0.7)
			for k := range far {
				far[k].Within, far[k].Line = true, b.Sub(a)
			}
			m.lines = append(m.lines[:0], text)
			l := drawing.Label{Layer: drawing.Joint, Style: drawing.JointLine, Type: drawing.Small, Of: "Joint", At: drawing.Between(a, b, 0.5), Weight: placeWeight - 1}
			if m.o.Screen {
				m.d.Label(l, m.lines, near[:3]...)
				continue
			}
			l.Prefer, l.Start, l.Near, l.Reach = outward(a, b), 5, 5, 60
			m.d.Label(l, m.lines, append(far[:3], near[:3]...)...)
		}
	}
}

// stepAt says how far below the slab's top another one of the job lies at an edge that is marked
// as a joint.
func (m *Maker) stepAt(loop, edge int) string {
	if m.s.Layout == nil {
		return ""
	}
	for i := range m.s.Layout.Meetings {
		if t := &m.s.Layout.Meetings[i]; t.Loop == loop && t.Edge == edge && t.Later {
			return m.stepText(t)
		}
	}
	return ""
}

// outward gives a vector out of the slab at the edge a-b.
func outward(a, b geometry.Point) geometry.Point {
	v := b.Sub(a)
	return geometry.Point{X: v.Y, Y: -v.X}
}

// inward gives a vector into the slab at the edge a-b.
func inward(a, b geometry.Point) geometry.Point {
	v := b.Sub(a)
	return geometry.Point{X: -v.Y, Y: v.X}
}

// wallFaces draws the inner face of each framed wall, left open at the doors.
func (m *Maker) wallFaces() {
	k := drawing.Pencil{Layer: drawing.Walls, Style: drawing.WallLine, Aside: 1.19}
	for _, l := range m.loops {
		for i := range l {
			a, b := l.Ends(i)
			if l[i].Wall == "" || a == b {
				continue
			}
			if len(l[i].Doors) == 0 {
				m.d.Stroke(k, a, b)
				continue
			}
			for _, span := range l.Spans(i) {
				if span.Door < 0 {
					m.d.Stroke(k, geometry.Along(a, b, span.From), geometry.Along(a, b, span.To))
				}
			}
		}
	}
}

// door is a door on an edge with its jambs.
type door struct {
	plan.Door
	a, b      geometry.Point // the edge
	near, far geometry.Point
	mark      mark.Mark
}

// eachDoor calls f with each door that lies on its edge.
func (m *Maker) eachDoor(f func(door)) {
	for k, l := range m.loops {
		for i := range l {
			for n, d := range l[i].Doors {
				a, b := l.Ends(i)
				if a == b || d.From < 0 || d.Width <= 0 || d.From+d.Width > l.Length(i) {
					continue
				}
				f(door{d, a, b, geometry.Along(a, b, d.From), geometry.Along(a, b, d.From+d.Width), m.marks().Door(k, i, n)})
			}
		}
	}
}

// doors draws each opening: jambs, the edge under it in dashes, the lip.
func (m *Maker) doors() {
	sill := drawing.Pencil{Layer: drawing.Openings, Style: drawing.SillLine}
	if !m.o.Screen {
		sill.Aside = 1.6
	}
	m.eachDoor(func(d door) {
		for _, p := range [2]geometry.Point{d.near, d.far} {
			m.d.Mark(drawing.Pencil{Layer: drawing.Openings, Style: drawing.JambLine}, drawing.JambTick, p, d.b.Sub(d.a))
		}
		m.d.Stroke(sill, d.near, d.far)
		if d.Lip.Inset > 0 {
			v := plan.Turn(geometry.Along(d.a, d.b, d.Lip.Inset).Sub(d.a), 90)
			m.d.Stroke(drawing.Pencil{Layer: drawing.Openings, Style: drawing.LipLine}, d.near.Add(v), d.far.Add(v))
		}
	})
}

// doorNames names each door on the slab's side of it.
func (m *Maker) doorNames() {
	m.eachDoor(func(d door) {
		if m.o.Screen && m.small(d.Width, 7.4) {
			return
		}
		mid := drawing.Between(d.near, d.far, 0.5)
		l := drawing.Label{Layer: drawing.Openings, Style: drawing.SillLine, Type: drawing.Small | drawing.Bold, At: mid, Weight: placeWeight}
		name := m.called(d.mark, d.Name, "Door")
		if m.o.Screen {
			l.Short, m.lines = name, append(m.lines[:0], m.d.Join(m.d.Join(name, " "), d.Kind.String()))
			var at [4]drawing.Spot
			for k, aside := range [4]float32{10.3, 6, 15, 19.8} {
				at[k] = drawing.Spot{At: mid, Line: d.b.Sub(d.a), Aside: aside, Turned: true}
			}
			m.d.Label(l, m.lines, at[:]...)
			return
		}
		l.Of, l.Prefer, l.Start, l.Near, l.Reach = "Door "+name, inward(d.a, d.b), 4, 8, 70
		lines := []string{name + " " + d.Kind.String() + " door", "rough opening " + m.d.Text(d.Width)}
		if d.Lip.Drop > 0 {
			lines = append(lines, "lip "+m.d.Text(d.Lip.Drop)+" lower, "+m.d.Text(d.Lip.Inset)+" in")
		}
		m.d.Label(l, lines)
	})
}

// corners marks the corners where they can be told apart.
func (m *Maker) corners() {
	if !m.o.Screen {
		return
	}
	for k, l := range m.loops {
		if k > 0 && len(l) >= 40 {
			continue
		}
		var last geometry.Point
		for i := range l {
			p := l[i].At
			if i == 0 || !m.small((p.X-last.X).Abs()+(p.Y-last.Y).Abs(), 7.0/3) {
				m.d.Mark(drawing.Pencil{Layer: drawing.Corners, Style: drawing.EdgeLine}, drawing.CornerSquare, p, geometry.Point{})
				last = p
			}
		}
	}
}

// cornerNumbers numbers the corners of the outline, outside them; that of the
// datum corner is dark.
func (m *Maker) cornerNumbers() {
	l := m.loops[0]
	n := len(l)
	if m.o.Screen || n < 3 {
		return
	}
	datum := m.s.Plan.Datum().Corner
	for i := range l {
		before, at, after := l[(i+n-1)%n].At, l[i].At, l[(i+1)%n].At
		if k := (i + n - 1) % n; l[k].Middle != 0 {
			ps := l.Chords(k)
			before = ps[len(ps)-2]
		}
		if l[i].Middle != 0 {
			after = l.Chords(i)[1]
		}
		number := strconv.Itoa(i + 1)
		m.d.Label(drawing.Label{
			Layer: drawing.Corners, Style: drawing.NoteText, Type: drawing.Small | drawing.Bold, Of: "Corner " + number, At: at,
			Prefer: bisector(before, at, after), Start: 3, Near: 5, Reach: 30, Frame: drawing.InCircle, Dark: i == datum, Weight: cornerWeight, Optional: m.o.Again,
		}, []string{number})
	}
}

// bisector gives a vector out of the slab at a corner, between the two edges.
func bisector(before, at, after geometry.Point) geometry.Point {
	unit := func(v geometry.Point) (x, y float64) {
		d := geometry.Distance(geometry.Point{}, v)
		if d == 0 {
			return 0, 0
		}
		return float64(v.X) / float64(d), float64(v.Y) / float64(d)
	}
	ax, ay := unit(outward(before, at))
	bx, by := unit(outward(at, after))
	if ax+bx == 0 && ay+by == 0 {
		ax, ay = unit(at.Sub(before))
	}
	return geometry.Point{X: geometry.Length((ax + bx) * 1e6), Y: geometry.Length((ay + by) * 1e6)}
}

// sectionLetters says at each stretch of an edge which section it has.
func (m *Maker) sectionLetters() {
	if len(m.s.Letters) == 0 {
		return
	}
	for _, l := range m.loops {
		for i := range l {
			a, b := l.Ends(i)
			last := ""
			for _, s := range l.Spans(i) {
				letter := m.s.Letters[s.Section]
				if letter == "" || s.Section == last || a == b {
					continue
				}
				last = s.Section
				at := (s.From + s.To) / 2
				if s.Door >= 0 {
					at = s.From + (s.To-s.From)/4 // its name stands in the middle
				}
				m.d.Label(drawing.Label{
					Layer: drawing.Sections, Style: drawing.NoteText, Type: drawing.Small | drawing.Bold, Of: fmt.Sprintf("Section, side %d–%d", i+1, (i+1)%len(l)+1), Frame: drawing.InBox,
					At: l.Along(i, at), Prefer: inward(a, b), Start: 4, Near: 8, Reach: 30, Weight: markWeight,
				}, []string{letter})
			}
		}
	}
}
