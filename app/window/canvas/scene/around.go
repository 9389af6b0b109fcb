package scene

import (
	"image/color"
	"math"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/app/window/words"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/planview"
)

// take keeps labels off a box of the screen, logical pixels with Y down.
func (s *Scene) take(b hit.Box) {
	h := s.in.View.H
	s.taken = append(s.taken, drawing.Rect{X0: b.X0, Y0: h - b.Y1, X1: b.X1, Y1: h - b.Y0}.Box())
}

func (s *Scene) xy(p view.XY) paint.Point { return paint.Point{X: p.X * s.k, Y: p.Y * s.k} }

// measure gives the size of a line of text, logical pixels.
func (s *Scene) measure(text string) (w, h float64) {
	size := TextSize * s.k
	return s.Brush.Fonts.Width(text, size) / s.k, s.Brush.Fonts.Height(size) / s.k
}

// filled fills the scratch path.
func (s *Scene) filled(c color.NRGBA) {
	s.rings[0] = s.path
	s.Brush.Fill(s.rings[:], c)
}

// placeNorth keeps labels off the arrow that points north.
func (s *Scene) placeNorth() {
	if s.in.Survey.North.Known {
		at, r := hit.NorthArrow(s.in.View)
		s.take(hit.BoxAround(at, r))
	}
}

// drawNorth draws an arrow in the corner of the screen, where north is known.
func (s *Scene) drawNorth() {
	n := s.in.Survey.North
	if !n.Known {
		return
	}
	corner, frame := hit.NorthArrow(s.in.View)
	r, at, pal := frame-9, s.xy(corner), &s.in.Palette
	sin, cos := math.Sincos(n.Turn * math.Pi / 180)
	place := func(right, up float64) paint.Point {
		return paint.Point{X: at.X + (right*cos+up*sin)*s.k, Y: at.Y + (right*sin-up*cos)*s.k}
	}
	s.Brush.Circle(at, frame*s.k, 0, pal.Plate)
	s.Brush.Circle(at, frame*s.k, s.k, pal.Faint)
	// One half of the head is full, so that its direction is seen.
	s.Brush.Line(place(0, -r-2), place(0, 0), 1.6*s.k, pal.Ink)
	s.path = append(s.path[:0], place(0, 11), place(-8, -7), place(0, -2))
	s.filled(pal.Ink)
	s.path = append(s.path[:0], place(0, 11), place(8, -7), place(0, -2), place(0, 11))
	s.Brush.Polyline(s.path, false, 1.2*s.k, pal.Ink)
	s.Brush.Text("N", place(0, r-3), 13*s.k, false, pal.Text)
}

// placeNotes keeps labels off the frames of notes, which stand where they were put.
func (s *Scene) placeNotes() {
	for i := range s.in.Survey.Notes {
		n := &s.in.Survey.Notes[i]
		s.take(hit.NoteBox(*n, s.in.View, s.noteLines(n.Text), s.measure))
	}
}

// noteLines gives the lines of a note, broken once.
func (s *Scene) noteLines(text string) []string {
	const most = 1000
	if t, ok := s.notes[text]; ok {
		return t
	}
	if s.notes == nil || len(s.notes) > most {
		s.notes = map[string][]string{}
	}
	s.notes[text] = planview.NoteLines(text)
	return s.notes[text]
}

// drawNotes draws the leaders of notes and then their frames.
func (s *Scene) drawNotes() {
	pal := &s.in.Palette
	for i := range s.in.Survey.Notes {
		n := &s.in.Survey.Notes[i]
		if !n.Leader {
			continue
		}
		a, b := s.xy(s.in.View.Screen(n.At)), s.xy(s.in.View.Screen(n.To))
		l := math.Hypot(b.X-a.X, b.Y-a.Y)
		if l < 1 {
			continue
		}
		s.Brush.Line(a, b, 1.2*s.k, pal.Ink)
		ux, uy := (b.X-a.X)/l, (b.Y-a.Y)/l
		h := 9 * s.k
		s.path = append(s.path[:0], b, paint.Point{X: b.X - ux*h - uy*h/3, Y: b.Y - uy*h + ux*h/3}, paint.Point{X: b.X - ux*h + uy*h/3, Y: b.Y - uy*h - ux*h/3})
		s.filled(pal.Ink)
	}
	_, h := s.measure("")
	for i := range s.in.Survey.Notes {
		n := &s.in.Survey.Notes[i]
		lines := s.noteLines(n.Text)
		f := hit.NoteBox(*n, s.in.View, lines, s.measure)
		if f.X0 > s.in.View.W || f.Y1 < 0 || f.Y0 > s.in.View.H {
			continue
		}
		a, b := s.xy(view.XY{X: f.X0, Y: f.Y0}), s.xy(view.XY{X: f.X1, Y: f.Y1})
		s.Brush.Rect(a.X, a.Y, b.X, b.Y, pal.Plate)
		s.path = append(s.path[:0], a, paint.Point{X: b.X, Y: a.Y}, b, paint.Point{X: a.X, Y: b.Y})
		s.Brush.Polyline(s.path, true, s.k, pal.Faint)
		for k, l := range lines {
			s.Brush.TextLeft(l, s.xy(view.XY{X: f.X0 + hit.NoteMarginX, Y: f.Y0 + hit.NoteMarginY + h*(float64(k)+0.5)}), TextSize*s.k, pal.Text)
		}
	}
}

// placeFaults keeps labels off what is said of the first few faults.
func (s *Scene) placeFaults() {
	below := 0.0
	for i := range min(len(s.in.Faults), faultsSaid) {
		_, b := s.said(i, below)
		s.take(b)
		below = b.Y1
	}
}

// faultsSaid is how many faults are said beside their place; the list beside the
// plan has them all.
const faultsSaid = 3

// said gives the lines that say a fault, and where they stand: beside its place,
// below what is said already.
func (s *Scene) said(i int, below float64) ([]string, hit.Box) {
	f := &s.in.Faults[i]
	lines := planview.Wrap(words.Say(f.Found+": "+f.Want), 44)
	p, v := s.in.View.Screen(f.At), s.in.View
	w, h := 0.0, 0.0
	for _, l := range lines {
		lw, lh := s.measure(l)
		w, h = max(w, lw), lh
	}
	tall := h*float64(len(lines)) + 4
	x, left := p.X+22, v.W-w-8
	if x > left { // to the left, where there is no room at the right
		x = min(p.X-22-w, left)
	}
	x = max(x, 8)
	y := min(max(p.Y-20, below+4, 4), v.H-tall-4)
	return lines, hit.Box{X0: x - 6, Y0: y, X1: x + w + 5, Y1: y + tall}
}

// drawFaults marks each fault at its place with a sign, and says the first few.
func (s *Scene) drawFaults() {
	pal := &s.in.Palette
	_, h := s.measure("")
	below := 0.0
	for i := range min(len(s.in.Faults), faultsSaid) {
		lines, b := s.said(i, below)
		below = b.Y1
		p, q := s.xy(view.XY{X: b.X0, Y: b.Y0}), s.xy(view.XY{X: b.X1, Y: b.Y1})
		s.Brush.Rect(p.X, p.Y, q.X, q.Y, pal.Paper)
		s.Brush.Rect(p.X, p.Y, p.X+3*s.k, q.Y, pal.Fault)
		for n, l := range lines {
			s.Brush.TextLeft(l, s.xy(view.XY{X: b.X0 + 8, Y: b.Y0 + 2 + h*(float64(n)+0.5)}), TextSize*s.k, pal.Fault)
		}
	}
	for i, f := range s.in.Faults {
		at := s.in.View.Screen(f.At)
		if i > 0 && f.At == s.in.Faults[i-1].At || at.X < 0 || at.Y < 0 || at.X > s.in.View.W || at.Y > s.in.View.H {
			continue
		}
		p, t := s.xy(at), 11*s.k
		c := paint.Point{X: p.X, Y: p.Y - t*0.2}
		s.path = append(s.path[:0], paint.Point{X: c.X, Y: c.Y - t}, paint.Point{X: c.X + t, Y: c.Y + t*0.8}, paint.Point{X: c.X - t, Y: c.Y + t*0.8})
		s.filled(pal.Fault)
		s.Brush.Text("!", paint.Point{X: c.X, Y: c.Y + t*0.12}, 13*s.k, false, pal.FaultInk)
	}
}
