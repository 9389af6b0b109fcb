package layout

import (
	"math"

	"haunchbook.example/geometry"
)

// vec is a place or a direction in a turned frame, in nanometers.
type vec struct{ x, y float64 }

// shape is a convex polygon that runs counter-clockwise.
type shape []vec

// half is the half of the plane to which the unit vector in points, bounded by a
// line through at.
type half struct{ at, in vec }

// leftOf gives the half left of the line from p to q.
func leftOf(p, q vec) half {
	h := math.Hypot(q.x-p.x, q.y-p.y)
	return half{p, vec{(p.y - q.y) / h, (q.x - p.x) / h}}
}

// depth gives how far a place lies within; on the line, to the nanometer, 0.
func (h half) depth(v vec) float64 {
	d := (v.x-h.at.x)*h.in.x + (v.y-h.at.y)*h.in.y
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
			out = append(out, vec{a.x + f*(b.x-a.x), a.y + f*(b.y-a.y)})
		}
	}
	return out
}

// extent gives the stretch that a shape covers along X, 0 and 0 for none.
func (p shape) extent() (lo, hi float64) {
	for i, v := range p {
		if i == 0 {
			lo, hi = v.x, v.x
		}
		lo, hi = min(lo, v.x), max(hi, v.x)
	}
	return lo, hi
}

// at gives the stretch that a shape covers along X at a height.
func (p shape) at(y float64) (lo, hi float64, ok bool) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if min(a.y, b.y) > y || max(a.y, b.y) < y {
			continue
		}
		f := 0.0
		if a.y != b.y {
			f = (y - a.y) / (b.y - a.y)
		}
		x := a.x + f*(b.x-a.x)
		lo, hi = min(lo, x), max(hi, x)
	}
	return lo, hi, lo <= hi
}

func (p shape) area() float64 {
	sum := 0.0
	for i, a := range p {
		b := p[(i+1)%len(p)]
		sum += (a.x-p[0].x)*(b.y-p[0].y) - (a.y-p[0].y)*(b.x-p[0].x)
	}
	return sum / 2
}

// center gives the mean of the corners.
func (p shape) center() geometry.Point {
	var c vec
	for _, v := range p {
		c.x, c.y = c.x+v.x, c.y+v.y
	}
	n := float64(len(p))
	return geometry.Point{X: round(c.x / n), Y: round(c.y / n)}
}

func (p shape) box() geometry.Box {
	b := geometry.Box{MinX: math.Inf(1), MinY: math.Inf(1), MaxX: math.Inf(-1), MaxY: math.Inf(-1)}
	for _, v := range p {
		b = b.Union(geometry.Box{MinX: v.x, MinY: v.y, MaxX: v.x, MaxY: v.y})
	}
	return b
}
