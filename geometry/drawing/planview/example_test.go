package planview_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

// A slab of 24 ft by 20 ft with its dimensions.
func ExamplePlan() {
	ft := geometry.Foot
	p := plan.Plan{Field: 6 * geometry.Inch}.WithOutline(plan.Like(geometry.Ring{{}, {X: 24 * ft}, {X: 24 * ft, Y: 20 * ft}, {Y: 20 * ft}}, plan.Edge{}))
	layers := drawing.LayersOf(drawing.Outline, drawing.Dimensions)
	d := planview.Plan(geometry.FeetInches, planview.Input{Slabs: []planview.Slab{{Plan: p}}}, planview.Options{Draw: layers, Names: layers, Worked: -1})
	fmt.Println(d.On(drawing.Dimensions))
	// Output: [20'-0" 20'-0" 24'-0" 24'-0"]
}
