package scene

import (
	"image/color"
	"math"

	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
)

func (s *Scene) slab(sound bool) {
	p := &s.cur.Plan
	if len(p.Outline) < 3 {
		return
	}
	for i, l := range s.loops {
		s.ring(i, len(l), func(k int) geometry.Point { return l[k].At })
	}
	s.Brush.Fill(s.rings[:len(s.loops)], s.glass(s.pal.Slab))
	if s.cur.Shape != nil && s.in.Layers.Underside && sound {
		s.underside(s.cur.Shape)
	}
}

// glass makes a color see-through over a picture.
func (s *Scene) glass(c color.NRGBA) color.NRGBA {
	if s.through {
		c.A = 90
	}
	return c
}

// underside shades each face by its depth and draws the lines where it bends and
// the lines of equal depth.
func (s *Scene) underside(sh *Shape) {
	if sh.deepest == sh.field {
		return
	}
	for _, f := range sh.faces {
		if len(f.Corners) < 3 || !s.seen(f.Corners...) {
			continue
		}
		lo, hi := f.Depths[0], f.Depths[0]
		for _, d := range f.Depths {
			lo, hi = min(lo, d), max(hi, d)
		}
		t := (float64(lo)+float64(hi))/2 - float64(sh.field)
		c := between(s.pal.Slab, s.pal.Deep, t/float64(sh.deepest-sh.field))
		s.ring(0, len(f.Corners), func(k int) geometry.Point { return f.Corners[k] })
		s.Brush.Fill(s.rings[:1], s.glass(c))
	}
	if s.pixels(geometry.Foot/2) >= thin { // else the shades alone tell
		for _, l := range sh.ridges {
			s.line(l.A, l.B, 1, s.pal.Ridge)
		}
	}
	for _, c := range sh.contoursAt(s.in.Units, s.in.View.Scale) {
		s.dashes(c.A, c.B, 2, 3, 1, s.pal.Contour)
	}
}

// depthTexts labels contours and level faces with their depth, and the field with
// its thickness.
func (s *Scene) depthTexts() {
	sh := s.cur.Shape
	if sh == nil {
		return
	}
	lo, hi := s.cur.Plan.Outline.Corners().Bounds()
	for _, p := range sh.open(lo, hi) {
		if s.put(s.text(sh.field)+" thick", false, s.pal.Contour, s.pt(p)) {
			break
		}
	}
	// Depths are told several times, but not close together.
	type told struct {
		depth geometry.Length
		at    paint.Point
	}
	var said [24]told
	n := 0
	near := func(d geometry.Length, p paint.Point) bool {
		count := 0
		for _, t := range said[:n] {
			if t.depth == d {
				if count++; count > 3 || math.Hypot(t.at.X-p.X, t.at.Y-p.Y) < 220*s.k {
					return true
				}
			}
		}
		return false
	}
	for _, f := range sh.flats {
		if n == len(said) || f.size*s.v.Scale < 40*s.k {
			break
		}
		if p := s.pt(f.at); f.thick*s.v.Scale >= 13*s.k && s.onScreen(p) && !near(f.depth, p) &&
			s.put(s.text(f.depth)+" deep", false, s.pal.Contour, p) {
			said[n] = told{f.depth, p}
			n++
		}
	}
	for _, c := range sh.contours {
		a, b := s.pt(c.A), s.pt(c.B)
		if n == len(said) || math.Hypot(b.X-a.X, b.Y-a.Y) < 34*s.k {
			break
		}
		for _, t := range [...]float64{0.3, 0.7} {
			p := paint.Point{X: a.X + (b.X-a.X)*t, Y: a.Y + (b.Y-a.Y)*t}
			if s.onScreen(p) && !near(c.Depth, p) && s.put(s.text(c.Depth), s.upright(c.A, c.B), s.pal.Contour, p) {
				said[n] = told{c.Depth, p}
				n++
				break
			}
		}
	}
}

// name writes the slab's name in its middle.
func (s *Scene) name() {
	if s.cur.Name == "" || len(s.cur.Plan.Outline) < 3 {
		return
	}
	lo, hi := s.cur.Plan.Outline.Corners().Bounds()
	a, b := s.pt(lo), s.pt(hi)
	mid := middle(a, b)
	down := paint.Point{X: mid.X, Y: mid.Y + (a.Y-b.Y)/4}
	s.put(s.cur.Name, false, s.pal.Text, mid, down, paint.Point{X: mid.X, Y: mid.Y - (a.Y-b.Y)/4})
}

// thickenings outlines pads and strips, which are the user's own things.
func (s *Scene) thickenings() {
	for _, pad := range s.cur.Plan.Pads {
		r := pad.Ring()
		for k := range r {
			s.dashes(r[k], r[(k+1)%len(r)], 7, 4, 1.5, s.pal.Ink)
		}
	}
	for _, st := range s.cur.Plan.Strips {
		for k := 1; k < len(st.Path); k++ {
			a, b := st.Path[k-1], st.Path[k]
			if a == b {
				continue
			}
			for _, side := range []geometry.Length{st.Bottom / 2, -st.Bottom / 2} {
				v := plan.Turn(geometry.Along(a, b, side).Sub(a), 90)
				s.dashes(a.Add(v), b.Add(v), 7, 4, 1.5, s.pal.Ink)
			}
			s.dashes(a, b, 12, 4, 1, s.pal.Faint)
		}
	}
}

// marks gives the marks of what is drawn on the slab; none before it is laid out.
func (s *Scene) marks() (none mark.Names) {
	if s.cur.Layout == nil {
		return none
	}
	return s.cur.Layout.Marks
}

// called gives a mark with the name that the user gave the thing; where it has
// neither, what it is.
func called(k mark.Mark, name, kind string) string {
	if text := k.Called(name); text != "" {
		return text
	}
	return kind
}

// thickeningTexts names pads and strips with their depth.
func (s *Scene) thickeningTexts() {
	for i, pad := range s.cur.Plan.Pads {
		name := called(s.marks().Pad(i), pad.Name, "Pad")
		p := s.pt(pad.Center)
		if !s.onScreen(p) {
			continue
		}
		deep := name + ", " + s.text(pad.Depth) + " deep"
		if !s.put(deep, false, s.pal.Text, p) && !s.put(name, false, s.pal.Text, p) {
			s.beside(name, p, max(6, s.pixels(pad.Width)/2), s.pal.Text)
		}
	}
	for i, st := range s.cur.Plan.Strips {
		name := called(s.marks().Strip(i), st.Name, "Strip")
		deep := name + ", " + s.text(st.Depth) + " deep"
		for k := 1; k < len(st.Path); k++ {
			a, b := s.pt(st.Path[k-1]), s.pt(st.Path[k])
			mid := middle(a, b)
			turn := s.upright(st.Path[k-1], st.Path[k])
			if s.put(deep, turn, s.pal.Text, mid, middle(a, mid), middle(mid, b)) || s.put(name, turn, s.pal.Text, mid, middle(a, mid), middle(mid, b)) {
				break
			}
		}
	}
}

// falls draws the slope of the top as arrows down the fall.
func (s *Scene) falls() {
	for _, f := range s.cur.Plan.Top.Falls {
		a, b := s.pt(f.From), s.pt(f.To)
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		if length < 4 {
			continue
		}
		// Aside from the edge it may lie on, so that both can be seen.
		s.Brush.Dashes(a, b, 10*s.k, 5*s.k, 1.4*s.k, s.pal.Accent)
		ux, uy := (b.X-a.X)/length, (b.Y-a.Y)/length
		h := 9 * s.k
		for _, t := range []float64{0.5, 1} {
			tip := paint.Point{X: a.X + ux*length*t, Y: a.Y + uy*length*t}
			s.Brush.Line(tip, paint.Point{X: tip.X - ux*h - uy*h/2, Y: tip.Y - uy*h + ux*h/2}, 1.6*s.k, s.pal.Accent)
			s.Brush.Line(tip, paint.Point{X: tip.X - ux*h + uy*h/2, Y: tip.Y - uy*h - ux*h/2}, 1.6*s.k, s.pal.Accent)
		}
	}
}

// fallTexts writes how far each fall drops.
func (s *Scene) fallTexts() {
	for _, f := range s.cur.Plan.Top.Falls {
		a, b := s.pt(f.From), s.pt(f.To)
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		if length < 4 {
			continue
		}
		ux, uy := (b.X-a.X)/length, (b.Y-a.Y)/length
		side := 13 * s.k // beside the line, over the slab
		if c := s.slabMiddle(); (c.X-a.X)*-uy+(c.Y-a.Y)*ux < 0 {
			side = -side
		}
		at := func(t, side float64) paint.Point {
			return paint.Point{X: a.X + ux*length*t - uy*side, Y: a.Y + uy*length*t + ux*side}
		}
		s.put("falls "+s.text(f.Drop), math.Abs(ux) < 0.2, s.pal.Accent,
			at(0.75, side), at(0.25, side), at(0.75, -side), at(0.5, side), at(0.25, -side))
	}
}

// slabMiddle gives the middle of the outline's box.
func (s *Scene) slabMiddle() paint.Point {
	lo, hi := s.cur.Plan.Outline.Corners().Bounds()
	return middle(s.pt(lo), s.pt(hi))
}
