package exchange_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/assets"
	"haunchbook.example/export/exchange"
)

// The takeoff for another program.
func ExampleWriteJSON() {
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		fmt.Println(err)
		return
	}
	h := handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units)})
	var b bytes.Buffer
	if err := exchange.WriteJSON(context.Background(), &b, h); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(json.Valid(b.Bytes()))
	// Output: true
}
