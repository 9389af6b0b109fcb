package sheet

import (
	"context"
	"fmt"
	"io"
	"strings"

	"haunchbook.example/app/calendar"
	"haunchbook.example/app/date"
	"haunchbook.example/app/job"
	"haunchbook.example/app/language"
	"haunchbook.example/geometry"
)

// WriteCalendar writes what is to be done day by day, from a day on for so many days, as a
// list to pin up; names are texts of the jobs that stay as they are in every language.
func WriteCalendar(ctx context.Context, w io.Writer, entries []calendar.Entry, from date.Day, days int, u geometry.Units, o Options) error {
	pages := CalendarPages(entries, from, days, u, o)
	return writePDF(ctx, w, pages[0].Name, pages, o)
}

// CalendarPages gives the pages that WriteCalendar writes.
func CalendarPages(entries []calendar.Entry, from date.Day, days int, u geometry.Units, o Options) (out []Page) {
	for _, l := range o.languages() {
		p := pinned(entries, u, l, o)
		p.days(entries, from, days)
		out = append(out, p.done()...)
	}
	return out
}

// pinned starts a list in a language.
func pinned(entries []calendar.Entry, u geometry.Units, l language.Language, o Options) *paged {
	var names []string
	for _, e := range entries {
		names = append(names, e.Own...)
	}
	s := &set{job: job.Job{Units: u, Name: o.Company.Name}, options: o, in: l, say: l.Speaker(append(names, o.Company.Name))}
	return s.paged()
}

const calendarTitle = "Days ahead"

// days writes the days.
func (p *paged) days(entries []calendar.Entry, from date.Day, days int) {
	p.turn(calendarTitle)
	for n := range days {
		on := from.Plus(n)
		var of []calendar.Entry
		for _, e := range entries {
			if e.Day == on {
				of = append(of, e)
			}
		}
		if p.top < p.r.Y0+14+12*float64(min(len(of), 2)) {
			p.turn(calendarTitle)
		}
		head := on.Time().Weekday().String() + ", " + on.String()
		if n := pours(of); n > 1 {
			head += fmt.Sprintf("; pours: %d", n)
		}
		d := p.page()
		d.line(Notes, penRule, Point{X: p.r.X0, Y: p.top}, Point{X: p.r.X1, Y: p.top})
		d.write(p.r.X0, p.top-4, sizeBody, len(of) > 0, p.say.Say(head))
		p.top -= 6.5
		for _, e := range of {
			p.entry(e)
		}
	}
	p.tell("Times are as planned, not promised. What holds a pour back is as it was written down: local code and the utility notification center decide.")
}

// pours counts the pours among entries.
func pours(of []calendar.Entry) (n int) {
	for _, e := range of {
		if e.Timed {
			n++
		}
	}
	return n
}

// entry writes one thing to be done.
func (p *paged) entry(e calendar.Entry) {
	if p.top < p.r.Y0+18 {
		p.turn(calendarTitle)
	}
	const inset, times = 4.0, 24.0
	x, wide := p.r.X0+inset, p.r.Width()-inset
	d := p.page()
	if e.Timed {
		d.write(x, p.top-capHeight*sizeBody*mmPerPoint, sizeBody, true, e.From.String()+"–"+e.To.String())
		x, wide = x+times, wide-times
	}
	p.top = d.paragraph(x, p.top, wide, sizeBody, true, p.say.Say(e.What)+": "+e.Job)
	at := p.say.Each(e.Notes)
	if e.Site != "" {
		at = append([]string{e.Site}, at...)
	}
	if len(at) > 0 {
		p.top = d.paragraph(x, p.top, wide, sizeSmall, false, strings.Join(at, " · "))
	}
	if e.Held != "" {
		p.top = d.paragraph(x, p.top, wide, sizeSmall, true, "! "+p.say.Say("NOT TO BE POURED YET: "+e.Held+"."))
	}
	for _, l := range e.Limits {
		p.top = d.paragraph(x, p.top, wide, sizeSmall, false, "! "+p.say.Say(l))
	}
	p.top -= 2
}
