package scene

import (
	"image/color"

	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/room"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/mark"
)

// texts keeps printed lengths from picture to picture.
type texts struct {
	units   geometry.Units
	known   map[geometry.Length]string
	heights map[height]string
	marks   map[sized]string
	notes   map[string][]string
	covers  map[covering]string
	lines   []string // scratch

	least   geometry.Length // of the diagonals that are drawn
	leastOf *layout.Layout
}

type height struct {
	what string
	of   geometry.Length
}

type covering struct {
	of   *Cover
	what string
}

// sized is a bar's mark with its size.
type sized struct {
	mark mark.Mark
	size int
}

// maxTexts bounds what is kept; past it, it starts anew.
const maxTexts = 4096

func (t *texts) of(u geometry.Units) {
	if t.known == nil || u != t.units || len(t.known)+len(t.heights)+len(t.marks)+len(t.notes) > maxTexts {
		t.units = u
		t.known, t.heights = map[geometry.Length]string{}, map[height]string{}
		t.marks, t.notes, t.covers = map[sized]string{}, map[string][]string{}, map[covering]string{}
	}
}

// text prints a length in the job's units.
func (s *Scene) text(l geometry.Length) string {
	if t, ok := s.texts.known[l]; ok {
		return t
	}
	t := l.Text(s.texts.units)
	s.texts.known[l] = t
	return t
}

// box gives the room of a label of one line.
func (s *Scene) box(text string, at paint.Point, turn bool) room.Box {
	size := TextSize * s.k
	w, h := s.Brush.Fonts.Width(text, size)+5*s.k, s.Brush.Fonts.Height(size)
	if turn {
		w, h = h, w
	}
	return room.Around(at.X, at.Y, w, h)
}

// fits tells whether a label can stand there: on the screen and on no other.
func (s *Scene) fits(b room.Box) bool {
	return b.X0 >= 0 && b.Y0 >= 0 && b.X1 <= s.w && b.Y1 <= s.h && s.room.Free(b)
}

// put writes a label on a plate at the first of some places where there is room.
func (s *Scene) put(text string, turn bool, c color.NRGBA, at ...paint.Point) bool {
	first := s.box(text, at[0], turn)
	for _, p := range at {
		dx, dy := p.X-at[0].X, p.Y-at[0].Y
		if b := (room.Box{X0: first.X0 + dx, Y0: first.Y0 + dy, X1: first.X1 + dx, Y1: first.Y1 + dy}); s.fits(b) {
			s.write(text, p, turn, c, b)
			return true
		}
	}
	return false
}

func (s *Scene) write(text string, at paint.Point, turn bool, c color.NRGBA, b room.Box) {
	s.room.Take(b)
	s.Brush.Rect(b.X0, b.Y0, b.X1, b.Y1, s.pal.Plate)
	s.Brush.Text(text, at, TextSize*s.k, turn, c)
}

// putLines writes several lines as one label, at the first of some places for its
// middle where there is room.
func (s *Scene) putLines(lines []string, c color.NRGBA, at ...paint.Point) bool {
	size := TextSize * s.k
	w, h := 0.0, s.Brush.Fonts.Height(size)
	for _, l := range lines {
		w = max(w, s.Brush.Fonts.Width(l, size))
	}
	for _, p := range at {
		b := room.Around(p.X, p.Y, w+6*s.k, h*float64(len(lines))+2*s.k)
		if !s.fits(b) {
			continue
		}
		s.room.Take(b)
		s.Brush.Rect(b.X0, b.Y0, b.X1, b.Y1, s.pal.Plate)
		for i, l := range lines {
			s.Brush.Text(l, paint.Point{X: p.X, Y: b.Y0 + s.k + h*(float64(i)+0.5)}, size, false, c)
		}
		return true
	}
	return false
}

// around gives places for a label of a size round a point, px logical pixels away.
func (s *Scene) around(p paint.Point, w, h, px float64) [8]paint.Point {
	x, y, d := w/2+px*s.k, h/2+px*s.k, px*s.k*0.6
	return [8]paint.Point{
		{X: p.X + x, Y: p.Y - d}, {X: p.X - x, Y: p.Y - d}, {X: p.X, Y: p.Y - y}, {X: p.X, Y: p.Y + y},
		{X: p.X + x, Y: p.Y - y}, {X: p.X - x, Y: p.Y - y}, {X: p.X + x, Y: p.Y + y}, {X: p.X - x, Y: p.Y + y},
	}
}

// beside writes a label beside a point.
func (s *Scene) beside(text string, p paint.Point, px float64, c color.NRGBA) bool {
	b := s.box(text, p, false)
	near := s.around(p, b.X1-b.X0, b.Y1-b.Y0, px)
	return s.put(text, false, c, near[:]...)
}

// onScreen tells whether a device point is on the screen.
func (s *Scene) onScreen(p paint.Point) bool {
	return p.X >= 0 && p.Y >= 0 && p.X <= s.w && p.Y <= s.h
}
