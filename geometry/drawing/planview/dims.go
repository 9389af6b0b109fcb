package planview

import (
	"cmp"
	"slices"
	"strconv"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plan"
)

// MeasureKind tells what a dimension measures.
type MeasureKind uint8

// What is measured.
const (
	EdgeLength MeasureKind = iota
	Overall                // the whole width or height of the outline
	DoorWidth              // a rough opening
	DoorFrom               // from the edge's start corner to the near jamb
	DoorTo                 // from the far jamb to the edge's end corner
	BetweenDoors
	BoltFrom // from the edge's start corner to a bolt mark
	BoltTo   // from a bolt mark to the edge's end corner
	Gap      // clear between this slab and another
)

// Measure is what a dimension of a plan measures.
type Measure struct {
	Kind       MeasureKind
	Slab       int // by its place among the slabs
	Loop, Edge int
	Sub        int       // the door, or the bolt mark, on the edge
	Other      int       // the other slab of Gap
	Axis       plan.Axis // of Overall and Gap
	Back       bool      // of Gap: the other slab lies to the left or below
	Value      geometry.Length
}

// one gives a chain of one measure, which holds until the next call.
func (m *Maker) one(from, to, value geometry.Length, k Measure) drawing.Chain {
	m.stops, m.texts, m.keys = append(m.stops[:0], from, to), append(m.texts[:0], m.d.Text(value)), append(m.keys[:0], m.key(k))
	return drawing.Chain{Stops: m.stops, Texts: m.texts, Keys: m.keys}
}

type side struct {
	loop, edge int
	length     geometry.Length
}

// key notes what is measured, and gives its key.
func (m *Maker) key(k Measure) int {
	m.Measures = append(m.Measures, k)
	return len(m.Measures) - 1
}

// Sizes draws the dimensions of one of some slabs as on a screen, over its edges,
// into a drawing, which it empties first.
func (m *Maker) Sizes(d *drawing.Drawing, slabs []Slab, worked int, sel Selected) {
	d.Reset()
	m.d, m.Measures = d, m.Measures[:0]
	m.in, m.o = &Input{Slabs: slabs}, &Options{Worked: worked, Screen: true, Selected: sel}
	if worked < 0 || worked >= len(slabs) {
		return
	}
	m.turnTo(worked)
	m.edges()
	m.dimensions()
}

// dimensions measures slabs: of those that are drawn, the one that is worked on,
// else all.
func (m *Maker) dimensions() {
	for i := range m.in.Slabs {
		if m.o.Worked >= 0 && i != m.o.Worked {
			continue
		}
		m.turnTo(i)
		m.sizes(i)
		m.overall(i)
		if m.o.Screen {
			m.boltMark(i)
			m.gaps(i)
		}
	}
	m.d.Quiet = false
}

// sizes measures the edges, the longest first.
func (m *Maker) sizes(slab int) {
	m.sides = m.sides[:0]
	for k, l := range m.loops {
		if !m.o.Screen && k > 0 && upright(l) {
			continue // its label gives its size, a table its place
		}
		for i := range l {
			m.sides = append(m.sides, side{k, i, l.Length(i)})
		}
	}
	slices.SortStableFunc(m.sides, func(a, b side) int { return cmp.Compare(b.length, a.length) })
	for _, s := range m.sides {
		if m.loops[s.loop][s.edge].Middle != 0 {
			m.arcSize(s)
			continue
		}
		if s.length > 0 {
			m.edgeSize(slab, s)
		}
	}
}

// edgeSize measures one edge: to its openings, and whole.
func (m *Maker) edgeSize(slab int, s side) {
	l := m.loops[s.loop]
	n := len(l)
	a, b := l.Ends(s.edge)
	base := Measure{Slab: slab, Loop: s.loop, Edge: s.edge}
	whole := base
	whole.Kind, whole.Value = EdgeLength, s.length
	dim := drawing.Dimension{A: a, B: b, Weight: dimWeight}
	chain := m.one(0, s.length, s.length, whole)
	if m.o.Screen {
		dim.Left = s.loop > 0 // holes are small: their numbers stand on the slab
		m.d.Dimension(dim, chain)
		if sel := m.o.Selected; sel.Loop == s.loop && sel.Edge == s.edge {
			m.doorSizes(base, l, s)
		}
		return
	}
	dim.Of, dim.Along = sideName(s, n), true
	dim.Before, dim.After = l[(s.edge+n-1)%n].At.Sub(a), l[(s.edge+2)%n].At.Sub(b)
	if len(l[s.edge].Doors) > 0 {
		c := m.doorChain(base, l, s)
		c.Of = dim.Of + ", openings from " + strconv.Itoa(s.edge+1)
		m.d.Dimension(dim, c, chain)
		return
	}
	m.d.Dimension(dim, chain)
}

// arcSize says the radius of an arc and, on a sheet, its chord and middle ordinate.
func (m *Maker) arcSize(s side) {
	l := m.loops[s.loop]
	a := l.Arc(s.edge)
	if a.A == a.B || m.o.Screen && m.small(a.Length(), 20) {
		return
	}
	mid, out := a.At(0.5, 0), outward(a.A, a.B)
	label := drawing.Label{Layer: drawing.Dimensions, Style: drawing.TickLine, Type: drawing.Small, Of: sideName(s, len(l)), At: mid, Weight: dimWeight - 1, Prefer: out}
	m.lines = append(m.lines[:0], m.d.Join("R ", m.d.Text(a.Radius())))
	if !m.o.Screen {
		label.Start, label.Near, label.Reach = 3, 6, 60
		m.lines = append(m.lines, m.d.Join("chord ", m.d.Text(a.Chord())), m.d.Join("M.O. ", m.d.Text(a.Middle.Abs())))
		m.d.Label(label, m.lines)
		return
	}
	var at [4]drawing.Spot
	for k, aside := range [4]float32{-3.2, -6, 3.2, 6} {
		at[k] = drawing.Spot{At: mid, Line: a.B.Sub(a.A), Aside: aside, Turned: true}
	}
	m.d.Label(label, m.lines, at[:]...)
}

// sideName names an edge for a table.
func sideName(s side, n int) string {
	name := "Side " + strconv.Itoa(s.edge+1) + "–" + strconv.Itoa((s.edge+1)%n+1)
	if s.loop > 0 {
		name += " of hole " + strconv.Itoa(s.loop)
	}
	return name
}

// doorChain measures from corner to corner by way of the openings.
func (m *Maker) doorChain(base Measure, l plan.Loop, s side) drawing.Chain {
	doors := make([]int, 0, 8)
	for k, d := range l[s.edge].Doors {
		if d.From >= 0 && d.Width > 0 && d.From+d.Width <= s.length {
			doors = append(doors, k)
		}
	}
	slices.SortFunc(doors, func(a, b int) int { return cmp.Compare(l[s.edge].Doors[a].From, l[s.edge].Doors[b].From) })
	var c drawing.Chain
	c.Stops = append(c.Stops, 0)
	to := func(kind MeasureKind, sub int, at geometry.Length) {
		from := c.Stops[len(c.Stops)-1]
		if at <= from {
			return
		}
		k := base
		k.Kind, k.Sub, k.Value = kind, sub, at-from
		c.Stops, c.Texts, c.Keys = append(c.Stops, at), append(c.Texts, m.d.Text(at-from)), append(c.Keys, m.key(k))
	}
	for n, k := range doors {
		d := l[s.edge].Doors[k]
		kind := DoorFrom
		if n > 0 {
			kind = BetweenDoors
		}
		to(kind, k, d.From)
		to(DoorWidth, k, d.From+d.Width)
	}
	if len(doors) > 0 {
		to(DoorTo, doors[len(doors)-1], s.length)
	}
	return c
}

// doorSizes measures each door of an edge from both corners, on the slab's side.
func (m *Maker) doorSizes(base Measure, l plan.Loop, s side) {
	a, b := l.Ends(s.edge)
	for k, d := range l[s.edge].Doors {
		if d.From.Abs() > geometry.MaxLength || d.Width.Abs() > geometry.MaxLength {
			continue
		}
		base.Sub = k
		for _, part := range [...]struct {
			kind     MeasureKind
			from, to geometry.Length
		}{{DoorWidth, d.From, d.From + d.Width}, {DoorFrom, 0, d.From}, {DoorTo, d.From + d.Width, s.length}} {
			m.part(base, part.kind, a, b, part.from, part.to, 5.3)
		}
	}
}

// part measures a part of an edge on the slab's side, so many millimeters off it.
func (m *Maker) part(base Measure, kind MeasureKind, a, b geometry.Point, from, to geometry.Length, off float32) {
	if to <= from {
		return
	}
	base.Kind, base.Value = kind, to-from
	m.d.Dimension(drawing.Dimension{A: a, B: b, Left: true, First: off, Weight: dimWeight + 1}, m.one(from, to, to-from, base))
}

// upright tells whether a loop is a rectangle along the axes.
func upright(l plan.Loop) bool {
	if len(l) != 4 {
		return false
	}
	for i := range l {
		a, b := l.Ends(i)
		c, _ := l.Ends((i + 2) % 4)
		if l[i].Middle != 0 || (a.X == b.X) == (a.Y == b.Y) || (a.X-c.X)*(a.Y-c.Y) == 0 {
			return false
		}
	}
	return true
}
