package estimate

import (
	"fmt"
	"slices"

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
	Profit   decimal.Decimal
	Price    decimal.Decimal // before tax
	Taxed    decimal.Decimal // what tax is charged on
	Tax      decimal.Decimal
	Bid      decimal.Decimal // Price and Tax

	Spec    Spec           // as it was priced
	Prices  PriceList      // as it was priced
	Units   geometry.Units // of the job
	Mix     takeoff.Mix    // that is ordered
	Working []takeoff.Step
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
	e := Estimate{Spec: s, Prices: p, Units: t.Units, Mix: t.Mix}
	for _, l := range t.Lines {
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
		if line, ok := labor(task, t, p); ok {
			e.Lines = append(e.Lines, line)
		}
	}
	for _, f := range p.Fees {
		if line, ok := fee(f, t, p.Currency); ok {
			e.Lines = append(e.Lines, line)
		}
	}
	e.Lines = append(e.Lines, extras(s, p.Currency)...)
	e.total()
	return e
}

func money(d decimal.Decimal, currency string) string {
	s := currency + d.Abs().StringFixed(moneyPlaces)
	if d.IsNegative() {
		return "-" + s
	}
	return s
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
	e.step("Cost", fmt.Sprintf("materials %s + labor %s + fees %s + extras %s", money(e.Materials, c), money(e.Labor, c), money(e.Fees, c), money(e.Extras, c)), e.Cost)
	e.Overhead = percent(s.Overhead, e.Cost)
	e.step("Overhead", fmt.Sprintf("%s %% of cost %s", s.Overhead, money(e.Cost, c)), e.Overhead)
	burdened := e.Cost.Add(e.Overhead)
	if s.ProfitAs == Margin {
		e.Profit = burdened.Mul(s.Profit).Div(hundred.Sub(s.Profit)).Round(moneyPlaces)
		e.step("Profit, as margin of the price", fmt.Sprintf("%s × %s ÷ (100 − %s)", money(burdened, c), s.Profit, s.Profit), e.Profit)
	} else {
		e.Profit = percent(s.Profit, burdened)
		e.step("Profit, as markup of the cost", fmt.Sprintf("%s %% of cost with overhead %s", s.Profit, money(burdened, c)), e.Profit)
	}
	e.Price = burdened.Add(e.Profit)
	e.step("Price before tax", fmt.Sprintf("%s + %s", money(burdened, c), money(e.Profit, c)), e.Price)
	switch s.TaxOn {
	case TaxMaterials:
		e.Taxed = e.Materials
	case TaxAll:
		e.Taxed = e.Price
	}
	e.Tax = percent(s.Tax, e.Taxed)
	e.step("Sales tax on "+s.TaxOn.String(), fmt.Sprintf("%s %% of %s", s.Tax, money(e.Taxed, c)), e.Tax)
	e.Bid = e.Price.Add(e.Tax)
	e.step("Bid", fmt.Sprintf("%s + %s", money(e.Price, c), money(e.Tax, c)), e.Bid)
}

func percent(p, of decimal.Decimal) decimal.Decimal {
	return of.Mul(p).Div(hundred).Round(moneyPlaces)
}

func (e *Estimate) step(text, work string, result decimal.Decimal) {
	e.Working = append(e.Working, takeoff.Step{Text: text, Work: work, Result: money(result, e.Prices.Currency)})
}

// Money prints an amount with the list's currency sign: "$1234.50".
func (e Estimate) Money(d decimal.Decimal) string { return money(d, e.Prices.Currency) }
