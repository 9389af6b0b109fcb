package sheet

import (
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/lumber"
)

// sectionNames names the bars and what lies under the slab.
func (d *draft) sectionNames(s sectionSpec, p place) {
	name := func(at Point, prefer Point, text string) {
		d.label(label{layer: Notes, size: sizeSmall, color: black, lines: []string{text}, at: at, prefer: prefer, start: 2.5, limit: 40, near: 2})
	}
	if n := len(s.bars); n > 0 && s.barName != "" {
		b := s.bars[n-1]
		name(p(b.Inset, b.Depth), Point{0.8, 0.6}, s.barName)
	}
	mid := s.reach() + s.beyond()/2
	if m := s.steel; m != nil {
		name(p(mid, m.Depth), Point{-0.3, 1}, m.Name)
	}
	down := s.field
	for _, l := range s.layers {
		if l.Kind == takeoff.FoamStock {
			name(p(mid, down+l.Thickness/2), Point{0, -1}, "foam")
		} else {
			name(p(mid, down+l.Thickness*3/4), Point{0.3, -1}, "gravel")
		}
		down += l.Thickness
	}
}

// ends says at which ends of a measure a line that is drawn already runs on, as
// a face does, and serves as its extension line.
type ends uint8

const (
	neither ends = 0
	atA     ends = 1
	atB     ends = 2
)

// between dimensions from a to b at the first free offset from least to most:
// on the side of out, else on the other.
func (d *draft) between(a, b, out Point, least, most float64, text string, drawn ends) bool {
	r := run{a: a, b: b, out: out}
	r.to = r.length()
	return d.strings(r, least, most, chain{[]float64{0, r.length()}, []string{text}}, drawn)
}

func (d *draft) strings(r run, least, most float64, c chain, drawn ends) bool {
	for _, r := range []run{r, r.inward()} {
		if drawn&atA != 0 {
			r.prev = r.out.times(2 * most)
		}
		if drawn&atB != 0 {
			r.next = r.out.times(2 * most)
		}
		for o := least; o < most; o += 1.5 {
			if d.attempt(func() bool { return d.stack(r, o, []chain{c}) }) {
				return true
			}
		}
	}
	return false
}

// mustBetween is between, and tells where it fails.
func (d *draft) mustBetween(a, b, out Point, least, most float64, text string, drawn ends) {
	if !d.between(a, b, out, least, most, text, drawn) {
		d.page.Unplaced = append(d.page.Unplaced, text)
	}
}

var (
	toLeft, toRight = Point{-1, 0}, Point{1, 0}
	upward, down    = Point{0, 1}, Point{0, -1}
)

// sectionMeasures draws the dimensions of a section.
func (d *draft) sectionMeasures(s sectionSpec, u geometry.Units, p place) {
	end := s.reach() + s.beyond()
	switch {
	case s.inside:
		d.mustBetween(p(-s.beyond(), s.deepest()), p(-s.beyond(), 0), toLeft, 5, 17, s.deepest().Text(u), neither)
	case len(s.under) > 0 && s.dowel == nil:
		face := geometry.Length(0)
		if b, ok := lumber.Named(s.board); ok {
			face = -b.Thickness
		}
		d.mustBetween(p(face, s.under[0].Depth), p(face, 0), toLeft, 5, 17, s.under[0].Depth.Text(u), neither)
	}
	d.mustBetween(p(end, s.field), p(end, 0), toRight, 5, 17, s.field.Text(u), neither)
	if s.dowel != nil {
		d.dowelMeasures(s, u, p)
	} else {
		d.underMeasures(s, u, p)
	}
	if s.bolt != nil {
		d.boltMeasures(s, u, p)
	}
	d.covers(s, u, p)
}

// underMeasures draws the string of widths under the concrete.
func (d *draft) underMeasures(s sectionSpec, u geometry.Units, p place) {
	if len(s.under) < 2 {
		return
	}
	low := s.lowest()
	r := run{a: p(0, low), b: p(s.reach(), low), out: down}
	r.to = r.length()
	var c chain
	for i, st := range s.under {
		if i > 0 && st.Inset == s.under[i-1].Inset {
			continue
		}
		if len(c.stops) > 0 {
			c.texts = append(c.texts, (st.Inset - s.under[i-1].Inset).Text(u))
		}
		c.stops = append(c.stops, p(st.Inset, low).X-r.a.X)
	}
	for o := 5.0; o < 14; o += 1.5 {
		if d.attempt(func() bool { return d.stack(r, o, []chain{c}) }) {
			return
		}
	}
	d.page.Unplaced = append(d.page.Unplaced, c.texts...)
}

// boltMeasures dimensions a bolt: from the face, above the slab, and in it. What
// is too small for a measure is in the notes of the section all the same.
func (d *draft) boltMeasures(s sectionSpec, u geometry.Units, p place) {
	b := s.bolt
	d.between(p(0, -b.Projection), p(b.Inset, -b.Projection), upward, 3, 9, b.Inset.Text(u), neither)
	out := b.Inset + b.Diameter/2
	if s.plate != nil {
		out = max(out, s.plate.Width)
	}
	d.between(p(out, 0), p(out, -b.Projection), toRight, 3, 18, b.Projection.Text(u), atA)
	low := b.Deep()
	tip := b.Inset + b.Diameter/2 + b.Hook
	d.between(p(tip, low), p(tip, 0), toRight, 4, 30, low.Text(u), atB)
}

// dowelMeasures dimensions a dowel: in the old slab, in the new one, and below
// the top.
func (d *draft) dowelMeasures(s sectionSpec, u geometry.Units, p place) {
	w := s.dowel
	low := max(w.oldSlab, s.deepest())
	r := run{a: p(-w.embed, low), b: p(w.length-w.embed, low), out: down}
	r.to = r.length()
	c := chain{[]float64{0, p(0, low).X - r.a.X, r.length()}, []string{w.embed.Text(u), (w.length - w.embed).Text(u)}}
	if !d.strings(r, 4, 12, c, neither) {
		d.page.Unplaced = append(d.page.Unplaced, c.texts...)
	}
	left, right := -(w.embed + 6*geometry.Inch), w.length-w.embed
	if text := w.depth.Text(u); !d.between(p(left, w.depth), p(left, 0), toLeft, 3, 12, text, neither) {
		d.between(p(right, w.depth), p(right, 0), toRight, 3, 20, text, atB)
	}
}

// covers dimensions the bars' clear covers. One without a place is in the notes
// of the section all the same.
func (d *draft) covers(s sectionSpec, u geometry.Units, p place) {
	for i, b := range s.bars {
		half := b.Diameter / 2
		for _, side := range []struct {
			depth geometry.Length
			out   Point
		}{{b.Depth - half, upward}, {b.Depth + half, down}} {
			if d.between(p(0, side.depth), p(b.Face, side.depth), side.out, 2.2, 20, b.Face.Text(u), atA) {
				break
			}
		}
		if i > 0 && b.Bottom == s.bars[i-1].Bottom && b.Top == s.bars[i-1].Top {
			continue // said at the bar before
		}
		at := p(b.Inset, 0).X
		switch {
		case b.Bottom > 0:
			d.between(Point{at, p(0, b.Depth+half+b.Bottom).Y}, Point{at, p(0, b.Depth+half).Y}, toRight, 2.2, 25, b.Bottom.Text(u), atA)
		case b.Top > 0:
			d.between(Point{at, p(0, 0).Y}, Point{at, p(0, b.Depth-half).Y}, toRight, 2.2, 25, b.Top.Text(u), atA)
		}
	}
}
