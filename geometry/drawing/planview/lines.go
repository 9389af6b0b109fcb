package planview

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plan"
)

var _ = add(kind{layer: drawing.Lines, stage: lines, order: 11, draw: (*Maker).pipes, write: (*Maker).pipeNames})

// pipePencil is how lines along and under the slab are drawn.
var pipePencil = drawing.Pencil{Layer: drawing.Lines, Style: drawing.PipeLine}

// pipes draws the lines: a trench drain by both sides of its channel, others along their
// middle, tubing as its circuits are laid. One that is not laid out yet is drawn as its path.
func (m *Maker) pipes() {
	laid := map[int]bool{}
	if m.s.Layout != nil {
		for _, l := range m.s.Layout.LaidLines {
			laid[l.Index] = len(l.Runs) > 0
			for _, run := range l.Runs {
				m.pipe(&m.s.Plan.Lines[l.Index], run)
			}
		}
	}
	for i := range m.s.Plan.Lines {
		if l := &m.s.Plan.Lines[i]; !laid[i] {
			m.pipe(l, l.Path)
		}
	}
}

func (m *Maker) pipe(l *plan.Line, run []geometry.Point) {
	if len(run) < 2 || !m.seen(run...) {
		return
	}
	if l.Kind != plan.TrenchDrain {
		m.d.Stroke(pipePencil, run...)
		return
	}
	for i := 1; i < len(run); i++ {
		a, b := run[i-1], run[i]
		if a == b {
			continue
		}
		v := plan.Turn(geometry.Along(a, b, l.Diameter/2).Sub(a), 90)
		m.d.Ring(pipePencil, a.Sub(v), b.Sub(v), b.Add(v), a.Add(v))
	}
}

// pipeNames writes what each line is, how large and how deep, on a screen its mark alone.
func (m *Maker) pipeNames() {
	for i := range m.s.Plan.Lines {
		l := &m.s.Plan.Lines[i]
		if len(l.Path) < 2 || !m.seen(l.Path...) {
			continue
		}
		a, b := l.Path[0], l.Path[1]
		name := m.called(m.marks().Line(i), l.Name, l.Kind.String())
		label := drawing.Label{
			Layer: drawing.Lines, Style: drawing.PipeLine, Type: drawing.Small, Of: "Line " + name, At: drawing.Between(a, b, 0.5),
			Start: 1.2, Near: 6, Reach: 60, Slides: true, Weight: placeWeight - 1,
		}
		one, other := drawing.Beside(a, b, 0.8, 0.5, 0.3, 0.7), drawing.Beside(a, b, -0.8, 0.5, 0.3, 0.7)
		if m.o.Screen {
			m.lines = append(m.lines[:0], name)
			label.Near, label.Reach, label.Short = 8, 8, m.marks().Line(i).String()
			m.d.Label(label, m.lines, append(one[:], other[:]...)...)
			continue
		}
		m.lines = append(m.lines[:0], name, m.pipeSize(l), m.pipeDeep(l))
		if l.Kind == plan.Tubing {
			m.lines = append(m.lines, m.pipeLoops(i))
		}
		m.d.Label(label, m.lines, append(one[:], other[:]...)...)
	}
}

func (m *Maker) pipeSize(l *plan.Line) string {
	size := m.d.Join(m.d.Join(l.Kind.String(), " "), m.d.Text(l.Diameter))
	if l.Kind == plan.TrenchDrain {
		size = m.d.Join(size, m.d.Join(" × ", m.d.Text(l.Height)))
	}
	return size
}

func (m *Maker) pipeDeep(l *plan.Line) string {
	if end := l.CoverAt(l.Length()); end != l.Cover {
		return fmt.Sprintf("top %s to %s down", m.d.Text(l.Cover), m.d.Text(end))
	}
	return fmt.Sprintf("top %s down", m.d.Text(l.Cover))
}

// pipeLoops says how tubing is laid.
func (m *Maker) pipeLoops(i int) string {
	text := m.d.Text(m.s.Plan.Lines[i].Spacing) + " apart"
	if m.s.Layout == nil {
		return text
	}
	for _, l := range m.s.Layout.LaidLines {
		if l.Index == i {
			text = fmt.Sprintf("%s, circuits: %d of at most %s", text, len(l.Runs), m.d.Text(l.Each))
		}
	}
	return text
}
