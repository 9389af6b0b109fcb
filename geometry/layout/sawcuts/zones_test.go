package sawcuts

import (
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// By hand: 24 by 20 ft with cuts at most 15 ft apart has one each way, at 12 and 10 ft. A 2x4 wall
// at 12 ft 1 in keeps them 2 in off its plate, from 141 1/4 to 148 3/4 in: the nearer is taken. A
// limit of 12 ft leaves no room for that: two cuts at 8 and 16 ft keep off it. Across the wall
// cuts stay; a wall along an edge and one that runs askew keep none off.
func TestCutsKeepOffWalls(t *testing.T) {
	const in, ft = geometry.Inch, geometry.Foot
	at := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }
	for _, c := range []struct {
		name  string
		limit geometry.Length
		wall  plan.Wall
		x, y  geometry.Length
	}{
		{"none", 15 * ft, plan.Wall{Plate: "2x4", From: at(6*ft, 2*ft), To: at(6*ft, 6*ft)}, 144 * in, 120 * in},
		{"on the cut", 15 * ft, plan.Wall{Plate: "2x4", From: at(145*in, 4*ft), To: at(145*in, 9*ft)}, 141*in + in/4, 120 * in},
		{"the other way", 15 * ft, plan.Wall{Plate: "2x4", From: at(143*in, 9*ft), To: at(143*in, 4*ft)}, 146*in + 3*in/4, 120 * in},
		{"a wider one", 15 * ft, plan.Wall{Plate: "2x6", From: at(145*in, 4*ft), To: at(145*in, 9*ft)}, 140*in + in/4, 120 * in},
		{"beside", 15 * ft, plan.Wall{Plate: "2x4", From: at(148*in, 4*ft), To: at(148*in, 9*ft)}, 144 * in, 120 * in},
		{"no choice", 12 * ft, plan.Wall{Plate: "2x4", From: at(145*in, 4*ft), To: at(145*in, 9*ft)}, 0, 120 * in},
		{"level", 15 * ft, plan.Wall{Plate: "2x4", From: at(4*ft, 10*ft), To: at(9*ft, 10*ft)}, 144 * in, 120*in - 15*in/4},
		{"along an edge", 15 * ft, plan.Wall{Plate: "2x4", From: at(0, 4*ft), To: at(0, 9*ft)}, 144 * in, 120 * in},
		{"askew", 15 * ft, plan.Wall{Plate: "2x4", From: at(145*in, 4*ft), To: at(146*in, 9*ft)}, 144 * in, 120 * in},
	} {
		p := plan.Plan{Field: 6 * in, Walls: []plan.Wall{c.wall}}
		p.Outline = plan.Like(geometry.Ring{at(0, 0), at(24*ft, 0), at(24*ft, 20*ft), at(0, 20*ft)}, plan.Edge{})
		cuts := Lay(slab.New("", p, nil, geometry.FeetInches, slab.Concrete{}), Spec{Spacing: c.limit, Aspect: 1.5})
		if c.x == 0 {
			for _, cut := range cuts {
				if x := cut.A.X; cut.B.X == x && x != 8*ft && x != 16*ft {
					t.Errorf("%s: a cut at %s", c.name, x.Text(0))
				}
			}
			if len(cuts) != 3 {
				t.Errorf("%s: %d cuts", c.name, len(cuts))
			}
			continue
		}
		if len(cuts) != 2 {
			t.Errorf("%s: %d cuts: %v", c.name, len(cuts), cuts)
			continue
		}
		for _, cut := range cuts {
			got, want := cut.A.X, c.x
			if cut.A.Y == cut.B.Y {
				got, want = cut.A.Y, c.y
			}
			if (got - want).Abs() > geometry.Micrometer {
				t.Errorf("%s: a cut at %s, want %s", c.name, got.Text(0), want.Text(0))
			}
		}
	}
}
