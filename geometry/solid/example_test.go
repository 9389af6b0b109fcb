package solid_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// A slab of 24 ft by 20 ft, 6 in thick, with an edge of 12 in that tapers over 8 in.
func ExampleOf() {
	ft, in := geometry.Foot, geometry.Inch
	p := plan.Plan{
		Field:    6 * in,
		Sections: []plan.Section{{Name: "Edge", Depth: 12 * in, Bottom: 12 * in, Taper: 8 * in}},
	}.WithOutline(plan.Like(geometry.Ring{{}, {X: 24 * ft}, {X: 24 * ft, Y: 20 * ft}, {Y: 20 * ft}}, plan.Edge{Section: "Edge"}))
	s, err := solid.Of(p)
	if err != nil {
		fmt.Println(err)
		return
	}
	const yard = 0.764554857984 // m³
	fmt.Printf("%.2f yd³\n", s.Volume/yard)
	for _, part := range s.Parts {
		if part.Kind != solid.Haunch {
			fmt.Printf("%s %+.2f\n", part.Kind, part.Volume/yard)
		}
	}
	depth, _ := s.DepthAt(geometry.Point{X: 12 * ft, Y: 16 * in})
	fmt.Println("16 in in from the edge:", depth.Text(geometry.FeetInches))
	// Output:
	// 10.93 yd³
	// Field +8.89
	// Overlaps given back -0.13
	// 16 in in from the edge: 9"
}
