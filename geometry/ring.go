package geometry

import (
	"cmp"
	"math"
	"math/big"
	"math/bits"
)

// Point is a place on the plan.
type Point struct{ X, Y Length }

// Add gives p moved by q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub gives the vector from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Distance gives the distance from p to q, rounded to the nanometer.
func Distance(p, q Point) Length {
	d := q.Sub(p)
	switch {
	case d.X == 0:
		return d.Y.Abs()
	case d.Y == 0:
		return d.X.Abs()
	}
	return Length(math.Round(math.Hypot(float64(d.X), float64(d.Y))))
}

// Along gives the point at distance d from p on the way to q, rounded to the
// nanometer; it may lie before p or beyond q. p and q must differ.
func Along(p, q Point, d Length) Point {
	v := q.Sub(p)
	switch {
	case v.X == 0:
		return Point{p.X, p.Y + d*Length(sign(v.Y))}
	case v.Y == 0:
		return Point{p.X + d*Length(sign(v.X)), p.Y}
	}
	f := float64(d) / math.Hypot(float64(v.X), float64(v.Y))
	return Point{
		p.X + Length(math.Round(float64(v.X)*f)),
		p.Y + Length(math.Round(float64(v.Y)*f)),
	}
}

func sign(l Length) int {
	switch {
	case l > 0:
		return 1
	case l < 0:
		return -1
	}
	return 0
}

// Nearest gives the place of a segment that is nearest to p, as the share of the
// way from a to b from 0 to 1, and how far away it is.
func Nearest(p, a, b Point) (share float64, away Length) {
	d, w := b.Sub(a), p.Sub(a)
	dx, dy := float64(d.X), float64(d.Y)
	if h := dx*dx + dy*dy; h > 0 {
		share = math.Min(math.Max((float64(w.X)*dx+float64(w.Y)*dy)/h, 0), 1)
	}
	return share, Rounded(math.Hypot(float64(w.X)-share*dx, float64(w.Y)-share*dy))
}

// Rounded gives the length nearest to a number of nanometers.
func Rounded(nm float64) Length { return Length(math.Round(nm)) }

// Orientation tells on which side of the line from a to b the point c lies:
// 1 left, -1 right, 0 on it. It is exact.
func Orientation(a, b, c Point) int {
	u, v := b.Sub(a), c.Sub(a)
	h1, l1 := product(u.X, v.Y)
	h2, l2 := product(u.Y, v.X)
	return cmp.Or(cmp.Compare(h1, h2), cmp.Compare(l1, l2))
}

// Ring is a closed chain of corners; the last is joined to the first, which is
// not repeated.
type Ring []Point

// Bounds gives the least box that holds every corner; zero for none.
func (r Ring) Bounds() (lo, hi Point) {
	for i, p := range r {
		if i == 0 {
			lo, hi = p, p
			continue
		}
		lo = Point{min(lo.X, p.X), min(lo.Y, p.Y)}
		hi = Point{max(hi.X, p.X), max(hi.Y, p.Y)}
	}
	return lo, hi
}

// doubleArea gives twice the signed area in square nanometers, exactly: high times
// 2^64 plus low.
func (r Ring) doubleArea() (high int64, low uint64) {
	for i, p := range r {
		q := r[(i+1)%len(r)]
		u, v := p.Sub(r[0]), q.Sub(r[0])
		var carry uint64
		h, l := product(u.X, v.Y)
		low, carry = bits.Add64(low, l, 0)
		high += h + int64(carry)
		h, l = product(u.Y, v.X)
		low, carry = bits.Sub64(low, l, 0)
		high -= h + int64(carry)
	}
	return high, low
}

// product multiplies in 128 bits.
func product(a, b Length) (high int64, low uint64) {
	h, l := bits.Mul64(uint64(a), uint64(b))
	return int64(h) - int64(a>>63&b) - int64(b>>63&a), l
}

// Area gives the signed area in square meters, positive for a ring that runs
// counter-clockwise; exact but for the last rounding.
func (r Ring) Area() float64 {
	high, low := r.doubleArea()
	double := new(big.Int).Lsh(big.NewInt(high), 64)
	double.Add(double, new(big.Int).SetUint64(low))
	f, _ := new(big.Rat).SetFrac(double, big.NewInt(2e18)).Float64()
	return f
}

// CounterClockwise tells whether the signed area is positive. It is exact.
func (r Ring) CounterClockwise() bool {
	high, low := r.doubleArea()
	return high > 0 || high == 0 && low > 0
}

// Perimeter gives the length of the closed chain, each side rounded to the
// nanometer.
func (r Ring) Perimeter() Length {
	var sum Length
	for i, p := range r {
		sum += Distance(p, r[(i+1)%len(r)])
	}
	return sum
}

func onSegment(a, b, p Point) bool {
	return Orientation(a, b, p) == 0 &&
		min(a.X, b.X) <= p.X && p.X <= max(a.X, b.X) &&
		min(a.Y, b.Y) <= p.Y && p.Y <= max(a.Y, b.Y)
}

// Meet gives a point that the segments a-b and c-d share, if there is one. The
// yes or no is exact; the point is rounded to the nanometer.
func Meet(a, b, c, d Point) (Point, bool) {
	o1, o2 := Orientation(a, b, c), Orientation(a, b, d)
	o3, o4 := Orientation(c, d, a), Orientation(c, d, b)
	if o1*o2 < 0 && o3*o4 < 0 {
		u, v, w := b.Sub(a), d.Sub(c), c.Sub(a)
		t := (float64(w.X)*float64(v.Y) - float64(w.Y)*float64(v.X)) /
			(float64(u.X)*float64(v.Y) - float64(u.Y)*float64(v.X))
		return Point{
			a.X + Length(math.Round(t*float64(u.X))),
			a.Y + Length(math.Round(t*float64(u.Y))),
		}, true
	}
	for _, p := range []Point{c, d} {
		if onSegment(a, b, p) {
			return p, true
		}
	}
	for _, p := range []Point{a, b} {
		if onSegment(c, d, p) {
			return p, true
		}
	}
	return Point{}, false
}
