package estimate

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// Reason is one reason why a bid is a draft.
type Reason struct {
	Path string // of the field to mend, as in a job file: "price.prices.wage"
	Text string // what is so, and what would do
}

// MayBeMeant tells whether the owner may confirm what the reason says; see
// Spec.Confirmed.
func (r Reason) MayBeMeant() bool { return r.Path == creditPath || r.Path == belowPath }

const (
	creditPath = "price.extras"
	belowPath  = "price.confirmed"
)

// Draft gives the reasons why a bid made on a day is a draft, and none for one that
// may go out. Without a day, prices are as old as they may be.
//
// A bid is a draft where the prices are invented, for jobs in other units, older
// than the list allows or missing, where a name fits nothing, where no labor is paid,
// and, until the reason for it is written down, where more is given back than there
// is to give or the price is below cost. Common practice, no source.
func (e Estimate) Draft(on time.Time) []Reason {
	var out []Reason
	add := func(path, format string, a ...any) { out = append(out, Reason{path, fmt.Sprintf(format, a...)}) }
	if e.Prices.Invented {
		add("price.prices.invented", "The prices and rates are invented examples: enter your own before you bid.")
	}
	if e.Prices.Units != e.Units {
		add("price.prices.units", "The price list is for jobs in %s, this job is in %s: use a list for its units.", unitsText(e.Prices.Units), unitsText(e.Units))
	}
	if e.Prices.tooStrong(e.Mix.Strength) {
		add("price.prices.items", "A mix of %s is stronger than any on the price list: add one as strong to it.", takeoff.StrengthText(e.Mix.Strength, e.Units))
	}
	for _, l := range e.Lines {
		if l.Unpriced && !l.ByOthers {
			add("price.prices.items", "No price: %s. Add it to the price list.", l.Name)
		}
	}
	out = append(out, e.unfit()...)
	switch {
	case !slices.ContainsFunc(e.Lines, func(l Line) bool { return l.Kind == Labor }):
		add("price.prices.tasks", "No labor: the price list has no task that this job takes. Add what is to be done.")
	case !e.Prices.Wage.IsPositive():
		add("price.prices.wage", "The wage is %s an hour: write what an hour costs you.", e.Money(e.Prices.Wage))
	}
	out = append(out, e.old(on)...)
	if !e.Bid.IsPositive() {
		add("price", "The bid comes to %s: it must be more than nothing.", e.Money(e.Bid))
	}
	if e.Spec.Confirmed == "" {
		out = append(out, e.given()...)
	}
	return out
}

func unitsText(u geometry.Units) string {
	if u == geometry.Millimeters {
		return "millimeters"
	}
	return "feet and inches"
}

// unfit gives what is called so that it fits nothing, and what has no name.
func (e Estimate) unfit() []Reason {
	var out []Reason
	add := func(id takeoff.ID, path, who string) {
		if id.Kind == takeoff.Unknown {
			out = append(out, Reason{path, fmt.Sprintf("%s “%s”, which is called so in an older file and fits nothing: name what it is for, or remove it.", who, id.Name)})
		}
	}
	for i, o := range e.Spec.Others {
		add(o, fmt.Sprintf("price.others[%d]", i), "Others supply")
	}
	for i, it := range e.Prices.Items {
		add(it.What, fmt.Sprintf("price.prices.items[%d].what", i), "The price list prices")
	}
	for i, x := range e.Spec.Extras {
		if strings.TrimSpace(x.Name) == "" {
			out = append(out, Reason{fmt.Sprintf("price.extras[%d].name", i), fmt.Sprintf("An extra of %s has no name: say what it is for.", e.Money(x.Amount))})
		}
	}
	for i, own := range e.Spec.Figures {
		if l, of := own.line(e.besides); of && l.Unit != own.Of {
			out = append(out, Reason{fmt.Sprintf("price.figures[%d].of", i), fmt.Sprintf("The job counts %s in %s, and your own figure is in %s: write it anew, or take it away.", l.Name, l.Unit, own.Of)})
		}
	}
	for i, t := range e.Prices.Tasks {
		add(t.What, fmt.Sprintf("price.prices.tasks[%d].what", i), t.Name+" goes by")
	}
	for i, f := range e.Prices.Fees {
		add(f.What, fmt.Sprintf("price.prices.fees[%d].what", i), f.Name+" goes by")
	}
	return out
}

// old gives the prices in use that are older than the list allows, those of one day
// together.
func (e Estimate) old(on time.Time) []Reason {
	if on.IsZero() {
		return nil
	}
	var out []Reason
	for _, l := range e.Lines {
		if l.Until != "" && !l.ByOthers && !l.Unpriced && l.Until < on.Format(time.DateOnly) {
			out = append(out, Reason{"price.prices.items", fmt.Sprintf("The price of %s was good until %s: ask for a new one.", l.Name, l.Until)})
		}
	}
	if e.Prices.Days == 0 {
		return out
	}
	least := on.AddDate(0, 0, -e.Prices.Days).Format(time.DateOnly)
	var dates []string
	of := map[string][]string{}
	for _, l := range e.Lines {
		if l.ByOthers || l.Unpriced || l.Kind == Other || l.ID.IsZero() && l.Kind == Material || l.Name == mobilization {
			continue
		}
		day := l.Date
		if day == "" {
			day = e.Prices.Date
		}
		if _, err := time.Parse(time.DateOnly, day); err == nil && day >= least {
			continue
		}
		if of[day] == nil {
			dates = append(dates, day)
		}
		of[day] = append(of[day], l.Name)
	}
	slices.Sort(dates)
	for _, day := range dates {
		names := of[day]
		which := strings.Join(names[:min(len(names), mostNamed)], ", ")
		if n := len(names) - mostNamed; n > 0 {
			which += fmt.Sprintf(" and %d more", n)
		}
		since := "of " + day
		if _, err := time.Parse(time.DateOnly, day); err != nil {
			since = fmt.Sprintf("dated %q, which is no day such as 2026-04-12", day)
		}
		out = append(out, Reason{"price.prices.date", fmt.Sprintf("Prices %s are older than the %d days that the list allows: %s. Ask for new ones.", since, e.Prices.Days, which)})
	}
	return out
}

// mostNamed is how many lines a reason names.
const mostNamed = 4

// given gives the reasons that the owner may confirm: credits, and a price below
// cost.
func (e Estimate) given() []Reason {
	const write = "If it is meant so, write why under “Confirmed”."
	var out []Reason
	full, credits := map[Kind]decimal.Decimal{}, map[Kind]decimal.Decimal{}
	for _, l := range e.Lines {
		kind := Other // refers to the whole job
		if l.Kind == Material {
			kind = Material
		}
		if l.Extended.IsNegative() {
			credits[kind] = credits[kind].Add(l.Extended.Neg())
			continue
		}
		full[Other] = full[Other].Add(l.Extended)
		if l.Kind == Material {
			full[Material] = full[Material].Add(l.Extended)
		}
	}
	for _, of := range []struct {
		kind Kind
		what string
	}{{Material, "all materials come to"}, {Other, "the job costs without them"}} {
		if credits[of.kind].GreaterThan(full[of.kind]) {
			out = append(out, Reason{creditPath, fmt.Sprintf("Credits of %s are more than what they refer to: %s %s. %s", e.Money(credits[of.kind]), of.what, e.Money(full[of.kind]), write)})
		}
	}
	if e.Price.LessThan(full[Other]) {
		out = append(out, Reason{belowPath, fmt.Sprintf("The price of %s is below the cost of %s. %s", e.Money(e.Price), e.Money(full[Other]), write)})
	}
	return out
}
