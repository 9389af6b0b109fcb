package plan

import (
	"math"

	"haunchbook.example/geometry"
)

// Axis is a direction of the plan.
type Axis uint8

const (
	AcrossX Axis = iota // distances are measured along X
	AcrossY             // distances are measured along Y
)

// Stretch moves every corner and thing at or beyond the coordinate at, in the
// direction of growing coordinates along the axis, by the distance by.
func (p Plan) Stretch(axis Axis, at, by geometry.Length) Plan {
	return p.moved(motion{to: func(q geometry.Point) geometry.Point {
		switch {
		case axis == AcrossX && q.X >= at:
			q.X += by
		case axis == AcrossY && q.Y >= at:
			q.Y += by
		}
		return q
	}})
}

// Translate moves the whole plan.
func (p Plan) Translate(by geometry.Point) Plan {
	return p.moved(motion{to: func(q geometry.Point) geometry.Point { return q.Add(by) }})
}

// Rotate turns the whole plan about a point, counter-clockwise by degrees.
// Quarter turns are exact; other turns round each corner to the nanometer.
func (p Plan) Rotate(about geometry.Point, degrees float64) Plan {
	degrees = math.Mod(degrees, 360)
	if degrees < 0 {
		degrees += 360
	}
	return p.moved(motion{turn: degrees, to: func(q geometry.Point) geometry.Point { return about.Add(Turn(q.Sub(about), degrees)) }})
}

// Turn turns a vector counter-clockwise by degrees; quarter turns are exact.
func Turn(v geometry.Point, degrees float64) geometry.Point {
	switch degrees = math.Mod(math.Mod(degrees, 360)+360, 360); degrees {
	case 0:
		return v
	case 90:
		return geometry.Point{X: -v.Y, Y: v.X}
	case 180:
		return geometry.Point{X: -v.X, Y: -v.Y}
	case 270:
		return geometry.Point{X: v.Y, Y: -v.X}
	}
	s, c := math.Sincos(degrees * math.Pi / 180)
	x, y := float64(v.X), float64(v.Y)
	return geometry.Point{X: geometry.Rounded(x*c - y*s), Y: geometry.Rounded(x*s + y*c)}
}

// Mirror reflects the whole plan: AcrossX swaps left and right about the
// coordinate at, AcrossY swaps up and down.
func (p Plan) Mirror(axis Axis, at geometry.Length) Plan {
	q := p.moved(motion{flip: true, to: func(q geometry.Point) geometry.Point {
		if axis == AcrossX {
			q.X = 2*at - q.X
		} else {
			q.Y = 2*at - q.Y
		}
		return q
	}})
	for _, l := range q.Loops() {
		for i := range l {
			l[i].Middle = -l[i].Middle
		}
	}
	q.Outline = q.Outline.Reversed()
	for i := range q.Holes {
		q.Holes[i].Loop = q.Holes[i].Loop.Reversed()
	}
	return q
}

// moved takes every point of the plan elsewhere. Doors keep their distance from
// the corner that stays in place, if there is one.
func (p Plan) moved(m motion) Plan {
	s := Site{Plan: p.Clone()}
	for i := range s.Plan.Outline {
		s.Plan.Outline[i].At = m.to(s.Plan.Outline[i].At)
	}
	keeping(func(k kept) { k.follow(&s, m) })
	for k, l := range s.Plan.Loops() {
		l.keep(p.Loops()[k])
	}
	return s.Plan
}

// Foot gives the running distance from a of the point on the line a-b nearest
// to q; it may be negative or beyond b.
func Foot(a, b, q geometry.Point) geometry.Length {
	d, v := b.Sub(a), q.Sub(a)
	length := math.Hypot(float64(d.X), float64(d.Y))
	if length == 0 {
		return 0
	}
	return geometry.Rounded((float64(d.X)*float64(v.X) + float64(d.Y)*float64(v.Y)) / length)
}
