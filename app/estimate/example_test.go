package estimate_test

import (
	"fmt"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
)

func ExampleOf() {
	t := takeoff.Takeoff{Lines: []takeoff.Line{
		{ID: takeoff.ID{Kind: takeoff.AnchorBolts}, Name: "Anchor bolts", Value: 26, Unit: takeoff.Each},
	}}
	prices := estimate.PriceList{Currency: "$", Items: []estimate.Item{{
		What: takeoff.ID{Kind: takeoff.AnchorBolts}, Name: "Anchor bolts", Group: estimate.Hardware, Unit: "box of 25", Of: takeoff.Each,
		Pack: decimal.NewFromInt(25), Price: estimate.Costs(decimal.RequireFromString("44.10")),
	}}}
	spec := estimate.Spec{Profit: decimal.NewFromInt(20), ProfitAs: estimate.Margin}
	e := estimate.Of(t, spec, prices)
	for _, s := range e.Lines[0].Working {
		fmt.Println(s.Text+":", s.Work, "=", s.Result)
	}
	fmt.Println("Bid:", e.Money(e.Bid))
	// Output:
	// From the takeoff: Anchor bolts = 26 ea
	// To buy: 26 ea ÷ 25, rounded up to a whole number = 2 box of 25
	// Extended: 2 box of 25 × $44.10 = $88.20
	// Bid: $110.25
}
