package book

import (
	"context"
	"io"

	"haunchbook.example/app/calendar"
	"haunchbook.example/app/date"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/window/form"
	"haunchbook.example/export/exchange"
	"haunchbook.example/export/sheet"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// listedDays is how many days the list to print has, and keptDays how many a calendar file
// has before and after today.
const listedDays, keptDays = 14, 365

// ahead is what is to be done for all jobs, as a list to print and as a file for a
// calendar.
func (p *Page) ahead(f *form.Form) {
	f.Heading("Days ahead")
	today, units, o := date.On(p.Now()), p.Units(), p.recordOptions()
	f.Buttons(
		form.Do("Two weeks to print…", func() {
			p.save("two-weeks.pdf", func(w io.Writer) error {
				entries, err := p.entries(today, listedDays)
				if err != nil {
					return err
				}
				return sheet.WriteCalendar(context.Background(), w, entries, today, listedDays, units, o)
			})
		}),
		form.Do("Calendar file…", func() {
			p.save("pours.ics", func(w io.Writer) error {
				entries, err := p.entries(today.Plus(-keptDays), 2*keptDays)
				if err != nil {
					return err
				}
				return exchange.WriteCalendar(w, entries, o.Date)
			})
		}),
	)
	f.Explain("Pours of all jobs on their days, with crew, loads and what holds them back; inspections, locates that run out, stripping. The day of a pour stands under Job, Holds and money. Calendar files (iCalendar, RFC 5545) go into any calendar.")
}

// entries gives what is to be done for the jobs of the book that are not archived.
func (p *Page) entries(from date.Day, days int) ([]calendar.Entry, error) {
	all, err := p.book.List()
	if err != nil {
		return nil, err
	}
	storage.Sort(all, storage.ByNumber)
	prices := map[geometry.Units]estimate.PriceList{}
	for _, u := range units {
		if prices[u], err = p.book.Prices(u); err != nil {
			return nil, err
		}
	}
	var jobs []calendar.Job
	for _, s := range all {
		if s.Archived {
			continue
		}
		j, err := p.book.Get(s.ID)
		if err != nil {
			return nil, err
		}
		if j.Pour.Date.Known() || len(j.Holds) > 0 {
			jobs = append(jobs, calendar.Job{ID: s.ID.String(), Handover: handover.Of(handover.From{Job: j, Prices: prices[j.Units]})})
		}
	}
	return calendar.Of(context.Background(), jobs, from, days)
}
