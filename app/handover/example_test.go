package handover_test

import (
	"bytes"
	"context"
	"fmt"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/assets"
)

// Each part is computed when it is first asked for, and once.
func ExampleOf() {
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		fmt.Println(err)
		return
	}
	h := handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units)})
	t, err := h.Takeoff(context.Background())
	if err != nil {
		fmt.Println(err)
		return
	}
	l, _ := t.Line(takeoff.ConcreteOrder)
	fmt.Printf("%s: %.2f %s\n", l.Name, l.Value, l.Unit)
	// Output: Concrete to order: 19.75 yd³
}
