package planview

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/layout/slab"
)

var _ = add(kind{layer: drawing.Walls, stage: lines, order: 11, draw: (*Maker).innerWalls, write: (*Maker).innerWallNames})

// innerWalls draws on a screen both faces of the walls that stand along lines of their own,
// left open at the doors: on paper their plates are drawn.
func (m *Maker) innerWalls() {
	if !m.o.Screen {
		return
	}
	k := drawing.Pencil{Layer: drawing.Walls, Style: drawing.WallLine}
	for i := range m.s.Plan.Walls {
		w := &m.s.Plan.Walls[i]
		if w.From == w.To || !m.seen(w.From, w.To) {
			continue
		}
		width := w.Board().Width
		right, _, _ := m.s.Plan.Lies(*w)
		s := slab.NewSide(-1, -1, w.From, w.To)
		for _, free := range w.Free(0) {
			for _, inset := range [...]geometry.Length{right, right + width} {
				m.d.Stroke(k, s.At(free[0], inset), s.At(free[1], inset))
			}
			for _, end := range free {
				m.d.Stroke(k, s.At(end, right), s.At(end, right+width))
			}
		}
	}
}

// innerWallNames writes the name of each such wall beside it, and on paper at which of its
// ends the tape hooks.
func (m *Maker) innerWallNames() {
	for i := range m.s.Plan.Walls {
		w := &m.s.Plan.Walls[i]
		if w.From == w.To || !m.seen(w.From, w.To) {
			continue
		}
		mark := m.marks().Within(i).String()
		name := m.called(m.marks().Within(i), w.Name, "Wall")
		l := drawing.Label{
			Layer: drawing.Walls, Style: drawing.NoteText, Type: drawing.Small | drawing.Bold, Of: "Wall " + mark, At: drawing.Between(w.From, w.To, 0.5),
			Start: 1.6, Near: 9, Reach: 60, Weight: placeWeight - 2, Short: mark,
		}
		one, other := drawing.Beside(w.From, w.To, 1.6, 0.5, 0.3, 0.7), drawing.Beside(w.From, w.To, -1.6, 0.5, 0.3, 0.7)
		if m.o.Screen {
			l.Reach = 0
			m.lines = append(m.lines[:0], name)
			m.d.Label(l, m.lines, append(one[:3], other[:3]...)...)
			continue
		}
		m.lines = append(m.lines[:0], m.d.Join("Wall ", name), m.d.Join(w.Kind.String(), ", tape from its one end"))
		m.d.Label(l, m.lines, append(one[:], other[:]...)...)
		m.d.Label(drawing.Label{
			Layer: drawing.Walls, Style: drawing.NoteText, Type: drawing.Small, Of: "One end of wall " + mark, At: w.From,
			Start: 1.6, Near: 6, Reach: 40, Weight: placeWeight - 3,
		}, []string{mark + ": one end"})
	}
}
