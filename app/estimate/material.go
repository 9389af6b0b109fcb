package estimate

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
)

func need(l takeoff.Line) decimal.Decimal {
	return decimal.NewFromFloat(l.Value).Round(needPlaces)
}

// ToBuy gives how many packs hold need: whole ones, or where they are sold loose
// up to the next hundredth.
func ToBuy(need, pack decimal.Decimal, loose bool) decimal.Decimal {
	n := need.Div(pack).Round(needPlaces)
	if loose {
		return n.RoundCeil(loosePlaces)
	}
	return n.Ceil()
}

func material(l takeoff.Line, s Spec, p PriceList) (Line, bool) {
	n := need(l)
	it, priced := p.Item(l.ID)
	if !priced {
		if _, ok := p.Item(takeoff.ID{Kind: instead[l.ID.Kind]}); ok || !l.ID.Kind.Bought() {
			return Line{}, false
		}
		it = Item{Group: supplierOf(l.ID.Kind.Group()), Unit: string(l.Unit), Loose: !whole(n)}
	}
	if n.IsZero() {
		return Line{}, false
	}
	line := Line{
		Kind: Material, Group: it.Group, ID: l.ID, Name: l.Name, Need: n, Of: l.Unit, Pack: one, Loose: it.Loose,
		Unit: it.Unit, Price: it.Price.To, Uses: max(1, it.Uses), Supplier: it.Supplier, Date: it.Date, Until: it.Until,
		Unpriced: !it.Price.Set, ByOthers: slices.ContainsFunc(s.Others, func(o takeoff.ID) bool { return o.Fits(l.ID) }),
	}
	if priced && line.Date == "" {
		line.Date = p.Date
	}
	if it.Pack.IsPositive() {
		line.Pack = it.Pack
	}
	line.show("From the takeoff", l.Name, quantity(n, string(l.Unit)), "")
	if priced && it.Of != "" && it.Of != l.Unit {
		line.Unpriced, line.Price = true, decimal.Zero
		line.show("The price does not fit", fmt.Sprintf("the list prices this line in %s, the job counts %s", it.Of, l.Unit), "", "")
	}
	if it.By != ByUnit && !line.Unpriced {
		line.measured(it, p.Units)
	}
	line.Alike = priced && it.alike()
	line.Quantity = ToBuy(n, line.Pack, line.Loose)
	if !line.Quantity.Equal(n) {
		work := quantity(n, string(l.Unit)) + " ÷ " + line.Pack.String() + ", rounded up to a whole number"
		if line.Loose {
			work = quantity(n, string(l.Unit)) + " ÷ " + line.Pack.String() + ", rounded up to hundredths"
		}
		line.show("To buy", work, quantity(line.Quantity, it.Unit), "")
	}
	line.extend(p.Currency)
	return line, true
}

func whole(d decimal.Decimal) bool { return d.Equal(d.Truncate(0)) }

func quantity(d decimal.Decimal, unit string) string {
	return strings.TrimSpace(d.String() + " " + unit)
}

func (l *Line) show(text, work, result, source string) {
	l.Working = append(l.Working, takeoff.Step{Text: text, Work: work, Result: result, Source: source})
}

// extend computes the line's amount.
func (l *Line) extend(currency string) {
	if l.Uses < 1 {
		l.Uses = 1
	}
	switch {
	case l.ByOthers:
		l.show("By others", "listed, not charged", Money(currency, decimal.Zero), "")
		return
	case l.Unpriced:
		l.show("No price", "the price list has none for this line", "", "")
		return
	}
	l.Extended = l.Quantity.Mul(l.Price).Div(decimal.NewFromInt(int64(l.Uses))).Round(moneyPlaces)
	work := fmt.Sprintf("%s × %s", quantity(l.Quantity, l.Unit), Money(currency, l.Price))
	if l.Uses > 1 {
		work += fmt.Sprintf(" ÷ %d uses", l.Uses)
	}
	source := ""
	if l.Supplier != "" || l.Date != "" {
		source = strings.TrimSpace(l.Supplier + " " + l.Date)
	}
	l.show("Extended", work, Money(currency, l.Extended), source)
}

// supplierOf gives the group of suppliers of an unpriced takeoff line.
func supplierOf(g takeoff.Group) Group {
	switch g {
	case takeoff.Concrete:
		return ReadyMix
	case takeoff.Steel:
		return Steel
	case takeoff.Lumber:
		return Lumber
	case takeoff.Ground:
		return Insulation
	}
	return Hardware
}

// instead names, for a line that can be bought by one of two measures, the other
// line: gravel by volume or by weight.
var instead = map[takeoff.Kind]takeoff.Kind{takeoff.GravelVolume: takeoff.GravelWeight}
