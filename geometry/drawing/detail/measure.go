package detail

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
)

// between adds a dimension of one measure from a to b. Left says that it stands on
// the left of the way from a to b first; through the ends that onA and onB name
// runs a line of the drawing.
func between(d *drawing.Drawing, of string, a, b geometry.Point, left, onA, onB bool, value geometry.Length, weight int8) {
	if a != b {
		d.Dimension(drawing.Dimension{Of: of, A: a, B: b, Left: left, OnA: onA, OnB: onB, Weight: weight},
			drawing.Chain{Stops: []geometry.Length{0, geometry.Distance(a, b)}, Texts: []string{d.Text(value)}})
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
	case s.Inside:
		between(d, "depth", at(s.left(), deep), at(s.left(), 0), true, false, false, deep, mainWeight)
	case len(s.Under) > 0 && s.Dowel == nil:
		face := -s.Board.Thickness
		between(d, "depth at the face", at(face, s.Under[0].Depth), at(face, 0), true, false, false, s.Under[0].Depth, mainWeight)
	}
	between(d, "field", at(end, s.Field), at(end, 0), false, false, false, s.Field, mainWeight)
	if s.Dowel != nil {
		s.dowelMeasures(d)
	} else {
		s.widths(d)
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
	low := s.deepest()
	if s.Haunch {
		low += s.Foam + s.Gravel
	}
	c := drawing.Chain{Stops: []geometry.Length{0}}
	for i := 1; i < len(s.Under); i++ {
		if w := s.Under[i].Inset - s.Under[i-1].Inset; w > 0 {
			c.Stops, c.Texts = append(c.Stops, s.Under[i].Inset-s.Under[0].Inset), append(c.Texts, d.Text(w))
		}
	}
	if len(c.Texts) > 0 {
		a := s.Under[0].Inset
		d.Dimension(drawing.Dimension{Of: "widths from the face inward", A: at(a, low), B: at(s.reach(), low), OneSide: true, Weight: mainWeight}, c)
	}
}

// boltMeasures measures a bolt: from the face, above the concrete, and in it.
func (s *Section) boltMeasures(d *drawing.Drawing) {
	b, top := s.Bolt, s.Lip.Drop
	up, low := top-b.Projection, top+b.Length-b.Projection
	between(d, "bolt from the face", at(0, up), at(b.Inset, up), true, false, false, b.Inset, boltWeight)
	out := max(b.Inset+b.Diameter/2, s.Plate.Width)
	between(d, "bolt above the slab", at(out, top), at(out, up), false, true, false, b.Projection, boltWeight)
	tip := b.Inset + b.Diameter
	if b.Hook > 0 {
		tip = b.Inset - b.Diameter/2 + b.Hook
	}
	between(d, "bolt in the concrete", at(tip, low), at(tip, top), false, false, true, low-top, boltWeight)
	if b.Hook > 0 {
		between(d, "hook of the bolt", at(b.Inset-b.Diameter/2, low), at(tip, low), false, false, false, b.Hook, boltWeight-1)
	}
}

// dowelMeasures measures a dowel: in the old slab, in the new one, and below the
// top.
func (s *Section) dowelMeasures(d *drawing.Drawing) {
	w := s.Dowel
	low := max(w.OldSlab, s.deepest())
	d.Dimension(drawing.Dimension{Of: "dowel: in the old slab, in the new one", A: at(-w.Embed, low), B: at(w.Length-w.Embed, low), Weight: mainWeight},
		drawing.Chain{Stops: []geometry.Length{0, w.Embed, w.Length}, Texts: []string{d.Text(w.Embed), d.Text(w.Length - w.Embed)}})
	between(d, "dowel below the top", at(w.Length-w.Embed, w.Depth), at(w.Length-w.Embed, 0), false, false, true, w.Depth, mainWeight-1)
}

// covers measures the bars' clear covers, each that is alike once.
func (s *Section) covers(d *drawing.Drawing) {
	for i, b := range s.Bars {
		half := b.Diameter / 2
		between(d, "cover to the face", at(0, b.Depth-half), at(b.Face, b.Depth-half), true, true, false, b.Face, coverWeight)
		if i > 0 && b.Bottom == s.Bars[i-1].Bottom && b.Top == s.Bars[i-1].Top {
			continue // said at the bar before
		}
		// The line from the bar begins beside it.
		m := drawing.Dimension{Of: "cover to the bottom", A: at(b.Inset, b.Depth+half+b.Bottom), B: at(b.Inset, b.Depth+half), OnA: true, After: geometry.Point{X: b.Diameter}, Weight: coverWeight}
		value := b.Bottom
		if b.Bottom <= 0 {
			m = drawing.Dimension{Of: "cover to the top", A: at(b.Inset, b.Depth-half), B: at(b.Inset, 0), OnB: true, Before: geometry.Point{X: b.Diameter}, Weight: coverWeight}
			value = b.Top
		}
		if value > 0 {
			d.Dimension(m, drawing.Chain{Stops: []geometry.Length{0, value}, Texts: []string{d.Text(value)}})
		}
	}
}

// names names the bars and what lies under the slab.
func (s *Section) names(d *drawing.Drawing) {
	name := func(p geometry.Point, x, y geometry.Length, text string) {
		d.Label(drawing.Label{
			Layer: drawing.Details, Style: drawing.NoteText, Type: drawing.Small, Of: "name", At: p, Prefer: geometry.Point{X: x, Y: y},
			Start: 2.5, Near: 2, Reach: 40, Weight: nameWeight,
		}, []string{text})
	}
	for i := len(s.Bars) - 1; i >= 0; i-- {
		if b := s.Bars[i]; b.Name != "" {
			name(at(b.Inset, b.Depth), 8, 6, b.Name)
		}
	}
	mid := s.reach() + (s.end()-s.reach())/2
	if m := s.Mesh; m != nil {
		name(at(mid, m.Depth), -3, 10, m.Name)
	}
	if s.Foam > 0 {
		name(at(mid, s.Field+s.Foam/2), 0, -1, "foam "+d.Text(s.Foam))
	}
	if s.Gravel > 0 {
		name(at(mid, s.Field+s.Foam+s.Gravel*3/4), 3, -10, "gravel "+d.Text(s.Gravel))
	}
	if s.Ground != nil && !s.Inside && s.Dowel == nil {
		name(at(-s.end()/4, *s.Ground), -1, 3, "ground")
		if s.Frost > 0 {
			name(at(-s.end()/4, *s.Ground+s.Frost), -1, -3, "frost "+d.Text(s.Frost))
		}
	}
}
