package options

import (
	"fmt"
	"strconv"
	"strings"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/words"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// variable is a row of what an option may change.
type variable struct {
	label string
	drawn func(p []plan.Plan, s takeoff.Spec, u geometry.Units) string
	get   func(o *estimate.Option, u geometry.Units) string
	put   func(o *estimate.Option, s string, u geometry.Units) error // of a text without space around
}

func lengthVariable(label string, drawn func([]plan.Plan, takeoff.Spec) geometry.Length, at func(*estimate.Option) *estimate.Change) variable {
	return variable{
		label,
		func(p []plan.Plan, s takeoff.Spec, u geometry.Units) string { return drawn(p, s).Full(u) },
		func(o *estimate.Option, u geometry.Units) string {
			if c := at(o); c.Set {
				return c.To.Full(u)
			}
			return ""
		},
		func(o *estimate.Option, s string, u geometry.Units) error {
			if s == "" {
				*at(o) = estimate.Change{}
				return nil
			}
			l, err := geometry.ParseLength(s, u.Foot())
			if err == nil && (l < 0 || l > 10*geometry.Meter) {
				err = fmt.Errorf("found %s; write a length of up to %s", s, (10 * geometry.Meter).Text(u))
			}
			if err == nil {
				*at(o) = estimate.To(l)
			}
			return err
		},
	}
}

func numberVariable(label string, most int, drawn func(takeoff.Spec) int, at func(*estimate.Option) *int) variable {
	return variable{
		label,
		func(_ []plan.Plan, s takeoff.Spec, _ geometry.Units) string { return strconv.Itoa(drawn(s)) },
		func(o *estimate.Option, _ geometry.Units) string {
			if n := *at(o); n != 0 {
				return strconv.Itoa(n)
			}
			return ""
		},
		func(o *estimate.Option, s string, _ geometry.Units) (err error) {
			n := 0
			if s != "" {
				n, err = bind.ReadWhole(s, 1, most)
			}
			if err != nil {
				return fmt.Errorf("%w, or nothing", err)
			}
			*at(o) = n
			return nil
		},
	}
}

// spelledVariable is one that is spelled as in a job file.
func spelledVariable(label string, drawn func(takeoff.Spec) string, at func(*estimate.Option) bind.Spelled) variable {
	return variable{
		label,
		func(_ []plan.Plan, s takeoff.Spec, _ geometry.Units) string { return drawn(s) },
		func(o *estimate.Option, _ geometry.Units) string { return bind.Spell(at(o)) },
		func(o *estimate.Option, s string, _ geometry.Units) error {
			if err := bind.Read(at(o), strings.ToLower(s)); err != nil {
				return fmt.Errorf("%w, or nothing", err)
			}
			return nil
		},
	}
}

func variables() []variable {
	section := func(p []plan.Plan) plan.Section { s, _ := estimate.MainSection(p); return s }
	return []variable{
		lengthVariable("Edge depth", func(p []plan.Plan, _ takeoff.Spec) geometry.Length { return section(p).Depth }, func(o *estimate.Option) *estimate.Change { return &o.Edge }),
		lengthVariable("Flat bottom", func(p []plan.Plan, _ takeoff.Spec) geometry.Length { return section(p).Bottom }, func(o *estimate.Option) *estimate.Change { return &o.Bottom }),
		lengthVariable("Taper", func(p []plan.Plan, _ takeoff.Spec) geometry.Length { return section(p).Taper }, func(o *estimate.Option) *estimate.Change { return &o.Taper }),
		lengthVariable("Field thickness", func(p []plan.Plan, _ takeoff.Spec) geometry.Length { return estimate.Field(p) }, func(o *estimate.Option) *estimate.Change { return &o.Field }),
		numberVariable("Strength, psi", 15000, func(s takeoff.Spec) int { return s.Mix.Strength }, func(o *estimate.Option) *int { return &o.Strength }),
		numberVariable("Edge bars, No.", 18, func(s takeoff.Spec) int { return s.Place.Bars.Size }, func(o *estimate.Option) *int { return &o.Bar }),
		spelledVariable("Field steel", func(s takeoff.Spec) string { return s.Place.Field.Kind.String() }, func(o *estimate.Option) bind.Spelled { return &o.FieldSteel }),
		spelledVariable("Fibers, lb/yd³", func(s takeoff.Spec) string { return strconv.FormatFloat(s.Mix.Fiber, 'f', -1, 64) }, func(o *estimate.Option) bind.Spelled { return &o.Fiber }),
		lengthVariable("Foam", func(_ []plan.Plan, s takeoff.Spec) geometry.Length { return s.Base.Foam }, func(o *estimate.Option) *estimate.Change { return &o.Foam }),
		lengthVariable("Bolts, at most", func(_ []plan.Plan, s takeoff.Spec) geometry.Length { return s.Place.Bolts.Spacing }, func(o *estimate.Option) *estimate.Change { return &o.Bolts }),
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
