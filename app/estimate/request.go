package estimate

import (
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
)

// Request is what one supplier is asked for: no price, no wage and nothing of what
// others bring.
type Request struct {
	Supplier string // "" of what no supplier is named for
	Lines    []Asked
}

// Asked is a line of a request.
type Asked struct {
	ID       takeoff.ID
	Name     string
	Quantity decimal.Decimal
	Unit     string // as sold: "box of 25"
}

// Requests gives a request for each supplier of a job's materials, in the order of
// the lines.
func (e Estimate) Requests() []Request {
	var out []Request
	for _, l := range e.Lines {
		if l.Kind != Material || l.ID.IsZero() || l.ByOthers {
			continue
		}
		i := slices.IndexFunc(out, func(r Request) bool { return r.Supplier == l.Supplier })
		if i < 0 {
			out, i = append(out, Request{Supplier: l.Supplier}), len(out)
		}
		out[i].Lines = append(out[i].Lines, Asked{l.ID, l.Name, l.Quantity, l.Unit})
	}
	return out
}

// Quote is a request as it came back.
type Quote struct {
	Supplier string
	Number   string // of the quote
	Until    string // the last day it is good, YYYY-MM-DD
	Lines    []Quoted
}

// Quoted is a line of a quote. What was left blank is not there.
type Quoted struct {
	Asked
	Price      Amount // of one unit as sold
	Lead       string // time until it comes
	Substitute string // what is offered in its place
}

// Compared is a line of a request with all that was offered for it.
type Compared struct {
	Asked
	Offers []Offered // in the order of the quotes
	Least  int       // number of the least offer that is no substitute; -1 for none
}

// Offered is what one quote says of a line.
type Offered struct {
	Quote      int // its number in the list of quotes
	Supplier   string
	Price      Amount
	Extended   decimal.Decimal // for all that is asked, to the cent
	Lead       string
	Substitute string
}

// CompareQuotes sets quotes side by side, line by line in the order in which they
// first name each. A substitute is shown, and never the least: it is another thing.
func CompareQuotes(quotes []Quote) []Compared {
	var out []Compared
	for n, q := range quotes {
		for _, l := range q.Lines {
			i := slices.IndexFunc(out, func(c Compared) bool { return c.ID == l.ID && c.Unit == l.Unit })
			if i < 0 {
				out, i = append(out, Compared{Asked: l.Asked, Least: -1}), len(out)
			}
			c := &out[i]
			if !l.Price.Set && l.Lead == "" && l.Substitute == "" {
				continue // left blank
			}
			o := Offered{n, q.Supplier, l.Price, c.Quantity.Mul(l.Price.To).Round(moneyPlaces), l.Lead, l.Substitute}
			if o.Price.Set && o.Substitute == "" && (c.Least < 0 || o.Price.To.LessThan(c.Offers[c.Least].Price.To)) {
				c.Least = len(c.Offers)
			}
			c.Offers = append(c.Offers, o)
		}
	}
	return out
}

// With gives the list with the least prices of quotes that came on a day, each for
// the very thing that was asked for. What was packed and shared among jobs stays so.
func (p PriceList) With(quotes []Quote, on string) PriceList {
	p.Items = slices.Clone(p.Items)
	for _, c := range CompareQuotes(quotes) {
		if c.Least < 0 {
			continue
		}
		best := c.Offers[c.Least]
		q := quotes[best.Quote]
		it, ok := p.Item(c.ID)
		if !ok {
			continue // asked for by another list
		}
		it.What, it.Name, it.By, it.Price = c.ID, c.Name, ByUnit, best.Price
		it.Supplier, it.Date, it.Quote, it.Until = best.Supplier, on, q.Number, q.Until
		if i := slices.IndexFunc(p.Items, func(o Item) bool { return o.What == c.ID }); i >= 0 {
			p.Items[i] = it
		} else {
			p.Items = append(p.Items, it)
		}
	}
	return p
}
