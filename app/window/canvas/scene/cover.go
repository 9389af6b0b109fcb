package scene

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// Cover is sheets made ready to be drawn. It may be made beside the window.
type Cover struct {
	sheets  []cover.Sheet
	borders []border        // of all sheets, those that lie in one line joined
	lap     geometry.Length // of neighbors; 0 for none
	lapAt   geometry.Point
	cut     bool            // to the slab
	w, h    geometry.Length // of the largest sheet
}

// border is a line of sheets' sides.
type border struct {
	solid.Line
	at float64 // across its direction, nanometers; they are in this order
}

// CoverOf makes sheets ready, cut to the slab with the given loops, or whole for
// none; it is nil for no sheets.
func CoverOf(sheets []cover.Sheet, loops []plan.Loop) *Cover {
	if len(sheets) == 0 {
		return nil
	}
	c := &Cover{sheets: sheets, cut: len(loops) > 0}
	for i := range sheets {
		q := &sheets[i].Corners
		if a, b := geometry.Distance(q[0], q[1]), geometry.Distance(q[1], q[2]); a.Feet()*b.Feet() > c.w.Feet()*c.h.Feet()*1.0001 {
			c.w, c.h = min(a, b), max(a, b)
		}
		if i > 0 && c.lap == 0 {
			c.lap, c.lapAt, _ = lapOf(&sheets[i-1], &sheets[i])
		}
	}
	c.join()
	if c.cut {
		c.borders = trimmed(loops, c.borders)
	}
	return c
}

// join collects the borders of the sheets, which all lie one way.
func (c *Cover) join() {
	origin, along := c.sheets[0].Corners[0], c.sheets[0].Corners[1].Sub(c.sheets[0].Corners[0])
	l := math.Hypot(float64(along.X), float64(along.Y))
	if l == 0 {
		return
	}
	ux, uy := float64(along.X)/l, float64(along.Y)/l
	type side struct{ at, from, to float64 }
	var both [2][]side
	for i := range c.sheets {
		q := &c.sheets[i].Corners
		for k := range q {
			a, b := q[k].Sub(origin), q[(k+1)%4].Sub(origin)
			au, av := float64(a.X)*ux+float64(a.Y)*uy, float64(a.Y)*ux-float64(a.X)*uy
			bu, bv := float64(b.X)*ux+float64(b.Y)*uy, float64(b.Y)*ux-float64(b.X)*uy
			if math.Abs(bu-au) > math.Abs(bv-av) {
				both[0] = append(both[0], side{(av + bv) / 2, min(au, bu), max(au, bu)})
			} else {
				both[1] = append(both[1], side{(au + bu) / 2, min(av, bv), max(av, bv)})
			}
		}
	}
	const same = 1000 // nanometers: corners are rounded
	for way, all := range both {
		slices.SortFunc(all, func(a, b side) int { return cmp.Compare(a.at, b.at) })
		point := func(at, t float64) geometry.Point {
			u, v := t, at
			if way == 1 {
				u, v = at, t
			}
			return origin.Add(geometry.Point{X: geometry.Length(u*ux - v*uy), Y: geometry.Length(u*uy + v*ux)})
		}
		for len(all) > 0 {
			n := 1
			for n < len(all) && all[n].at-all[0].at < same {
				n++
			}
			line := all[:n]
			slices.SortFunc(line, func(a, b side) int { return cmp.Compare(a.from, b.from) })
			at, from, to := line[0].at, line[0].from, line[0].to
			for _, s := range line[1:] {
				if s.from > to+same {
					c.borders = append(c.borders, border{solid.Line{A: point(at, from), B: point(at, to)}, at})
					from, to = s.from, s.to
				}
				to = max(to, s.to)
			}
			c.borders = append(c.borders, border{solid.Line{A: point(at, from), B: point(at, to)}, at})
			all = all[n:]
		}
	}
}

// narrow tells whether sheets are too small on the screen to be drawn one by one.
func (s *Scene) narrow(c *Cover) bool { return c == nil || s.pixels(c.w) < thin }

// small tells whether sheets are too small for patterns.
func (s *Scene) small(c *Cover) bool { return s.pixels(c.w) < 20 }

// borders draws the sheets' borders in dashes; those of small ones plain and faint.
func (s *Scene) borders(c *Cover, on, off float64, ink shade) {
	if s.small(c) {
		ink = between(ink, s.pal.Paper, 0.35)
	}
	// Where laps are too narrow to be seen, their two lines are one.
	narrow, last := c.lap > 0 && s.pixels(c.lap) < thin, math.Inf(-1)
	for _, l := range c.borders {
		if d := l.at - last; narrow && d > 1000 && d < float64(c.lap)*1.01 {
			continue
		}
		last = l.at
		if on == 0 || s.small(c) {
			s.line(l.A, l.B, 1, ink)
		} else {
			s.dashes(l.A, l.B, on, off, 1, ink)
		}
	}
}

// laps tints the sheets, so that their laps show as darker bands.
func (s *Scene) laps(c *Cover, ink shade, a uint8) {
	if c.lap == 0 || s.pixels(c.lap) < 4 {
		return
	}
	ink.A = a
	n := len(s.loops)
	for k, l := range s.loops {
		s.ring(n+1+k, len(l), func(i int) geometry.Point { return l[i].At })
	}
	for i := range c.sheets {
		q := &c.sheets[i].Corners
		if !s.seen(q[:]...) {
			continue
		}
		s.ring(n, 4, func(k int) geometry.Point { return q[k] })
		if !c.cut {
			s.Brush.Fill(s.rings[n:n+1], ink)
			continue
		}
		for k := range n {
			s.rings[k] = s.clipped(s.rings[n+1+k], s.rings[n], s.rings[k])
		}
		s.Brush.Fill(s.rings[:n], ink)
	}
}

// foam draws the sheets under the slab, each with its diagonal.
func (s *Scene) foam() {
	c := s.cur.Foam
	if s.narrow(c) {
		return
	}
	s.borders(c, 0, 0, s.pal.Foam)
	if s.small(c) {
		return
	}
	faint := s.pal.Foam
	faint.A = 90
	for i := range c.sheets {
		if q := &c.sheets[i].Corners; s.seen(q[:]...) {
			s.trimmedLine(q[0], q[2], faint)
		}
	}
}

// retarder draws the sheets of the vapor retarder.
func (s *Scene) retarder() {
	c := s.cur.Retarder
	if s.narrow(c) {
		return
	}
	s.laps(c, s.pal.Retarder, 22)
	s.borders(c, 16, 3, s.pal.Retarder)
}

// foamText tells the size and the number of the foam sheets.
func (s *Scene) foamText() {
	s.coverText(s.cur.Foam, "foam", s.pal.Foam)
}

func (s *Scene) retarderText() {
	c := s.cur.Retarder
	s.coverText(c, "vapor retarder", s.pal.Retarder)
	if c == nil || c.lap == 0 || s.pixels(c.lap) < 6 {
		return
	}
	if p := s.pt(c.lapAt); s.onScreen(p) {
		s.beside("lap "+s.text(c.lap), p, 4+s.pixels(c.lap)/2, s.pal.Retarder)
	}
}

// lapOf gives how far two parallel sheets lie over each other, and where.
func lapOf(a, b *cover.Sheet) (lap geometry.Length, at geometry.Point, ok bool) {
	origin, along := a.Corners[0], a.Corners[1].Sub(a.Corners[0])
	l := math.Hypot(float64(along.X), float64(along.Y))
	if l == 0 {
		return 0, at, false
	}
	ux, uy := float64(along.X)/l, float64(along.Y)/l
	box := func(c *[4]geometry.Point) (u0, u1, v0, v1 float64) {
		u0, v0, u1, v1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
		for _, p := range c {
			d := p.Sub(origin)
			u, v := float64(d.X)*ux+float64(d.Y)*uy, float64(d.Y)*ux-float64(d.X)*uy
			u0, u1, v0, v1 = min(u0, u), max(u1, u), min(v0, v), max(v1, v)
		}
		return
	}
	au0, au1, av0, av1 := box(&a.Corners)
	bu0, bu1, bv0, bv1 := box(&b.Corners)
	u0, u1, v0, v1 := max(au0, bu0), min(au1, bu1), max(av0, bv0), min(av1, bv1)
	if u1 <= u0 || v1 <= v0 {
		return 0, at, false
	}
	u, v := (u0+u1)/2, (v0+v1)/2
	at = origin.Add(geometry.Point{X: geometry.Length(u*ux - v*uy), Y: geometry.Length(u*uy + v*ux)})
	return geometry.Length(math.Round(min(u1-u0, v1-v0))), at, true
}

// coverText writes what a cover is, once.
func (s *Scene) coverText(k *Cover, what string, c shade) {
	if k == nil {
		return
	}
	text := s.coverName(k, what)
	lo, hi := s.cur.Plan.Outline.Corners().Bounds()
	a, b := s.pt(lo), s.pt(hi)
	at := func(fx, fy float64) paint.Point {
		return paint.Point{X: a.X + (b.X-a.X)*fx, Y: b.Y + (a.Y-b.Y)*fy}
	}
	if s.Brush.Fonts.Width(text, TextSize*s.k) > b.X-a.X { // no wider than the slab
		text = what
	}
	s.put(text, false, c, at(0.5, 0.36), at(0.5, 0.64), at(0.5, 0.28), at(0.5, 0.72), at(0.45, 0.45), at(0.55, 0.2), at(0.5, 0.8))
}

// coverName tells how many sheets there are and the size of the largest.
func (s *Scene) coverName(k *Cover, what string) string {
	key := covering{k, what}
	if t, ok := s.texts.covers[key]; ok {
		return t
	}
	t := fmt.Sprintf("%s: %d pieces, up to %s × %s", what, len(k.sheets), s.text(k.w), s.text(k.h))
	if len(s.texts.covers) > 16 {
		clear(s.texts.covers)
	}
	s.texts.covers[key] = t
	return t
}
