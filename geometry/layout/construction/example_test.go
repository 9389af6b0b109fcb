package construction_test

import (
	"fmt"

	"haunchbook.example/geometry/layout/construction"
	"haunchbook.example/geometry/plan"
)

// A joint across a slab of 40 by 20 ft: the side to the left of its line is poured first,
// the other three days later.
func ExampleDivide() {
	p := rectangle(40*ft, 20*ft)
	p.Construction = []plan.Construction{{From: pt(15*ft, 0), To: pt(15*ft, 20*ft), Days: 3}}
	for _, part := range construction.Divide(p).Parts {
		fmt.Printf("day %d: %.1f m²\n", part.Day, part.Region.Area())
	}
	// Output:
	// day 1: 27.9 m²
	// day 4: 46.5 m²
}
