package scene

import (
	"haunchbook.example/app/window/canvas/dim"
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/room"
)

// dims draws the lines of the dimensions.
func (s *Scene) dims() {
	soft := between(s.pal.Dim, s.pal.Paper, 0.5)
	for i := range s.in.Dims {
		d := &s.in.Dims[i]
		a, b := s.xy(d.A), s.xy(d.B)
		s.Brush.Line(s.xy(d.FromA), a, s.k, soft)
		s.Brush.Line(s.xy(d.FromB), b, s.k, soft)
		s.Brush.Line(a, b, s.k, s.pal.Dim)
		t := 3.5 * s.k
		for _, p := range [2]paint.Point{a, b} { // slashes at the ends
			s.Brush.Line(paint.Point{X: p.X - t, Y: p.Y + t}, paint.Point{X: p.X + t, Y: p.Y - t}, 1.4*s.k, s.pal.Dim)
		}
	}
}

// dimTexts writes the numbers, which stand where they can be clicked.
func (s *Scene) dimTexts() {
	for i := range s.in.Dims {
		d := &s.in.Dims[i]
		at := s.xy(d.At)
		b := s.dimBox(d)
		s.room.Take(b)
		s.Brush.Rect(b.X0, b.Y0, b.X1, b.Y1, s.pal.Paper)
		s.Brush.Text(d.Text, at, TextSize*s.k, d.Turn, s.pal.Text)
	}
}

func (s *Scene) dimBox(d *dim.Dim) room.Box {
	w, h := d.W+4, d.H
	if d.Turn {
		w, h = d.W, d.H+4
	}
	at := s.xy(d.At)
	return room.Around(at.X, at.Y, w*s.k, h*s.k)
}

// faults marks each fault at its place with a sign, and says the first few; the
// list beside the plan has them all.
func (s *Scene) faults() {
	below := 0.0
	for i, f := range s.in.Faults {
		if i < 3 {
			below = s.note(hit.Wrap(f.Found+": "+f.Want, 44), s.pt(f.At), below)
		}
	}
	for i, f := range s.in.Faults {
		p := s.pt(f.At)
		if i > 0 && f.At == s.in.Faults[i-1].At || !s.onScreen(p) {
			continue
		}
		t := 11 * s.k
		c := paint.Point{X: p.X, Y: p.Y - t*0.2}
		s.path = append(s.path[:0], paint.Point{X: c.X, Y: c.Y - t}, paint.Point{X: c.X + t, Y: c.Y + t*0.8}, paint.Point{X: c.X - t, Y: c.Y + t*0.8})
		s.filled(s.pal.Fault)
		s.Brush.Text("!", paint.Point{X: c.X, Y: c.Y + t*0.12}, 13*s.k, false, s.pal.FaultInk)
	}
}

// note writes lines beside a place, below what is written there already, and
// gives where it ends.
func (s *Scene) note(lines []string, p paint.Point, below float64) float64 {
	size := TextSize * s.k
	w, h := 0.0, s.Brush.Fonts.Height(size)
	for _, l := range lines {
		w = max(w, s.Brush.Fonts.Width(l, size))
	}
	tall := h*float64(len(lines)) + 4*s.k
	x, left := p.X+22*s.k, s.w-w-8*s.k
	if x > left { // to the left, where there is no room at the right
		x = min(p.X-22*s.k-w, left)
	}
	y := min(max(p.Y-20*s.k, below+4*s.k, 4*s.k), s.h-tall-4*s.k)
	x = max(x, 8*s.k)
	s.room.Take(room.Box{X0: x - 6*s.k, Y0: y, X1: x + w + 5*s.k, Y1: y + tall})
	s.Brush.Rect(x-6*s.k, y, x+w+5*s.k, y+tall, s.pal.Paper)
	s.Brush.Rect(x-6*s.k, y, x-3*s.k, y+tall, s.pal.Fault)
	for i, l := range lines {
		s.Brush.TextLeft(l, paint.Point{X: x + 2*s.k, Y: y + 2*s.k + h*(float64(i)+0.5)}, size, s.pal.Fault)
	}
	return y + tall
}
