package planview

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
	"haunchbook.example/geometry/solid"
)

// regionOf gives the slab with the given loops.
func regionOf(loops []plan.Loop) plane.Region {
	g := make(plane.Region, len(loops))
	for i, l := range loops {
		g[i] = l.Rim()
	}
	return g
}

// trim cuts borders and diagonals to the slab; without loops they stay whole.
func (c *Cover) trim(loops []plan.Loop) {
	if len(loops) == 0 {
		return
	}
	c.sides = plane.NewSides(regionOf(loops))
	cut := func(l solid.Line) (out []solid.Line) {
		for _, s := range c.sides.Stretches(l.A, l.B, plane.Touching, nil) {
			out = append(out, solid.Line{A: geometry.Along(l.A, l.B, s.From), B: geometry.Along(l.A, l.B, s.To)})
		}
		return out
	}
	borders, axes := c.borders, c.axes
	c.borders, c.axes, c.loops = nil, nil, loops
	for _, b := range borders {
		for _, l := range cut(b.Line) {
			c.borders = append(c.borders, border{l, b.at, b.wide})
		}
	}
	for _, l := range axes {
		c.axes = append(c.axes, cut(l)...)
	}
}

// wires draws what is seen of the wires of a sheet on the slab, both ways.
func (m *Maker) wires(sides *plane.Sides, c *[4]geometry.Point, spacing geometry.Length) {
	k := drawing.Pencil{Layer: drawing.Mesh, Style: drawing.WireLine}
	for way := range 2 {
		a, b, d := c[0], c[1], c[3]
		if way == 1 {
			b, d = d, b
		}
		long := geometry.Distance(a, d)
		if long == 0 {
			return
		}
		for t := geometry.Length(0); t <= long; t += spacing {
			v := drawing.Between(a, d, float64(t)/float64(long)).Sub(a)
			p, q := a.Add(v), b.Add(v)
			if !m.seen(p, q) {
				continue
			}
			m.parts = sides.Stretches(p, q, plane.Touching, m.parts[:0])
			for _, s := range m.parts {
				m.d.Stroke(k, geometry.Along(p, q, s.From), geometry.Along(p, q, s.To))
			}
		}
	}
}

// tint adds the rings of a sheet, cut to the slab, to the path that is begun.
func (m *Maker) tint(c *Cover, s *[4]geometry.Point) {
	if len(c.loops) == 0 {
		for _, p := range s {
			m.d.Point(p)
		}
		m.d.Break()
		return
	}
	f := plane.Frame{Origin: s[0], Along: plane.Vec{X: 1}}
	window := [4]plane.Vec{f.In(s[0]), f.In(s[1]), f.In(s[2]), f.In(s[3])}
	if plane.Area(window[:]) < 0 {
		window[1], window[3] = window[3], window[1]
	}
	for _, l := range c.loops {
		m.ring = m.ring[:0]
		for _, at := range l.Rim() {
			m.ring = append(m.ring, f.In(at))
		}
		for _, v := range m.clip.Within(m.ring, window[:], 1e-9) {
			m.d.Point(f.Out(v))
		}
		m.d.Break()
	}
}
