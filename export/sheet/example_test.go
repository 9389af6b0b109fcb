package sheet_test

import (
	"bytes"
	"context"
	"fmt"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/assets"
	"haunchbook.example/export/sheet"
)

// The crew's set of a job: what each sheet is of.
func ExamplePages() {
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		fmt.Println(err)
		return
	}
	h := handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units)})
	pages, err := sheet.Pages(context.Background(), h, sheet.Options{Paper: sheet.Tabloid})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(pages[0].Name, "first, of", len(pages))
	// Output: Layout first, of 3
}
