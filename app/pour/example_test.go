package pour_test

import (
	"fmt"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/pour"
)

// Loads are balanced, so that the last truck does not come with a rest.
func ExampleSplit() {
	d := decimal.RequireFromString
	loads, err := pour.Split(d("13.2"), d("0.25"), d("10"), pour.Balanced)
	fmt.Println(loads, err)
	// Output: [6.75 6.5] <nil>
}
