package planview

import (
	"haunchbook.example/geometry/drawing"
)

var _ = add(kind{layer: drawing.Frost, stage: ground, order: 5, sound: true, draw: (*Maker).frostFoam, write: (*Maker).frostName})

// frostFoam draws the insulation of the edges against frost: what stands on their faces, and
// the wings that lie in the ground outside.
func (m *Maker) frostFoam() {
	if m.s.Frost == nil {
		return
	}
	pencil := drawing.Pencil{Layer: drawing.Frost, Style: drawing.FrostLine}
	for _, ring := range m.s.Frost.Upright {
		if m.seen(ring...) {
			m.d.Ring(pencil, ring...)
		}
	}
	for _, ring := range m.s.Frost.Lying {
		if m.seen(ring...) {
			m.d.Ring(pencil, ring...)
		}
	}
}

// frostName writes, once, how thick the insulation is and how far out it lies.
func (m *Maker) frostName() {
	f := m.s.Frost
	if f == nil || f.A == f.B || !m.seen(f.A, f.B) {
		return
	}
	m.lines = append(m.lines[:0], m.d.Join("frost foam ", m.d.Join(m.d.Text(f.Spec.Upright), " upright")))
	if f.Lies() {
		m.lines = append(m.lines, m.d.Join(m.d.Join(m.d.Text(f.Wing), " lying, "), m.d.Join(m.d.Text(f.Width), " out")))
	}
	label := drawing.Label{
		Layer: drawing.Frost, Style: drawing.FrostLine, Type: drawing.Small, Of: "Frost foam", At: drawing.Between(f.A, f.B, 0.5),
		Start: 1.2, Near: 6, Reach: m.reach(60), Slides: true, Weight: coverWeight,
	}
	if m.o.Screen {
		label.Short = "frost foam"
	}
	one, other := drawing.Beside(f.A, f.B, 0, 0.5, 0.3, 0.7), drawing.Beside(f.A, f.B, 0, 0.2, 0.8, 0.4, 0.6)
	m.d.Label(label, m.lines, append(one[:], other[:]...)...)
}
