package ground_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/ground"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// Five shots say that the base of a slab of 10 ft by 10 ft lies half an inch high.
func ExampleOf() {
	p := plan.Plan{Field: 6 * geometry.Inch}
	for _, c := range []geometry.Point{{}, {X: 10 * geometry.Foot}, {X: 10 * geometry.Foot, Y: 10 * geometry.Foot}, {Y: 10 * geometry.Foot}} {
		p.Outline = append(p.Outline, plan.Edge{At: c})
	}
	s, err := solid.Of(p)
	if err != nil {
		fmt.Println(err)
		return
	}
	var shots []ground.Shot
	for _, e := range append(p.Outline, plan.Edge{At: geometry.Point{X: 5 * geometry.Foot, Y: 5 * geometry.Foot}}) {
		shots = append(shots, ground.Shot{At: e.At, Off: geometry.Inch / 2})
	}
	g := ground.Of(s, p.Region(), p.Field, shots)
	fmt.Printf("%.3f m³ by the plan, %.3f down to the ground\n", g.Plan, g.Need.Mean)
	// Output:
	// 1.416 m³ by the plan, 1.299 down to the ground
}
