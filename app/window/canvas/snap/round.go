package snap

import (
	"math"

	"haunchbook.example/geometry"
)

// step is the finest length worth drawing at this scale.
func (r Request) step() geometry.Length {
	steps := []geometry.Length{geometry.Inch, geometry.Inch / 2, geometry.Inch / 4, geometry.Inch / 8, geometry.Sixteenth}
	if r.Units == geometry.Millimeters {
		steps = []geometry.Length{50 * geometry.Millimeter, 10 * geometry.Millimeter, 5 * geometry.Millimeter, geometry.Millimeter}
	}
	if fine, _ := r.View.Grid(r.Units); r.Grid && !r.Free && fine > steps[0] {
		return fine
	}
	for _, s := range steps {
		if r.View.Pixels(s) >= 2 && r.View.Pixels(s) < 8 {
			return s
		}
	}
	if r.View.Pixels(steps[0]) < 2 {
		return steps[0]
	}
	return steps[len(steps)-1]
}

// roundAlong gives the point at about a length from p in one of eight directions:
// the length is round, and on the diagonals the two legs are, as corners are cut.
func (r Request) roundAlong(p geometry.Point, octant int, l geometry.Length) geometry.Point {
	if octant%2 == 0 {
		return along(p, octant, l.Round(r.step()))
	}
	d := unit(octant)
	leg := geometry.Length(math.Round(float64(l) * math.Abs(d.x))).Round(r.step())
	return p.Add(geometry.Point{X: leg * geometry.Length(math.Copysign(1, d.x)), Y: leg * geometry.Length(math.Copysign(1, d.y))})
}

func (r Request) rounded(p geometry.Point) geometry.Point {
	s := r.step()
	return geometry.Point{X: p.X.Round(s), Y: p.Y.Round(s)}
}
