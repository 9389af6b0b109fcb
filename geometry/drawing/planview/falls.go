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

// decline is how far a part of the top falls over which run, and the arrow down it.
type decline struct {
	drop, run geometry.Length
	from, to  geometry.Point
	drawn     bool // the run is a line on the drawing
}

// arrows calls f for each slope of the top that can be seen. Where the top is not known it
// lies where the user drew a fall.
func (m *Maker) arrows(f func(decline)) {
	falls, breaks := m.s.Plan.Top.Falls, m.s.Plan.Top.Breaks
	arrow := func(s decline) {
		if s.from != s.to && !m.small(geometry.Distance(s.from, s.to), 1.3) {
			f(s)
		}
	}
	of := func(f plan.Fall, from, to geometry.Point) {
		arrow(decline{f.Drop, geometry.Distance(f.From, f.To), from, to, true})
	}
	top := m.surface()
	if top == nil {
		for _, f := range falls {
			of(f, f.From, f.To)
		}
		return
	}
	for _, a := range top.Arrows {
		switch { // the plan may have been changed since
		case a.Fall >= 0 && a.Fall < len(falls):
			of(falls[a.Fall], a.From, a.To)
		case a.Break >= 0 && a.Break < len(breaks):
			run := a.Told(breaks[a.Break], len(falls) == 0, m.d.Units)
			arrow(decline{a.Over(run, m.d.Units), run, a.From, a.To, false})
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
	if top := m.surface(); top == nil || m.o.Screen {
		for _, b := range m.s.Plan.Top.Breaks {
			if b.From != b.To {
				m.d.Stroke(drawn, b.From, b.To)
			}
		}
	}
	m.arrows(func(s decline) {
		m.d.Stroke(k, s.from, s.to)
		for _, t := range [2]float64{0.5, 1} {
			m.d.Mark(k, head, drawing.Between(s.from, s.to, t), s.to.Sub(s.from))
		}
	})
}

// fallNames writes how far each fall drops, beside its arrow and over the slab, and
// which lines are valleys and which are ridges.
func (m *Maker) fallNames() {
	lo, hi := m.bounds()
	mid := drawing.Between(lo, hi, 0.5)
	label := drawing.Label{Layer: drawing.Falls, Style: drawing.FallArrow, Type: drawing.Small, Start: 2, Near: 4, Reach: 60, Weight: placeWeight - 2}
	m.arrows(func(f decline) {
		side := float32(1.6)
		if geometry.Orientation(f.from, f.to, mid) < 0 {
			side = -side
		}
		line := f.to.Sub(f.from)
		var at [5]drawing.Spot
		for k, s := range [5]struct {
			t     float64
			aside float32
		}{{0.75, side}, {0.25, side}, {0.75, -side}, {0.5, side}, {0.25, -side}} {
			at[k] = drawing.Spot{At: drawing.Between(f.from, f.to, s.t), Line: line, Aside: s.aside, Turned: true}
		}
		m.lines = append(m.lines[:0], m.d.Join("falls ", m.d.Text(f.drop)))
		if !m.o.Screen || !f.drawn {
			m.lines[0] = m.d.Join(m.lines[0], m.d.Join(" in ", m.d.Text(f.run)))
		}
		l := label
		l.Of, l.At = "Fall", drawing.Between(f.from, f.to, 0.5)
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
		name := c.Meet.String()
		if c.Break {
			name = "top breaks"
		}
		m.lines = append(m.lines[:0], name)
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
	for _, h := range top.Breaks() {
		if !m.seen(h.At) {
			continue
		}
		l := label
		l.Of, l.At, l.Prefer = "Break", h.At, h.At.Sub(mid)
		m.lines = append(m.lines[:0], m.height("top ", lowest+h.Height))
		m.d.Mark(drawing.Pencil{Layer: drawing.Heights, Style: drawing.HeightText}, drawing.Dot, h.At, geometry.Point{})
		m.d.Label(l, m.lines)
	}
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
