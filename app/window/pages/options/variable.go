package options

import (
	"strconv"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/geometry/plan"
)

// variable is a field of what an option may change, and what it is as drawn.
type variable struct {
	below string // the option
	drawn func(p []plan.Plan, s takeoff.Spec) any
}

// row gives what is known of the field.
func (v variable) row() field.Row { return bind.Row("price.options[]", v.below) }

// get gives what an option has; nil where it changes nothing.
func (v variable) get(o estimate.Option) any {
	r, is := v.row(), v.row().Of(o, v.below)
	if n, ok := is.(decimal.Decimal); is == "" || ok && n.IsZero() && r.Blank == "" || is == "0" {
		return nil
	}
	return is
}

func variables() []variable {
	section := func(p []plan.Plan) plan.Section { s, _ := estimate.MainSection(p); return s }
	number := func(n int) any { return decimal.NewFromInt(int64(n)) }
	return []variable{
		{"edge", func(p []plan.Plan, _ takeoff.Spec) any { return section(p).Depth }},
		{"bottom", func(p []plan.Plan, _ takeoff.Spec) any { return section(p).Bottom }},
		{"taper", func(p []plan.Plan, _ takeoff.Spec) any { return section(p).Taper }},
		{"field", func(p []plan.Plan, _ takeoff.Spec) any { return estimate.Field(p) }},
		{"strength", func(_ []plan.Plan, s takeoff.Spec) any { return number(s.Mix.Strength) }},
		{"bar", func(_ []plan.Plan, s takeoff.Spec) any {
			return bind.Row("spec.place.bars", "size").Of(s.Place.Bars, "size")
		}},
		{"fieldsteel", func(_ []plan.Plan, s takeoff.Spec) any { return s.Place.Field.Kind.String() }},
		{"fiber", func(_ []plan.Plan, s takeoff.Spec) any { return decimal.NewFromFloat(s.Mix.Fiber) }},
		{"foam", func(_ []plan.Plan, s takeoff.Spec) any { return s.Base.Foam }},
		{"bolts", func(_ []plan.Plan, s takeoff.Spec) any { return s.Place.Bolts.Spacing }},
	}
}

// result is a row of what an option comes to.
type result struct {
	label string
	text  func(o estimate.Outcome) string
	bold  bool
}

// differs is the label of the row of differences, which the job as drawn has none in.
const differs = "Difference"

func results() []result {
	return []result{
		{"Bid", func(o estimate.Outcome) string { return money(o, o.Bid) }, true},
		{differs, func(o estimate.Outcome) string { return signed(o.Estimate.Prices.Currency, o.Difference) }, false},
		{"Concrete ordered", func(o estimate.Outcome) string { return o.Ordered.String() + " " + string(o.Volume) }, true},
		{"Trucks", func(o estimate.Outcome) string { return strconv.Itoa(o.Trucks) }, false},
		{"Steel", func(o estimate.Outcome) string {
			return estimate.Thousands(o.Steel.StringFixed(0)) + " " + string(o.Weight)
		}, false},
		{"Form boards", func(o estimate.Outcome) string { return strconv.Itoa(o.Boards) }, false},
		{"Labor hours", func(o estimate.Outcome) string { return o.Hours.StringFixed(1) }, false},
		{"Cost", func(o estimate.Outcome) string { return money(o, o.Cost) }, false},
	}
}

// signed writes a difference of money with its sign.
func signed(currency string, d decimal.Decimal) string {
	text := estimate.Money(currency, d)
	if d.IsPositive() {
		text = "+" + text
	}
	return text
}
