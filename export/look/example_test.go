package look_test

import (
	"fmt"

	"haunchbook.example/export/look"
)

// How wide a measure is on paper, in millimeters.
func ExampleWidth() {
	fmt.Printf("%.1f\n", look.Width("24'-0\"", 9.5, false))
	// Output: 9.1
}
