// Package detail draws what is shown large beside a plan: sections of edges, pads
// and thickened strips, bent bars, how stock is cut, a lap, the end of a plate. Each
// is a drawing with a plan of its own: sections and plates true to size, X along and
// Y up, the top of the slab and the face of the edge at zero; what is drawn in shape
// only says so, and is placed at a ratio of 1. Figures are handed in; nothing is
// computed but where a line goes.
package detail

import (
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
)

// Section is an edge, a pad or a thickened strip cut across.
type Section struct {
	Under   []plan.Station // the underside from the face inward; none for a plain edge
	Field   geometry.Length
	Inside  bool // a pad or thickened strip: the field goes on both ways
	Lip     plan.Lip
	Board   lumber.Board // outside the edge; zero for none
	Plate   lumber.Board // of a wall, on the top beside the lip; zero for none
	Bolt    *Bolt
	Bars    []Bar
	Lying   *LyingBar // bars that lie in the section, one behind the other
	Mesh    *FieldSteel
	Layers  []Layer // from the underside down
	Dowel   *Dowel
	Against *Against
	Key     *Key
	Frost   *Frost
	Curb    *Curb
	Said    bool // bolt and covers are said in words beside it: what of them finds no room is left out
	Plain   bool // without measures and names
}

// Bar is a bar seen from its end.
type Bar struct {
	Inset, Depth geometry.Length // of its center
	Diameter     geometry.Length
	Face         geometry.Length // clear of the face
	Bottom, Top  geometry.Length // clear of the underside or of the top; 0 where the other rules
	Name         string          // "No. 4"; "" for one that is named beside it
}

// LyingBar is a bar seen from its side.
type LyingBar struct {
	From, To geometry.Length // insets of its ends
	Depth    geometry.Length // of its center
	Diameter geometry.Length
}

// FieldSteel is the mesh or the grid of the field, seen from its edge.
type FieldSteel struct {
	Name  string
	Depth geometry.Length // of its center below the top
	Cover geometry.Length // clear of the face
}

// Layer is foam or gravel.
type Layer struct {
	Name         string
	Pattern      drawing.Pattern
	Thickness    geometry.Length
	Upper, Lower []plan.Station // its sides
}

// Bolt is an anchor bolt seen from the side.
type Bolt struct {
	Diameter   geometry.Length
	Length     geometry.Length // over all, as bought
	Projection geometry.Length // above the slab's top
	Shape      bolts.Shape
	Hook       geometry.Length // of a bent one, from its shaft to its tip
	Inset      geometry.Length // of its shaft
	Washer     geometry.Length // side of its washer
}

// Dowel is a dowel between two slabs, seen from the side.
type Dowel struct {
	Depth, Embed, Length, Diameter, OldSlab geometry.Length
}

// Against is the slab that the edge is poured against.
type Against struct {
	Lower     geometry.Length // its top, below the slab's own
	Thickness geometry.Length
	Curb      geometry.Length // on its edge, over its top; 0 for none
	Wide      geometry.Length // of the curb
	Filled    bool            // a strip of filler lies between
	Board     lumber.Board    // of a step down to it, or to its curb; zero for none
}

// Key is the key of a construction joint at the middle of the section: what is poured first
// lies left of it, and has the groove.
type Key struct {
	High, Deep geometry.Length // of its mouth; into the first pour
	Bevel      geometry.Length // by which each of its sides narrows
}

const inch = geometry.Inch

// pencil draws what has no layer of a plan.
func pencil(s drawing.Style) drawing.Pencil { return drawing.Pencil{Layer: drawing.Details, Style: s} }

func at(x, depth geometry.Length) geometry.Point { return geometry.Point{X: x, Y: -depth} }

func along(stations []plan.Station) []geometry.Point {
	out := make([]geometry.Point, len(stations))
	for i, st := range stations {
		out[i] = at(st.Inset, st.Depth)
	}
	return out
}

// reach gives how far in the section differs from the field.
func (s *Section) reach() geometry.Length {
	if len(s.Under) == 0 {
		return 0
	}
	return s.Under[len(s.Under)-1].Inset
}

// end gives where the field that is drawn breaks off.
func (s *Section) end() geometry.Length {
	if s.Key != nil { // both ways alike
		return -s.left()
	}
	end := s.reach() + max(6*inch, s.reach()/4)
	if s.Curb != nil { // with the board of its inner face, and some of the top beyond
		end = max(end, s.Curb.Width+6*inch)
	}
	return end
}

// left gives where what is drawn before the face begins.
func (s *Section) left() geometry.Length {
	switch {
	case s.Lying != nil && s.Lying.From < 0:
		return s.Lying.From - 6*inch
	case s.Dowel != nil:
		return -s.Dowel.Embed - 6*inch
	case s.Against != nil:
		return -max(9*inch, s.Against.Wide+4*inch)
	case s.Key != nil:
		return -8 * inch
	case s.Frost != nil:
		return -s.Frost.reach() - 9*inch
	case s.Inside:
		return s.reach() - s.end()
	}
	return 0
}

// deepest gives how deep the concrete goes, and lowest what lies under it.
func (s *Section) deepest() geometry.Length { return deepest(s.Field, s.Under) }

func (s *Section) lowest() geometry.Length {
	d := s.deepest()
	for _, l := range s.Layers {
		d = deepest(d, l.Lower)
	}
	return d
}

func deepest(d geometry.Length, stations []plan.Station) geometry.Length {
	for _, st := range stations {
		d = max(d, st.Depth)
	}
	return d
}

// underside gives the underside with the field beyond it.
func (s *Section) underside() []geometry.Point {
	var out []geometry.Point
	if s.Inside {
		out = append(out, at(s.left(), s.Field))
	}
	if len(s.Under) == 0 {
		out = append(out, at(0, s.Field))
	}
	return append(append(out, along(s.Under)...), at(s.end(), s.Field))
}

// Drawing gives the section as a drawing.
func (s Section) Drawing(u geometry.Units) *drawing.Drawing {
	d := &drawing.Drawing{Units: u}
	s.ground(d)
	s.concrete(d)
	s.woodwork(d)
	if s.Frost != nil {
		s.Frost.draw(d, &s)
	}
	if s.Curb != nil {
		s.Curb.steel(d)
	}
	if s.Dowel != nil {
		s.oldSlab(d)
	}
	if s.Against != nil {
		s.against(d)
	}
	if s.Key != nil {
		d.Stroke(pencil(drawing.CutLine), s.Key.face(s.Field)...)
	}
	if m := s.Mesh; m != nil {
		d.Stroke(drawing.Pencil{Layer: drawing.Mesh, Style: drawing.MeshLine}, at(m.Cover, m.Depth), at(s.end(), m.Depth))
	}
	if b := s.Lying; b != nil {
		half := b.Diameter / 2
		d.Fill(drawing.Pencil{Layer: drawing.Steel, Style: drawing.SteelFill}, at(b.From, b.Depth-half), at(b.To, b.Depth-half), at(b.To, b.Depth+half), at(b.From, b.Depth+half))
	}
	for _, b := range s.Bars {
		d.Circle(drawing.Pencil{Layer: drawing.Steel, Style: drawing.SteelFill}, at(b.Inset, b.Depth), b.Diameter/2, 0.55, 0, true)
	}
	if !s.Plain {
		s.measures(d)
		s.names(d)
	}
	return d
}

func (s *Section) concrete(d *drawing.Drawing) {
	under, top := s.underside(), []geometry.Point{at(0, 0)}
	switch {
	case s.Inside:
		top[0] = at(s.left(), 0)
	case s.Lip.Drop > 0:
		top = []geometry.Point{at(0, s.Lip.Drop), at(s.Lip.Inset, s.Lip.Drop), at(s.Lip.Inset, 0)}
	}
	if c := s.Curb; c != nil {
		top = []geometry.Point{at(0, -c.Height), at(c.Width, -c.Height), at(c.Width, 0)}
	}
	top = append(top, at(s.end(), 0))
	back := slices.Clone(top)
	slices.Reverse(back)
	d.Fill(pencil(drawing.ConcreteFill), append(slices.Clone(under), back...)...)
	cut := pencil(drawing.CutLine)
	d.Stroke(cut, top...)
	if s.Inside {
		d.Stroke(cut, under...)
		d.BreakLine(pencil(drawing.RuleLine), top[0], under[0])
	} else {
		d.Stroke(cut, append([]geometry.Point{top[0]}, under...)...)
	}
	d.BreakLine(pencil(drawing.RuleLine), at(s.end(), 0), at(s.end(), s.Field))
}

// ground draws the layers under the concrete and the earth below them.
func (s *Section) ground(d *drawing.Drawing) {
	thin := pencil(drawing.HatchLine)
	below := s.underside()
	for _, l := range s.Layers {
		upper, low := along(l.Upper), along(l.Lower)
		ring := slices.Clone(low)
		slices.Reverse(ring)
		ring = append(upper, ring...)
		d.Pattern(thin, l.Pattern, ring...)
		if l.Pattern == drawing.Slanted {
			d.Ring(thin, ring...)
		} else {
			d.Stroke(thin, low...)
		}
		if low[0].X == 0 {
			below = low
		}
	}
	thin.Aside, thin.Deep = -0.3, -1.5
	if s.Key == nil {
		below = below[:len(below)-1]
	}
	d.Hatch(thin, below...)
}

// woodwork draws the form board, the plate and the bolt. The plate stands on the top
// of the slab, which at a door's lip is beyond the section: there it is drawn thin.
func (s *Section) woodwork(d *drawing.Drawing) {
	if s.Board.Width > 0 && s.Dowel == nil {
		wood(d, drawing.Forms, at(-s.Board.Thickness, 0), at(0, s.Board.Width))
	}
	if s.Plate.Width > 0 {
		if s.Lip.Drop > 0 {
			d.Stroke(pencil(drawing.BendLine), at(0, s.Lip.Drop), at(0, 0), at(s.Lip.Inset, 0))
		}
		wood(d, drawing.Plates, at(0, -s.rise()-s.Plate.Thickness), at(s.Plate.Width, -s.rise()))
	}
	if s.Curb != nil && s.Board.Width > 0 {
		s.Curb.woodwork(d)
	}
	if s.Bolt != nil {
		s.bolt(d)
	}
}

// rise gives how far what the plate stands on lies above the slab's top.
func (s *Section) rise() geometry.Length {
	if s.Curb == nil {
		return 0
	}
	return s.Curb.Height
}

// wood draws lumber seen from its end, from its upper left corner.
func wood(d *drawing.Drawing, l drawing.Layer, a, b geometry.Point) {
	plated(d, drawing.Pencil{Layer: l, Style: drawing.RuleLine}, a, b)
	thin, ring := drawing.Pencil{Layer: l, Style: drawing.HatchLine}, corners(a, b)
	d.Stroke(thin, ring[0], ring[2])
	d.Stroke(thin, ring[1], ring[3])
}

// low gives how far a bolt goes below the top, and tip how far in it reaches.
func (t *Bolt) low() geometry.Length { return t.Length - t.Projection }

func (t *Bolt) tip() geometry.Length { return t.Inset + t.Diameter/2 + t.Hook }

// bolt draws an anchor bolt as it is bought: bent to its hook, or with a head.
func (s *Section) bolt(d *drawing.Drawing) {
	t, half := s.Bolt, s.Bolt.Diameter/2
	up, low, left, right := -t.Projection-s.rise(), t.low()-s.rise(), t.Inset-half, t.Inset+half
	k := drawing.Pencil{Layer: drawing.Bolts, Style: drawing.BoltLine}
	if t.Shape == bolts.Bent && t.Hook > t.Diameter {
		d.Ring(k, at(left, up), at(left, low), at(t.tip(), low), at(t.tip(), low-t.Diameter), at(right, low-t.Diameter), at(right, up))
	} else {
		d.Ring(k, at(left, up), at(left, low), at(right, low), at(right, up))
		if t.Shape == bolts.Headed { // of a hex bolt about 1.5 diameters across, and 5/8 high
			plated(d, k, at(t.Inset-t.Diameter*3/4, low-t.Diameter*5/8), at(t.Inset+t.Diameter*3/4, low))
		}
	}
	if s.Plate.Width > 0 {
		side, top := max(t.Washer, 2*t.Diameter)/2, -s.rise()-s.Plate.Thickness
		plated(d, k, at(t.Inset-side, top-inch/8), at(t.Inset+side, top))
	}
}

// plated draws an upright rectangle that hides what lies under it.
func plated(d *drawing.Drawing, k drawing.Pencil, a, b geometry.Point) {
	ring := corners(a, b)
	d.Fill(drawing.Pencil{Layer: k.Layer, Style: drawing.WoodFill}, ring...)
	d.Ring(k, ring...)
}

// corners gives those of an upright rectangle, from its upper left one.
func corners(a, b geometry.Point) []geometry.Point {
	return []geometry.Point{a, {X: b.X, Y: a.Y}, b, {X: a.X, Y: b.Y}}
}

func (s *Section) oldSlab(d *drawing.Drawing) {
	w, left := s.Dowel, s.left()
	ring := corners(at(left, 0), at(0, w.OldSlab))
	d.Pattern(pencil(drawing.JointHatch), drawing.Slanted, ring...)
	d.Stroke(pencil(drawing.CutLine), ring...) // open where it goes on, and the dowel is measured
	bar := corners(at(-w.Embed, w.Depth-w.Diameter/2), at(w.Length-w.Embed, w.Depth+w.Diameter/2))
	d.Fill(drawing.Pencil{Layer: drawing.Dowels, Style: drawing.SteelFill}, bar...)
	d.Ring(drawing.Pencil{Layer: drawing.Dowels, Style: drawing.DowelLine}, bar...)
}

// filler is how thick the strip between two slabs is drawn.
const filler = inch / 2

// against draws the slab that the edge is poured against, open where it goes on.
func (s *Section) against(d *drawing.Drawing) {
	a, face := s.Against, geometry.Length(0)
	top := a.Lower - a.Curb // of what lies at the face
	if a.Filled {
		face = -filler
		d.Fill(pencil(drawing.WoodFill), corners(at(face, max(0, top)), at(0, s.Under[0].Depth))...)
		d.Ring(pencil(drawing.HatchLine), corners(at(face, max(0, top)), at(0, s.Under[0].Depth))...)
	}
	if a.Board.Width > 0 && top > 0 { // of the face over the other slab
		wood(d, drawing.Forms, at(-a.Board.Thickness, 0), at(0, min(top, a.Board.Width)))
	}
	ring := corners(at(s.left(), a.Lower), at(face, a.Lower+a.Thickness))
	if a.Curb > 0 {
		ring = append([]geometry.Point{ring[0], at(face-a.Wide, a.Lower), at(face-a.Wide, top), at(face, top)}, ring[2:]...)
	}
	d.Pattern(pencil(drawing.JointHatch), drawing.Slanted, ring...)
	d.Stroke(pencil(drawing.CutLine), ring...)
}

// face gives the face of a joint with the key in the middle of a thickness.
func (k *Key) face(thick geometry.Length) []geometry.Point {
	up, low := (thick-k.High)/2, (thick+k.High)/2
	return []geometry.Point{at(0, 0), at(0, up), at(-k.Deep, up+k.Bevel), at(-k.Deep, low-k.Bevel), at(0, low), at(0, thick)}
}
