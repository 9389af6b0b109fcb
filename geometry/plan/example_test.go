package plan_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// shed is 24 ft by 20 ft, with a door that does not fit its side.
func shed() plan.Plan {
	p := plan.Plan{
		Field:    6 * geometry.Inch,
		Sections: []plan.Section{{Name: "Edge", Depth: 12 * geometry.Inch, Bottom: 12 * geometry.Inch, Taper: 8 * geometry.Inch}},
	}.WithOutline(plan.Like(geometry.Ring{{}, {X: 24 * ft}, {X: 24 * ft, Y: 20 * ft}, {Y: 20 * ft}}, plan.Edge{Section: "Edge", Wall: "2x6"}))
	p, _ = p.AddDoor(0, 0, plan.Door{From: 16 * ft, Width: 9 * ft})
	return p
}

func ExamplePlan_Validate() {
	for _, f := range shed().Validate(geometry.FeetInches) {
		fmt.Println(f)
	}
	// Output: outline[0].doors[0].from: found an opening from 16'-0" to 25'-0" on an edge of 24'-0"; an opening must not run over the corner; the far jamb can be at most at 24'-0"
}

// What is done to a thing is one of a few things, whatever its kind.
func ExampleSite_Move() {
	s := plan.Site{Plan: shed()}
	for _, t := range s.Of(plan.KindDoor) {
		moved, _, err := s.Move(t, geometry.Point{X: -4 * ft, Y: ft}) // a door stays on its edge
		fmt.Println(moved.Plan.Outline[0].Doors[0].From.Text(geometry.FeetInches), err)
	}
	less, err := s.Remove(plan.Thing{Kind: plan.KindCorner, Index: 2})
	fmt.Println(len(less.Plan.Outline), "corners", err)
	// Output:
	// 12'-0" <nil>
	// 3 corners <nil>
}

func ExampleFromLegs() {
	t, err := plan.FromLegs(`24' right, 20' up, 23'-6" left, 20' down`, plan.North{}, geometry.FeetInches)
	fmt.Println(len(t.Legs), "legs, open by", t.Misclosure().Text(geometry.FeetInches), err)
	fmt.Println(t.Spread().Misclosure())
	// Output:
	// 4 legs, open by 6" <nil>
	// 0
}
