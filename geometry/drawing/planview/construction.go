package planview

import (
	"fmt"
	"strconv"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plan"
)

var _ = add(kind{layer: drawing.Construction, stage: lines, order: 10, draw: (*Maker).construction, write: (*Maker).constructionNames})

// constructionPencil is how construction joints are drawn.
var constructionPencil = drawing.Pencil{Layer: drawing.Construction, Style: drawing.ConstructionLine}

// constructionLine gives where a construction joint lies, for its name: its longest stretch on the slab
// where it is laid out, else as it was drawn.
func (m *Maker) constructionLine(i int) (a, b geometry.Point) {
	c := &m.s.Plan.Construction[i]
	a, b = c.From, c.To
	if m.s.Layout == nil {
		return a, b
	}
	for _, j := range m.s.Layout.Construction {
		if j.Index != i {
			continue
		}
		long := geometry.Length(0)
		for _, l := range j.Lines {
			if l.Length() > long {
				a, b, long = l.A, l.B, l.Length()
			}
		}
	}
	return a, b
}

// construction draws the joints between pours, with their dowels.
func (m *Maker) construction() {
	laid := map[int]bool{}
	if m.s.Layout != nil {
		for _, j := range m.s.Layout.Construction {
			laid[j.Index] = true
			for _, l := range j.Lines {
				m.d.Stroke(constructionPencil, l.A, l.B)
			}
			for _, d := range j.Dowels {
				m.d.Stroke(drawing.Pencil{Layer: drawing.Construction, Style: drawing.DowelLine}, d.A, d.B)
			}
		}
	}
	for i, c := range m.s.Plan.Construction {
		if !laid[i] && c.From != c.To {
			m.d.Stroke(constructionPencil, c.From, c.To)
		}
	}
}

// constructionMade tells the size of a joint's key, or of its dowels; "" for a plain face.
func (m *Maker) constructionMade(i int) string {
	if m.s.Layout == nil {
		return ""
	}
	for _, j := range m.s.Layout.Construction {
		switch {
		case j.Index != i:
		case j.Kind == plan.Keyed:
			return fmt.Sprintf("key %s high × %s deep", m.d.Text(j.Key.High), m.d.Text(j.Key.Deep))
		case len(j.Dowels) > 0:
			return fmt.Sprintf("dowels %s × %s at most %s apart", m.d.Text(j.Bar.Diameter), m.d.Text(j.Bar.Length), m.d.Text(j.Bar.Spacing))
		}
	}
	return ""
}

// constructionNames writes what each joint is, and in each part the day on which it is
// poured.
func (m *Maker) constructionNames() {
	for i, c := range m.s.Plan.Construction {
		a, b := m.constructionLine(i)
		if a == b || !m.seen(a, b) {
			continue
		}
		name := m.called(m.marks().Construction(i), c.Name, "Joint")
		m.lines = append(m.lines[:0], m.d.Join(name, m.d.Join(" ", c.Kind.String())))
		if made := m.constructionMade(i); made != "" && !m.on(drawing.Pour) { // who pours needs it no more
			m.lines = append(m.lines, made)
		}
		one, other := drawing.Beside(a, b, 0.8, 0.3, 0.7, 0.15, 0.85), drawing.Beside(a, b, -0.8, 0.3, 0.7, 0.15, 0.85)
		m.d.Label(drawing.Label{
			Layer: drawing.Construction, Style: drawing.ConstructionLine, Type: drawing.Small | drawing.Bold, Of: "Construction joint " + name, At: drawing.Between(a, b, 0.3),
			Start: 0.8, Near: 6, Reach: 60, Slides: true, Weight: placeWeight - 1, Short: m.marks().Construction(i).String(),
		}, m.lines, append(one[:], other[:]...)...)
	}
	if m.s.Layout == nil || len(m.s.Layout.Parts) < 2 {
		return
	}
	for _, part := range m.s.Layout.Parts {
		at, ok := part.Region.Middle()
		if !ok || !m.seen(at) {
			continue
		}
		m.lines = append(m.lines[:0], "Day "+strconv.Itoa(part.Day))
		m.d.Label(drawing.Label{
			Layer: drawing.Construction, Style: drawing.ConstructionLine, Type: drawing.Body | drawing.Bold, Of: "Part of a pour", At: at,
			Near: 20, Reach: 40, Weight: placeWeight - 4, // bays are numbered first
		}, m.lines, drawing.At(at))
	}
}
