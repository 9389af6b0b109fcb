package bolts

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

// shape is a convex polygon that runs counter-clockwise.
type shape []plane.Vec

// half gives the half of the plane to which the unit vector in points, bounded by a
// line through at. A thousandth of a nanometer more counts, for what lies on it.
func half(at, in plane.Vec) plane.Linear { return plane.Linear{C: 1e-3 - in.Dot(at), G: in} }

// keep gives what of a shape lies within h, with corners apart.
func (p shape) keep(h plane.Linear) shape {
	out := plane.Clip(make(shape, 0, len(p)+1), p, h)
	near := func(a, b plane.Vec) bool { return a.Sub(b).Length() < 1 }
	out = slices.CompactFunc(out, near)
	if n := len(out); n > 1 && near(out[n-1], out[0]) {
		out = out[:n-1]
	}
	return out
}

// extent gives the stretch that a shape covers along X, 0 and 0 for none.
func (p shape) extent() (lo, hi float64) {
	if len(p) == 0 {
		return 0, 0
	}
	b := plane.BoxAround(p...)
	return b.MinX, b.MaxX
}

// at gives the stretch that a shape covers along X at a height.
func (p shape) at(y float64) (lo, hi float64, ok bool) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if min(a.Y, b.Y) > y || max(a.Y, b.Y) < y {
			continue
		}
		f := 0.0
		if a.Y != b.Y {
			f = (y - a.Y) / (b.Y - a.Y)
		}
		x := a.X + f*(b.X-a.X)
		lo, hi = min(lo, x), max(hi, x)
	}
	return lo, hi, lo <= hi
}

// center gives the mean of the corners.
func (p shape) center() geometry.Point {
	var c plane.Vec
	for _, v := range p {
		c = c.Add(v)
	}
	n := float64(len(p))
	return geometry.Point{X: geometry.Rounded(c.X / n), Y: geometry.Rounded(c.Y / n)}
}
