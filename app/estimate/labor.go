package estimate

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
)

// driver gives how much of what a list names the job takes: the sum of the lines
// that it fits; false where there is none.
func driver(t takeoff.Takeoff, what takeoff.ID) (decimal.Decimal, takeoff.Unit, bool) {
	sum, unit, found := decimal.Zero, takeoff.Unit(""), false
	for _, lines := range [2][]takeoff.Line{t.Lines, t.Besides} {
		for i := range lines {
			if l := &lines[i]; what.Fits(l.ID) {
				sum, unit, found = sum.Add(need(*l)), l.Unit, true
			}
		}
	}
	return sum, unit, found && !sum.IsZero()
}

func labor(task Task, t takeoff.Takeoff, s Spec, p PriceList) (Line, bool) {
	if task.Off || task.Method != "" && task.Method != s.Placed {
		return Line{}, false
	}
	line := Line{
		Kind: Labor, ID: task.What, Name: task.Name, Unit: "h", Price: p.Wage, Pack: one, Uses: 1, Loose: true,
		Rate: task.Rate, Each: task.Each, Date: p.Date,
	}
	hours := decimal.Zero
	if !task.What.IsZero() {
		n, unit, ok := driver(t, task.What)
		switch {
		case !ok:
			return Line{}, false // nothing of it on this job
		case task.Of != "" && task.Of != unit:
			line.Unpriced = true
			line.show("The rate does not fit", fmt.Sprintf("%s: the list counts it in %s, the job in %s", task.Name, task.Of, unit), "", "")
		default:
			hours = n.Div(task.Rate).Round(hourPlaces)
			line.show("Hours", fmt.Sprintf("%s ÷ %s per labor hour", quantity(n, string(unit)), task.Rate), quantity(hours, "h"), "")
		}
		line.Need, line.Of = n, unit
	}
	if task.Each.IsPositive() && !line.Unpriced {
		hours = hours.Add(task.Each)
		line.show("Hours besides", "once per job", quantity(task.Each, "h"), "")
	}
	line.Quantity = hours.Round(hourPlaces)
	line.extend(p.Currency)
	return line, line.Unpriced || !line.Quantity.IsZero()
}

// DayHours is what a crew works a day: common practice, no source.
var DayHours = decimal.NewFromInt(8)

// ToDays is what the hours are called that fill up a crew's last day or half day.
const ToDays = "Rest of the crew's day"

// toDays gives the hours up to whole parts of a crew's day.
func (e Estimate) toDays() (Line, bool) {
	if !e.Prices.CrewDay.IsPositive() {
		return Line{}, false
	}
	part := e.Prices.CrewDay.Mul(e.crew()).Mul(DayHours)
	hours := e.hours()
	rest := ToBuy(hours, part, false).Mul(part).Sub(hours).Round(hourPlaces)
	line := Line{Kind: Labor, Name: ToDays, Unit: "h", Quantity: rest, Price: e.Prices.Wage, Pack: one, Uses: 1, Loose: true, Date: e.Prices.Date}
	line.show("Hours", fmt.Sprintf("%s up to whole %s of a day of %s people at %s h", quantity(hours, "h"), e.Prices.CrewDay, e.crew(), DayHours), quantity(rest, "h"), "")
	line.extend(e.Prices.Currency)
	return line, rest.IsPositive()
}

func (e Estimate) crew() decimal.Decimal { return decimal.NewFromInt(int64(max(1, e.Prices.Crew))) }

// hours adds up the hours of the lines.
func (e Estimate) hours() decimal.Decimal {
	sum := decimal.Zero
	for _, l := range e.Lines {
		if l.Kind == Labor {
			sum = sum.Add(l.Quantity)
		}
	}
	return sum
}

// costs adds up the lines of some kinds; of all where none is named.
func (e Estimate) costs(of ...Kind) decimal.Decimal {
	sum := decimal.Zero
	for _, l := range e.Lines {
		if len(of) == 0 || slices.Contains(of, l.Kind) {
			sum = sum.Add(l.Extended)
		}
	}
	return sum
}
