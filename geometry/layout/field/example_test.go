package field_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/field"
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
	spec := field.Spec{Kind: field.Grid, Size: 4, Spacing: 18 * geometry.Inch, Cover: 3 * geometry.Inch, Chairs: 4 * geometry.Foot}
	laid := field.Lay(shed(), spec, bars.Spec{Grade: 60, Stock: []geometry.Length{20 * geometry.Foot}}, nil)
	fmt.Println(len(laid.Bars), "bars,", laid.Chairs, "chairs")
	// Output:
	// 19 bars, 12 chairs
}
