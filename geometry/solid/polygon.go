package solid

import "math"

// vec is a point or vector on the plan in metres, from the solid's origin.
type vec struct{ x, y float64 }

func (a vec) add(b vec) vec           { return vec{a.x + b.x, a.y + b.y} }
func (a vec) sub(b vec) vec           { return vec{a.x - b.x, a.y - b.y} }
func (a vec) times(f float64) vec     { return vec{a.x * f, a.y * f} }
func (a vec) dot(b vec) float64       { return a.x*b.x + a.y*b.y }
func (a vec) cross(b vec) float64     { return a.x*b.y - a.y*b.x }
func (a vec) length() float64         { return math.Hypot(a.x, a.y) }
func (a vec) left() vec               { return vec{-a.y, a.x} }
func lerp(a, b vec, t float64) vec    { return vec{a.x + (b.x-a.x)*t, a.y + (b.y-a.y)*t} }
func between(a, b, t float64) float64 { return a + (b-a)*t }

// plane is a linear function over the plan: c + g·p.
type plane struct {
	c float64
	g vec
}

func (f plane) at(p vec) float64     { return f.c + f.g.dot(p) }
func (f plane) minus(h plane) plane  { return plane{f.c - h.c, f.g.sub(h.g)} }
func (f plane) plus(c float64) plane { return plane{f.c + c, f.g} }

// The tolerances, in metres and square metres. Plans come in whole nanometres;
// these lie at or below one, so that what they drop cannot be seen: a face of
// sliver area holds less than 1e-11 m³.
const (
	tiny   = 1e-9  // shorter than this is a point
	sliver = 1e-12 // a smaller area is nothing
	level  = 1e-12 // depths that differ by less are equal
)

// area gives the signed area of a polygon.
func area(p []vec) float64 {
	sum := 0.0
	for i := 2; i < len(p); i++ {
		sum += p[i-1].sub(p[0]).cross(p[i].sub(p[0]))
	}
	return sum / 2
}

// integral gives the integral of f over a polygon. It is exact for any closed
// chain, convex or not, since a fan of signed triangles covers it: over one
// triangle the mean of a linear function is the mean of its corners.
func integral(p []vec, f plane) float64 {
	sum := 0.0
	for i := 2; i < len(p); i++ {
		w := p[i-1].sub(p[0]).cross(p[i].sub(p[0]))
		sum += w * (f.at(p[0]) + f.at(p[i-1]) + f.at(p[i]))
	}
	return sum / 6
}

// clip appends to dst the part of polygon p where f >= 0 (Sutherland and
// Hodgman, Reentrant Polygon Clipping, CACM 17, 1974). A convex p gives a convex
// part. Of any other p, the part may be joined by coincident edges along f = 0,
// which leaves its integrals right.
func clip(dst, p []vec, f plane) []vec {
	if len(p) == 0 {
		return dst
	}
	a := p[len(p)-1]
	fa := f.at(a)
	for _, b := range p {
		fb := f.at(b)
		if (fa < 0) != (fb < 0) && fa != 0 && fb != 0 {
			dst = append(dst, lerp(a, b, fa/(fa-fb)))
		}
		if fb >= 0 {
			dst = append(dst, b)
		}
		a, fa = b, fb
	}
	return dst
}

// leftOf is zero on the line from a to b, grows to its left, and gives distance.
func leftOf(a, b vec) plane {
	n := b.sub(a).left()
	n = n.times(1 / n.length())
	return plane{-n.dot(a), n}
}

// scratch holds the buffers of polygon work that is thrown away.
type scratch struct{ a, b, c []vec }

// newScratch has room for the polygons of a usual plan.
func newScratch() scratch {
	const n = 24
	m := make([]vec, 3*n)
	return scratch{m[0:0:n], m[n : n : 2*n], m[2*n : 2*n : 3*n]}
}

// intersect gives the part of convex p within convex q, valid until the next
// use of s.
func (s *scratch) intersect(p, q []vec) []vec {
	cur, next := append(s.a[:0], p...), s.b[:0]
	for i, a := range q {
		b := q[(i+1)%len(q)]
		if b.sub(a).length() <= tiny {
			continue
		}
		next = clip(next[:0], cur, leftOf(a, b))
		cur, next = next, cur
		if len(cur) < 3 {
			break
		}
	}
	s.a, s.b = cur, next
	if len(cur) < 3 {
		return nil
	}
	return cur
}

// arena hands out polygons that live as long as the solid, from few blocks.
type arena struct{ free []vec }

func (m *arena) keep(p []vec) []vec {
	if cap(m.free)-len(m.free) < len(p) {
		m.free = make([]vec, 0, max(2*cap(m.free), 256, len(p)))
	}
	n := len(m.free)
	m.free = append(m.free, p...)
	return m.free[n:len(m.free):len(m.free)]
}
