package planview

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
)

var _ = add(kind{layer: drawing.Embeds, stage: placed, order: 10, draw: (*Maker).embeds, write: (*Maker).embedNames})

// embedPencil is how embeds are drawn.
var embedPencil = drawing.Pencil{Layer: drawing.Embeds, Style: drawing.EmbedLine}

// embeds draws what is set before the pour, each kind by its own sign within its rim: a drain
// with a cross, what comes up through the slab with a dot, a post base with one diagonal.
func (m *Maker) embeds() {
	for i := range m.s.Plan.Embeds {
		e := &m.s.Plan.Embeds[i]
		if !m.seen(e.Center) {
			continue
		}
		if e.Round() {
			m.d.Circle(embedPencil, e.Center, e.Width/2, 0.7, 0, false)
		} else {
			m.d.Ring(embedPencil, e.Ring()...)
		}
		if dot := e.Dot(); dot > 0 {
			m.d.Circle(embedPencil, e.Center, dot, 0.3, 0, true)
		}
		for _, s := range e.Sign() {
			m.d.Stroke(embedPencil, s[0], s[1])
		}
	}
}

// embedNames writes what each is and how large, on a screen its mark alone.
func (m *Maker) embedNames() {
	for i := range m.s.Plan.Embeds {
		e := &m.s.Plan.Embeds[i]
		name := m.called(m.marks().Embed(i), e.Name, e.Kind.String())
		if !m.seen(e.Center) {
			continue
		}
		l := drawing.Label{
			Layer: drawing.Embeds, Style: drawing.EmbedLine, Type: drawing.Small, Of: "Embed " + name, At: e.Center,
			Start: 1.6, Near: 6, Reach: 60, Weight: placeWeight - 1,
		}
		if m.o.Screen {
			r := max(e.Width, e.Length) / 2
			m.lines = append(m.lines[:0], name)
			l.Start, l.Near, l.Reach, l.Short = 1.6, 8, 8, m.marks().Embed(i).String()
			m.d.Label(l, m.lines, drawing.Spot{At: e.Center.Add(geometry.Point{X: r}), Ahead: 1 + 0.5*float32(len(name))})
			continue
		}
		size := m.d.Text(e.Width)
		if !e.Round() {
			size = m.d.Join(size, m.d.Join(" × ", m.d.Text(e.Length)))
		}
		if e.Deep > 0 {
			size = m.depthOf(size, e.Deep)
		}
		m.lines = append(m.lines[:0], name, m.d.Join(m.d.Join(e.Kind.String(), " "), size))
		m.d.Label(l, m.lines)
	}
}
