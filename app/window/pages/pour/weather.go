package pour

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/pour"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/look"
	"haunchbook.example/geometry"
)

// weather is the weather hour by hour, with what it means for the slab, and a chart
// over the day.
type weather struct {
	p     *Page
	day   pour.Day
	box   *fyne.Container
	rows  *form.List
	basis *widget.Label
	chart *form.Chart
	hours []pour.HourReport // of the chart
	units geometry.Units
}

var weatherColumns = form.Table{54, 64, 68, 66, 72, 72, 88, 0, 34}

func newWeather(p *Page) *weather {
	t := &weather{p: p, basis: form.Wrapped("")}
	t.chart = form.NewChart(func() fyne.Size { return fyne.NewSize(320, 190) }, t.draw)
	t.rows = form.NewList(func() int { return len(p.hours().Get()) }, t.row)
	var heads []string
	for _, below := range []string{"time", "air", "concrete", "humidity", "dew", "wind"} {
		heads = append(heads, bind.Row("pour.weather[]", below).Label)
	}
	t.rows.Head = weatherColumns.Head(append(heads, ">Evaporation", ">Trowel after", "")...)
	t.rows.None = form.Caption("No weather yet. Add an hour: what is forecast for the pour and the hours of finishing.")
	hint := form.Caption("As forecast; the concrete as it leaves the truck. The relative humidity, or the dew point instead. Wind: about 20 in (0.5 m) above the slab.")
	add := form.Do("Add an hour", form.New(p.frame).Act(t.addHour))
	t.box = container.NewVBox(t.rows.Box, hint, container.NewHBox(add), t.chart, t.basis)
	return t
}

func (t *weather) sync() {
	t.rows.Sync()
	form.Seen(t.chart, t.rows.Len() > 0)
	form.Seen(t.basis, t.rows.Len() > 0)
	u := t.p.frame.Units()
	if !slices.Equal(t.hours, t.day.Hours) || t.units != u {
		t.hours, t.units = t.day.Hours, u
		t.chart.Refresh()
	}
	form.Set(t.basis, strings.TrimSpace(t.day.TrowelText()+" "+pour.TrowelBasis(u)))
}

// row is one hour: its fields, and what it means.
func (t *weather) row(i int) (fyne.CanvasObject, func()) {
	cells, units := form.NewCells(t.p.frame), t.p.frame.Units
	get, put := t.p.hours().Item(i)
	h := bind.Of(cells, get, func(what string, change func(*pour.Hour)) error { return put("Weather: "+what, change) }).At("pour.weather[]")
	h.Rows("time", "air", "concrete")
	// The humidity and the dew point stand for each other.
	either := h
	either.Put = func(what string, change func(*pour.Hour)) error {
		return h.Put(what, func(at *pour.Hour) {
			was := *at
			change(at)
			if at.Dew != was.Dew && at.Dew.Known() {
				at.Humidity = 0
			} else if at.Humidity != was.Humidity {
				at.Dew = pour.Temperature{}
			}
		})
	}
	either.Rows("humidity", "dew")
	h.Rows("wind")
	rate, trowel := form.Figure("", fyne.TextAlignTrailing), form.Figure("", fyne.TextAlignTrailing)
	trowel.SizeName = theme.SizeNameCaptionText
	cells.Add(rate, func() {
		if i >= len(t.day.Hours) || t.day.Hours[i].Hour != get() {
			form.Weigh(rate, "…", widget.MediumImportance)
			form.Set(trowel, "")
			return
		}
		h := t.day.Hours[i]
		text, importance := h.Rate.Text(units()), widget.MediumImportance
		if h.Rate.Over(units()) {
			text, importance = "! "+text, widget.DangerImportance
		}
		form.Weigh(rate, text, importance)
		form.Set(trowel, h.Trowel.Text())
	})
	cells.Add(trowel, nil)
	cells.Add(form.NewRemove(t.p.form.Act(func() error { return t.p.hours().Remove("Remove an hour", i) })), nil)
	return cells.Row(weatherColumns), cells.Sync
}

// addHour adds the hour after the last, with the last's weather.
func (t *weather) addHour() error {
	h := pour.Hour{Time: t.p.frame.Base().Pour.Start, Air: pour.Fahrenheit(70), Concrete: pour.Fahrenheit(70), Humidity: 50, Wind: pour.MilesPerHour(5)}
	if t.p.frame.Units() == geometry.Millimeters {
		h.Air, h.Concrete, h.Wind = pour.Celsius(20), pour.Celsius(20), pour.KilometersPerHour(8)
	}
	if all := t.p.hours().Get(); len(all) > 0 {
		h = all[len(all)-1]
		h.Time += 60
	}
	return t.p.hours().Append("Add an hour", h)
}

// Room round the chart's curve for what is written.
const (
	chartLeft, chartRight = 14, 24
	chartTop, chartBottom = 28, 26
)

// draw draws the evaporation rate over the day, with its limit.
func (t *weather) draw(c *form.Chart) {
	size := c.Size()
	if size.Width < 100 || len(t.hours) == 0 {
		return
	}
	limit := pour.EvaporationLimit.In(t.units)
	most := limit
	for _, h := range t.hours {
		most = max(most, h.Rate.In(t.units))
	}
	most *= 1.2
	first, last := t.hours[0].Hour.Time, t.hours[len(t.hours)-1].Hour.Time
	x := func(at pour.Clock) float32 { // the hours fill the width, one alone is in the middle
		if last == first {
			return size.Width / 2
		}
		return chartLeft + 20 + (size.Width-chartLeft-chartRight-40)*float32(at-first)/float32(last-first)
	}
	y := func(rate float64) float32 {
		return size.Height - chartBottom - (size.Height-chartTop-chartBottom)*float32(rate/most)
	}
	point := func(h pour.HourReport) fyne.Position { return fyne.NewPos(x(h.Hour.Time), y(h.Rate.In(t.units))) }
	middle := func(text string, at fyne.Position) {
		l := form.Label(text, false)
		c.Write(l, at.SubtractXY(l.MinSize().Width/2, 0))
	}
	c.Write(form.Label("Evaporation, "+t.p.unit("lb/ft² an hour", "kg/m² an hour"), true), fyne.NewPos(0, 2))
	end := size.Width - chartRight
	c.Line(fyne.NewPos(chartLeft, y(0)), fyne.NewPos(end, y(0)), 1, look.Shade(theme.ColorNamePlaceHolder))
	for x := float32(chartLeft); x < end; x += 12 { // dashes
		c.Line(fyne.NewPos(x, y(limit)), fyne.NewPos(min(x+7, end), y(limit)), 1.5, look.Shade(theme.ColorNameError))
	}
	c.Write(form.Label(fmt.Sprintf("limit %g (ACI 305R)", limit), false), fyne.NewPos(chartLeft, y(limit)-18))
	for i, h := range t.hours {
		at, ink := point(h), look.Shade(theme.ColorNamePrimary)
		if i > 0 {
			c.Line(point(t.hours[i-1]), at, 2, ink)
		}
		if h.Rate.Over(t.units) {
			ink = look.Shade(theme.ColorNameError)
		}
		c.Dot(at, 9, ink)
		figure := fmt.Sprintf("%.2f", h.Rate.In(t.units))
		switch d := at.Y - y(limit); {
		case d <= -4 || d >= 26:
			middle(figure, at.SubtractXY(0, 22))
		case at.Y+22 > y(0): // neither on the line of the limit nor on the axis
			c.Write(form.Label(figure, false), at.AddXY(9, -9))
		default:
			middle(figure, at.AddXY(0, 6))
		}
		if n := len(t.hours); n <= 12 || i%((n+11)/12) == 0 {
			middle(h.Hour.Time.String(), fyne.NewPos(at.X, size.Height-chartBottom+4))
		}
	}
}
