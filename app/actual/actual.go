// Package actual is what a job really took, written down after the pour: set
// against its estimate, and over several jobs the waste and the production rates
// of one's own crew.
package actual

import (
	"fmt"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/date"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// Record is what is written down after the pour. Volumes are in the unit that
// the job orders concrete in.
type Record struct {
	Poured    string              `json:"poured,omitzero"`    // date
	Ordered   decimal.Decimal     `json:"ordered,omitzero"`   // concrete
	Delivered decimal.Decimal     `json:"delivered,omitzero"` // by the tickets, where the loads are not written down; see Came
	Left      decimal.NullDecimal `json:"left,omitzero"`      // sent back or washed out; nobody knows unless it is said
	Trucks    int                 `json:"trucks,omitzero"`
	Hours     []TaskHours         `json:"hours,omitzero"`
	Invoices  []Invoice           `json:"invoices,omitzero"`
	Weather   string              `json:"weather,omitzero"`
	Notes     string              `json:"notes,omitzero"`
	Loads     []Load              `json:"loads,omitzero"`
	Cylinders []Cylinders         `json:"cylinders,omitzero"`
}

// TaskHours is the labor hours that a task of the estimate took.
type TaskHours struct {
	Task  string          `json:"task"`
	Hours decimal.Decimal `json:"hours"`
}

// Used gives the concrete that went into the slab and was spilled; false where it is not
// written down what came and what was left.
func (r Record) Used() (decimal.Decimal, bool) {
	came := r.Came()
	return came.Sub(r.Left.Decimal), r.Left.Valid && came.IsPositive()
}

// Validate gives the first thing wrong with the record, or nil.
func (r Record) Validate() error {
	for _, v := range []struct {
		name   string
		amount decimal.Decimal
	}{{"ordered", r.Ordered}, {"delivered", r.Delivered}, {"left", r.Left.Decimal}} {
		if v.amount.IsNegative() {
			return fmt.Errorf("%s: found %s; write 0 or more", v.name, v.amount)
		}
	}
	if came := r.Came(); r.Left.Decimal.GreaterThan(came) {
		return fmt.Errorf("left: found %s, more than the %s delivered; check the tickets", r.Left.Decimal, came)
	}
	for i, h := range r.Hours {
		if h.Task == "" || h.Hours.IsNegative() {
			return fmt.Errorf("hours[%d]: found task %q with %s hours; name the task and write 0 or more hours", i, h.Task, h.Hours)
		}
	}
	for i, v := range r.Invoices {
		if v.For == "" {
			return fmt.Errorf("invoices[%d]: found nothing that it is for; name the line or the kind of work", i)
		}
	}
	if faults := field.Check("record", r, geometry.FeetInches); len(faults) > 0 {
		return faults
	}
	return nil
}

// Job is a job with its estimate and what it took.
type Job struct {
	Name     string
	Takeoff  takeoff.Takeoff
	Estimate estimate.Estimate
	Record   Record
	Ground   Ground
	Day      date.Day // of the pour, as it was set; none where it was not
}

// Row sets one figure against its estimate.
type Row struct {
	Name      string
	Unit      string
	Estimated decimal.Decimal
	Actual    decimal.Decimal
	Percent   decimal.Decimal // actual over estimated, less 100; 0 where nothing was estimated
}

func row(name, unit string, estimated, actual decimal.Decimal) Row {
	r := Row{Name: name, Unit: unit, Estimated: estimated, Actual: actual}
	if !estimated.IsZero() {
		r.Percent = actual.Div(estimated).Shift(2).Sub(decimal.NewFromInt(100)).Round(1)
	}
	return r
}

// Against sets the record against the estimate: concrete, waste, and the hours
// of each task that has any written down.
func Against(j Job) []Row {
	var rows []Row
	net, order := line(j.Takeoff, takeoff.ConcreteNet), line(j.Takeoff, takeoff.ConcreteOrder)
	unit := string(order.Unit)
	r := j.Record
	if r.Ordered.IsPositive() {
		rows = append(rows, row("Concrete ordered", unit, value(order), r.Ordered))
	}
	if came := r.Came(); came.IsPositive() {
		rows = append(rows, row("Concrete delivered", unit, value(order), came))
		if used, ok := r.Used(); ok {
			rows = append(rows, row("Concrete used", unit, value(net).Add(value(line(j.Takeoff, takeoff.ConcreteWaste))).Round(2), used))
		}
		if w, ok := waste(j); ok {
			estimated := decimal.Zero
			if n := value(net); n.IsPositive() {
				estimated = value(line(j.Takeoff, takeoff.ConcreteWaste)).Div(n).Shift(2).Round(2)
			}
			rows = append(rows, row("Waste", "%", estimated, w))
		}
	}
	if n := r.Visits(); n > 0 {
		rows = append(rows, row("Trucks", "", value(line(j.Takeoff, takeoff.ConcreteTrucks)), decimal.NewFromInt(int64(n))))
	}
	estimated, actual := decimal.Zero, decimal.Zero
	for _, h := range r.Hours {
		e := taskLine(j.Estimate, h.Task).Quantity
		estimated, actual = estimated.Add(e), actual.Add(h.Hours)
		rows = append(rows, row(h.Task, "h", e, h.Hours))
	}
	if len(r.Hours) > 1 {
		rows = append(rows, row("Labor, of these tasks", "h", estimated, actual))
	}
	return rows
}

func line(t takeoff.Takeoff, k takeoff.Kind) takeoff.Line {
	l, _ := t.Line(k)
	return l
}

func value(l takeoff.Line) decimal.Decimal { return decimal.NewFromFloat(l.Value).Round(6) }

func taskLine(e estimate.Estimate, task string) estimate.Line {
	for _, l := range e.Lines {
		if l.Kind == estimate.Labor && l.Name == task {
			return l
		}
	}
	return estimate.Line{}
}

// waste gives the percentage by which the concrete used exceeds the slab.
func waste(j Job) (decimal.Decimal, bool) {
	net := value(line(j.Takeoff, takeoff.ConcreteNet))
	used, known := j.Record.Used()
	if !net.IsPositive() || !known {
		return decimal.Zero, false
	}
	return used.Div(net).Shift(2).Sub(decimal.NewFromInt(100)).Round(2), true
}
