package lumber_test

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/lumber"
)

// A 2x6 is dressed to 1 1/2 by 5 1/2 in.
func ExampleNamed() {
	b, ok := lumber.Named("2x6")
	fmt.Println(ok, b.Thickness.Text(geometry.FeetInches), b.Width.Text(geometry.FeetInches))
	// Output: true 1 1/2" 5 1/2"
}
