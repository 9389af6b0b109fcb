package pour_test

import (
	"fmt"

	"haunchbook.example/app/pour"
)

// Concrete of 87 °F in air of 80 °F and 50 % humidity, in a wind of 12 mph, dries
// faster than the limit allows.
func ExampleEvaporationUS() {
	fmt.Printf("%.2f lb/ft²/h\n", pour.EvaporationUS(87, 80, 0.5, 12))
	// Output: 0.24 lb/ft²/h
}
