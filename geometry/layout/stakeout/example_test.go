package stakeout_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/layout/stakeout"
	"haunchbook.example/geometry/plan"
)

// shed is 16 ft by 12 ft, walled all round but for one side against an old slab.
func shed() *slab.Slab {
	p := plan.Plan{
		Field:    4 * geometry.Inch,
		Sections: []plan.Section{{Name: "Edge", Depth: 12 * geometry.Inch, Bottom: 12 * geometry.Inch, Taper: 8 * geometry.Inch}},
	}
	for _, q := range [][2]geometry.Length{{0, 0}, {16, 0}, {16, 12}, {0, 12}} {
		at := geometry.Point{X: q[0] * geometry.Foot, Y: q[1] * geometry.Foot}
		p.Outline = append(p.Outline, plan.Edge{At: at, Section: "Edge", Wall: "2x6"})
	}
	p.Outline[3] = plan.Edge{At: p.Outline[3].At, Joint: true}
	return slab.New("", p, nil, geometry.FeetInches, slab.Concrete{Strength: 3000, Slump: 5 * geometry.Inch, Aggregate: 3 * geometry.Inch / 4})
}

func ExampleOf() {
	out := stakeout.Of(shed(), stakeout.Spec{Offset: 2 * geometry.Foot})
	for _, d := range out.Diagonals {
		fmt.Println("corner", d.I+1, "to", d.J+1, d.Length.Text(geometry.FeetInches))
	}
	fmt.Println(len(out.Squares), "squares of 3-4-5,", out.Squares[0].Unit.Text(geometry.FeetInches), "each")
	// Output:
	// corner 1 to 3 20'-0"
	// corner 2 to 4 20'-0"
	// 4 squares of 3-4-5, 4'-0" each
}
