package planview

import (
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plan"
)

// survey draws what stands round the slabs: benchmarks and notes.
func (m *Maker) survey() {
	if m.on(drawing.Survey) {
		for i := range m.in.Survey.Benchmarks {
			b := &m.in.Survey.Benchmarks[i]
			m.d.Mark(drawing.Pencil{Layer: drawing.Survey, Style: drawing.SurveyLine}, drawing.Benchmark, b.At, geometry.Point{})
			m.lines = append(m.lines[:0], b.Name)
			if !m.o.Screen {
				m.lines = append(m.lines[:0], Wrap(b.Name, noteLetters)...)
			}
			m.lines = append(m.lines, m.height("height ", b.Height))
			m.d.Label(drawing.Label{
				Layer: drawing.Survey, Style: drawing.SurveyLine, Type: drawing.Small, Short: b.Name, Of: "Benchmark", At: b.At, Left: !m.o.Screen, Rim: true, Optional: !m.o.Screen, // a list has them all
				Prefer: geometry.Point{X: 1}, Start: 2.9, Near: 6, Reach: 60, Weight: placeWeight,
			}, m.lines)
		}
	}
	if m.on(drawing.Survey) && m.o.Screen {
		for _, s := range m.in.Survey.Shots {
			m.d.Mark(drawing.Pencil{Layer: drawing.Survey, Style: drawing.SurveyLine}, drawing.WetPad, s.At, geometry.Point{})
		}
	}
	if m.on(drawing.Survey) {
		for _, p := range m.in.Photos {
			m.d.Label(drawing.Label{
				Layer: drawing.Survey, Style: drawing.SurveyLine, Type: drawing.Small, Short: p.Mark, Of: "Photograph", At: p.At, Frame: drawing.InCircle,
				Reach: 60, Weight: placeWeight + 1,
			}, append(m.lines[:0], p.Mark), drawing.Spot{At: p.At})
		}
	}
	if m.on(drawing.Notes) {
		for i := range m.in.Survey.Notes {
			m.note(&m.in.Survey.Notes[i])
		}
	}
}

// note writes a note where it stands, or on a sheet as near to it as there is room.
func (m *Maker) note(n *plan.Note) {
	l := drawing.Label{
		Layer: drawing.Notes, Style: drawing.NoteText, Type: drawing.Small, Of: "Note", At: n.At, Left: true, Frame: drawing.InBox,
		Reach: 120, Weight: placeWeight + 1,
	}
	if n.Leader {
		l.At, l.Leader, l.Start, l.Prefer = n.To, true, 6, n.At.Sub(n.To)
	}
	// Its left edge stands at its place, as beside a line up through it.
	m.d.Label(l, NoteLines(n.Text), drawing.Spot{At: n.At, Line: geometry.Point{Y: 1}, Aside: -0.01})
}

// noteLetters is how long a line of a note is before it is broken.
const noteLetters = 32

// NoteLines breaks a note into lines, by its own breaks and between words.
func NoteLines(text string) []string {
	var lines []string
	for _, l := range strings.Split(text, "\n") {
		lines = append(lines, Wrap(l, noteLetters)...)
	}
	return lines
}

// Wrap breaks text between words into lines of at most so many letters.
func Wrap(text string, most int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len(line)+1+len(word) > most {
			lines = append(lines, line)
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(lines, line)
}

// height prints a height over the datum after what it is of, on a screen with its
// sign.
func (m *Maker) height(what string, l geometry.Length) string {
	if l > 0 && m.o.Screen {
		what = m.d.Join(what, "+")
	}
	return m.d.Join(what, m.d.Text(l))
}
