package workbook_test

import (
	"bytes"
	"context"
	"fmt"

	"github.com/xuri/excelize/v2"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/assets"
	"haunchbook.example/export/workbook"
)

// A job as a workbook, read back by a library for such files.
func ExampleWrite() {
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		fmt.Println(err)
		return
	}
	h := handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units)})
	var b bytes.Buffer
	if err := workbook.Write(context.Background(), &b, h, workbook.Options{}); err != nil {
		fmt.Println(err)
		return
	}
	f, err := excelize.OpenReader(&b)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.GetSheetList()[0])
	// Output: Order
}
