package slab_test

import (
	"fmt"

	"haunchbook.example/geometry"
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

func ExampleSlab_Within() {
	s := shed()
	a, b := geometry.Point{X: -geometry.Foot, Y: 6 * geometry.Foot}, geometry.Point{X: 30 * geometry.Foot, Y: 6 * geometry.Foot}
	for _, in := range s.Within(a, b) {
		fmt.Println(in.From.Text(geometry.FeetInches), "to", in.To.Text(geometry.FeetInches))
	}
	// Output:
	// 1'-0" to 17'-0"
}
