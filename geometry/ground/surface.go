package ground

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

// Integral gives the integral over a mesh, in m³, of what has a value in meters at each
// of its points and is a plane over each triangle.
func (m Mesh) Integral(values []float64) float64 {
	sum := 0.0
	for _, t := range m.Triangles {
		sum += m.area(t) * (values[t[0]] + values[t[1]] + values[t[2]]) / 3
	}
	return sum
}

// area gives the area of a triangle in m².
func (m Mesh) area(t [3]int) float64 {
	a, u, v := m.Points[t[0]], m.Points[t[1]], m.Points[t[2]]
	u, v = u.Sub(a), v.Sub(a)
	return (float64(u.X)*float64(v.Y) - float64(u.Y)*float64(v.X)) / 2e18
}

// Beyond gives the integral in m³ and the area in m² of what a surface over a mesh lies
// above a level, or below it.
func (m Mesh) Beyond(values []float64, level float64, below bool) (volume, area float64) {
	for _, t := range m.Triangles {
		p, f, ok := m.plane(t, values)
		if !ok {
			continue
		}
		f.C -= level
		if below {
			f = f.Negated()
		}
		part := plane.Clip(nil, p[:], f)
		if len(part) > 2 {
			area += plane.Area(part)
			volume += plane.Integral(part, f)
		}
	}
	return volume, area
}

// Above gives the parts of a mesh over which a surface lies above a level.
func (m Mesh) Above(values []float64, level float64) []geometry.Ring {
	var out []geometry.Ring
	for _, t := range m.Triangles {
		p, f, ok := m.plane(t, values)
		if !ok {
			continue
		}
		if part := plane.Clip(nil, p[:], f.Plus(-level)); len(part) > 2 {
			frame, ring := plane.NewFrame(m.Points[0], 0), geometry.Ring{}
			for _, v := range part {
				ring = append(ring, frame.Out(v))
			}
			out = append(out, ring)
		}
	}
	return out
}

// plane gives a triangle in meters from the mesh's first point, and the plane over it;
// false for one without area.
func (m Mesh) plane(t [3]int, values []float64) (p [3]plane.Vec, f plane.Linear, ok bool) {
	frame := plane.NewFrame(m.Points[0], 0)
	for i, k := range t {
		p[i] = frame.In(m.Points[k])
	}
	u, v := p[1].Sub(p[0]), p[2].Sub(p[0])
	d := u.Cross(v)
	if d == 0 {
		return p, f, false
	}
	a, b := values[t[1]]-values[t[0]], values[t[2]]-values[t[0]]
	f.G = plane.Vec{X: (a*v.Y - b*u.Y) / d, Y: (b*u.X - a*v.X) / d}
	f.C = values[t[0]] - f.G.Dot(p[0])
	return p, f, true
}

// Contour gives the lines at which a surface over a mesh has a value.
func (m Mesh) Contour(values []float64, level float64) [][2]geometry.Point {
	var out [][2]geometry.Point
	for _, t := range m.Triangles {
		var ends []geometry.Point
		for i := range 3 {
			a, b := t[i], t[(i+1)%3]
			va, vb := values[a]-level, values[b]-level
			if (va < 0) != (vb < 0) {
				s, d := va/(va-vb), m.Points[b].Sub(m.Points[a])
				ends = append(ends, m.Points[a].Add(geometry.Point{X: geometry.Rounded(s * float64(d.X)), Y: geometry.Rounded(s * float64(d.Y))}))
			}
		}
		if len(ends) == 2 && ends[0] != ends[1] {
			out = append(out, [2]geometry.Point{ends[0], ends[1]})
		}
	}
	return out
}
