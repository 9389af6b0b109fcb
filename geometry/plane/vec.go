package plane

import "math"

// Vec is a place or a vector in a frame, in any one unit.
type Vec struct{ X, Y float64 }

// Add gives a moved by b.
func (a Vec) Add(b Vec) Vec { return Vec{a.X + b.X, a.Y + b.Y} }

// Sub gives the vector from b to a.
func (a Vec) Sub(b Vec) Vec { return Vec{a.X - b.X, a.Y - b.Y} }

// Times gives a scaled by f.
func (a Vec) Times(f float64) Vec { return Vec{a.X * f, a.Y * f} }

// Toward gives the place at distance d from a along a unit vector.
func (a Vec) Toward(u Vec, d float64) Vec { return Vec{a.X + u.X*d, a.Y + u.Y*d} }

// Dot gives the scalar product.
func (a Vec) Dot(b Vec) float64 { return a.X*b.X + a.Y*b.Y }

// Cross gives the vector product: positive where b turns left from a.
func (a Vec) Cross(b Vec) float64 { return a.X*b.Y - a.Y*b.X }

// Length gives the length of a.
func (a Vec) Length() float64 { return math.Hypot(a.X, a.Y) }

// Left gives a turned left by a quarter.
func (a Vec) Left() Vec { return Vec{-a.Y, a.X} }

// Unit gives the vector of length 1 that points as a does; a must not be zero.
func (a Vec) Unit() Vec { return a.Times(1 / a.Length()) }

// Lerp gives the place at fraction t of the way from a to b.
func Lerp(a, b Vec, t float64) Vec { return Vec{a.X + (b.X-a.X)*t, a.Y + (b.Y-a.Y)*t} }

// Linear is a linear function over the plane: C + G·p. Where it is not negative
// is a half plane.
type Linear struct {
	C float64
	G Vec
}

// LeftOf is zero on the line from a to b, which must differ, and gives the
// distance to its left.
func LeftOf(a, b Vec) Linear {
	n := b.Sub(a).Left().Unit()
	return Linear{-n.Dot(a), n}
}

// At gives the value at p.
func (f Linear) At(p Vec) float64 { return f.C + f.G.Dot(p) }

// Minus gives f less g.
func (f Linear) Minus(g Linear) Linear { return Linear{f.C - g.C, f.G.Sub(g.G)} }

// Plus gives f plus a constant.
func (f Linear) Plus(c float64) Linear { return Linear{f.C + c, f.G} }

// Negated gives -f: the other half plane.
func (f Linear) Negated() Linear { return Linear{-f.C, Vec{-f.G.X, -f.G.Y}} }

// Area gives the signed area of a closed chain, positive counter-clockwise.
func Area(p []Vec) float64 {
	sum := 0.0
	for i := 2; i < len(p); i++ {
		sum += p[i-1].Sub(p[0]).Cross(p[i].Sub(p[0]))
	}
	return sum / 2
}

// Integral gives the integral of f over what a closed chain bounds, convex or
// not: a fan of signed triangles covers it, and over one triangle the mean of a
// linear function is the mean of its corners.
func Integral(p []Vec, f Linear) float64 {
	sum := 0.0
	for i := 2; i < len(p); i++ {
		w := p[i-1].Sub(p[0]).Cross(p[i].Sub(p[0]))
		sum += w * (f.At(p[0]) + f.At(p[i-1]) + f.At(p[i]))
	}
	return sum / 6
}

// Clip appends to dst the part of polygon p where f is not negative (Sutherland
// and Hodgman, Reentrant Polygon Clipping, Communications of the ACM 17, 1974). A
// convex p gives a convex part. Of any other p, the part may hang together by
// sides that lie on each other along f = 0: its integrals are right, and so is
// its filling on a drawing. dst and p must not share memory.
func Clip(dst, p []Vec, f Linear) []Vec {
	if len(p) == 0 {
		return dst
	}
	a := p[len(p)-1]
	fa := f.At(a)
	for _, b := range p {
		fb := f.At(b)
		if (fa < 0) != (fb < 0) && fa != 0 && fb != 0 {
			dst = append(dst, Lerp(a, b, fa/(fa-fb)))
		}
		if fb >= 0 {
			dst = append(dst, b)
		}
		a, fa = b, fb
	}
	return dst
}

// Clipper cuts polygons by convex ones with buffers that it keeps. The zero
// Clipper is ready.
type Clipper struct{ a, b []Vec }

// Within gives the part of p inside a convex polygon that runs counter-clockwise,
// by Clip, valid until the next use; nil for none. Sides of the convex polygon
// that are no longer than least count as none.
func (c *Clipper) Within(p, convex []Vec, least float64) []Vec {
	cur, next := append(c.a[:0], p...), c.b[:0]
	for i, a := range convex {
		b := convex[(i+1)%len(convex)]
		if b.Sub(a).Length() <= least {
			continue
		}
		next = Clip(next[:0], cur, LeftOf(a, b))
		cur, next = next, cur
		if len(cur) < 3 {
			break
		}
	}
	c.a, c.b = cur, next
	if len(cur) < 3 {
		return nil
	}
	return cur
}

// ClipLine narrows the stretch of the line a-b from fraction t0 to t1 to where f
// is not negative; what is left is nothing where t0 is not below t1.
func ClipLine(a, b Vec, f Linear, t0, t1 float64) (from, to float64) {
	fa, fb := f.At(a), f.At(b)
	switch {
	case fa < 0 && fb < 0:
		return 1, 0
	case fa < 0:
		t0 = max(t0, fa/(fa-fb))
	case fb < 0:
		t1 = min(t1, fa/(fa-fb))
	}
	return t0, t1
}

// InConvex tells whether v lies in a convex polygon that runs counter-clockwise,
// or at most slack beyond each of its sides that are longer than that.
func InConvex(p []Vec, v Vec, slack float64) bool {
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if e := b.Sub(a); e.Length() > slack && e.Cross(v.Sub(a)) < -slack*e.Length() {
			return false
		}
	}
	return true
}

// LineInConvex gives the fractions of the line a-b at which it enters and leaves a
// convex polygon that runs counter-clockwise, taken wider by slack on all sides;
// none of it where t0 is not below t1.
func LineInConvex(p []Vec, a, b Vec, slack float64) (t0, t1 float64) {
	t0, t1 = 0, 1
	for i, c := range p {
		d := p[(i+1)%len(p)]
		if d.Sub(c).Length() <= slack {
			continue
		}
		if t0, t1 = ClipLine(a, b, LeftOf(c, d).Plus(slack), t0, t1); t0 >= t1 {
			return 0, 0
		}
	}
	return t0, t1
}
