package scene

import (
	"math"

	"haunchbook.example/app/window/canvas/paint"
)

// pour draws lanes and bays, wet pads, trucks and how far they reach.
func (s *Scene) pour() {
	p, c := s.in.Pour, s.pal.Pour
	for _, l := range p.Lines {
		if l.Lane {
			s.line(l.A, l.B, 1.6, c)
		} else {
			s.dashes(l.A, l.B, 6, 4, 1, c)
		}
	}
	for _, t := range p.Trucks {
		at := s.pt(t.At)
		if p.Reach > 0 {
			s.arc(at, s.v.Pixels(p.Reach))
		}
		s.Brush.Rect(at.X-13*s.k, at.Y-9*s.k, at.X+13*s.k, at.Y+9*s.k, c)
	}
	for _, w := range p.Pads {
		at := s.pt(w.At)
		s.Brush.Circle(at, 5*s.k, 2*s.k, c)
		s.Brush.Circle(at, 1.5*s.k, 0, c)
	}
}

// arc draws a dashed circle.
func (s *Scene) arc(at paint.Point, radius float64) {
	if radius < 8 || radius > 20*(s.w+s.h) {
		return
	}
	n := min(max(24, 2*int(radius*math.Pi/(8*s.k))), 720)
	for i := 0; i < n; i += 2 {
		s0, c0 := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		s1, c1 := math.Sincos(2 * math.Pi * float64(i+1) / float64(n))
		s.Brush.Line(paint.Point{X: at.X + radius*c0, Y: at.Y + radius*s0}, paint.Point{X: at.X + radius*c1, Y: at.Y + radius*s1}, 1.4*s.k, s.pal.Pour)
	}
}

// pourTexts numbers the bays in the order they are placed, with the concrete used
// by then.
func (s *Scene) pourTexts() {
	p, c := s.in.Pour, s.pal.Pour
	for _, t := range p.Trucks {
		at := s.pt(t.At)
		s.Brush.Text(t.Name, at, TextSize*s.k, false, s.pal.Paper)
		s.room.Take(s.box(t.Name, at, false))
		if p.Reach > 0 {
			r := s.v.Pixels(p.Reach)
			s.put("reach "+s.text(p.Reach), false, c, paint.Point{X: at.X, Y: at.Y - r}, paint.Point{X: at.X, Y: at.Y + r}, paint.Point{X: at.X + r, Y: at.Y}, paint.Point{X: at.X - r, Y: at.Y})
		}
	}
	for i := range p.Bays {
		b := &p.Bays[i]
		at := s.pt(b.Middle)
		if !s.onScreen(at) {
			continue
		}
		if !s.seen(b.Middle) {
			continue
		}
		step := max(17*s.k, s.v.Pixels(b.Size)/5)
		places := [5]paint.Point{at, {X: at.X, Y: at.Y - step}, {X: at.X, Y: at.Y + step}, {X: at.X - step*1.6, Y: at.Y}, {X: at.X + step*1.6, Y: at.Y}}
		if s.pixels(b.Size) > 60 { // room for more than the number
			s.texts.lines = append(s.texts.lines[:0], b.Text, b.Used)
			if s.putLines(s.texts.lines, c, places[:]...) || s.put(b.Text, false, c, places[:]...) {
				continue
			}
		}
		s.put(b.Name, false, c, places[:]...)
	}
	for _, w := range p.Pads {
		s.beside(w.Name, s.pt(w.At), 7, c)
	}
}
