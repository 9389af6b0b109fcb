// Package detail draws what is shown large beside a plan: sections of edges, pads
// and thickened strips, the slab cut along a line, bent bars, how stock is cut, a
// lap, the end of a plate. Each is a drawing with a plan of its own: sections and
// plates true to size, X along and Y up, the top of the slab and the face of the
// edge at zero; what is drawn in shape only says so, and is placed at a ratio of
// 1. Figures are handed in; nothing is computed but where a line goes.
package detail

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
)

// Section is an edge, a pad or a thickened strip cut across.
type Section struct {
	Under  []plan.Station // the underside from the face inward; none for a plain edge
	Field  geometry.Length
	Inside bool // a pad or thickened strip: the field goes on both ways
	Lip    plan.Lip
	Board  lumber.Board // outside the edge; zero for none
	Plate  lumber.Board // of a wall on it; zero for none
	Bolt   *Bolt
	Bars   []Bar
	Mesh   *FieldSteel
	Gravel geometry.Length // under Foam
	Foam   geometry.Length
	Haunch bool // gravel and foam lie under the haunch as well as under the field
	Dowel  *Dowel
	Ground *geometry.Length // of the ground outside below the top; nil where it is not known
	Frost  geometry.Length  // below the ground outside; 0 where it is not known
}

// Bar is a bar seen from its end.
type Bar struct {
	Inset, Depth geometry.Length // of its center
	Diameter     geometry.Length
	Face         geometry.Length // clear of the face
	Bottom, Top  geometry.Length // clear of the underside or of the top; 0 where the other rules
	Name         string          // "No. 4"; "" for one that is named beside it
}

// FieldSteel is the mesh or the grid of the field, seen from its edge.
type FieldSteel struct {
	Depth, Cover geometry.Length // of its center below the top, and clear of the face
	Name         string
}

// Bolt is an anchor bolt seen from the side.
type Bolt struct {
	Inset, Diameter, Length, Projection geometry.Length
	Hook                                geometry.Length // of a bent bolt, from its shaft to its tip; 0 for a headed one
}

// Dowel is a dowel between two slabs, seen from the side.
type Dowel struct {
	Depth, Embed, Length, Diameter, OldSlab geometry.Length
}

const inch = geometry.Inch

// pencils of the details.
func pencil(s drawing.Style) drawing.Pencil { return drawing.Pencil{Layer: drawing.Details, Style: s} }

func at(x, depth geometry.Length) geometry.Point { return geometry.Point{X: x, Y: -depth} }

// reach gives how far in the section differs from the field.
func (s *Section) reach() geometry.Length {
	if len(s.Under) == 0 {
		return 0
	}
	return s.Under[len(s.Under)-1].Inset
}

// end gives where the field that is drawn breaks off.
func (s *Section) end() geometry.Length { return s.reach() + max(6*inch, s.reach()/4) }

// left gives where what is drawn before the face begins.
func (s *Section) left() geometry.Length {
	switch {
	case s.Dowel != nil:
		return -s.Dowel.Embed - 6*inch
	case s.Inside:
		return s.reach() - s.end()
	}
	return 0
}

func (s *Section) deepest() geometry.Length {
	d := s.Field
	for _, st := range s.Under {
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
	for _, st := range s.Under {
		out = append(out, at(st.Inset, st.Depth))
	}
	return append(out, at(s.end(), s.Field))
}

// Drawing gives the section as a drawing.
func (s Section) Drawing(u geometry.Units) *drawing.Drawing {
	d := &drawing.Drawing{Units: u}
	s.ground(d)
	s.concrete(d)
	s.woodwork(d)
	if s.Dowel != nil {
		s.oldSlab(d)
	}
	if m := s.Mesh; m != nil {
		d.Stroke(pencil(drawing.MeshLine), at(m.Cover, m.Depth), at(s.end(), m.Depth))
	}
	for _, b := range s.Bars {
		d.Circle(pencil(drawing.SteelFill), at(b.Inset, b.Depth), b.Diameter/2, 0.55, 0, true)
	}
	s.measures(d)
	s.names(d)
	return d
}

func (s *Section) concrete(d *drawing.Drawing) {
	under := s.underside()
	var top []geometry.Point
	switch {
	case s.Inside:
		top = []geometry.Point{at(s.left(), 0)}
	case s.Lip.Drop > 0:
		top = []geometry.Point{at(0, s.Lip.Drop), at(s.Lip.Inset, s.Lip.Drop), at(s.Lip.Inset, 0)}
	default:
		top = []geometry.Point{at(0, 0)}
	}
	top = append(top, at(s.end(), 0))
	for _, p := range under {
		d.Point(p)
	}
	for i := len(top) - 1; i >= 0; i-- {
		d.Point(top[i])
	}
	d.Break()
	d.FillPath(pencil(drawing.ConcreteFill))
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

// ground draws the foam and the gravel under the concrete, the earth beside them,
// and the ground outside with the depth that frost reaches.
func (s *Section) ground(d *drawing.Drawing) {
	under := s.underside()
	bed := under[len(under)-2:] // under the field alone
	if s.Haunch {
		bed = under
	}
	below := bed
	for _, l := range []struct {
		thick   geometry.Length
		pattern drawing.Pattern
	}{{s.Foam, drawing.Slanted}, {s.Gravel, drawing.Pebbles}} {
		if l.thick <= 0 {
			continue
		}
		low := lowered(below, l.thick)
		ring := append(append([]geometry.Point{}, below...), reversed(low)...)
		d.Pattern(pencil(drawing.HatchLine), l.pattern, ring...)
		d.Stroke(pencil(drawing.HatchLine), low...)
		if l.pattern == drawing.Slanted {
			d.Stroke(pencil(drawing.HatchLine), below[0], low[0])
		}
		below = low
	}
	earth := pencil(drawing.HatchLine)
	earth.Aside, earth.Deep = -0.3, -1.5
	if s.Haunch {
		d.Hatch(earth, below[:len(below)-1]...)
	} else {
		d.Hatch(earth, under[:len(under)-1]...)
	}
	if s.Ground == nil || s.Inside || s.Dowel != nil {
		return
	}
	line := *s.Ground
	from, to := -s.end()/3, -s.Board.Thickness
	d.Stroke(pencil(drawing.GroundLine), at(from, line), at(to, line))
	d.Hatch(earth, at(from, line), at(to, line))
	if s.Frost > 0 {
		d.Stroke(pencil(drawing.BendLine), at(from, line+s.Frost), at(to, line+s.Frost))
	}
}

func reversed(ps []geometry.Point) []geometry.Point {
	out := make([]geometry.Point, len(ps))
	for i, p := range ps {
		out[len(ps)-1-i] = p
	}
	return out
}

// lowered gives a chain from left to right moved down and out by a thickness that
// is measured square to it.
func lowered(ps []geometry.Point, thick geometry.Length) []geometry.Point {
	out := make([]geometry.Point, len(ps))
	for i := range ps {
		var n [2]drawing.Vec
		for k, e := range [2]int{max(i-1, 0), min(i, len(ps)-2)} {
			v := ps[e+1].Sub(ps[e])
			n[k] = drawing.Vec{X: float64(v.Y), Y: -float64(v.X)}
			if l := n[k].Length(); l > 0 {
				n[k] = n[k].Times(1 / l)
			}
		}
		m := n[0].Add(n[1])
		f := float64(thick) / max(1+n[0].Dot(n[1]), 0.2)
		out[i] = ps[i].Add(geometry.Point{X: geometry.Length(m.X * f), Y: geometry.Length(m.Y * f)})
	}
	// Its ends stay where the concrete's do.
	out[0].X, out[len(out)-1].X = ps[0].X, ps[len(ps)-1].X
	return out
}

// woodwork draws the form board, the plate and the bolt, which stand on the
// concrete: on a lip, where there is one under them.
func (s *Section) woodwork(d *drawing.Drawing) {
	if s.Board.Width > 0 && s.Dowel == nil {
		wood(d, at(-s.Board.Thickness, 0), at(0, s.Board.Width))
	}
	top := s.Lip.Drop
	if s.Plate.Width > 0 {
		wood(d, at(0, top-s.Plate.Thickness), at(s.Plate.Width, top))
	}
	if s.Bolt != nil {
		s.bolt(d, top)
	}
}

// wood draws lumber seen from its end, from its upper left corner.
func wood(d *drawing.Drawing, a, b geometry.Point) {
	ring := []geometry.Point{a, {X: b.X, Y: a.Y}, b, {X: a.X, Y: b.Y}}
	d.Fill(pencil(drawing.WoodFill), ring...)
	d.Ring(pencil(drawing.RuleLine), ring...)
	d.Stroke(pencil(drawing.HatchLine), ring[0], ring[2])
	d.Stroke(pencil(drawing.HatchLine), ring[1], ring[3])
}

// bolt draws an anchor bolt as it is bought: bent to its hook, or with a head.
func (s *Section) bolt(d *drawing.Drawing, top geometry.Length) {
	t, half := s.Bolt, s.Bolt.Diameter/2
	up, low := top-t.Projection, top+t.Length-t.Projection
	k := drawing.Pencil{Layer: drawing.Bolts, Style: drawing.BoltLine}
	if t.Hook > 0 { // bent inward: its hook is measured over the shaft
		tip := t.Inset - half + t.Hook
		d.Stroke(k, at(t.Inset+half, low-t.Diameter), at(t.Inset+half, up), at(t.Inset-half, up), at(t.Inset-half, low), at(tip, low), at(tip, low-t.Diameter), at(t.Inset+half, low-t.Diameter))
	} else {
		head := 3 * t.Diameter / 4
		d.Ring(k, at(t.Inset-half, up), at(t.Inset+half, up), at(t.Inset+half, low-half), at(t.Inset-half, low-half))
		d.Ring(k, at(t.Inset-head, low-half), at(t.Inset+head, low-half), at(t.Inset+head, low), at(t.Inset-head, low))
	}
	if s.Plate.Width > 0 { // washer on the plate
		w := top - s.Plate.Thickness
		ring := []geometry.Point{at(t.Inset-inch, w), at(t.Inset+inch, w), at(t.Inset+inch, w-inch/8), at(t.Inset-inch, w-inch/8)}
		d.Fill(pencil(drawing.PlateFill), ring...)
		d.Ring(k, ring...)
	}
}

func (s *Section) oldSlab(d *drawing.Drawing) {
	w, left := s.Dowel, s.left()
	ring := []geometry.Point{at(left, 0), at(0, 0), at(0, w.OldSlab), at(left, w.OldSlab)}
	d.Pattern(pencil(drawing.JointHatch), drawing.Slanted, ring...)
	d.Stroke(pencil(drawing.CutLine), ring...)
	d.BreakLine(pencil(drawing.RuleLine), ring[0], ring[3])
	half := w.Diameter / 2
	bar := []geometry.Point{at(-w.Embed, w.Depth-half), at(w.Length-w.Embed, w.Depth-half), at(w.Length-w.Embed, w.Depth+half), at(-w.Embed, w.Depth+half)}
	d.Fill(drawing.Pencil{Layer: drawing.Dowels, Style: drawing.SteelFill}, bar...)
	d.Ring(drawing.Pencil{Layer: drawing.Dowels, Style: drawing.DowelLine}, bar...)
}
