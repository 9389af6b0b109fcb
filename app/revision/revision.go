// Package revision tells in words what changed between two states of a job: on
// the plan, in the specification, in quantities and in price.
package revision

import (
	"context"
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
)

// Difference is what changed. Parts without changes are empty.
type Difference struct {
	Job        []Change // name, customer, notes, units
	Plan       []Change
	Spec       []Change // what goes in and how it is placed, and the pour
	Pricing    []Change // percentages, extras, options, the prices that applied
	Quantities []Amount
	Price      []Amount
	// Untaken says why quantities and price are not compared: one of the plans has
	// faults.
	Untaken error
}

// Change is one field that changed. Was is "" for what is new, Is for what went.
type Change struct {
	Where string // "edge 3, door D1, width"
	Was   string
	Is    string
}

// Amount is a quantity or a sum of money that changed.
type Amount struct {
	Name    string
	Unit    string // "" for money
	Was, Is decimal.Decimal
}

// Diff gives Is less Was.
func (a Amount) Diff() decimal.Decimal { return a.Is.Sub(a.Was) }

// Same tells whether nothing changed.
func (d Difference) Same() bool {
	return len(d.Job)+len(d.Plan)+len(d.Spec)+len(d.Pricing)+len(d.Quantities)+len(d.Price) == 0 && d.Untaken == nil
}

// State is a job as it was at some time.
type State struct {
	Job job.Job
	// Prices is the list that applied then to jobs that keep none of their own.
	Prices estimate.PriceList
}

// priced gives the job with the list that it was priced with.
func (s State) priced() job.Job {
	p := &s.Job.Price.Prices
	if len(p.Items) == 0 {
		*p = s.Prices
	}
	// When a price was looked up makes no difference.
	p.Date, p.Items = "", slices.Clone(p.Items)
	for i := range p.Items {
		p.Items[i].Date = ""
	}
	return s.Job
}

// Compare tells what changed from one state to the next. Prices are compared
// between the lists that applied, whether the jobs keep them or not. Lengths are
// printed in the units of the later state.
func Compare(ctx context.Context, was, is State) Difference {
	var d Difference
	old, new := was.priced(), is.priced()
	if old.Units != new.Units {
		// Lists for other units have other prices for everything.
		old.Price.Prices, new.Price.Prices = estimate.PriceList{}, estimate.PriceList{}
	}
	c := comparer{units: new.Units}
	type part struct {
		to       *[]Change
		at       string
		was, is  any
		fieldSet []string
	}
	slabs := part{&d.Plan, "", old, new, []string{"slabs"}}
	if len(old.Slabs) == 1 && len(new.Slabs) == 1 { // no need to say which
		slabs = part{&d.Plan, "slabs[]", old.Slabs[0], new.Slabs[0], nil}
	}
	for _, part := range []part{
		{&d.Job, "", old, new, []string{"name", "customer", "site", "date", "revision", "notes", "units"}},
		slabs,
		{&d.Plan, "survey", old.Survey, new.Survey, nil},
		{&d.Spec, "spec", old.Spec, new.Spec, nil},
		{&d.Spec, "pour", old.Pour, new.Pour, nil},
		{&d.Pricing, "price", old.Price, new.Price, nil},
	} {
		c.changes, c.at = nil, part.at
		c.fields(part.was, part.is, part.fieldSet)
		*part.to = append(*part.to, c.changes...)
	}
	d.amounts(ctx, old, new)
	return d
}

func (d *Difference) amounts(ctx context.Context, old, new job.Job) {
	was, err := takeoff.Of(ctx, old.Slabs, old.Spec, new.Units)
	if err != nil {
		d.Untaken = err
		return
	}
	is, err := takeoff.Of(ctx, new.Slabs, new.Spec, new.Units)
	if err != nil {
		d.Untaken = err
		return
	}
	d.Quantities = quantities(was, is)
	if old.Units != new.Units {
		return // bought in other units: the sums do not compare
	}
	d.Price = money(estimate.Of(was, old.Pricing(), old.Price.Prices), estimate.Of(is, new.Pricing(), new.Price.Prices))
}

// quantityPlaces is how finely quantities are compared.
const quantityPlaces = 3

func quantities(was, is takeoff.Takeoff) []Amount {
	var out []Amount
	add := func(id takeoff.ID) {
		a, hadA := was.Find(id)
		b, hadB := is.Find(id)
		l := b
		if !hadB {
			l = a
		}
		x, y := decimal.NewFromFloat(a.Value).Round(quantityPlaces), decimal.NewFromFloat(b.Value).Round(quantityPlaces)
		if !x.Equal(y) || hadA && hadB && a.Unit != b.Unit {
			out = append(out, Amount{l.Name, string(l.Unit), x, y})
		}
	}
	for _, l := range is.Lines {
		add(l.ID)
	}
	for _, l := range was.Lines {
		if _, ok := is.Find(l.ID); !ok {
			add(l.ID)
		}
	}
	return out
}

func money(was, is estimate.Estimate) []Amount {
	sums := func(e estimate.Estimate) []decimal.Decimal {
		return []decimal.Decimal{e.Materials, e.Labor, e.Fees, e.Extras, e.Cost, e.Overhead, e.Profit, e.Tax, e.Bid}
	}
	names := []string{"Materials", "Labor", "Fees and equipment", "Extras", "Cost", "Overhead", "Profit", "Sales tax", "Bid"}
	var out []Amount
	b := sums(is)
	for i, a := range sums(was) {
		if !a.Equal(b[i]) {
			out = append(out, Amount{Name: names[i], Was: a, Is: b[i]})
		}
	}
	return out
}

// PriceChange is a price that changed between two lists.
type PriceChange struct {
	What    takeoff.ID // zero for the wage
	Name    string
	Was, Is estimate.Amount
	Unit    string
	Date    string // of the new price
}

// Prices gives what changed between two price lists, in order of the new one.
func Prices(old, new estimate.PriceList) []PriceChange {
	var out []PriceChange
	find := func(p estimate.PriceList, what takeoff.ID) (estimate.Item, bool) {
		i := slices.IndexFunc(p.Items, func(it estimate.Item) bool { return it.What == what })
		if i < 0 {
			return estimate.Item{}, false
		}
		return p.Items[i], true
	}
	date := func(it estimate.Item, p estimate.PriceList) string {
		if it.Date != "" {
			return it.Date
		}
		return p.Date
	}
	for _, it := range new.Items {
		was, had := find(old, it.What)
		if !had || !was.Price.Equal(it.Price) || was.Unit != it.Unit {
			out = append(out, PriceChange{it.What, it.Called(new.Units), was.Price, it.Price, it.Unit, date(it, new)})
		}
	}
	for _, it := range old.Items {
		if _, kept := find(new, it.What); !kept {
			out = append(out, PriceChange{What: it.What, Name: it.Called(old.Units), Was: it.Price, Unit: it.Unit, Date: new.Date})
		}
	}
	if !old.Wage.Equal(new.Wage) {
		out = append(out, PriceChange{Name: "Wage per labor hour", Was: estimate.Costs(old.Wage), Is: estimate.Costs(new.Wage), Unit: "h", Date: new.Date})
	}
	return out
}
