package planview

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/solid"
)

var (
	_ = add(kind{layer: drawing.Depth, stage: ground, order: 1, sound: true, draw: (*Maker).shades, write: (*Maker).depths})
	_ = add(kind{layer: drawing.Haunch, stage: ground, order: 2, sound: true, draw: (*Maker).bends})
	_ = add(kind{layer: drawing.Names, stage: lines, order: 9, write: (*Maker).title})
)

// Underside is a solid made ready to be drawn. It may be made beside the window.
type Underside struct {
	solid   *solid.Solid
	field   geometry.Length
	deepest geometry.Length
	faces   []face
	ridges  []solid.Line
	flats   []flat
	steep   float64          // greatest slope of the underside
	open    []geometry.Point // where the slab is as thick as the field, the roomiest first
	sought  bool

	step     geometry.Length // of contours
	contours []solid.Contour // longest first
}

// face is a face of the underside with its width across its longest side.
type face struct {
	solid.Face
	wide float64
}

// flat is a level face of the underside.
type flat struct {
	at    geometry.Point
	depth geometry.Length
	size  float64        // length of its longest side in nanometers
	thick float64        // its width across that
	way   geometry.Point // along its longest side
}

// UndersideOf makes a solid ready. Field is its thickness away from thickenings.
func UndersideOf(sol *solid.Solid, field geometry.Length) *Underside {
	s := &Underside{solid: sol, field: field, deepest: field, ridges: sol.Ridges()}
	for _, f := range sol.Faces() {
		lo, hi := span(f.Depths)
		s.deepest = max(s.deepest, hi)
		at, way, long, wide := extent(f.Corners)
		s.faces = append(s.faces, face{f, wide})
		if hi-lo < geometry.Sixteenth/4 {
			s.flats = append(s.flats, flat{at, hi, long, wide, way})
		} else if wide > 0 {
			s.steep = max(s.steep, slope(f))
		}
	}
	slices.SortStableFunc(s.flats, func(a, b flat) int { return cmp.Compare(b.size*b.thick, a.size*a.thick) })
	return s
}

func span(depths []geometry.Length) (lo, hi geometry.Length) {
	lo, hi = depths[0], depths[0]
	for _, d := range depths {
		lo, hi = min(lo, d), max(hi, d)
	}
	return lo, hi
}

// extent gives the middle of a face, the way and the length of its longest side,
// and its width across it.
func extent(ps []geometry.Point) (at, way geometry.Point, long, wide float64) {
	var x, y float64
	k := 0
	for i, p := range ps {
		x, y = x+float64(p.X)/float64(len(ps)), y+float64(p.Y)/float64(len(ps))
		q := ps[(i+1)%len(ps)]
		if l := math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y)); l > long {
			long, k = l, i
		}
	}
	if long > 0 {
		a, b := ps[k], ps[(k+1)%len(ps)]
		ux, uy := float64(b.X-a.X)/long, float64(b.Y-a.Y)/long
		for _, p := range ps {
			wide = max(wide, math.Abs(float64(p.Y-a.Y)*ux-float64(p.X-a.X)*uy))
		}
	}
	return geometry.Point{X: geometry.Length(x), Y: geometry.Length(y)}, ps[(k+1)%len(ps)].Sub(ps[k]), long, wide
}

// slope gives how steep a face is: depth over distance, of the plane through the
// corners that span it best.
func slope(f solid.Face) float64 {
	a, best, out := f.Corners[0], 0.0, 0.0
	for i := 1; i < len(f.Corners); i++ {
		for k := i + 1; k < len(f.Corners); k++ {
			ux, uy, uz := float64(f.Corners[i].X-a.X), float64(f.Corners[i].Y-a.Y), float64(f.Depths[i]-f.Depths[0])
			vx, vy, vz := float64(f.Corners[k].X-a.X), float64(f.Corners[k].Y-a.Y), float64(f.Depths[k]-f.Depths[0])
			if area := math.Abs(ux*vy - uy*vx); area > best {
				best = area
				out = math.Hypot(uz*vy-vz*uy, ux*vz-vx*uz) / area
			}
		}
	}
	return out
}

// places gives some places where the slab is as thick as the field, those in the
// middle first; where it nowhere is, some places of the slab. They are looked for once.
func (s *Underside) places(lo, hi geometry.Point) []geometry.Point {
	if s.sought {
		return s.open
	}
	s.sought = true
	const n = 9
	look := func(rows, columns []int, is func(geometry.Length) bool) {
		for _, k := range rows {
			for _, i := range columns {
				p := geometry.Point{
					X: lo.X + (hi.X-lo.X)/n*geometry.Length(i) + (hi.X-lo.X)/(2*n),
					Y: lo.Y + (hi.Y-lo.Y)/n*geometry.Length(k) + (hi.Y-lo.Y)/(2*n),
				}
				if d, ok := s.solid.DepthAt(p); ok && is(d) {
					s.open = append(s.open, p)
				}
			}
		}
	}
	field := func(d geometry.Length) bool { return (d - s.field).Abs() < geometry.Sixteenth/4 }
	look([]int{4, 3, 5, 2, 6}, []int{3, 5, 2, 6, 4}, field)
	all := []int{4, 3, 5, 2, 6, 1, 7, 0, 8}
	for _, is := range []func(geometry.Length) bool{field, func(geometry.Length) bool { return true }} {
		if len(s.open) == 0 { // an angle or a channel, whose middle is none of it
			look(all, all, is)
		}
	}
	return s.open
}

// steps are the distances between contours to choose from.
var steps = map[geometry.Units][]geometry.Length{
	geometry.FeetInches:  {geometry.Inch / 2, geometry.Inch, 2 * geometry.Inch, 3 * geometry.Inch, 6 * geometry.Inch, 12 * geometry.Inch},
	geometry.Millimeters: {10 * geometry.Millimeter, 25 * geometry.Millimeter, 50 * geometry.Millimeter, 100 * geometry.Millimeter, 250 * geometry.Millimeter},
}

// contoursAt gives contours that lie at least so far apart on the plan and are at
// most a dozen.
func (s *Underside) contoursAt(u geometry.Units, apart geometry.Length) []solid.Contour {
	step := geometry.Length(0)
	if s.steep > 0 {
		for _, d := range steps[u] {
			if float64(d)/s.steep >= float64(apart) && (s.deepest-s.field)/d <= 12 {
				step = d
				break
			}
		}
	}
	if step == s.step {
		return s.contours
	}
	s.step, s.contours = step, nil
	if step == 0 {
		return nil
	}
	var depths []geometry.Length
	for d := (s.field/step + 1) * step; d < s.deepest; d += step {
		depths = append(depths, d)
	}
	s.contours = s.solid.Contours(depths...)
	long := func(c solid.Contour) float64 {
		return math.Hypot(float64(c.B.X-c.A.X), float64(c.B.Y-c.A.Y))
	}
	slices.SortStableFunc(s.contours, func(a, b solid.Contour) int { return cmp.Compare(long(b), long(a)) })
	return s.contours
}

// shades shades each face by its depth, and draws the lines of equal depth.
func (m *Maker) shades() {
	s := m.s.Underside
	if s == nil || s.deepest == s.field {
		return
	}
	for i := range s.faces {
		f := &s.faces[i]
		if len(f.Corners) < 3 || f.wide < 0.5*float64(m.o.Detail) || !m.seen(f.Corners...) {
			continue
		}
		lo, hi := span(f.Depths)
		shade := ((float64(lo)+float64(hi))/2 - float64(s.field)) / float64(s.deepest-s.field)
		m.d.Fill(drawing.Pencil{Layer: drawing.Depth, Style: drawing.DepthFill, Shade: float32(shade)}, f.Corners...)
	}
	if !m.o.Screen || !m.small(geometry.Foot/2, 1) { // else the shades alone tell
		m.ridges(drawing.Depth)
	}
	for _, c := range s.contoursAt(m.d.Units, max(2*m.o.Detail, geometry.Inch)) {
		m.d.Stroke(drawing.Pencil{Layer: drawing.Depth, Style: drawing.ContourLine}, c.A, c.B)
	}
}

// bends draws where the underside bends, as lines that are hidden.
func (m *Maker) bends() {
	if m.s.Underside != nil {
		m.ridges(drawing.Haunch)
	}
}

func (m *Maker) ridges(l drawing.Layer) {
	for _, r := range m.s.Underside.ridges {
		m.d.Stroke(drawing.Pencil{Layer: l, Style: drawing.BendLine}, r.A, r.B)
	}
}

// depths labels contours and level faces with their depth, and the field with its
// thickness. Depths are told several times, but not close together.
func (m *Maker) depths() {
	s := m.s.Underside
	if s == nil || m.o.Through {
		return
	}
	if open := s.places(m.bounds()); len(open) > 0 && len(m.s.Title) == 0 {
		var spots [8]drawing.Spot
		n := 0
		for n < len(spots) && n < len(open) {
			spots[n] = drawing.At(open[n])
			n++
		}
		m.depthLabel(m.d.Join(m.d.Text(s.field), " thick"), open[0], spots[:n], depthWeight+1)
	}
	type told struct {
		depth geometry.Length
		at    geometry.Point
	}
	var said [24]told
	n := 0
	near := func(d geometry.Length, p geometry.Point) bool {
		count := 0
		for _, t := range said[:n] {
			if t.depth == d {
				if count++; count > 3 || m.small(geometry.Distance(t.at, p), 73) {
					return true
				}
			}
		}
		return false
	}
	say := func(d geometry.Length, p geometry.Point, text string, spots []drawing.Spot) {
		said[n] = told{d, p}
		n++
		m.depthLabel(text, p, spots, depthWeight)
	}
	for i := range s.flats {
		f := &s.flats[i]
		if n == len(said) || f.size < 13*float64(m.o.Detail) {
			break
		}
		if f.thick >= 4.3*float64(m.o.Detail) && m.seen(f.at) && !near(f.depth, f.at) {
			// In its middle, or a little aside of it, clear of an edge.
			across := inward(geometry.Point{}, f.way)
			at := [5]drawing.Spot{drawing.At(f.at)}
			for k, by := range [4]float32{0.9, -0.9, 1.8, -1.8} {
				at[k+1] = drawing.Spot{At: f.at, Line: across, Ahead: by}
			}
			say(f.depth, f.at, m.d.Join(m.d.Text(f.depth), " deep"), at[:])
		}
	}
	for i := range s.contours {
		c := &s.contours[i]
		if n == len(said) || m.small(geometry.Distance(c.A, c.B), 11) {
			break
		}
		var at [2]drawing.Spot
		k := 0
		for _, t := range [2]float64{0.3, 0.7} {
			if p := drawing.Between(c.A, c.B, t); m.seen(p) && !near(c.Depth, p) {
				at[k] = drawing.Spot{At: p, Line: c.B.Sub(c.A), Turned: true}
				k++
			}
		}
		if k > 0 {
			say(c.Depth, at[0].At, m.d.Text(c.Depth), at[:k])
		}
	}
}

func (m *Maker) depthLabel(text string, at geometry.Point, spots []drawing.Spot, weight int8) {
	m.lines = append(m.lines[:0], text)
	m.d.Label(drawing.Label{Layer: drawing.Depth, Style: drawing.DepthText, Type: drawing.Small, At: at, Weight: weight, Optional: true}, m.lines, spots...)
}

// bounds gives the box of the outline of the slab in turn.
func (m *Maker) bounds() (lo, hi geometry.Point) {
	for i, e := range m.s.Plan.Outline {
		if i == 0 {
			lo, hi = e.At, e.At
		}
		lo = geometry.Point{X: min(lo.X, e.At.X), Y: min(lo.Y, e.At.Y)}
		hi = geometry.Point{X: max(hi.X, e.At.X), Y: max(hi.Y, e.At.Y)}
	}
	return lo, hi
}

// title writes what is said of a whole slab: on a screen the name of one that is
// not being worked on.
func (m *Maker) title() {
	if len(m.s.Plan.Outline) < 3 || m.o.Screen && (!m.quiet || m.s.Name == "") {
		return
	}
	lo, hi := m.bounds()
	mid := drawing.Between(lo, hi, 0.5)
	quarter := geometry.Point{Y: (hi.Y - lo.Y) / 4}
	l := drawing.Label{Layer: drawing.Names, Style: drawing.NoteText, Type: drawing.Head | drawing.Bold, At: mid, Weight: slabWeight}
	if m.o.Screen {
		spots := [3]drawing.Spot{drawing.At(mid), drawing.At(mid.Sub(quarter)), drawing.At(mid.Add(quarter))}
		m.lines = append(m.lines[:0], m.s.Name)
		m.d.Label(l, m.lines, spots[:]...)
		return
	}
	lines := m.s.Title
	if len(lines) == 0 {
		lines = []string{m.d.Text(m.s.Plan.Field) + " slab"}
	}
	var spots []drawing.Spot
	if m.s.Underside != nil {
		for _, p := range m.s.Underside.places(lo, hi) {
			spots = append(spots, drawing.At(p))
		}
	}
	if len(spots) > 0 {
		l.At = spots[0].At
	}
	l.Of, l.Near, l.Reach = "Slab", 30, 120
	m.d.Label(l, lines, spots...)
}
