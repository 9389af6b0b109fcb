package bars_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/slab"
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

func ExampleLay() {
	spec := bars.Spec{
		Size: 4, Grade: 60, Corner: bars.CornerBars, Stock: []geometry.Length{20 * geometry.Foot},
		Rows: []bars.Row{{Face: 3 * geometry.Inch, Bottom: 3 * geometry.Inch}},
	}
	laid, laps := bars.Lay(shed(), spec, bars.PadSpec{}, bars.StripSpec{})
	for _, b := range laid {
		fmt.Println(b.Size, "cut", b.Cut.Text(geometry.FeetInches), "with", len(b.Bends), "bends")
	}
	fmt.Println("lapped by", laps[0].Length.Text(geometry.FeetInches))
	// Output:
	// No. 4 cut 4'-11 3/4" with 1 bends
	// No. 4 cut 15'-4" with 0 bends
	// No. 4 cut 11'-2" with 0 bends
	// No. 4 cut 4'-11 3/4" with 1 bends
	// No. 4 cut 15'-4" with 0 bends
	// lapped by 2'-4 1/2"
}
