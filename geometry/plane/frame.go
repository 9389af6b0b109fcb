package plane

import (
	"math"

	"haunchbook.example/geometry"
)

// Frame turns the plane so that things which lie askew on the plan lie along its
// own axes: X along a direction of the plan, Y to its left. Its places are meters
// from an origin that lies near what is looked at.
type Frame struct {
	Origin geometry.Point
	Along  Vec // the unit vector of its X axis on the plan
}

// NewFrame gives the frame with its X axis turned from the plan's by an angle in
// radians, counter-clockwise.
func NewFrame(origin geometry.Point, turn float64) Frame {
	sin, cos := math.Sincos(turn)
	return Frame{origin, Vec{cos, sin}}
}

// FrameAlong gives the frame whose X axis runs from a to b, which must differ.
func FrameAlong(a, b geometry.Point) Frame {
	d := b.Sub(a)
	return Frame{a, Vec{float64(d.X), float64(d.Y)}.Unit()}
}

// In gives a point of the plan in the frame. Where the frame is not turned it
// rounds once.
func (f Frame) In(p geometry.Point) Vec {
	d := p.Sub(f.Origin)
	x, y := d.X.Meters(), d.Y.Meters()
	return Vec{f.Along.X*x + f.Along.Y*y, f.Along.X*y - f.Along.Y*x}
}

// Out gives a place of the frame on the plan, rounded to the nanometer.
func (f Frame) Out(v Vec) geometry.Point {
	return f.Origin.Add(geometry.Point{
		X: geometry.FromMeters(f.Along.X*v.X - f.Along.Y*v.Y),
		Y: geometry.FromMeters(f.Along.Y*v.X + f.Along.X*v.Y),
	})
}

// Bounds gives the box of a region in the frame.
func (f Frame) Bounds(g Region) Box {
	b := nowhere
	for _, r := range g {
		for _, p := range r {
			b = b.Union(BoxAround(f.In(p)))
		}
	}
	return b
}
