package pour

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"haunchbook.example/app/pour"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/look"
	"haunchbook.example/app/window/words"
)

// Of the chart of the day: room for the names of rows, their height, and for the hours.
const (
	spanNames = 118
	spanRow   = 22
	spanHours = 20
)

// timeline shows trucks, lanes, finishing and weather on one axis of time.
type timeline struct {
	spans []pour.Span
	rows  []string
	chart *form.Chart
}

func newTimeline() *timeline {
	t := &timeline{}
	t.chart = form.NewChart(func() fyne.Size { return fyne.NewSize(320, spanHours+spanRow*float32(len(t.rows))+8) }, t.draw)
	return t
}

// set shows other spans.
func (t *timeline) set(spans []pour.Span) {
	t.spans, t.rows = spans, nil
	for i, s := range spans {
		if i == 0 || s.Row != spans[i-1].Row {
			t.rows = append(t.rows, s.Row)
		}
	}
	t.chart.Refresh()
}

func (t *timeline) draw(c *form.Chart) {
	if len(t.spans) == 0 || c.Size().Width < 2*spanNames {
		return
	}
	first, last := t.spans[0].From, t.spans[0].To
	for _, s := range t.spans {
		first, last = min(first, s.From), max(last, s.To)
	}
	first, last = first/60*60, (last+59)/60*60
	x := func(at pour.Clock) float32 {
		return spanNames + (c.Size().Width-spanNames-8)*float32(at-first)/float32(last-first)
	}
	faint, rule := look.Shade(theme.ColorNamePlaceHolder), look.Shade(theme.ColorNameSeparator)
	foot := spanHours + spanRow*float32(len(t.rows))
	every := pour.Clock(60)
	for x(first+every)-x(first) < 46 {
		every *= 2
	}
	for at := first; at <= last; at += every {
		c.Line(fyne.NewPos(x(at), spanHours-2), fyne.NewPos(x(at), foot), 1, rule)
		l := form.Label(at.String(), false)
		c.Write(l, fyne.NewPos(x(at)-l.MinSize().Width/2, 0))
	}
	for i, name := range t.rows {
		y := spanHours + spanRow*float32(i)
		c.Line(fyne.NewPos(0, y+spanRow), fyne.NewPos(c.Size().Width, y+spanRow), 1, rule)
		c.Write(form.Label(name, false), fyne.NewPos(0, y+3))
	}
	accent, tint := look.Shade(theme.ColorNamePrimary), look.Shade(theme.ColorNameSelection)
	row := -1
	for i, s := range t.spans {
		if i == 0 || s.Row != t.spans[i-1].Row {
			row++
		}
		y := spanHours + spanRow*float32(row)
		fill, edge := tint, accent
		switch {
		case s.Over:
			edge = look.Shade(theme.ColorNameError)
		case s.Of == pour.Weather:
			edge = faint
		}
		bar := func(from, to pour.Clock) {
			c.Bar(fyne.NewPos(x(from), y+2), fyne.NewSize(max(2, x(to)-x(from)), spanRow-4), fill, edge)
		}
		if s.Work > s.From { // on site, and being emptied
			c.Line(fyne.NewPos(x(s.From), y+spanRow/2), fyne.NewPos(x(s.Work), y+spanRow/2), 1.5, faint)
		}
		bar(s.Work, s.To)
		text := form.Label("", false)
		room := x(s.To) - x(s.Work) - 6
		at := x(s.Work) + 4
		said := words.Say(s.Text)
		if s.Of != pour.Placing && s.Of != pour.Weather && form.Label(s.Text, false).MinSize().Width > room {
			at, room = x(s.To)+5, c.Size().Width-x(s.To)-6
		}
		if number, _, unit := strings.Cut(said, " "); unit && s.Of == pour.Weather && form.Label(said, false).MinSize().Width > room {
			if said = number; form.Label(said, false).MinSize().Width > room {
				continue // part of a number is another number
			}
		}
		if form.Shorten(text, said, room); room > 8 {
			c.Write(text, fyne.NewPos(at, y+3))
		}
	}
}
