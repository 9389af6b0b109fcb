package detail

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
)

// between adds a dimension of one measure from its A to its B.
func between(d *drawing.Drawing, m drawing.Dimension, value geometry.Length) {
	if m.A != m.B {
		d.Dimension(m, drawing.Chain{Stops: []geometry.Length{0, geometry.Distance(m.A, m.B)}, Texts: []string{d.Text(value)}})
	}
}

// Weights of what is measured on a section.
const (
	mainWeight  = 60
	boltWeight  = 50
	coverWeight = 40
	nameWeight  = 30
)

func (s *Section) measures(d *drawing.Drawing) {
	end, deep := s.end(), s.deepest()
	switch {
	case s.Key != nil: // as thick as the field on the other side
	case s.Inside || s.Against != nil:
		between(d, drawing.Dimension{Of: "depth", A: at(s.left(), deep), B: at(s.left(), 0), Left: true, Weight: mainWeight}, deep)
		if a := s.Against; a != nil && a.Lower != 0 {
			between(d, drawing.Dimension{Of: "step", A: at(s.left(), max(0, a.Lower)), B: at(s.left(), min(0, a.Lower)), Left: true, Optional: true, Weight: mainWeight - 1}, a.Lower.Abs())
		}
	case s.Frost != nil:
		s.Frost.measures(d, s, deep)
	case len(s.Under) > 0 && s.Dowel == nil:
		face, deep := -s.Board.Thickness, s.Under[0].Depth
		between(d, drawing.Dimension{Of: "depth at the face", A: at(face, deep), B: at(face, 0), Left: true, Weight: mainWeight}, deep)
	}
	between(d, drawing.Dimension{Of: "field", A: at(end, s.Field), B: at(end, 0), Weight: mainWeight}, s.Field)
	if k := s.Key; k != nil {
		face := k.face(s.Field)
		between(d, drawing.Dimension{Of: "key, high", A: face[4], B: face[1], Weight: mainWeight}, k.High)
		between(d, drawing.Dimension{Of: "key, deep", A: at(-k.Deep, s.Field), B: at(0, s.Field), First: 5.5, Weight: mainWeight}, k.Deep)
	}
	if s.Dowel != nil {
		s.dowelMeasures(d)
	} else {
		s.widths(d)
	}
	if s.Curb != nil {
		s.curbMeasures(d)
	}
	if s.Bolt != nil {
		s.boltMeasures(d)
	}
	s.covers(d)
}

// widths measures along the underside from the face inward.
func (s *Section) widths(d *drawing.Drawing) {
	if len(s.Under) < 2 {
		return
	}
	low := s.lowest()
	c := drawing.Chain{Stops: []geometry.Length{0}}
	for i := 1; i < len(s.Under); i++ {
		if w := s.Under[i].Inset - s.Under[i-1].Inset; w > 0 {
			c.Stops, c.Texts = append(c.Stops, s.Under[i].Inset-s.Under[0].Inset), append(c.Texts, d.Text(w))
		}
	}
	if len(c.Texts) > 0 {
		a := s.Under[0].Inset
		d.Dimension(drawing.Dimension{Of: "widths from the face inward", A: at(a, low), B: at(s.reach(), low), OneSide: true, First: 5.5, Weight: mainWeight}, c)
	}
}

// boltMeasures measures a bolt: from the face, above the concrete, and in it.
func (s *Section) boltMeasures(d *drawing.Drawing) {
	b := s.Bolt
	m := func(of string, p, q geometry.Point) drawing.Dimension {
		return drawing.Dimension{Of: of, A: p, B: q, Weight: boltWeight, Optional: s.Said}
	}
	rise := s.rise()
	across := m("bolt from the face", at(0, -b.Projection-rise), at(b.Inset, -b.Projection-rise))
	across.Left, across.First = true, 3
	between(d, across, b.Inset)
	out := max(b.Inset+b.Diameter/2, s.Plate.Width)
	above := m("bolt above the slab", at(out, -rise), at(out, -b.Projection-rise))
	above.OnA, above.First = true, 3
	between(d, above, b.Projection)
	within := m("bolt in the concrete", at(b.tip(), b.low()-rise), at(b.tip(), -rise))
	within.OnB = true
	between(d, within, b.low())
}

// dowelMeasures measures a dowel: in the old slab, in the new one, and below the
// top.
func (s *Section) dowelMeasures(d *drawing.Drawing) {
	w := s.Dowel
	low := max(w.OldSlab, s.deepest())
	d.Dimension(drawing.Dimension{Of: "dowel: in the old slab, in the new one", A: at(-w.Embed, low), B: at(w.Length-w.Embed, low), First: 5.5, Weight: mainWeight},
		drawing.Chain{Stops: []geometry.Length{0, w.Embed, w.Length}, Texts: []string{d.Text(w.Embed), d.Text(w.Length - w.Embed)}})
	between(d, drawing.Dimension{Of: "dowel below the top", A: at(s.left(), w.Depth), B: at(s.left(), 0), Left: true, First: 3, Weight: mainWeight - 1}, w.Depth)
}

// covers measures the bars' clear covers, each that is alike once.
func (s *Section) covers(d *drawing.Drawing) {
	for i, b := range s.Bars {
		half := b.Diameter / 2
		m := drawing.Dimension{Weight: coverWeight, Optional: s.Said, First: 2.2}
		m.Of, m.A, m.B, m.Left, m.OnA = "cover to the face", at(0, b.Depth-half), at(b.Face, b.Depth-half), true, true
		m.After = geometry.Point{Y: -b.Diameter} // below, its line begins under the bar
		if b.Face > 0 {
			between(d, m, b.Face)
		}
		if i > 0 && b.Bottom == s.Bars[i-1].Bottom && b.Top == s.Bars[i-1].Top {
			continue // said at the bar before
		}
		// The line from the bar begins beside it.
		m.Left, m.After = false, geometry.Point{}
		if b.Bottom > 0 {
			m.Of, m.A, m.B, m.After = "cover to the bottom", at(b.Inset, b.Depth+half+b.Bottom), at(b.Inset, b.Depth+half), geometry.Point{X: b.Diameter}
			between(d, m, b.Bottom)
		} else if b.Top > 0 {
			m.Of, m.A, m.B, m.OnA, m.OnB, m.Before = "cover to the top", at(b.Inset, b.Depth-half), at(b.Inset, 0), false, true, geometry.Point{X: b.Diameter}
			between(d, m, b.Top)
		}
	}
}

// names names the bars and what lies under the slab.
func (s *Section) names(d *drawing.Drawing) {
	name := func(p geometry.Point, x, y geometry.Length, text string, start, near float32) {
		d.Label(drawing.Label{
			Layer: drawing.Details, Style: drawing.NoteText, Type: drawing.Small, At: p, Prefer: geometry.Point{X: x, Y: y},
			Start: start, Near: near, Reach: 40, Weight: nameWeight,
		}, []string{text})
	}
	for i := len(s.Bars) - 1; i >= 0; i-- {
		if b := s.Bars[i]; b.Name != "" {
			name(at(b.Inset, b.Depth), 8, 6, b.Name, 2, 4)
		}
	}
	mid := s.reach() + (s.end()-s.reach())/2
	if m := s.Mesh; m != nil {
		name(at(mid, m.Depth), -3, 10, m.Name, 2, 4)
	}
	down := s.Field
	for _, l := range s.Layers {
		name(at(mid, down+l.Thickness*3/4), 1, -6, l.Name+" "+d.Text(l.Thickness), 3.4, 3.4) // with an arrow, for there are several
		down += l.Thickness
	}
}
