package order_test

import (
	"fmt"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/order"
	"haunchbook.example/geometry/ground"
)

// The ground was measured: 11.2 yd³ are to be filled, give or take 0.1.
func ExampleDecide() {
	need := order.Need{Fill: ground.Guess{Mean: 11.2, Error: 0.1}}
	d := order.Decide(need, decimal.New(25, -2), decimal.New(1175, -2), 450, 190)
	for _, c := range d.Choices[:d.Best+1] {
		fmt.Printf("%s yd³ run short in %.0f of 100\n", c.Amount, 100*c.Short)
	}
	fmt.Println("order", d.Choices[d.Best].Amount)
	// Output:
	// 11 yd³ run short in 100 of 100
	// 11.25 yd³ run short in 83 of 100
	// 11.5 yd³ run short in 15 of 100
	// 11.75 yd³ run short in 0 of 100
	// order 11.75
}
