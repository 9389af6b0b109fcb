package estimate

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
)

// fee gives what a fee comes to, after the lines that it goes by.
func (e Estimate) fee(f Fee, t takeoff.Takeoff) (Line, bool) {
	currency := e.Prices.Currency
	if f.Off || f.Method != "" && f.Method != e.Spec.Placed {
		return Line{}, false
	}
	line := Line{Kind: Charge, Name: f.Name, Unit: "job", Quantity: one, Price: f.Amount.To, Unpriced: !f.Amount.Set, Pack: one, Uses: 1, Loose: true}
	if f.Tool {
		line.Kind = Equipment
	}
	switch f.For {
	case FeePerUnit:
		n, unit, ok := driver(t, f.What)
		if !ok {
			return Line{}, false
		}
		line.ID, line.Need, line.Of, line.Quantity, line.Unit = f.What, n, unit, n, string(unit)
		if f.Of != "" && f.Of != unit {
			line.Unpriced = true
			line.show("The fee does not fit", fmt.Sprintf("the list counts it by %s, the job by %s", f.Of, unit), "", "")
		}
		if f.Pack.IsPositive() && !line.Unpriced {
			line.Pack, line.Loose, line.Quantity, line.Unit = f.Pack, false, ToBuy(n, f.Pack, false), quantity(f.Pack, string(unit))
			line.show("Each begun", quantity(n, string(unit))+" ÷ "+line.Unit, line.Quantity.String(), "")
		}
	case FeeOnce:
		if _, _, ok := driver(t, f.What); !ok {
			return Line{}, false
		}
	case FeePerDay:
		line.Unit, line.Quantity = "day", ToBuy(e.hours(), e.crew().Mul(DayHours), false)
		line.show("Days of the crew, begun", fmt.Sprintf("%s ÷ (%s people × %s h)", quantity(e.hours(), "h"), e.crew(), DayHours), line.Quantity.String(), "")
	case FeeOfLabor, FeeOfCost:
		of := e.costs(Labor)
		if f.For == FeeOfCost {
			of = e.costs()
		}
		line.Unit, line.Quantity = "%", of.Div(hundred)
		line.show("Percent of", Money(currency, of), "", "")
	case FeeShortLoad:
		l, ok := t.Line(takeoff.ConcreteOrder)
		unit := string(l.Unit)
		short, said := decimal.Zero, []string{}
		for _, load := range t.Loads {
			if by := f.Least.Sub(load); by.IsPositive() {
				short, said = short.Add(by), append(said, fmt.Sprintf("%s − %s", f.Least, load))
			}
		}
		if !ok || short.IsZero() {
			return Line{}, false
		}
		line.ID, line.Need, line.Of, line.Quantity, line.Unit = l.ID, t.Loads[len(t.Loads)-1], l.Unit, short, unit
		line.show("Truck loads", loads(t.Loads), quantity(need(l), unit), "")
		line.show("Short of the plant's least load", strings.Join(said, " + "), quantity(short, unit), "")
	}
	if line.Quantity.IsZero() || line.Price.IsZero() && !line.Unpriced {
		return Line{}, false
	}
	line.extend(currency)
	return line, true
}

// loads writes what each truck brings, equal ones together: "2 × 9 + 8.75".
func loads(of []decimal.Decimal) string {
	var parts []string
	for i := 0; i < len(of); {
		n := 1
		for i+n < len(of) && of[i+n].Equal(of[i]) {
			n++
		}
		if part := of[i].String(); n > 1 {
			parts = append(parts, fmt.Sprintf("%d × %s", n, part))
		} else {
			parts = append(parts, part)
		}
		i += n
	}
	return strings.Join(parts, " + ")
}

// mobilization is what the amount of a job for coming to it is called.
const mobilization = "Mobilization"

func extras(s Spec, currency string) []Line {
	var lines []Line
	add := func(kind Kind, name string, amount decimal.Decimal, extra int) {
		if !amount.IsZero() {
			l := Line{Extra: extra, Kind: kind, Name: name, Unit: "job", Quantity: one, Price: amount, Pack: one, Uses: 1, Loose: true}
			l.extend(currency)
			lines = append(lines, l)
		}
	}
	add(Charge, mobilization, s.Mobilization, 0)
	for i, x := range s.Extras {
		kind := Other
		if x.Material {
			kind = Material
		}
		add(kind, x.Name, x.Amount, i+1)
	}
	return lines
}
