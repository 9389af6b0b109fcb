package cutting_test

import (
	"fmt"

	"haunchbook.example/geometry/layout/cutting"
)

// Three pieces of 7 ft and two of 5 ft from stock of 20 ft: two are bought, and no plan
// buys less.
func ExampleSolve() {
	r, err := cutting.Solve([]cutting.Demand{{Length: 7, Count: 3}, {Length: 5, Count: 2}}, []cutting.Stock{{Length: 20}}, 0, 1000)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(len(r.Bars), r.Bought, r.Optimal())
	// Output: 2 40 true
}
