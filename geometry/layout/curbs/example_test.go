package curbs_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/curbs"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// garage is 24 ft by 20 ft, with curbs of 6 in by 8 in and a door of 9 ft.
func garage() *slab.Slab {
	p := plan.Plan{Field: 5 * geometry.Inch}
	for _, q := range [][2]geometry.Length{{0, 0}, {24, 0}, {24, 20}, {0, 20}} {
		p.Outline = append(p.Outline, plan.Edge{At: geometry.Point{X: q[0] * geometry.Foot, Y: q[1] * geometry.Foot}, Curb: 6 * geometry.Inch, CurbWidth: 8 * geometry.Inch})
	}
	p.Outline[0].Doors = []plan.Door{{From: 4 * geometry.Foot, Width: 9 * geometry.Foot}}
	s := slab.New("", p, nil, geometry.FeetInches, slab.Concrete{Strength: 3000})
	s.Curbs = p.Curbs(nil)
	return s
}

// A cut across the middle ends at the inner face of one curb, and runs out of the door.
func ExampleSaw() {
	for _, c := range curbs.Saw(garage(), []sawcuts.Cut{{A: geometry.Point{X: 8 * geometry.Foot}, B: geometry.Point{X: 8 * geometry.Foot, Y: 20 * geometry.Foot}}}) {
		fmt.Println(c.A.Y.Text(geometry.FeetInches), "to", c.B.Y.Text(geometry.FeetInches))
	}
	// Output:
	// 0" to 19'-4"
}
