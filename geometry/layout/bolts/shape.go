package bolts

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
)

// shape is a convex polygon that runs counter-clockwise.
type shape []slab.Vec

// half is the half of the plane to which the unit vector in points, bounded by a
// line through at.
type half struct{ at, in slab.Vec }

// leftOf gives the half left of the line from p to q.
func leftOf(p, q slab.Vec) half {
	h := math.Hypot(q.X-p.X, q.Y-p.Y)
	return half{p, slab.Vec{X: (p.Y - q.Y) / h, Y: (q.X - p.X) / h}}
}

// depth gives how far a place lies within; on the line, to the nanometer, 0.
func (h half) depth(v slab.Vec) float64 {
	d := (v.X-h.at.X)*h.in.X + (v.Y-h.at.Y)*h.in.Y
	if math.Abs(d) < 1 {
		return 0
	}
	return d
}

// keep gives what of a shape lies within h.
func (p shape) keep(h half) shape {
	whole := true
	for _, a := range p {
		whole = whole && h.depth(a) >= 0
	}
	if whole {
		return p
	}
	out := make(shape, 0, len(p)+1)
	for i, a := range p {
		b := p[(i+1)%len(p)]
		da, db := h.depth(a), h.depth(b)
		if da >= 0 {
			out = append(out, a)
		}
		if da > 0 && db < 0 || da < 0 && db > 0 {
			f := da / (da - db)
			out = append(out, slab.Vec{X: a.X + f*(b.X-a.X), Y: a.Y + f*(b.Y-a.Y)})
		}
	}
	return out
}

// extent gives the stretch that a shape covers along X, 0 and 0 for none.
func (p shape) extent() (lo, hi float64) {
	for i, v := range p {
		if i == 0 {
			lo, hi = v.X, v.X
		}
		lo, hi = min(lo, v.X), max(hi, v.X)
	}
	return lo, hi
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

func (p shape) area() float64 {
	sum := 0.0
	for i, a := range p {
		b := p[(i+1)%len(p)]
		sum += (a.X-p[0].X)*(b.Y-p[0].Y) - (a.Y-p[0].Y)*(b.X-p[0].X)
	}
	return sum / 2
}

// center gives the mean of the corners.
func (p shape) center() geometry.Point {
	var c slab.Vec
	for _, v := range p {
		c.X, c.Y = c.X+v.X, c.Y+v.Y
	}
	n := float64(len(p))
	return geometry.Point{X: geometry.Rounded(c.X / n), Y: geometry.Rounded(c.Y / n)}
}

func (p shape) box() geometry.Box {
	b := geometry.Box{MinX: math.Inf(1), MinY: math.Inf(1), MaxX: math.Inf(-1), MaxY: math.Inf(-1)}
	for _, v := range p {
		b = b.Union(geometry.Box{MinX: v.X, MinY: v.Y, MaxX: v.X, MaxY: v.Y})
	}
	return b
}
