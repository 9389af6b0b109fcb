package options

import (
	"strconv"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/words"
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
	if n, ok := is.(decimal.Decimal); is == "" || ok && n.IsZero() && r.Blank == "" {
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
		{"bar", func(_ []plan.Plan, s takeoff.Spec) any { return number(s.Place.Bars.Size) }},
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
	value func(o estimate.Outcome) float64 // for the chart; nil for none
}

func results() []result {
	return []result{
		{"Concrete ordered", func(o estimate.Outcome) string { return o.Ordered.String() + " " + string(o.Volume) }, true, func(o estimate.Outcome) float64 { return o.Ordered.InexactFloat64() }},
		{"Trucks", func(o estimate.Outcome) string { return strconv.Itoa(o.Trucks) }, false, func(o estimate.Outcome) float64 { return float64(o.Trucks) }},
		{"Steel", func(o estimate.Outcome) string {
			return words.Thousands(o.Steel.StringFixed(0)) + " " + string(o.Weight)
		}, false, func(o estimate.Outcome) float64 { return o.Steel.InexactFloat64() }},
		{"Form boards", func(o estimate.Outcome) string { return strconv.Itoa(o.Boards) }, false, func(o estimate.Outcome) float64 { return float64(o.Boards) }},
		{"Labor hours", func(o estimate.Outcome) string { return o.Hours.StringFixed(1) }, false, func(o estimate.Outcome) float64 { return o.Hours.InexactFloat64() }},
		{"Cost", func(o estimate.Outcome) string { return money(o, o.Cost) }, false, func(o estimate.Outcome) float64 { return o.Cost.InexactFloat64() }},
		{"Bid", func(o estimate.Outcome) string { return money(o, o.Bid) }, true, func(o estimate.Outcome) float64 { return o.Bid.InexactFloat64() }},
		{"Difference", func(o estimate.Outcome) string {
			text := money(o, o.Difference)
			if o.Difference.IsPositive() {
				text = "+" + text
			}
			return text
		}, false, nil},
	}
}

func measures() []string {
	var out []string
	for _, r := range results() {
		if r.value != nil {
			out = append(out, r.label)
		}
	}
	return out
}
