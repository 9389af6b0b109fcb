package arc_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/arc"
)

// A corner of a slab, rounded by 4 ft: the two tapes meet the arc 4 ft from the corner.
func ExampleRounded() {
	at := func(x, y geometry.Length) geometry.Point {
		return geometry.Point{X: x * geometry.Foot, Y: y * geometry.Foot}
	}
	a, _ := arc.Rounded(at(0, 0), at(20, 0), at(20, 12), 4*geometry.Foot)
	u := geometry.FeetInches
	fmt.Println("R", a.Radius().Text(u), "chord", a.Chord().Text(u), "M.O.", a.Middle.Text(u), "along", a.Length().Text(u))
	fmt.Println("at a quarter of the chord", a.Ordinate(a.Chord()/4).Text(u))
	// Output:
	// R 4'-0" chord 5'-7 7/8" M.O. 1'-2 1/16" along 6'-3 3/8"
	// at a quarter of the chord 10 15/16"
}
