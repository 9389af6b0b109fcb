package layout_test

import (
	"context"
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/plan"
)

// The anchor bolts of a wall of 20 ft along one side.
func ExampleOf() {
	p := plan.Plan{Field: 6 * geometry.Inch, Sections: []plan.Section{{Name: "Edge", Depth: 12 * geometry.Inch, Bottom: 12 * geometry.Inch, Taper: 8 * geometry.Inch}}}
	p = p.WithOutline(plan.Like(geometry.Ring{{}, {X: 20 * foot}, {X: 20 * foot, Y: 12 * foot}, {Y: 12 * foot}}, plan.Edge{Section: "Edge"}))
	p.Outline[0].Wall = "2x6"
	laid, _, _ := layout.Of(context.Background(), []layout.Slab{{Plan: p}}, spec(nil))
	for _, b := range laid[0].Walls[0].Bolts {
		fmt.Println(b.Mark, b.Along.Text(geometry.FeetInches))
	}
	// Output:
	// A1 8"
	// A2 5'-6 11/16"
	// A3 10'-5 5/16"
	// A4 15'-4"
	// A5 16'-8"
	// A6 19'-4"
}
