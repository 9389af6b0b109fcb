package scene

import (
	"math"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/room"
)

// north draws an arrow in the corner of the screen, where north is known.
func (s *Scene) north() {
	n := s.in.Survey.North
	if !n.Known {
		return
	}
	corner, frame := hit.NorthArrow(s.in.View)
	r := frame - 9
	at := paint.Point{X: corner.X * s.k, Y: corner.Y * s.k}
	sin, cos := math.Sincos(n.Turn * math.Pi / 180)
	place := func(right, up float64) paint.Point {
		return paint.Point{X: at.X + (right*cos+up*sin)*s.k, Y: at.Y + (right*sin-up*cos)*s.k}
	}
	s.room.Take(room.Around(at.X, at.Y, 2*(r+10)*s.k, 2*(r+10)*s.k))
	s.Brush.Circle(at, (r+9)*s.k, 0, s.pal.Plate)
	s.Brush.Circle(at, (r+9)*s.k, s.k, s.pal.Faint)
	// One half of the head is full, so that its direction is seen.
	s.Brush.Line(place(0, -r-2), place(0, 0), 1.6*s.k, s.pal.Ink)
	s.path = append(s.path[:0], place(0, 11), place(-8, -7), place(0, -2))
	s.filled(s.pal.Ink)
	s.path = append(s.path[:0], place(0, 11), place(8, -7), place(0, -2), place(0, 11))
	s.Brush.Polyline(s.path, false, 1.2*s.k, s.pal.Ink)
	s.Brush.Text("N", place(0, r-3), 13*s.k, false, s.pal.Text)
}

// filled fills the scratch path.
func (s *Scene) filled(c shade) {
	if len(s.rings) == 0 {
		s.rings = append(s.rings, nil)
	}
	s.rings[0] = append(s.rings[0][:0], s.path...)
	s.Brush.Fill(s.rings[:1], c)
}

// survey draws the marks of benchmarks and the leaders of notes.
func (s *Scene) survey() {
	for i := range s.in.Survey.Benchmarks {
		p := s.pt(s.in.Survey.Benchmarks[i].At)
		if !s.onScreen(p) {
			continue
		}
		// A circle in quarters, two of them full.
		r := 8 * s.k
		s.Brush.Circle(p, r, 0, s.pal.Paper)
		for _, d := range [2]float64{1, -1} {
			s.path = append(s.path[:0], p)
			for k := range 9 {
				sin, cos := math.Sincos(math.Pi / 16 * float64(k))
				s.path = append(s.path, paint.Point{X: p.X + d*r*cos, Y: p.Y - d*r*sin})
			}
			s.filled(s.pal.Ink)
		}
		s.Brush.Circle(p, r, 1.4*s.k, s.pal.Ink)
	}
	for i := range s.in.Survey.Notes {
		n := &s.in.Survey.Notes[i]
		if !n.Leader {
			continue
		}
		a, b := s.pt(n.At), s.pt(n.To)
		l := math.Hypot(b.X-a.X, b.Y-a.Y)
		if l < 1 {
			continue
		}
		s.Brush.Line(a, b, 1.2*s.k, s.pal.Ink)
		ux, uy := (b.X-a.X)/l, (b.Y-a.Y)/l
		h := 9 * s.k
		s.path = append(s.path[:0], b, paint.Point{X: b.X - ux*h - uy*h/3, Y: b.Y - uy*h + ux*h/3}, paint.Point{X: b.X - ux*h + uy*h/3, Y: b.Y - uy*h - ux*h/3})
		s.filled(s.pal.Ink)
	}
}

// surveyTexts writes notes, which stand where they were put, and benchmarks.
func (s *Scene) surveyTexts() {
	size := TextSize * s.k
	h := s.Brush.Fonts.Height(size)
	for i := range s.in.Survey.Notes {
		n := &s.in.Survey.Notes[i]
		p := s.pt(n.At)
		if p.X > s.w || p.Y < -400*s.k || p.Y > s.h+400*s.k {
			continue
		}
		lines := s.noteLines(n.Text)
		w := 0.0
		for _, l := range lines {
			w = max(w, s.Brush.Fonts.Width(l, size))
		}
		f := hit.NoteBox(*n, s.in.View, w/s.k, h/s.k, len(lines))
		b := room.Box{X0: f.X0 * s.k, Y0: f.Y0 * s.k, X1: f.X1 * s.k, Y1: f.Y1 * s.k}
		s.room.Take(b)
		s.Brush.Rect(b.X0, b.Y0, b.X1, b.Y1, s.pal.Plate)
		s.path = append(s.path[:0], paint.Point{X: b.X0, Y: b.Y0}, paint.Point{X: b.X1, Y: b.Y0}, paint.Point{X: b.X1, Y: b.Y1}, paint.Point{X: b.X0, Y: b.Y1})
		s.Brush.Polyline(s.path, true, s.k, s.pal.Faint)
		for k, l := range lines {
			s.Brush.TextLeft(l, paint.Point{X: b.X0 + hit.NoteMarginX*s.k, Y: b.Y0 + hit.NoteMarginY*s.k + h*(float64(k)+0.5)}, size, s.pal.Text)
		}
	}
	for i := range s.in.Survey.Benchmarks {
		m := &s.in.Survey.Benchmarks[i]
		p := s.pt(m.At)
		if !s.onScreen(p) {
			continue
		}
		s.texts.lines = append(s.texts.lines[:0], m.Name, s.grade("height ", m.Height))
		w := max(s.Brush.Fonts.Width(m.Name, size), s.Brush.Fonts.Width(s.texts.lines[1], size)) + 6*s.k
		near := s.around(p, w, 2*h+2*s.k, 11)
		if !s.putLines(s.texts.lines, s.pal.Text, near[:]...) {
			s.beside(m.Name, p, 11, s.pal.Text)
		}
	}
}

// noteLines gives the lines of a note, broken once.
func (s *Scene) noteLines(text string) []string {
	if t, ok := s.texts.notes[text]; ok {
		return t
	}
	lines := hit.NoteLines(text)
	s.texts.notes[text] = lines
	return lines
}
