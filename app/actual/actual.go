// Package actual is what a job really took, written down after the pour: set
// against its estimate, and over several jobs the waste and the production rates
// of one's own crew.
package actual

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
)

// Record is what is written down after the pour. Volumes are in the unit that
// the job orders concrete in.
type Record struct {
	Poured    string          `json:"poured,omitzero"`    // date
	Ordered   decimal.Decimal `json:"ordered,omitzero"`   // concrete
	Delivered decimal.Decimal `json:"delivered,omitzero"` // by the tickets
	Left      decimal.Decimal `json:"left,omitzero"`      // sent back or washed out
	Trucks    int             `json:"trucks,omitzero"`
	Hours     []TaskHours     `json:"hours,omitzero"`
	Weather   string          `json:"weather,omitzero"`
	Notes     string          `json:"notes,omitzero"`
}

// TaskHours is the labor hours that a task of the estimate took.
type TaskHours struct {
	Task  string          `json:"task"`
	Hours decimal.Decimal `json:"hours"`
}

// Used gives the concrete that went into the slab and was spilled.
func (r Record) Used() decimal.Decimal { return r.Delivered.Sub(r.Left) }

// Validate gives the first thing wrong with the record, or nil.
func (r Record) Validate() error {
	for _, v := range []struct {
		name   string
		amount decimal.Decimal
	}{{"ordered", r.Ordered}, {"delivered", r.Delivered}, {"left", r.Left}} {
		if v.amount.IsNegative() {
			return fmt.Errorf("%s: found %s; write 0 or more", v.name, v.amount)
		}
	}
	if r.Left.GreaterThan(r.Delivered) {
		return fmt.Errorf("left: found %s, more than the %s delivered; check the tickets", r.Left, r.Delivered)
	}
	for i, h := range r.Hours {
		if h.Task == "" || h.Hours.IsNegative() {
			return fmt.Errorf("hours[%d]: found task %q with %s hours; name the task and write 0 or more hours", i, h.Task, h.Hours)
		}
	}
	return nil
}

// Job is a job with its estimate and what it took.
type Job struct {
	Name     string
	Takeoff  takeoff.Takeoff
	Estimate estimate.Estimate
	Record   Record
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
	if r.Delivered.IsPositive() {
		rows = append(rows,
			row("Concrete delivered", unit, value(order), r.Delivered),
			row("Concrete used", unit, value(net).Add(value(line(j.Takeoff, takeoff.ConcreteWaste))).Round(2), r.Used()))
		if w, ok := waste(j); ok {
			estimated := decimal.Zero
			if n := value(net); n.IsPositive() {
				estimated = value(line(j.Takeoff, takeoff.ConcreteWaste)).Div(n).Shift(2).Round(2)
			}
			rows = append(rows, row("Waste", "%", estimated, w))
		}
	}
	if r.Trucks > 0 {
		rows = append(rows, row("Trucks", "", value(line(j.Takeoff, takeoff.ConcreteTrucks)), decimal.NewFromInt(int64(r.Trucks))))
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
	if !net.IsPositive() || !j.Record.Delivered.IsPositive() {
		return decimal.Zero, false
	}
	return j.Record.Used().Div(net).Shift(2).Sub(decimal.NewFromInt(100)).Round(2), true
}

// Lesson is what several jobs say of one figure.
type Lesson struct {
	Name    string          // "Waste", or the task
	Unit    string          // "%", or what is done in an hour: "ft/h"
	Now     decimal.Decimal // what estimates use, of the newest job
	Jobs    int
	Mean    decimal.Decimal
	Spread  decimal.Decimal // sample standard deviation; 0 for one job
	Least   decimal.Decimal
	Most    decimal.Decimal
	Offered bool // enough jobs to offer Mean as a default
}

// EnoughJobs is how many jobs it takes before a mean is offered as a default:
// common practice, no source.
const EnoughJobs = 3

// Learn finds one's own waste and production rates from several jobs, the newest
// last. Nothing is changed by it: what is Offered is for the user to take.
func Learn(jobs []Job) []Lesson {
	type series struct {
		name, unit string
		now        decimal.Decimal
		values     []float64
	}
	var all []*series
	add := func(name, unit string, now decimal.Decimal, v float64) {
		i := slices.IndexFunc(all, func(s *series) bool { return s.name == name && s.unit == unit })
		if i < 0 {
			all = append(all, &series{name: name, unit: unit})
			i = len(all) - 1
		}
		all[i].now = now
		all[i].values = append(all[i].values, v)
	}
	for _, j := range jobs {
		if w, ok := waste(j); ok {
			now := decimal.Zero
			if n := value(line(j.Takeoff, takeoff.ConcreteNet)); n.IsPositive() {
				now = value(line(j.Takeoff, takeoff.ConcreteWaste)).Div(n).Shift(2).Round(2)
			}
			add("Waste", "%", now, w.InexactFloat64())
		}
		for _, h := range j.Record.Hours {
			l := taskLine(j.Estimate, h.Task)
			// The hours once per job are none of the rate.
			if at := h.Hours.Sub(l.Each); l.Need.IsPositive() && at.IsPositive() {
				add(h.Task, string(l.Of)+"/h", l.Rate, l.Need.Div(at).InexactFloat64())
			}
		}
	}
	lessons := make([]Lesson, len(all))
	for i, s := range all {
		mean, spread := moments(s.values)
		lessons[i] = Lesson{
			Name: s.name, Unit: s.unit, Now: s.now, Jobs: len(s.values), Mean: two(mean), Spread: two(spread),
			Least: two(slices.Min(s.values)), Most: two(slices.Max(s.values)), Offered: len(s.values) >= EnoughJobs,
		}
	}
	slices.SortStableFunc(lessons, func(a, b Lesson) int { return cmp.Compare(btoi(a.Name != "Waste"), btoi(b.Name != "Waste")) })
	return lessons
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

func two(v float64) decimal.Decimal { return decimal.NewFromFloat(v).Round(2) }

// moments gives the mean and the sample standard deviation.
func moments(v []float64) (mean, spread float64) {
	for _, x := range v {
		mean += x / float64(len(v))
	}
	if len(v) < 2 {
		return mean, 0
	}
	for _, x := range v {
		spread += (x - mean) * (x - mean) / float64(len(v)-1)
	}
	return mean, math.Sqrt(spread)
}
