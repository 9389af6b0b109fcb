package scene

import (
	"math"

	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/stakeout"
)

// pick is a diagonal that is drawn.
type pick struct{ a, b geometry.Point }

// mostDiagonals is how many diagonals are drawn at once: with more, none can be
// followed. The sheet lists all.
const mostDiagonals = 10

// shortLine is how long a string line must be on the screen to be told from its
// neighbors, pixels.
const shortLine = 60

// stakeOut draws string lines to their stakes, the diagonals, and the 3-4-5
// checks of right angles.
func (s *Scene) stakeOut(l *layout.Layout) {
	c := s.pal.Stake
	for _, t := range l.Lines {
		if s.v.Pixels(geometry.Distance(t.A, t.B)) < shortLine*s.k || !s.seen(t.A, t.B) {
			continue
		}
		s.dashes(t.A, t.B, 18, 3, 1, c)
		for _, p := range [2]geometry.Point{t.A, t.B} {
			q, r := s.pt(p), 3.5*s.k
			s.Brush.Line(paint.Point{X: q.X - r, Y: q.Y - r}, paint.Point{X: q.X + r, Y: q.Y + r}, 1.4*s.k, c)
			s.Brush.Line(paint.Point{X: q.X - r, Y: q.Y + r}, paint.Point{X: q.X + r, Y: q.Y - r}, 1.4*s.k, c)
		}
	}
	s.pickDiagonals(l)
	for _, d := range s.picks {
		s.dashes(d.a, d.b, 2, 5, 1, c)
	}
	for _, q := range l.Squares {
		if corner, ok := s.square(q); ok {
			s.line(corner, q.A, 2, c)
			s.line(corner, q.B, 2, c)
			s.line(q.A, q.B, 1, c)
			s.Brush.Circle(s.pt(q.A), 3*s.k, 0, c)
			s.Brush.Circle(s.pt(q.B), 3*s.k, 0, c)
		}
	}
}

// square gives the corner of a 3-4-5 check, false where it is not drawn: on short
// edges, or too small to be read.
func (s *Scene) square(q stakeout.Square) (geometry.Point, bool) {
	o := s.cur.Plan.Outline
	if q.Corner >= len(o) || s.pixels(3*q.Unit) < 26 || !s.seen(o[q.Corner].At, q.A, q.B) {
		return geometry.Point{}, false
	}
	return o[q.Corner].At, true
}

// pickDiagonals takes the longest, which tell most.
func (s *Scene) pickDiagonals(l *layout.Layout) {
	s.picks = s.picks[:0]
	o := s.cur.Plan.Outline
	least := geometry.Length(0)
	if len(l.Diagonals) > mostDiagonals { // the length that so many are longer than
		s.lengths(l)
		least = s.texts.least
	}
	for _, d := range l.Diagonals {
		if d.I < len(o) && d.J < len(o) && d.Length >= least && len(s.picks) < mostDiagonals {
			s.picks = append(s.picks, pick{o[d.I].At, o[d.J].At})
		}
	}
}

// lengths finds how long a diagonal must be to be drawn; it is kept for as long
// as the layout is the same.
func (s *Scene) lengths(l *layout.Layout) {
	if s.texts.leastOf == l {
		return
	}
	var top [mostDiagonals]geometry.Length
	for _, d := range l.Diagonals {
		for k, at := 0, d.Length; k < len(top); k++ {
			if at > top[k] {
				top[k], at = at, top[k]
			}
		}
	}
	s.texts.leastOf, s.texts.least = l, top[mostDiagonals-1]
}

// stakeTexts writes heights at the corners, the lengths of diagonals and the
// sides of 3-4-5 checks.
func (s *Scene) stakeTexts(l *layout.Layout) {
	c := s.pal.Stake
	mid := s.slabMiddle()
	last := paint.Point{X: math.Inf(1)}
	for i := range l.Grades {
		g := &l.Grades[i]
		p := s.pt(g.At)
		if !s.onScreen(p) || abs(p.X-last.X)+abs(p.Y-last.Y) < 28*s.k {
			continue
		}
		last = p
		s.texts.lines = append(s.texts.lines[:0], s.grade("top ", g.Top), s.grade("dig ", g.Bottom))
		lines := s.texts.lines
		size := TextSize * s.k
		w := max(s.Brush.Fonts.Width(lines[0], size), s.Brush.Fonts.Width(lines[1], size)) + 6*s.k
		// Outside the slab first: away from its middle.
		h := 2*s.Brush.Fonts.Height(size) + 2*s.k
		dx, dy := w/2+8*s.k, h/2+8*s.k
		if p.X < mid.X {
			dx = -dx
		}
		if p.Y < mid.Y {
			dy = -dy
		}
		s.putLines(lines, c, paint.Point{X: p.X + dx, Y: p.Y + dy}, paint.Point{X: p.X + dx*1.5, Y: p.Y + dy*2},
			paint.Point{X: p.X - dx, Y: p.Y - dy}, paint.Point{X: p.X + dx, Y: p.Y - dy}, paint.Point{X: p.X - dx, Y: p.Y + dy})
	}
	s.pickDiagonals(l)
	for _, d := range s.picks {
		a, b := s.pt(d.a), s.pt(d.b)
		if math.Hypot(b.X-a.X, b.Y-a.Y) < 90*s.k {
			continue
		}
		at := func(t float64) paint.Point { return paint.Point{X: a.X + (b.X-a.X)*t, Y: a.Y + (b.Y-a.Y)*t} }
		s.put(s.text(geometry.Distance(d.a, d.b)), false, c, at(0.4), at(0.6), at(0.3), at(0.7), at(0.22), at(0.78), at(0.5), at(0.15), at(0.85))
	}
	for _, q := range l.Squares {
		corner, ok := s.square(q)
		if !ok {
			continue
		}
		at := func(a, b geometry.Point, t float64) paint.Point {
			p, q := s.pt(a), s.pt(b)
			return paint.Point{X: p.X + (q.X-p.X)*t, Y: p.Y + (q.Y-p.Y)*t}
		}
		s.put(s.check(5*q.Unit), false, c, at(q.A, q.B, 0.5), at(q.A, q.B, 0.35), at(q.A, q.B, 0.65))
		for _, leg := range [2]geometry.Point{q.A, q.B} {
			in := s.inward(corner, leg, 12)
			if leg == q.A { // the slab is left of the edge that begins at the corner
				in = paint.Point{X: -in.X, Y: -in.Y}
			}
			s.put(s.text(geometry.Distance(corner, leg)), s.upright(corner, leg), c, plus(at(corner, leg, 0.55), in), plus(at(corner, leg, 0.8), in))
		}
	}
}

// check prints the long side of a 3-4-5 check.
func (s *Scene) check(l geometry.Length) string {
	key := height{"3-4-5: ", l}
	if t, ok := s.texts.heights[key]; ok {
		return t
	}
	t := key.what + l.Text(s.texts.units)
	s.texts.heights[key] = t
	return t
}

// grade prints a height over the benchmark with what it is of.
func (s *Scene) grade(what string, l geometry.Length) string {
	key := height{what, l}
	if t, ok := s.texts.heights[key]; ok {
		return t
	}
	sign := ""
	if l > 0 {
		sign = "+"
	}
	t := what + sign + l.Text(s.texts.units)
	s.texts.heights[key] = t
	return t
}
