package planview

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
	"haunchbook.example/geometry/solid"
)

var (
	_ = add(kind{layer: drawing.Foam, stage: ground, order: 3, sound: true, draw: (*Maker).foam, write: (*Maker).foamName})
	_ = add(kind{layer: drawing.Retarder, stage: ground, order: 4, sound: true, draw: (*Maker).retarder, write: (*Maker).retarderName})
	_ = add(kind{layer: drawing.Mesh, stage: placed, order: 1, sound: true, draw: (*Maker).mesh, write: (*Maker).meshName})
)

// Cover is sheets made ready to be drawn. It may be made beside the window.
type Cover struct {
	sheets  []cover.Sheet
	borders []border        // of all sheets, those that lie in one line joined
	axes    []solid.Line    // a diagonal of each sheet, cut to the slab
	loops   []plan.Loop     // of the slab they are cut to; nil for whole ones
	sides   *plane.Sides    // of the same
	lap     geometry.Length // of neighbors; 0 for none
	lapAt   geometry.Point
	w, h    geometry.Length // of the largest sheet
}

// border is a line of sheets' sides.
type border struct {
	solid.Line
	at   float64         // across its direction, nanometers; they are in this order
	wide geometry.Length // of the widest sheet that it borders
}

// CoverOf makes sheets ready, cut to the slab with the given loops, or whole for
// none; it is nil for no sheets.
func CoverOf(sheets []cover.Sheet, loops []plan.Loop) *Cover {
	if len(sheets) == 0 {
		return nil
	}
	c := &Cover{sheets: sheets}
	for i := range sheets {
		q := &sheets[i].Corners
		if a, b := geometry.Distance(q[0], q[1]), geometry.Distance(q[1], q[2]); a.Feet()*b.Feet() > c.w.Feet()*c.h.Feet()*1.0001 {
			c.w, c.h = min(a, b), max(a, b)
		}
		if i > 0 && c.lap == 0 {
			c.lap, c.lapAt, _ = lapOf(&sheets[i-1], &sheets[i])
		}
		c.axes = append(c.axes, solid.Line{A: q[0], B: q[2]})
	}
	c.join()
	c.trim(loops)
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
	type side struct {
		at, from, to float64
		wide         geometry.Length
	}
	var both [2][]side
	for i := range c.sheets {
		q := &c.sheets[i].Corners
		wide := min(geometry.Distance(q[0], q[1]), geometry.Distance(q[1], q[2]))
		for k := range q {
			a, b := q[k].Sub(origin), q[(k+1)%4].Sub(origin)
			au, av := float64(a.X)*ux+float64(a.Y)*uy, float64(a.Y)*ux-float64(a.X)*uy
			bu, bv := float64(b.X)*ux+float64(b.Y)*uy, float64(b.Y)*ux-float64(b.X)*uy
			if math.Abs(bu-au) > math.Abs(bv-av) {
				both[0] = append(both[0], side{(av + bv) / 2, min(au, bu), max(au, bu), wide})
			} else {
				both[1] = append(both[1], side{(au + bu) / 2, min(av, bv), max(av, bv), wide})
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
			at, from, to, wide := line[0].at, line[0].from, line[0].to, line[0].wide
			for _, s := range line[1:] {
				if s.from > to+same {
					c.borders = append(c.borders, border{solid.Line{A: point(at, from), B: point(at, to)}, at, wide})
					from, to, wide = s.from, s.to, s.wide
				}
				to, wide = max(to, s.to), max(wide, s.wide)
			}
			c.borders = append(c.borders, border{solid.Line{A: point(at, from), B: point(at, to)}, at, wide})
			all = all[n:]
		}
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

// narrow tells whether sheets are too small to be drawn one by one.
func (m *Maker) narrow(c *Cover) bool { return c == nil || m.small(c.w, 1) }

// tiny tells whether sheets are too small for patterns.
func (m *Maker) tiny(c *Cover) bool { return m.small(c.w, 6.7) }

// border draws the sheets' borders; where laps are too narrow to be seen, their
// two lines are one.
func (m *Maker) border(c *Cover, k drawing.Pencil) {
	if m.tiny(c) {
		k.Shade = 0.35 // plain and faint
	}
	narrow, last := c.lap > 0 && m.small(c.lap, 1), math.Inf(-1)
	for i := range c.borders {
		l := &c.borders[i]
		if d := l.at - last; narrow && d > 1000 && d < float64(c.lap)*1.01 {
			continue
		}
		last = l.at
		if !m.small(l.wide, 1) { // else its sheets are too small to be told apart
			m.d.Stroke(k, l.A, l.B)
		}
	}
}

// laps tints the sheets, so that their laps show as darker bands.
func (m *Maker) laps(c *Cover, l drawing.Layer, style drawing.Style) {
	if c.lap == 0 || m.o.Detail == 0 || m.small(c.lap, 1.33) {
		return
	}
	for i := range c.sheets {
		if !m.seen(c.sheets[i].Corners[:]...) {
			continue
		}
		m.tint(c, &c.sheets[i].Corners)
		m.d.FillPath(drawing.Pencil{Layer: l, Style: style})
	}
}

// foam draws the sheets under the slab, each with its diagonal.
func (m *Maker) foam() {
	c := m.s.Foam
	if m.narrow(c) {
		return
	}
	m.border(c, drawing.Pencil{Layer: drawing.Foam, Style: drawing.FoamLine})
	if m.tiny(c) {
		return
	}
	for _, l := range c.axes {
		if m.seen(l.A, l.B) {
			m.d.Stroke(drawing.Pencil{Layer: drawing.Foam, Style: drawing.FoamAxis}, l.A, l.B)
		}
	}
}

// retarder draws the sheets of the vapor retarder.
func (m *Maker) retarder() {
	c := m.s.Retarder
	if m.narrow(c) {
		return
	}
	m.laps(c, drawing.Retarder, drawing.RetarderFill)
	m.border(c, drawing.Pencil{Layer: drawing.Retarder, Style: drawing.RetarderLine})
}

// mesh draws the sheets of mesh; close by, the wires themselves.
func (m *Maker) mesh() {
	c := m.s.Mesh
	if m.narrow(c) {
		return
	}
	m.laps(c, drawing.Mesh, drawing.MeshFill)
	if w := m.s.Wires; w > 0 && c.sides != nil && m.o.Detail > 0 && !m.small(w, 2.33) {
		for i := range c.sheets {
			if q := &c.sheets[i].Corners; m.seen(q[:]...) {
				m.wires(c.sides, q, w)
			}
		}
	}
	m.border(c, drawing.Pencil{Layer: drawing.Mesh, Style: drawing.MeshLine})
}

// foamName writes what the foam is.
func (m *Maker) foamName() {
	what := "foam"
	if !m.o.Screen {
		what = "foam sheets"
	}
	m.coverName(m.s.Foam, what, drawing.Foam, drawing.FoamLine)
}

// meshName writes what the mesh is, on a sheet.
func (m *Maker) meshName() {
	if !m.o.Screen {
		m.coverName(m.s.Mesh, "mesh", drawing.Mesh, drawing.MeshLine)
	}
}

// retarderName writes what the retarder is, and how wide its lap is.
func (m *Maker) retarderName() {
	c := m.s.Retarder
	what := "vapor retarder"
	if !m.o.Screen {
		what = "retarder"
	}
	m.coverName(c, what, drawing.Retarder, drawing.RetarderLine)
	if c == nil || c.lap == 0 || m.small(c.lap, 2) || !m.seen(c.lapAt) {
		return
	}
	m.lines = append(m.lines[:0], m.d.Join("lap ", m.d.Text(c.lap)))
	m.d.Label(drawing.Label{
		Layer: drawing.Retarder, Style: drawing.RetarderLine, Type: drawing.Small, At: c.lapAt, Optional: true,
		Prefer: geometry.Point{X: 1}, Start: 3, Reach: 8, Weight: coverWeight - 1,
	}, m.lines)
}

// coverName writes what a cover is, once.
func (m *Maker) coverName(c *Cover, what string, l drawing.Layer, style drawing.Style) {
	if c == nil {
		return
	}
	lo, hi := m.bounds()
	var at [7]drawing.Spot
	for k, f := range [7][2]float64{{0.5, 0.64}, {0.5, 0.36}, {0.5, 0.72}, {0.5, 0.28}, {0.45, 0.55}, {0.55, 0.8}, {0.5, 0.2}} {
		at[k] = drawing.At(geometry.Point{X: lo.X + geometry.Length(float64(hi.X-lo.X)*f[0]), Y: lo.Y + geometry.Length(float64(hi.Y-lo.Y)*f[1])})
	}
	text := m.d.Join(m.d.Join(what, m.d.Join(": ", m.d.Join(number(len(c.sheets)), " pieces, up to "))), m.d.Join(m.d.Join(m.d.Text(c.w), " × "), m.d.Text(c.h)))
	if !m.o.Screen {
		text = m.d.Join(what, m.d.Join(", pieces: ", number(len(c.sheets))))
	}
	m.lines = append(m.lines[:0], text)
	label := drawing.Label{
		Layer: l, Style: style, Type: drawing.Small, At: drawing.Between(lo, hi, 0.5),
		Near: 20, Reach: m.reach(60), Weight: coverWeight,
	}
	if m.o.Screen {
		label.Short = what
	}
	m.d.Label(label, m.lines, at[:]...)
}
