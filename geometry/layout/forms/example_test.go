package forms_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/forms"
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
	spec := forms.Spec{Stock: []geometry.Length{12 * geometry.Foot, 16 * geometry.Foot}, Stakes: 3 * geometry.Foot, Kickers: 4 * geometry.Foot}
	for _, f := range forms.Lay(shed(), spec) {
		fmt.Println("edge", f.Edge+1, f.Board, f.Length.Text(geometry.FeetInches), len(f.Boards), "boards", len(f.Stakes), "stakes")
	}
	// Output:
	// edge 1 2x12 16'-1 1/2" 2 boards 7 stakes
	// edge 2 2x12 12'-1 1/2" 1 boards 5 stakes
	// edge 3 2x12 16'-0" 1 boards 7 stakes
}
