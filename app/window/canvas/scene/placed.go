package scene

import (
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/forms"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/plan"
)

// bolts draws the anchor bolts as rings with a cross; those of hold-downs have a
// second ring.
func (s *Scene) bolts(l *layout.Layout) {
	r := max(2.2*s.k, min(5*s.k, s.v.Pixels(2*geometry.Inch)))
	for i := range l.Walls {
		s.plates(&l.Walls[i])
		last := paint.Point{X: -1e9}
		for k := range l.Walls[i].Bolts {
			b := &l.Walls[i].Bolts[k]
			at := s.pt(b.At)
			if !s.onScreen(at) || abs(at.X-last.X)+abs(at.Y-last.Y) < thin*s.k {
				continue
			}
			last = at
			s.Brush.Circle(at, r, 1.2*s.k, s.pal.Bolt)
			s.Brush.Line(paint.Point{X: at.X - r*1.6, Y: at.Y}, paint.Point{X: at.X + r*1.6, Y: at.Y}, s.k, s.pal.Bolt)
			s.Brush.Line(paint.Point{X: at.X, Y: at.Y - r*1.6}, paint.Point{X: at.X, Y: at.Y + r*1.6}, s.k, s.pal.Bolt)
			if b.HoldDown {
				s.Brush.Circle(at, r*1.8, 1.2*s.k, s.pal.Bolt)
			}
		}
	}
}

// plates draws the pieces of sill plate, where they are wide enough to be seen.
func (s *Scene) plates(w *bolts.Wall) {
	for i := range w.Pieces {
		ps := w.Pieces[i].Outline
		if len(ps) < 3 || !s.seen(ps...) || s.pixels(geometry.Distance(ps[0], ps[len(ps)-1])) < thin {
			continue
		}
		for k, a := range ps {
			s.line(a, ps[(k+1)%len(ps)], 1, s.pal.Wall)
		}
	}
}

func abs(f float64) float64 { return max(f, -f) }

// boltTexts writes the bolts' numbers on the slab's side of them, where they can
// be told apart.
func (s *Scene) boltTexts(l *layout.Layout) {
	if s.pixels(geometry.Foot) < 11 {
		return
	}
	for i := range l.Walls {
		w := &l.Walls[i]
		if w.Loop >= len(s.loops) || w.Edge >= len(s.loops[w.Loop]) {
			continue
		}
		a, b := s.loops[w.Loop].Ends(w.Edge)
		in := s.inward(a, b, 15)
		for k := range w.Bolts {
			if p := s.pt(w.Bolts[k].At); w.Bolts[k].Mark.N > 0 && s.onScreen(p) {
				s.put(w.Bolts[k].Mark.String(), false, s.pal.Bolt, plus(p, in))
			}
		}
	}
}

// form draws the boards of an edge with stakes, and kickers out to their feet.
func (s *Scene) form(f forms.Form) {
	if f.Loop >= len(s.loops) || f.Edge >= len(s.loops[f.Loop]) {
		return
	}
	a, b := s.loops[f.Loop].Ends(f.Edge)
	if a == b || !s.seen(a, b) {
		return
	}
	out := s.inward(a, b, -4)
	s.Brush.Line(plus(s.pt(a), out), plus(s.pt(b), out), 2.4*s.k, s.pal.Form)
	marks := func(along []geometry.Length, px, width float64) {
		far := s.inward(a, b, px)
		last := -geometry.MaxLength
		for _, at := range along {
			if s.pixels(at-last) < thin+1 {
				continue
			}
			last = at
			p := s.pt(geometry.Along(a, b, at))
			s.Brush.Line(plus(p, out), plus(p, far), width*s.k, s.pal.Form)
		}
	}
	marks(f.Stakes, -10, 2)
	marks(f.Kickers, -17, 1)
}

func (s *Scene) dowel(d joints.Dowel) {
	if d.Inner != d.Outer {
		s.line(d.Outer, d.Inner, max(1.6, s.pixels(geometry.Inch/2)), s.pal.Dowel)
		return
	}
	o := s.cur.Plan.Outline
	if d.Edge >= len(o) {
		return
	}
	a, b := o.Ends(d.Edge)
	if a == b {
		return
	}
	v := plan.Turn(geometry.Along(a, b, 8*geometry.Inch).Sub(a), 90)
	s.line(d.At.Add(v), d.At.Sub(v), 1.6, s.pal.Dowel)
}
