package arc

import (
	"math"

	"haunchbook.example/geometry"
)

// Arc is a circular arc from A to B, at most half a circle. Middle is its middle ordinate:
// to the right of the way from A to B for a positive one, to the left for a negative one; 0
// is the straight line.
type Arc struct {
	A, B   geometry.Point
	Middle geometry.Length
}

// Straight tells whether it is a straight line.
func (a Arc) Straight() bool { return a.Middle == 0 || a.A == a.B }

// Chord gives the distance between its ends.
func (a Arc) Chord() geometry.Length { return geometry.Distance(a.A, a.B) }

// chord gives it without rounding, in nanometers.
func (a Arc) chord() float64 {
	d := a.B.Sub(a.A)
	return math.Hypot(float64(d.X), float64(d.Y))
}

// Sweep gives the angle, in radians, that it turns by: four times that whose tangent is
// the middle ordinate over half the chord. It is positive to the left, which is where an
// arc turns that lies to the right of its chord.
func (a Arc) Sweep() float64 {
	if a.Straight() {
		return 0
	}
	return 4 * math.Atan2(2*float64(a.Middle), a.chord())
}

// Bulge gives the tangent of a quarter of the sweep, as drawing files have it.
func (a Arc) Bulge() float64 {
	if a.Straight() {
		return 0
	}
	return 2 * float64(a.Middle) / a.chord()
}

// radius gives it without rounding, in nanometers.
func (a Arc) radius() float64 {
	c, m := a.chord(), math.Abs(float64(a.Middle))
	return (c*c/4 + m*m) / (2 * m)
}

// Radius gives its radius, 0 for a straight line: of all that make this middle ordinate, to
// the nanometer, one of whole sixteenths of an inch or whole millimeters, if there is one, as
// it was typed.
func (a Arc) Radius() geometry.Length {
	if a.Straight() {
		return 0
	}
	r := bounded(a.radius())
	for _, step := range []geometry.Length{geometry.Sixteenth, geometry.Millimeter} {
		whole := r.Round(step)
		if m, ok := OfRadius(a.Chord(), whole); ok && (m-a.Middle.Abs()).Abs() <= 1 {
			return whole
		}
	}
	return r
}

// bounded keeps a number of nanometers to what a length holds.
func bounded(nm float64) geometry.Length {
	const most = float64(100 * geometry.MaxLength)
	return geometry.Rounded(math.Max(-most, math.Min(nm, most)))
}

// Length gives its length along the arc.
func (a Arc) Length() geometry.Length {
	if a.Straight() {
		return a.Chord()
	}
	return geometry.Rounded(a.length())
}

func (a Arc) length() float64 { return a.radius() * math.Abs(a.Sweep()) }

// center gives its center, in nanometers from A, and the unit vector along the chord. The
// arc is not straight.
func (a Arc) center() (x, y, ux, uy float64) {
	d, c := a.B.Sub(a.A), a.chord()
	ux, uy = float64(d.X)/c, float64(d.Y)/c
	// From the middle of the chord the center lies on the left by what the radius has
	// over the middle ordinate.
	m := math.Abs(float64(a.Middle))
	off := (c*c/4 - m*m) / (2 * m)
	if a.Middle < 0 {
		off = -off
	}
	return c/2*ux - off*uy, c/2*uy + off*ux, ux, uy
}

// Center gives the center of its circle, rounded to the nanometer; the middle of a
// straight line.
func (a Arc) Center() geometry.Point {
	if a.Straight() {
		return a.A.Add(geometry.Point{X: (a.B.X - a.A.X) / 2, Y: (a.B.Y - a.A.Y) / 2})
	}
	x, y, _, _ := a.center()
	return a.A.Add(geometry.Point{X: bounded(x), Y: bounded(y)})
}

// At gives the point at a share of its length from A, from 0 to 1, so far to the left of
// it, rounded to the nanometer.
func (a Arc) At(share float64, left geometry.Length) geometry.Point {
	if a.Straight() {
		d, c := a.B.Sub(a.A), a.chord()
		if c == 0 {
			return a.A
		}
		x, y := float64(d.X), float64(d.Y)
		return a.A.Add(geometry.Point{X: geometry.Rounded(share*x - float64(left)*y/c), Y: geometry.Rounded(share*y + float64(left)*x/c)})
	}
	if a.Middle < 0 { // the center lies to the right
		left = -left
	}
	return a.atRadius(share, a.radius()-float64(left), left == 0)
}

// atRadius gives the point at a share of the arc on a circle of a radius round its center.
func (a Arc) atRadius(share, r float64, exact bool) geometry.Point {
	switch {
	case exact && share <= 0:
		return a.A
	case exact && share >= 1:
		return a.B
	}
	x, y, ux, uy := a.center()
	// The middle of the arc lies from the center to the right of the chord; share turns
	// from there.
	s := a.Sweep()
	vx, vy := uy, -ux
	if a.Middle < 0 {
		vx, vy = -uy, ux
	}
	sin, cos := math.Sincos((share - 0.5) * s)
	return a.A.Add(geometry.Point{
		X: geometry.Rounded(x + r*(vx*cos-vy*sin)),
		Y: geometry.Rounded(y + r*(vx*sin+vy*cos)),
	})
}

// Along gives the unit vector of its way at a share of its length.
func (a Arc) Along(share float64) (x, y float64) {
	d, c := a.B.Sub(a.A), a.chord()
	if c == 0 {
		return 1, 0
	}
	ux, uy := float64(d.X)/c, float64(d.Y)/c
	sin, cos := math.Sincos((share - 0.5) * a.Sweep())
	return ux*cos - uy*sin, ux*sin + uy*cos
}

// Ordinate gives how far it lies from its chord at a distance along that from A.
func (a Arc) Ordinate(along geometry.Length) geometry.Length {
	if a.Straight() {
		return 0
	}
	r, c := a.radius(), a.chord()
	x := float64(along) - c/2
	return geometry.Rounded(math.Sqrt(math.Max(0, r*r-x*x)) - (r - math.Abs(float64(a.Middle))))
}

// Segment gives the area between it and its chord in square meters: positive on the right
// of the chord, which makes a ring that runs counter-clockwise larger.
func (a Arc) Segment() float64 {
	if a.Straight() {
		return 0
	}
	r, s := a.radius()*1e-9, a.Sweep()
	return r * r / 2 * (s - math.Sin(s))
}

// Nearest gives the share of its length at which it is nearest to a place, and how far
// away that is.
func (a Arc) Nearest(p geometry.Point) (share float64, away geometry.Length) {
	if a.Straight() {
		return geometry.Nearest(p, a.A, a.B)
	}
	x, y, ux, uy := a.center()
	d := p.Sub(a.A)
	wx, wy := float64(d.X)-x, float64(d.Y)-y
	vx, vy := uy, -ux
	if a.Middle < 0 {
		vx, vy = -uy, ux
	}
	turn := math.Atan2(vx*wy-vy*wx, vx*wx+vy*wy)
	if s := turn/a.Sweep() + 0.5; s >= 0 && s <= 1 {
		return s, geometry.Rounded(math.Abs(math.Hypot(wx, wy) - a.radius()))
	}
	if toA, toB := geometry.Distance(p, a.A), geometry.Distance(p, a.B); toA <= toB {
		return 0, toA
	}
	return 1, geometry.Distance(p, a.B)
}

// mostTurn is the most that one chord turns from the next, 7.5 degrees, so that bars and
// lines of chords are drawn and laid as one bent line.
const mostTurn = math.Pi / 24

// most bounds the chords of one arc.
const most = 20000

// Parts gives into how many chords it parts so that none lies farther from it than within;
// at least 2, and 1 of a straight line.
func (a Arc) Parts(within geometry.Length) int {
	if a.Straight() {
		return 1
	}
	r, s := a.radius(), math.Abs(a.Sweep())
	n := s / mostTurn
	if w := float64(within); w > 0 && w < r {
		n = math.Max(n, s/(2*math.Acos(1-w/r)))
	}
	return int(math.Min(math.Max(math.Ceil(n-1e-9), 2), most))
}

// Chords gives the points at which it parts into n even chords, both ends among them.
func (a Arc) Chords(n int) []geometry.Point {
	out := make([]geometry.Point, n+1)
	for k := range out {
		out[k] = a.At(float64(k)/float64(n), 0)
	}
	return out
}

// Even gives n chords that enclose the very area of the arc: all their points but its ends
// lie so little outside that what is cut off between equals what is added.
func (a Arc) Even(n int) []geometry.Point {
	if n < 3 || a.Straight() {
		return a.Chords(n)
	}
	// Fans of triangles round the center: the first and the last have one point at the
	// radius r, the others both at q: sin t·(2·r·q + (n-2)·q²) = r²·s, with t = s/n.
	r, s := a.radius(), math.Abs(a.Sweep())
	k := float64(n - 2)
	q := r * (math.Sqrt(1+k*s/math.Sin(s/float64(n))) - 1) / k
	out := make([]geometry.Point, n+1)
	for i := range out {
		out[i] = a.atRadius(float64(i)/float64(n), q, false)
	}
	out[0], out[n] = a.A, a.B
	return out
}

// Through gives the arc from one point to another by way of a third, which is more than half
// a circle for some; false where they lie on a line.
func Through(from, by, to geometry.Point) (Arc, bool) {
	a := Arc{A: from, B: to}
	c := a.chord()
	if c == 0 || geometry.Orientation(from, to, by) == 0 {
		return a, false
	}
	// By stands over the chord under the angle at the rim, which is the same from every
	// point of the arc: half of what is left of the circle.
	u, v := from.Sub(by), to.Sub(by)
	cross := float64(u.X)*float64(v.Y) - float64(u.Y)*float64(v.X)
	dot := float64(u.X)*float64(v.X) + float64(u.Y)*float64(v.Y)
	angle := math.Abs(math.Atan2(cross, dot)) // at the rim; the sweep is 2π - 2·angle
	m := c / 2 * math.Tan((math.Pi-angle)/2)
	a.Middle = bounded(m)
	if geometry.Orientation(from, to, by) > 0 {
		a.Middle = -a.Middle
	}
	return a, a.Middle != 0
}

// Halves parts it in its middle into two of the same circle, each of half its sweep.
func (a Arc) Halves() (Arc, Arc) {
	at := a.At(0.5, 0)
	half := func(from, to geometry.Point) Arc {
		h := Arc{A: from, B: to}
		// Its quarter of the sweep has half the tangent's angle.
		h.Middle = bounded(h.chord() / 2 * math.Tan(a.Sweep()/8))
		return h
	}
	return half(a.A, at), half(at, a.B)
}

// OfRadius gives the middle ordinate of the lesser arc of a radius over a chord; false where
// the radius is less than half the chord.
func OfRadius(chord, radius geometry.Length) (geometry.Length, bool) {
	if chord <= 0 || 2*radius < chord {
		return 0, false
	}
	r, h := float64(radius), float64(chord)/2
	// r - √(r²-h²), without the loss of what cancels.
	return geometry.Rounded(h * h / (r + math.Sqrt(r*r-h*h))), true
}

// Rounded gives the arc of a radius that rounds the corner at, between the way from before
// and the way on to after: it touches both. False where there is no corner, or no room on
// one of the two.
func Rounded(before, at, after geometry.Point, radius geometry.Length) (Arc, bool) {
	u, v := before.Sub(at), after.Sub(at)
	lu, lv := math.Hypot(float64(u.X), float64(u.Y)), math.Hypot(float64(v.X), float64(v.Y))
	if lu == 0 || lv == 0 || radius <= 0 {
		return Arc{}, false
	}
	cross := (float64(u.X)*float64(v.Y) - float64(u.Y)*float64(v.X)) / lu / lv
	dot := (float64(u.X)*float64(v.X) + float64(u.Y)*float64(v.Y)) / lu / lv
	inner := math.Abs(math.Atan2(cross, dot)) // the angle between the two ways
	if inner < 1e-3 || inner > math.Pi-1e-3 {
		return Arc{}, false
	}
	// From the corner the arc begins at r/tan(inner/2), and sweeps what is left of half a
	// circle.
	tangent := geometry.Rounded(float64(radius) / math.Tan(inner/2))
	if float64(tangent) > lu+1 || float64(tangent) > lv+1 {
		return Arc{}, false
	}
	a := Arc{A: geometry.Along(at, before, tangent), B: geometry.Along(at, after, tangent)}
	m := a.chord() / 2 * math.Tan((math.Pi-inner)/4)
	// The corner lies on the side that the arc bows to.
	if a.Middle = geometry.Rounded(m); geometry.Orientation(a.A, a.B, at) > 0 {
		a.Middle = -a.Middle
	}
	return a, a.Middle != 0
}
