package estimate

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// Estimate is what a job costs and what is asked for it.
type Estimate struct {
	Lines []Line // materials by group, labor, fees, extras

	Materials decimal.Decimal // of the material lines
	Labor     decimal.Decimal
	Fees      decimal.Decimal // suppliers' fees, equipment and mobilization
	Extras    decimal.Decimal
	Hours     decimal.Decimal // labor hours
	CrewHours decimal.Decimal // with the crew at work together

	Cost     decimal.Decimal // sum of the lines
	Overhead decimal.Decimal
	Markup   decimal.Decimal // of materials, labor and fees, each by its percentage
	Profit   decimal.Decimal
	Raised   decimal.Decimal // up to the least charge, and to a round bid
	Price    decimal.Decimal // before tax
	Taxed    decimal.Decimal // what tax is charged on
	Tax      decimal.Decimal
	Bid      decimal.Decimal // Price and Tax

	Spec    Spec           // as it was priced
	Prices  PriceList      // as it was priced
	Units   geometry.Units // of the job
	Mix     takeoff.Mix    // that is ordered
	Working []takeoff.Step

	besides []takeoff.Line // as the rules give them
}

// Kind tells what a line is for.
type Kind string

const (
	Material  Kind = "Material"
	Labor     Kind = "Labor"
	Charge    Kind = "Fee"
	Equipment Kind = "Equipment"
	Other     Kind = "Extra"
)

// Line is one line of cost.
type Line struct {
	Kind  Kind
	Group Group      // of a material
	ID    takeoff.ID // of the takeoff line behind it; zero for none. Of labor and fees, what the list names
	Name  string

	Need     decimal.Decimal // from the takeoff
	Of       takeoff.Unit    // its unit
	Pack     decimal.Decimal // how much of Of is in one Unit
	Loose    bool            // Quantity need not be whole
	Quantity decimal.Decimal // to buy; hours for labor
	Unit     string
	Rate     decimal.Decimal // of labor: units of Need in one hour; 0 if there is none
	Each     decimal.Decimal // of labor: hours besides
	Price    decimal.Decimal // per Unit
	Uses     int             // jobs that share the cost, 1 or more
	Extended decimal.Decimal // Quantity × Price ÷ Uses, to the cent

	Supplier string
	Date     string // of the price
	Until    string // the last day the price is good; "" for none given
	Unpriced bool   // the list has no price for it
	Alike    bool   // the list has one price for this and what is not bought at one price with it
	ByOthers bool   // others supply it: listed, not charged
	Extra    int    // number of the job's extra that it is, from 1; 0 for none
	Working  []takeoff.Step
}

var (
	one     = decimal.NewFromInt(1)
	hundred = decimal.NewFromInt(100)
)

// Places of rounding. Quantities from the takeoff are floating-point; a millionth
// is far below what anyone buys and far above their error.
const (
	needPlaces  = 6
	hourPlaces  = 2
	loosePlaces = 2
	moneyPlaces = 2
)

// Of prices a takeoff. The list in s, where there is one, goes before p.
func Of(t takeoff.Takeoff, s Spec, p PriceList) Estimate {
	if len(s.Prices.Items) > 0 {
		p = s.Prices
	}
	e := Estimate{Spec: s, Prices: p, Units: t.Units, Mix: t.Mix, besides: t.Besides}
	t.Besides = s.own(t.Besides)
	for _, l := range slices.Concat(t.Lines, p.besides(t)) {
		bought := []takeoff.Line{l}
		if l.ID.Kind == takeoff.ConcreteOrder {
			bought = append(bought, mixLines(l, t.Mix, p)...)
		}
		for _, l := range bought {
			if line, ok := material(l, s, p); ok {
				e.Lines = append(e.Lines, line)
			}
		}
	}
	slices.SortStableFunc(e.Lines, func(a, b Line) int {
		return slices.Index(Groups, a.Group) - slices.Index(Groups, b.Group)
	})
	for _, task := range p.Tasks {
		if line, ok := labor(task, t, s, p); ok {
			e.Lines = append(e.Lines, line)
		}
	}
	if line, ok := e.toDays(); ok {
		e.Lines = append(e.Lines, line)
	}
	fees := func(ofCost bool) {
		before := e
		for _, f := range p.Fees {
			if (f.For == FeeOfCost) != ofCost {
				continue
			}
			if line, ok := before.fee(f, t); ok {
				e.Lines = append(e.Lines, line)
			}
		}
	}
	fees(false)
	e.Lines = append(e.Lines, extras(s, p.Currency)...)
	fees(true)
	slices.SortStableFunc(e.Lines, func(a, b Line) int { return cmp.Compare(last(a), last(b)) })
	e.total()
	return e
}

// Used gives what no drawing shows as far as a line of the estimate is for it.
func (e Estimate) Used(t takeoff.Takeoff) []takeoff.Line {
	return slices.DeleteFunc(slices.Clone(e.Spec.own(t.Besides)), func(b takeoff.Line) bool {
		return !slices.ContainsFunc(e.Lines, func(l Line) bool { return l.ID.Kind == b.ID.Kind })
	})
}

// besides gives what no drawing shows as far as the list prices it.
func (p PriceList) besides(t takeoff.Takeoff) []takeoff.Line {
	return slices.DeleteFunc(slices.Clone(t.Besides), func(l takeoff.Line) bool { _, ok := p.Item(l.ID); return !ok })
}

// last tells the extras of a job, which stand after all else.
func last(l Line) int {
	if l.Extra > 0 {
		return 1
	}
	return 0
}

// total sums the lines and finds the bid.
func (e *Estimate) total() {
	for i := range e.Lines {
		l := &e.Lines[i]
		switch l.Kind {
		case Material:
			e.Materials = e.Materials.Add(l.Extended)
		case Labor:
			e.Labor = e.Labor.Add(l.Extended)
			e.Hours = e.Hours.Add(l.Quantity)
		case Charge, Equipment:
			e.Fees = e.Fees.Add(l.Extended)
		default:
			e.Extras = e.Extras.Add(l.Extended)
		}
	}
	s, c := e.Spec, e.Prices.Currency
	e.CrewHours = e.Hours.Div(decimal.NewFromInt(int64(max(1, e.Prices.Crew)))).Round(hourPlaces)
	e.Cost = decimal.Sum(e.Materials, e.Labor, e.Fees, e.Extras)
	e.step("Cost", fmt.Sprintf("materials %s + labor %s + fees %s + extras %s", Money(c, e.Materials), Money(c, e.Labor), Money(c, e.Fees), Money(c, e.Extras)), e.Cost)
	e.Overhead = percent(s.Overhead, e.Cost)
	e.step("Overhead", fmt.Sprintf("%s %% of cost %s", s.Overhead, Money(c, e.Cost)), e.Overhead)
	e.markup()
	burdened := decimal.Sum(e.Cost, e.Overhead, e.Markup)
	if s.ProfitAs == Margin {
		e.Profit = burdened.Mul(s.Profit).Div(hundred.Sub(s.Profit)).Round(moneyPlaces)
		e.step("Profit, as margin of the price", fmt.Sprintf("%s × %s ÷ (100 − %s)", Money(c, burdened), s.Profit, s.Profit), e.Profit)
	} else {
		e.Profit = percent(s.Profit, burdened)
		e.step("Profit, as markup of the cost", fmt.Sprintf("%s %% of cost with overhead %s", s.Profit, Money(c, burdened)), e.Profit)
	}
	e.Price = burdened.Add(e.Profit)
	if more := s.Least.Sub(e.Price); s.Least.IsPositive() && more.IsPositive() {
		e.Raised = more
		e.step("Up to the least charge", fmt.Sprintf("%s − %s", Money(c, s.Least), Money(c, e.Price)), more)
	}
	e.Price = e.Price.Add(e.Raised)
	e.taxed()
	if more := e.rounding(); more.IsPositive() {
		e.Raised, e.Price = e.Raised.Add(more), e.Price.Add(more)
		e.step("Up to a round bid", fmt.Sprintf("whole multiples of %s", Money(c, s.Round)), more)
		e.taxed()
	}
	e.step("Price before tax", strings.TrimSuffix(fmt.Sprintf("%s + %s + %s", Money(c, burdened), Money(c, e.Profit), Money(c, e.Raised)), " + "+Money(c, decimal.Zero)), e.Price)
	e.step("Sales tax on "+s.TaxOn.String(), fmt.Sprintf("%s %% of %s", s.Tax, Money(c, e.Taxed)), e.Tax)
	e.Bid = e.Price.Add(e.Tax)
	e.step("Bid", fmt.Sprintf("%s + %s", Money(c, e.Price), Money(c, e.Tax)), e.Bid)
}

// markup adds the percentages of each kind of cost.
func (e *Estimate) markup() {
	for _, m := range []struct {
		name string
		by   decimal.Decimal
		of   decimal.Decimal
	}{{"Markup of materials", e.Spec.MarkupMaterials, e.Materials}, {"Markup of labor", e.Spec.MarkupLabor, e.Labor}, {"Markup of fees and equipment", e.Spec.MarkupFees, e.Fees}} {
		if m.by.IsPositive() {
			amount := percent(m.by, m.of)
			e.Markup = e.Markup.Add(amount)
			e.step(m.name, fmt.Sprintf("%s %% of %s", m.by, Money(e.Prices.Currency, m.of)), amount)
		}
	}
}

// taxed finds the tax of the price.
func (e *Estimate) taxed() {
	switch e.Spec.TaxOn {
	case TaxMaterials:
		e.Taxed = e.Materials
	case TaxAll:
		e.Taxed = e.Price
	}
	e.Tax = percent(e.Spec.Tax, e.Taxed)
}

// rounding gives what makes the bid a whole multiple of what it goes up to; the price,
// where tax is on the whole of it.
func (e Estimate) rounding() decimal.Decimal {
	if !e.Spec.Round.IsPositive() {
		return decimal.Zero
	}
	from := e.Price.Add(e.Tax)
	if e.Spec.TaxOn == TaxAll {
		from = e.Price
	}
	return ToBuy(from, e.Spec.Round, false).Mul(e.Spec.Round).Sub(from)
}

func percent(p, of decimal.Decimal) decimal.Decimal {
	return of.Mul(p).Div(hundred).Round(moneyPlaces)
}

func (e *Estimate) step(text, work string, result decimal.Decimal) {
	e.Working = append(e.Working, takeoff.Step{Text: text, Work: work, Result: Money(e.Prices.Currency, result)})
}

// Money prints an amount with the list's currency sign: "$1,234.50".
func (e Estimate) Money(d decimal.Decimal) string { return Money(e.Prices.Currency, d) }
