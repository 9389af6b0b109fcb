// Package calendar is what is to be done on which day for all jobs of a book: pours, with
// crew and trucks, and what goes before and after them.
package calendar

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"haunchbook.example/app/date"
	"haunchbook.example/app/field"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/hold"
	"haunchbook.example/app/pour"
	"haunchbook.example/geometry/plan"
)

// Job is a job of a book.
type Job struct {
	ID string // its number in the book
	*handover.Handover
}

// Entry is one thing to be done, or to be mindful of, on a day.
type Entry struct {
	UID    string // tells entries of one book apart, and is the same as long as the thing is
	Day    date.Day
	Timed  bool // it has a time of the day; else it is of the whole day
	From   pour.Clock
	To     pour.Clock // of a pour, when the last truck is empty
	What   string     // "Pour", "Footing inspection"
	Job    string
	Site   string
	Notes  []string // how much, how many, who
	Held   string   // what holds a pour back, in one line; "" for nothing
	Limits []string // of the weather, that are broken
	Own    []string // texts of the job that are the user's
}

// Of gives what is to be done from a day on for so many days, day by day and hour by hour,
// then as the jobs come. A pour whose day cannot be planned stands there without times.
func Of(ctx context.Context, jobs []Job, from date.Day, days int) ([]Entry, error) {
	var out []Entry
	within := func(d date.Day) bool { return d.Known() && !d.Before(from) && d.Before(from.Plus(days)) }
	for _, j := range jobs {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		var entries []Entry
		// A pour takes a takeoff to plan: none is planned that can't lie within.
		if first := j.Job().Pour.Date; within(first) || first.Before(from) && j.parted() {
			entries = j.pours(ctx)
		}
		for i, h := range j.Job().Holds {
			entries = append(entries, j.ofHold(i, h)...)
		}
		out = append(out, slices.DeleteFunc(entries, func(e Entry) bool { return !within(e.Day) })...)
	}
	slices.SortStableFunc(out, func(a, b Entry) int {
		return cmp.Or(a.Day.Since(b.Day), cmp.Compare(a.hour(), b.hour()))
	})
	return out, ctx.Err()
}

// hour is by what entries of a day are in order: those of the whole day first.
func (e Entry) hour() int {
	if !e.Timed {
		return -1
	}
	return int(e.From)
}

func (j Job) entry(part string, on date.Day, what string) Entry {
	return Entry{UID: j.ID + "-" + part, Day: on, What: what, Job: j.Job().Name, Site: j.Job().Site, Own: j.Job().Own()}
}

// parted tells whether a job may have pours on days after its first.
func (j Job) parted() bool {
	return slices.ContainsFunc(j.Job().Slabs, func(p plan.Plan) bool { return len(p.Construction) > 0 })
}

// pours gives the pours of a job, each on its day.
func (j Job) pours(ctx context.Context) []Entry {
	s := j.Job().Pour
	crew, placed := fmt.Sprintf("%d people", s.Crew.People), "placed by "+s.Reach.Method.String()
	days, err := j.Days(ctx)
	if err != nil {
		e := j.entry("pour", s.Date, "Pour")
		e.Held = hold.Line(j.Held())
		e.Timed, e.From, e.To = true, s.Start, s.Start
		e.Notes = []string{crew, placed, "no plan of the pour"}
		return []Entry{e}
	}
	var out []Entry
	for k, day := range days {
		part, what := "pour", "Pour"
		if k > 0 {
			part = fmt.Sprintf("pour-%d", day.Number)
		}
		if len(days) > 1 {
			what = fmt.Sprintf("Pour %d", day.Number)
		}
		e := j.entry(part, s.Date.Plus(day.On-1), what)
		e.Held = hold.Line(day.Held)
		last := day.Loads[len(day.Loads)-1].Visit.Ends
		e.Timed, e.From, e.To = true, s.Start, pour.Clock(last+0.5)
		e.Notes = []string{fmt.Sprintf("%s %s", day.Order, day.Unit), fmt.Sprintf("loads: %d", len(day.Loads)), crew, placed}
		if s.Trucks.Fleet > 0 {
			e.Notes = append(e.Notes, fmt.Sprintf("trucks in turn: %d", s.Trucks.Fleet))
		}
		for _, f := range day.Findings {
			if f.Broken() && pour.OfWeather(f) {
				e.Limits = append(e.Limits, f.Text)
			}
		}
		out = append(out, e)
	}
	return out
}

// ofHold gives the days of what holds a pour back, or waits after it.
func (j Job) ofHold(i int, h hold.Hold) (out []Entry) {
	add := func(part string, on date.Day, what string) {
		out = append(out, j.entry(fmt.Sprintf("hold-%d-%s", i+1, part), on, field.Upper(what)))
	}
	switch {
	case h.Kind == hold.Locate || h.Kind == hold.Permit:
		add("until", h.Until, h.Called()+" runs out")
	case h.Kind == hold.Strip || h.Kind == hold.Cure:
		add("from", h.From, h.Called())
	case h.Result == hold.Open:
		add("from", h.From, h.Called())
	}
	return out
}
