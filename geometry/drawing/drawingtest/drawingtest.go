// Package drawingtest looks at placed drawings for tests: what stands on them, and
// what stands on what. It shares nothing with the search for free places but the
// shape of a box.
package drawingtest

import (
	"fmt"
	"math"
	"slices"

	"haunchbook.example/geometry/drawing"
)

// Fonts measures text as a typeface whose letters are all alike, in millimeters.
type Fonts struct {
	Again int // how often a text was measured that had been before
	asked map[string]bool
}

// Size implements drawing.Fonts.
func (f *Fonts) Size(text string, t drawing.Type) (width, above, below float64) {
	if k := fmt.Sprint(t, text); f.asked[k] {
		f.Again++
	} else {
		if f.asked == nil {
			f.asked = map[string]bool{}
		}
		f.asked[k] = true
	}
	em := t.Points() * 25.4 / 72
	return 0.52 * em * float64(len([]rune(text))), 0.76 * em, 0.24 * em
}

// Leading implements drawing.Fonts.
func (f *Fonts) Leading(t drawing.Type) float64 { return t.Points() * 25.4 / 72 * 1.28 }

// Seen is what a drawing renders. It is a drawing.Canvas.
type Seen struct {
	Words   []drawing.Word
	Lines   []Line
	Fills   []Fill
	Circles []Circle
}

// Line is one straight line.
type Line struct {
	drawing.Ink
	A, B drawing.Vec
}

// Fill is one area.
type Fill struct {
	drawing.Ink
	Rings [][]drawing.Vec
}

// Circle is one circle or disc.
type Circle struct {
	drawing.Ink
	At     drawing.Vec
	Radius float64
	Full   bool
}

// Look renders a placed drawing.
func Look(p *drawing.Placed) *Seen {
	s := &Seen{}
	p.Draw(s)
	return s
}

// Stroke implements drawing.Canvas.
func (s *Seen) Stroke(k drawing.Ink, pts []drawing.Vec, closed bool) {
	for i := 1; i < len(pts); i++ {
		s.Lines = append(s.Lines, Line{k, pts[i-1], pts[i]})
	}
	if n := len(pts); closed && n > 2 {
		s.Lines = append(s.Lines, Line{k, pts[n-1], pts[0]})
	}
}

// Fill implements drawing.Canvas.
func (s *Seen) Fill(k drawing.Ink, rings [][]drawing.Vec) {
	f := Fill{Ink: k}
	for _, r := range rings {
		f.Rings = append(f.Rings, slices.Clone(r))
	}
	s.Fills = append(s.Fills, f)
}

// Circle implements drawing.Canvas.
func (s *Seen) Circle(k drawing.Ink, at drawing.Vec, radius float64, full bool) {
	s.Circles = append(s.Circles, Circle{k, at, radius, full})
}

// Text implements drawing.Canvas.
func (s *Seen) Text(w drawing.Word) { s.Words = append(s.Words, w) }

// Says tells how often a text stands on the drawing.
func (s *Seen) Says(text string) (n int) {
	for _, w := range s.Words {
		if w.Text == text {
			n++
		}
	}
	return n
}

// Overlaps lists what stands on what: text on text, text on lines and circles,
// text outside the area, dimension lines that cross each other. Pens are those
// that the drawing is rendered with.
func (s *Seen) Overlaps(area drawing.Rect, pens *drawing.Pens) (out []string) {
	boxes := make([]drawing.Box, len(s.Words))
	for i := range s.Words {
		boxes[i] = s.Words[i].Box()
	}
	for i, w := range s.Words {
		if !area.Inset(-1e-6).Holds(boxes[i]) {
			out = append(out, fmt.Sprintf("%q is outside", w.Text))
		}
		for k := range boxes[:i] {
			if boxes[i].Hits(boxes[k]) {
				out = append(out, fmt.Sprintf("%q stands on %q", w.Text, s.Words[k].Text))
			}
		}
		for _, l := range s.Lines {
			pen := pens[l.Style]
			if pen.Width > 0 && l.A != l.B && boxes[i].Hits(drawing.BoxOf(l.A, l.B, 0).Grown(pen.Width/2-0.05)) {
				out = append(out, fmt.Sprintf("%q stands on a line of %s, style %d, from %v to %v", w.Text, l.Layer, l.Style, l.A, l.B))
			}
		}
		for _, c := range s.Circles {
			if c.Full && pens[c.Style].Hard && boxes[i].Nearest(c.At).Sub(c.At).Length() < c.Radius {
				out = append(out, fmt.Sprintf("%q stands on a disc of %s", w.Text, c.Layer))
			}
			if !c.Full && pens[c.Style].Width > 0 && onCircle(boxes[i], c) {
				out = append(out, fmt.Sprintf("%q stands on a circle of %s", w.Text, c.Layer))
			}
		}
	}
	return append(out, s.crossings()...)
}

// onCircle tells whether a circle's line runs through a box.
func onCircle(b drawing.Box, c Circle) bool {
	far := 0.0
	for _, q := range b.Corners() {
		far = max(far, q.Sub(c.At).Length())
	}
	return b.Nearest(c.At).Sub(c.At).Length() < c.Radius && far > c.Radius
}

// crossings lists the dimension lines that cross each other but where one ends.
func (s *Seen) crossings() (out []string) {
	var dims []Line
	for _, l := range s.Lines {
		if l.Style == drawing.DimLine || l.Style == drawing.ExtLine {
			dims = append(dims, l)
		}
	}
	const end = 0.9 // mm: an extension line meets the strings of its stop there
	for i, l := range dims {
		for _, k := range dims[:i] {
			if at, ok := meet(l, k); ok && l.Style == drawing.DimLine && k.Style == drawing.DimLine {
				near := min(at.Sub(l.A).Length(), at.Sub(l.B).Length(), at.Sub(k.A).Length(), at.Sub(k.B).Length())
				if near > end {
					out = append(out, fmt.Sprintf("dimension lines %v–%v and %v–%v cross", l.A, l.B, k.A, k.B))
				}
			}
		}
	}
	return out
}

func meet(l, k Line) (drawing.Vec, bool) {
	u, v, w := l.B.Sub(l.A), k.B.Sub(k.A), k.A.Sub(l.A)
	det := u.X*v.Y - u.Y*v.X
	if math.Abs(det) < 1e-9 {
		return drawing.Vec{}, false
	}
	s, t := (w.X*v.Y-w.Y*v.X)/det, (w.X*u.Y-w.Y*u.X)/det
	return l.A.Add(u.Times(s)), s > 0 && s < 1 && t > 0 && t < 1
}

// Lost gives, of the texts that must stand on a drawing, those that are neither on
// it nor in its rows, each as often as it is missing.
func Lost(p *drawing.Placed, must []string) (out []string) {
	have := map[string]int{}
	for _, w := range p.Words() {
		have[w.Text]++
	}
	for _, r := range p.Rows {
		for _, t := range r.Texts {
			have[t]++
		}
	}
	for _, t := range must {
		if have[t]--; have[t] < 0 {
			out = append(out, t)
		}
	}
	return out
}
