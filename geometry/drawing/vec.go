package drawing

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

// Vec is a place or a way on the sheet: X to the right, Y up, in the sheet's units.
type Vec = plane.Vec

// Unit gives v at length 1, and to the right for a v of no length.
func Unit(v Vec) Vec {
	if v == (Vec{}) {
		return Vec{X: 1}
	}
	return v.Unit()
}

func middle(p, q Vec) Vec { return plane.Lerp(p, q, 0.5) }

// Rect is an upright rectangle on the sheet.
type Rect struct{ X0, Y0, X1, Y1 float64 }

// Width gives how wide the rectangle is.
func (r Rect) Width() float64 { return r.X1 - r.X0 }

// Height gives how tall the rectangle is.
func (r Rect) Height() float64 { return r.Y1 - r.Y0 }

// Middle gives the middle of the rectangle.
func (r Rect) Middle() Vec { return Vec{X: (r.X0 + r.X1) / 2, Y: (r.Y0 + r.Y1) / 2} }

// Inset gives the rectangle with its sides moved in by d.
func (r Rect) Inset(d float64) Rect { return Rect{r.X0 + d, r.Y0 + d, r.X1 - d, r.Y1 - d} }

// Has tells whether p lies in the rectangle.
func (r Rect) Has(p Vec) bool { return p.X >= r.X0 && p.X <= r.X1 && p.Y >= r.Y0 && p.Y <= r.Y1 }

// Meet gives what two rectangles have in common.
func (r Rect) Meet(s Rect) Rect {
	return Rect{max(r.X0, s.X0), max(r.Y0, s.Y0), min(r.X1, s.X1), min(r.Y1, s.Y1)}
}

// Join gives the least rectangle that holds both.
func (r Rect) Join(s Rect) Rect {
	return Rect{min(r.X0, s.X0), min(r.Y0, s.Y0), max(r.X1, s.X1), max(r.Y1, s.Y1)}
}

// Overlaps tells whether two rectangles share more than a rim.
func (r Rect) Overlaps(s Rect) bool {
	return r.X0 < s.X1 && s.X0 < r.X1 && r.Y0 < s.Y1 && s.Y0 < r.Y1
}

// Holds tells whether all of b lies in the rectangle.
func (r Rect) Holds(b Box) bool {
	c := b.Bounds()
	return c.X0 >= r.X0 && c.Y0 >= r.Y0 && c.X1 <= r.X1 && c.Y1 <= r.Y1
}

// Box gives the rectangle as a box.
func (r Rect) Box() Box { return Box{r.Middle(), Vec{X: 1, Y: 0}, r.Width() / 2, r.Height() / 2} }

// Box is a rectangle that may be turned.
type Box struct {
	Mid, Along Vec     // its middle, and the unit vector of its length
	L, H       float64 // half its length and half its height
}

// BoxOf gives the box of the line a-b, with a margin all round.
func BoxOf(a, b Vec, margin float64) Box {
	d := b.Sub(a)
	return Box{middle(a, b), Unit(d), d.Length()/2 + margin, margin}
}

// Grown gives the box with a margin all round.
func (b Box) Grown(by float64) Box {
	b.L, b.H = b.L+by, b.H+by
	return b
}

// Corners gives the corners of the box, counter-clockwise.
func (b Box) Corners() [4]Vec {
	u, v := b.Along.Times(b.L), b.Along.Left().Times(b.H)
	return [4]Vec{b.Mid.Sub(u).Sub(v), b.Mid.Add(u).Sub(v), b.Mid.Add(u).Add(v), b.Mid.Sub(u).Add(v)}
}

// Upright tells whether the box lies along the axes.
func (b Box) Upright() bool { return b.Along.X == 0 || b.Along.Y == 0 }

// Bounds gives the upright rectangle that holds the box.
func (b Box) Bounds() Rect {
	ax, ay := math.Abs(b.Along.X), math.Abs(b.Along.Y)
	x, y := ax*b.L+ay*b.H, ay*b.L+ax*b.H
	return Rect{b.Mid.X - x, b.Mid.Y - y, b.Mid.X + x, b.Mid.Y + y}
}

// spread gives how far the box reaches from its middle along a unit vector.
func (b Box) spread(u Vec) float64 {
	return math.Abs(b.Along.Dot(u))*b.L + math.Abs(b.Along.Cross(u))*b.H
}

// Hits tells whether two boxes share more than their rims. Two rectangles are
// apart just when one of their four directions parts them.
func (b Box) Hits(c Box) bool {
	d := c.Mid.Sub(b.Mid)
	for _, axis := range [4]Vec{b.Along, b.Along.Left(), c.Along, c.Along.Left()} {
		if math.Abs(d.Dot(axis)) >= b.spread(axis)+c.spread(axis)-1e-9 {
			return false
		}
	}
	return true
}

// Nearest gives the point of the box nearest to p.
func (b Box) Nearest(p Vec) Vec {
	v := p.Sub(b.Mid)
	clamp := func(x, h float64) float64 { return max(-h, min(h, x)) }
	return b.Mid.Toward(b.Along, clamp(v.Dot(b.Along), b.L)).Toward(b.Along.Left(), clamp(v.Dot(b.Along.Left()), b.H))
}

// Cuts gives the stretch of the line p-q inside the box, from 0 to 1.
func (b Box) Cuts(p, q Vec) (from, to float64, ok bool) {
	from, to = 0, 1
	for _, s := range [2]struct {
		axis Vec
		half float64
	}{{b.Along, b.L}, {b.Along.Left(), b.H}} {
		x, dx := p.Sub(b.Mid).Dot(s.axis), q.Sub(p).Dot(s.axis)
		if math.Abs(dx) < 1e-12 {
			if math.Abs(x) >= s.half {
				return 0, 0, false
			}
			continue
		}
		t0, t1 := (-s.half-x)/dx, (s.half-x)/dx
		from, to = max(from, min(t0, t1)), min(to, max(t0, t1))
	}
	return from, to, from < to
}

// View maps the plan to the sheet.
type View struct {
	Scale float64        // units of the sheet per nanometer of the plan
	From  geometry.Point // this point of the plan
	At    Vec            // lies here on the sheet
}

// ViewIn gives the view at a scale with the middle of the plan's box lo-hi in the
// middle of r.
func ViewIn(scale float64, lo, hi geometry.Point, r Rect) View {
	return View{scale, geometry.Point{X: lo.X + (hi.X-lo.X)/2, Y: lo.Y + (hi.Y-lo.Y)/2}, r.Middle()}
}

// Ratio gives the scale of a drawing on paper that is 1 to r, in millimeters.
func Ratio(r float64) float64 { return 1 / (r * float64(geometry.Millimeter)) }

// On gives where a point of the plan lies on the sheet.
func (v View) On(p geometry.Point) Vec {
	return Vec{X: v.At.X + float64(p.X-v.From.X)*v.Scale, Y: v.At.Y + float64(p.Y-v.From.Y)*v.Scale}
}

// Size gives how long a length of the plan is on the sheet.
func (v View) Size(l geometry.Length) float64 { return float64(l) * v.Scale }

// Back gives the point of the plan under a place on the sheet, to the nanometer.
func (v View) Back(q Vec) geometry.Point {
	nm := func(f float64) geometry.Length { return geometry.Length(math.Round(f / v.Scale)) }
	return geometry.Point{X: v.From.X + nm(q.X-v.At.X), Y: v.From.Y + nm(q.Y-v.At.Y)}
}

// way gives the direction of a vector of the plan on the sheet, false for one of
// no length.
func way(p geometry.Point) (Vec, bool) {
	u := Vec{X: float64(p.X), Y: float64(p.Y)}
	if u == (Vec{}) {
		return u, false
	}
	return u.Unit(), true
}

// Readable turns a direction so that text along it is read from below or from
// the right.
func Readable(u Vec) Vec {
	if u.X < -1e-9 || math.Abs(u.X) <= 1e-9 && u.Y < 0 {
		return u.Times(-1)
	}
	return u
}
