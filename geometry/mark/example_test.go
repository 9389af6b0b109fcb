package mark_test

import (
	"fmt"

	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
)

func ExampleOf() {
	slab := plan.Plan{
		Outline: plan.Loop{{Wall: "2x6", Doors: []plan.Door{{}, {Name: "Big door"}}}, {}, {Wall: "2x6"}},
		Pads:    []plan.Pad{{}},
	}
	for _, n := range mark.Of(slab, slab) {
		fmt.Println(n.Wall(0, 0), n.Wall(0, 2), n.Wall(0, 2).Piece(1), n.Door(0, 0, 1).Called("Big door"), n.Pad(0))
	}
	// Output:
	// W1 W2 W2.1 D2 Big door P1
	// W3 W4 W4.1 D4 Big door P2
}
