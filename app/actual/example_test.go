package actual_test

import (
	"bytes"
	"context"
	"fmt"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/assets"
)

// What a job took, set against its estimate.
func ExampleAgainst() {
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
	e, err := h.Estimate(context.Background())
	if err != nil {
		fmt.Println(err)
		return
	}
	r := actual.Record{Ordered: decimal.New(1975, -2), Delivered: decimal.New(1975, -2), Left: decimal.NewNullDecimal(decimal.New(5, -1)), Trucks: 2}
	for _, row := range actual.Against(actual.Job{Takeoff: t, Estimate: e, Record: r})[:2] {
		fmt.Println(row.Name, row.Estimated, row.Actual, row.Unit)
	}
	// Output:
	// Concrete ordered 19.75 19.75 yd³
	// Concrete delivered 19.75 19.75 yd³
}
