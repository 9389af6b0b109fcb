package scene

import (
	"math"

	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
)

// edges draws outline and holes with what is on their edges, and the falls.
func (s *Scene) edges() {
	for k, l := range s.loops {
		s.loop(k, l)
	}
	s.falls()
}

func (s *Scene) loop(k int, l plan.Loop) {
	for i := range l {
		e := &l[i]
		a, b := l.Ends(i)
		if a == b {
			continue
		}
		if e.Joint {
			s.joint(a, b)
		}
		if e.Wall != "" {
			s.wall(l, i)
		}
		if len(e.Doors) == 0 {
			s.line(a, b, 2.4, s.pal.Ink)
			continue
		}
		at, length := geometry.Length(0), l.Length(i)
		for _, span := range l.Spans(i) {
			if span.Door < 0 || span.From < at || span.To > length {
				continue
			}
			s.line(geometry.Along(a, b, at), geometry.Along(a, b, span.From), 2.4, s.pal.Ink)
			at = span.To
		}
		if at < length {
			s.line(geometry.Along(a, b, at), b, 2.4, s.pal.Ink)
		}
		for _, d := range e.Doors {
			s.door(a, b, length, d)
		}
	}
	// Corners are marked where they can be told apart.
	last := paint.Point{X: math.Inf(1)}
	for i := range l {
		p := s.pt(l[i].At)
		if (k == 0 || len(l) < 40) && math.Abs(p.X-last.X)+math.Abs(p.Y-last.Y) > 7*s.k {
			r := 2.5 * s.k
			s.Brush.Rect(p.X-r, p.Y-r, p.X+r, p.Y+r, s.pal.Ink)
			last = p
		}
	}
}

// edgeTexts names what is on the edges, pads, strips and falls.
func (s *Scene) edgeTexts() {
	for n, l := range s.loops {
		for i := range l {
			if len(l[i].Doors) == 0 {
				continue
			}
			a, b := l.Ends(i)
			if a == b {
				continue
			}
			length := l.Length(i)
			for k, d := range l[i].Doors {
				s.doorText(a, b, length, d, s.marks().Door(n, i, k))
			}
		}
	}
	s.thickeningTexts()
	s.fallTexts()
	for _, l := range s.loops {
		for i := range l {
			if l[i].Joint {
				a, b := l.Ends(i)
				s.jointText(a, b)
			}
		}
	}
}

// joint draws the old slab's side of a joint: a second line and hatching.
func (s *Scene) joint(a, b geometry.Point) {
	out := s.inward(a, b, -5)
	p, q := plus(s.pt(a), out), plus(s.pt(b), out)
	s.Brush.Line(p, q, 1.6*s.k, s.pal.Joint)
	length := math.Hypot(q.X-p.X, q.Y-p.Y)
	if length < 1 || length > 1e5 {
		return
	}
	far := s.inward(a, b, -9)
	step := 9 * s.k
	for t := step / 2; t < length; t += step {
		f := t / length
		from := paint.Point{X: p.X + (q.X-p.X)*f, Y: p.Y + (q.Y-p.Y)*f}
		g := (t + 6*s.k) / length
		to := paint.Point{X: p.X + (q.X-p.X)*g + far.X, Y: p.Y + (q.Y-p.Y)*g + far.Y}
		s.Brush.Line(from, to, 1*s.k, s.pal.OldSlab)
	}
}

func (s *Scene) jointText(a, b geometry.Point) {
	p, q := s.pt(a), s.pt(b)
	if math.Hypot(q.X-p.X, q.Y-p.Y) < 140*s.k {
		return
	}
	in := s.inward(a, b, 16)
	mid := plus(middle(p, q), in)
	s.put("joint with old slab", s.upright(a, b), s.pal.Joint, mid, plus(middle(p, middle(p, q)), in), plus(middle(middle(p, q), q), in), plus(mid, in))
}

// isolationTexts names the strips of filler.
func (s *Scene) isolationTexts(l *layout.Layout) {
	for _, i := range l.Isolation {
		p, q := s.pt(i.A), s.pt(i.B)
		if math.Hypot(q.X-p.X, q.Y-p.Y) < 120*s.k {
			continue
		}
		in := s.inward(i.A, i.B, 32)
		s.put("isolation strip", s.upright(i.A, i.B), s.pal.Saw, plus(middle(p, q), in), plus(middle(p, middle(p, q)), in))
	}
}

// wall draws a framed wall's inner face, left open at the doors.
func (s *Scene) wall(l plan.Loop, i int) {
	a, b := l.Ends(i)
	in := s.inward(a, b, 4.5)
	stretch := func(from, to geometry.Point) {
		s.Brush.Line(plus(s.pt(from), in), plus(s.pt(to), in), 1.2*s.k, s.pal.Wall)
	}
	if len(l[i].Doors) == 0 {
		stretch(a, b)
		return
	}
	for _, span := range l.Spans(i) {
		if span.Door < 0 {
			stretch(geometry.Along(a, b, span.From), geometry.Along(a, b, span.To))
		}
	}
}

// door draws an opening: jambs and a thin sill.
func (s *Scene) door(a, b geometry.Point, length geometry.Length, d plan.Door) {
	if d.From < 0 || d.Width <= 0 || d.From+d.Width > length {
		return
	}
	near, far := geometry.Along(a, b, d.From), geometry.Along(a, b, d.From+d.Width)
	in, out := s.inward(a, b, 8), s.inward(a, b, -5)
	for _, p := range [2]geometry.Point{near, far} {
		q := s.pt(p)
		s.Brush.Line(plus(q, in), plus(q, out), 2*s.k, s.pal.Door)
	}
	s.dashes(near, far, 6, 3, 1.6, s.pal.Door)
	if d.Lip.Inset > 0 {
		v := plan.Turn(geometry.Along(a, b, d.Lip.Inset).Sub(a), 90)
		s.line(near.Add(v), far.Add(v), 1, s.pal.Door)
	}
}

// doorText names a door on the slab's side of it.
func (s *Scene) doorText(a, b geometry.Point, length geometry.Length, d plan.Door, k mark.Mark) {
	room := s.v.Pixels(d.Width)
	if d.From < 0 || d.Width <= 0 || d.From+d.Width > length || room < 22*s.k {
		return
	}
	near, far := geometry.Along(a, b, d.From), geometry.Along(a, b, d.From+d.Width)
	name := called(k, d.Name, "Door")
	turn := s.upright(a, b)
	mid := middle(s.pt(near), s.pt(far))
	places := [4]paint.Point{
		plus(mid, s.inward(a, b, 46)), plus(mid, s.inward(a, b, 30)), plus(mid, s.inward(a, b, 64)), plus(mid, s.inward(a, b, 82)),
	}
	if text := name + " " + d.Kind.String(); room >= s.Brush.Fonts.Width(text, TextSize*s.k) && s.put(text, turn, s.pal.Door, places[:]...) {
		return
	}
	s.put(name, turn, s.pal.Door, places[:]...)
}
