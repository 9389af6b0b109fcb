package estimate

import (
	"fmt"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
)

// driver gives how much of what a list names the job takes: the sum of the lines
// that it fits; false where there is none.
func driver(t takeoff.Takeoff, what takeoff.ID) (decimal.Decimal, takeoff.Unit, bool) {
	sum, unit, found := decimal.Zero, takeoff.Unit(""), false
	for _, l := range t.Lines {
		if what.Fits(l.ID) {
			sum, unit, found = sum.Add(need(l)), l.Unit, true
		}
	}
	return sum, unit, found && !sum.IsZero()
}

func labor(task Task, t takeoff.Takeoff, p PriceList) (Line, bool) {
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
			line.show("The rate does not fit", fmt.Sprintf("the list counts %s in %s, the job in %s", task.Name, task.Of, unit), "", "")
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
