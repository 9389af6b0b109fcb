package geometry_test

import (
	"fmt"

	"haunchbook.example/geometry"
)

func ExampleParseLength() {
	l, err := geometry.ParseLength(`24'-6 1/2"`, geometry.Foot)
	fmt.Println(l.Text(geometry.FeetInches), l.Text(geometry.Millimeters), err)
	// A bare number counts what the reader says it does.
	l, _ = geometry.ParseLength("8", geometry.Inch)
	fmt.Println(l.Text(geometry.FeetInches))
	// Output:
	// 24'-6 1/2" 7480 mm <nil>
	// 8"
}

func ExampleRing_Area() {
	ft := geometry.Foot
	yard := geometry.Ring{{}, {X: 24 * ft}, {X: 24 * ft, Y: 20 * ft}, {Y: 20 * ft}}
	fmt.Printf("%.4f m², round it %s\n", yard.Area(), yard.Perimeter().Text(geometry.FeetInches))
	// Output: 44.5935 m², round it 88'-0"
}
