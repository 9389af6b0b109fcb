package planview

import (
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

var (
	_ = add(kind{layer: drawing.Falls, stage: lines, order: 6, draw: (*Maker).falls, write: (*Maker).fallNames})
	_ = add(kind{layer: drawing.Heights, stage: placed, order: 11, sound: true, write: (*Maker).heights})
)

// surface gives the finished top of the slab in turn; nil where it is not known.
func (m *Maker) surface() *solid.Surface {
	if !m.quiet && !m.o.Sound {
		return nil
	}
	return m.s.Surface
}

// arrows calls f for the arrow of each fall that can be seen. Where the top is not
// known it lies where the user drew the fall.
func (m *Maker) arrows(f func(fall *plan.Fall, from, to geometry.Point)) {
	falls := m.s.Plan.Top.Falls
	arrow := func(i int, from, to geometry.Point) {
		if from != to && !m.small(geometry.Distance(from, to), 1.3) {
			f(&falls[i], from, to)
		}
	}
	top := m.surface()
	if top == nil {
		for i := range falls {
			arrow(i, falls[i].From, falls[i].To)
		}
		return
	}
	for _, a := range top.Arrows {
		if a.Fall < len(falls) { // the plan may have been changed since
			arrow(a.Fall, a.From, a.To)
		}
	}
}

// falls draws arrows down the top, the lines where two falls meet and, on a screen
// where they can be taken hold of, the falls as the user drew them.
func (m *Maker) falls() {
	drawn := drawing.Pencil{Layer: drawing.Falls, Style: drawing.FallLine}
	k, head := drawn, drawing.ArrowHead
	if top := m.surface(); top != nil {
		k.Style, head = drawing.FallArrow, drawing.FullArrow
		for _, c := range top.Creases {
			m.d.Stroke(drawing.Pencil{Layer: drawing.Falls, Style: drawing.CreaseLine}, c.A, c.B)
		}
		if m.o.Screen {
			for _, f := range m.s.Plan.Top.Falls {
				if f.From != f.To {
					m.d.Stroke(drawn, f.From, f.To)
				}
			}
		}
	}
	m.arrows(func(_ *plan.Fall, from, to geometry.Point) {
		m.d.Stroke(k, from, to)
		for _, t := range [2]float64{0.5, 1} {
			m.d.Mark(k, head, drawing.Between(from, to, t), to.Sub(from))
		}
	})
}

// fallNames writes how far each fall drops, beside its arrow and over the slab, and
// which lines are valleys and which are ridges.
func (m *Maker) fallNames() {
	lo, hi := m.bounds()
	mid := drawing.Between(lo, hi, 0.5)
	label := drawing.Label{Layer: drawing.Falls, Style: drawing.FallArrow, Type: drawing.Small, Start: 2, Near: 4, Reach: 60, Weight: placeWeight - 2}
	m.arrows(func(f *plan.Fall, from, to geometry.Point) {
		side := float32(1.6)
		if geometry.Orientation(from, to, mid) < 0 {
			side = -side
		}
		line := to.Sub(from)
		var at [5]drawing.Spot
		for k, s := range [5]struct {
			t     float64
			aside float32
		}{{0.75, side}, {0.25, side}, {0.75, -side}, {0.5, side}, {0.25, -side}} {
			at[k] = drawing.Spot{At: drawing.Between(from, to, s.t), Line: line, Aside: s.aside, Turned: true}
		}
		m.lines = append(m.lines[:0], m.d.Join("falls ", m.d.Text(f.Drop)))
		if !m.o.Screen {
			m.lines[0] = m.d.Join(m.lines[0], m.d.Join(" in ", m.d.Text(geometry.Distance(f.From, f.To))))
		}
		l := label
		l.Of, l.At = "Fall", drawing.Between(from, to, 0.5)
		m.d.Label(l, m.lines, at[:]...)
	})
	top := m.surface()
	if top == nil {
		return
	}
	for _, c := range top.Creases {
		if m.small(geometry.Distance(c.A, c.B), 20) {
			continue
		}
		l := label
		l.At, l.Reach, l.Weight, l.Optional = drawing.Between(c.A, c.B, 0.5), 0, depthWeight, true
		m.lines = append(m.lines[:0], c.Meet.String())
		at, other := drawing.Beside(c.A, c.B, 1, 0.5, 0.35, 0.65), drawing.Beside(c.A, c.B, -1, 0.5, 0.35, 0.65)
		m.d.Label(l, m.lines, at[0], at[1], at[2], other[0], other[1], other[2])
	}
}

// heights writes at each corner how high the top lies there, and how deep is dug,
// outside the slab first; and how high it lies where water gathers. A sheet says
// once, in the title, how high a level top lies.
func (m *Maker) heights() {
	if m.s.Layout == nil || len(m.s.Layout.Grades) == 0 {
		return
	}
	grades := m.s.Layout.Grades
	top := m.surface()
	level := top == nil || len(top.Heights) == 0
	if level && !m.o.Screen {
		return
	}
	lo, hi := m.bounds()
	mid := drawing.Between(lo, hi, 0.5)
	label := drawing.Label{Layer: drawing.Heights, Style: drawing.HeightText, Type: drawing.Small, Start: 2.1, Near: 7, Reach: 60, Weight: heightWeight}
	var last geometry.Point
	for i := range grades {
		g := &grades[i]
		if i > 0 && m.small((g.At.X-last.X).Abs()+(g.At.Y-last.Y).Abs(), 9.3) || !m.seen(g.At) {
			continue
		}
		last = g.At
		m.lines = m.lines[:0]
		m.lines = append(m.lines, m.height("top ", g.Top))
		if m.o.Screen { // a sheet has them in a table
			m.lines = append(m.lines, m.height("dig ", g.Dig))
		}
		l := label
		l.Of, l.At, l.Prefer = m.d.Join("Corner ", number(g.Corner+1)), g.At, g.At.Sub(mid)
		m.d.Label(l, m.lines)
	}
	if level {
		return
	}
	first := slices.IndexFunc(top.Heights, func(h solid.TopHeight) bool { return h.At == grades[0].At })
	if first < 0 {
		return // the plan has been changed since
	}
	lowest := grades[0].Top - top.Heights[first].Height // of the whole top
	for _, d := range top.Drains() {
		if !m.seen(d.At) {
			continue
		}
		l := label
		l.Of, l.At = "Drain", d.At
		if d.Kind == solid.AtCorner {
			l.Of = m.d.Join("Lowest of hole ", number(d.Loop))
		}
		m.lines = append(m.lines[:0], m.height("top ", lowest+d.Height))
		m.d.Mark(drawing.Pencil{Layer: drawing.Heights, Style: drawing.HeightText}, drawing.Dot, d.At, geometry.Point{})
		m.d.Label(l, m.lines)
	}
}
