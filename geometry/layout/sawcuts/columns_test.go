package sawcuts_test

import (
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/blockouts"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// Cuts run to each point of a diamond and to four sides of a round block-out, also of one whose
// middle lies too near an edge for a cut right through; none runs over it.
func TestCutsRunToColumns(t *testing.T) {
	const in, ft = geometry.Inch, geometry.Foot
	ring := geometry.Ring{{}, {X: 30 * ft}, {X: 30 * ft, Y: 24 * ft}, {Y: 24 * ft}}
	for _, shape := range []plan.Isolation{plan.DiamondOut, plan.RoundOut} {
		for _, y := range []geometry.Length{12 * ft, 8*ft + 5*in, 3*ft + 6*in} {
			c := geometry.Point{X: 11 * ft, Y: y}
			p := plan.Plan{Field: 4 * in}.WithOutline(plan.Like(ring, plan.Edge{}))
			p.Pads = []plan.Pad{{Center: c, Width: ft, Length: ft, Depth: ft, Isolation: shape, BlockOut: 30 * in}}
			s := slab.New("", p, nil, geometry.FeetInches, slab.Concrete{Slump: 5 * in, Aggregate: in})
			open := blockouts.Around(s)
			cuts := sawcuts.Lay(open, sawcuts.Spec{Ratio: 30, Aspect: 1.5})
			half := 15 * in
			if shape == plan.DiamondOut {
				half = geometry.Distance(c, p.BlockOuts()[0].Ring()[0])
			}
			for _, v := range []geometry.Point{{X: half}, {X: -half}, {Y: half}, {Y: -half}} {
				met := false
				for _, k := range cuts {
					_, away := geometry.Nearest(c.Add(v), k.A, k.B)
					met = met || away < in
				}
				if !met {
					t.Errorf("%v at %v: no cut at %v of %v", shape, y, v, cuts)
				}
			}
			for _, k := range cuts {
				if _, away := geometry.Nearest(c, k.A, k.B); away < 14*in {
					t.Errorf("%v at %v: a cut runs over it, %v", shape, y, k)
				}
			}
		}
	}
}
