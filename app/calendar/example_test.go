package calendar_test

import (
	"bytes"
	"context"
	"fmt"

	"haunchbook.example/app/calendar"
	"haunchbook.example/app/date"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/assets"
)

func ExampleOf() {
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		fmt.Println(err)
		return
	}
	j.Pour.Date = date.Of(2026, 12, 10)
	days, err := calendar.Of(context.Background(), []calendar.Job{{ID: "J-0001", Handover: handover.Of(handover.From{Job: j})}}, date.Of(2026, 12, 7), 14)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, e := range days {
		fmt.Println(e.Day, e.From, e.What, e.Job)
	}
	// Output:
	// 2026-12-10 07:30 Pour Shop addition, Lot 7
}
