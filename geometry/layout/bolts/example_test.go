package bolts_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
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
	spec := bolts.Spec{
		Diameter: geometry.Inch / 2, Length: 10 * geometry.Inch, Projection: 5 * geometry.Inch / 2, Embed: 7 * geometry.Inch,
		Spacing: 6 * geometry.Foot, End: 6 * geometry.Inch, EndMax: 12 * geometry.Inch, EndMin: 4 * geometry.Inch, Stock: 16 * geometry.Foot,
	}
	for _, w := range bolts.Lay(shed(), spec, bars.NewSegments(nil), nil) {
		fmt.Print(w.Name(), ":")
		for _, b := range w.Bolts {
			fmt.Print("  ", b.Along.Text(geometry.FeetInches))
		}
		fmt.Println()
	}
	// Output:
	// Wall W1:  6"  5'-6"  10'-6"  15'-6"
	// Wall W2:  11 1/2"  6'-2 3/4"  11'-6"
	// Wall W3:  11 1/2"  5'-9 11/16"  10'-7 13/16"  15'-6"
}
