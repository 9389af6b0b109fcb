package window

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook/app/pour"
	"haunchbook/geometry"
)

// weatherTable is the weather hour by hour, with what it means for the slab, and
// a chart over the day.
type weatherTable struct {
	p     *pourPage
	day   pour.Day
	box   *fyne.Container
	rows  *rowList[pour.Hour]
	basis *widget.Label
	chart *rateChart
}

func newWeatherTable(p *pourPage) *weatherTable {
	t := &weatherTable{p: p, chart: newRateChart(), basis: widget.NewLabel("")}
	t.rows = newRowList(func() []pour.Hour { return p.w.doc.Base().Pour.Weather }, t.row)
	t.rows.head = headings([]string{"Time", "Air", "Concrete", "RH %", "Dew pt", "Wind", ">Evaporation", ">Trowel after", ""}, weatherColumns())
	t.rows.none = caption("No weather yet. Add an hour: what is forecast for the pour and the hours of finishing.", false)
	t.basis.Wrapping = fyne.TextWrapWord
	hint := caption("As forecast; the concrete as it leaves the truck. RH: relative humidity, or give the dew point instead. Wind: about 20 in (0.5 m) above the slab.", false)
	t.box = container.NewVBox(t.rows.box, hint, container.NewHBox(newPageButton(p.w, "Add an hour", t.addHour)), t.chart, t.basis)
	return t
}

func weatherColumns() *columns {
	return &columns{widths: []float32{56, 68, 68, 54, 68, 82, 100, 0, 34}, gap: 4}
}

func (t *weatherTable) show() {
	t.rows.show()
	if t.rows.made == 0 {
		t.chart.Hide()
		t.basis.Hide()
		return
	}
	t.chart.Show()
	t.basis.Show()
	t.chart.show(t.day.Hours, t.p.w.doc.Units())
	set(t.basis, strings.TrimSpace(t.day.TrowelText()+" "+pour.TrowelBasis(t.p.w.doc.Units())))
}

// row is one hour: its fields, and what it means.
func (t *weatherTable) row(i int) (fyne.CanvasObject, func()) {
	w := t.p.w
	note := faultNote()
	get := func() pour.Hour { return t.rows.item(i) }
	var syncs []func()
	field := func(what string, read func(pour.Hour) string, write func(*pour.Hour, string) error) *entry {
		c := newCell(w, note, func() string { return read(get()) }, func(s string) error {
			h := get()
			if err := write(&h, strings.TrimSpace(s)); err != nil {
				return fmt.Errorf("%s: found %q; %w", what, s, err)
			}
			return w.changePour("Weather: "+what, func(s *pour.Spec) { changeItem(s.Weather, i, func(at *pour.Hour) { *at = h }) })
		})
		syncs = append(syncs, c.sync)
		return c.entry
	}
	rate, trowel := figure("", fyne.TextAlignTrailing), figure("", fyne.TextAlignTrailing)
	trowel.SizeName = theme.SizeNameCaptionText
	syncs = append(syncs, func() {
		text, when, importance := "…", "", widget.MediumImportance
		if i < len(t.day.Hours) && t.day.Hours[i].Hour == get() {
			h := t.day.Hours[i]
			text, when = h.Rate.Text(w.doc.Units()), h.Trowel.Text()
			if h.Rate.Over(w.doc.Units()) {
				text, importance = "! "+text, widget.DangerImportance
			}
		}
		if rate.Importance != importance {
			rate.Importance = importance
			rate.Refresh()
		}
		set(rate, text)
		set(trowel, when)
	})
	remove := newRemoveButton(w, func() {
		t.p.report(w.changePour("Remove an hour", func(s *pour.Spec) { removeItem(&s.Weather, i) }))
	})
	row := container.NewVBox(container.New(weatherColumns(),
		field("Time", func(h pour.Hour) string { return h.Time.String() }, func(h *pour.Hour, s string) error { return h.Time.UnmarshalText([]byte(s)) }),
		field("Air", func(h pour.Hour) string { return h.Air.Text(w.doc.Units()) }, func(h *pour.Hour, s string) error { return h.Air.UnmarshalText([]byte(t.p.degrees(s))) }),
		field("Concrete", func(h pour.Hour) string { return h.Concrete.Text(w.doc.Units()) }, func(h *pour.Hour, s string) error { return h.Concrete.UnmarshalText([]byte(t.p.degrees(s))) }),
		field("Humidity", func(h pour.Hour) string {
			if h.Dew.Known() {
				return ""
			}
			return strconv.FormatFloat(h.Humidity, 'g', -1, 64)
		}, func(h *pour.Hour, s string) error {
			v, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(s, "%")), 64)
			if err != nil {
				return fmt.Errorf("write percent, such as 45")
			}
			h.Humidity, h.Dew = v, pour.Temperature{}
			return nil
		}),
		field("Dew point", func(h pour.Hour) string { return h.Dew.Text(w.doc.Units()) }, func(h *pour.Hour, s string) error {
			if s == "" {
				return fmt.Errorf("write the humidity instead")
			}
			h.Humidity = 0
			return h.Dew.UnmarshalText([]byte(t.p.degrees(s)))
		}),
		field("Wind", func(h pour.Hour) string { return h.Wind.Text(w.doc.Units()) }, func(h *pour.Hour, s string) error {
			return h.Wind.UnmarshalText([]byte(t.p.inUnit(s, "mph", "km/h")))
		}),
		rate, trowel, remove,
	), note)
	return row, func() {
		for _, sync := range syncs {
			sync()
		}
	}
}

// addHour adds the hour after the last, with the last's weather.
func (t *weatherTable) addHour() {
	t.p.report(t.p.w.changePour("Add an hour", func(s *pour.Spec) {
		h := pour.Hour{Time: s.Start, Air: pour.Fahrenheit(70), Concrete: pour.Fahrenheit(70), Humidity: 50, Wind: pour.MilesPerHour(5)}
		if t.p.w.doc.Units() == geometry.Millimetres {
			h.Air, h.Concrete, h.Wind = pour.Celsius(20), pour.Celsius(20), pour.KilometresPerHour(8)
		}
		if n := len(s.Weather); n > 0 {
			h = s.Weather[n-1]
			h.Time += 60
		}
		s.Weather = append(s.Weather, h)
	}))
}

// rateChart is the evaporation rate over the day, with its limit.
type rateChart struct {
	widget.BaseWidget
	hours []pour.HourReport
	units geometry.Units
}

func newRateChart() *rateChart {
	c := &rateChart{}
	c.ExtendBaseWidget(c)
	return c
}

func (c *rateChart) show(hours []pour.HourReport, u geometry.Units) {
	if slices.Equal(hours, c.hours) && u == c.units {
		return
	}
	c.hours, c.units = hours, u
	c.Refresh()
}

func (c *rateChart) value(h pour.HourReport) float64 { return h.Rate.In(c.units) }

func (c *rateChart) limit() float64 { return pour.EvaporationLimit.In(c.units) }

// CreateRenderer implements fyne.Widget.
func (c *rateChart) CreateRenderer() fyne.WidgetRenderer {
	v := &rateRenderer{c: c}
	v.Refresh()
	return v
}

type rateRenderer struct {
	c  *rateChart
	os []fyne.CanvasObject
}

func (v *rateRenderer) MinSize() fyne.Size           { return fyne.NewSize(320, 190) }
func (v *rateRenderer) Objects() []fyne.CanvasObject { return v.os }
func (v *rateRenderer) Destroy()                     {}
func (v *rateRenderer) Layout(fyne.Size)             { v.draw() }

func (v *rateRenderer) Refresh() {
	v.draw()
	canvas.Refresh(v.c)
}

// draw lays the chart out anew: a point for each hour, joined, and the limit as
// dashes with its name.
func (v *rateRenderer) draw() {
	c := v.c
	v.os = nil
	size := c.Size()
	if size.Width < 100 || len(c.hours) == 0 {
		return
	}
	ink, faint := shade(theme.ColorNameForeground), shade(theme.ColorNamePlaceHolder)
	accent, bad := shade(theme.ColorNamePrimary), shade(theme.ColorNameError)
	left, right, top, bottom := float32(14), float32(24), float32(28), float32(26)
	most := c.limit()
	for _, h := range c.hours {
		most = max(most, c.value(h))
	}
	most *= 1.2
	first, last := c.hours[0].Hour.Time, c.hours[len(c.hours)-1].Hour.Time
	x := func(t pour.Clock) float32 {
		if last == first {
			return size.Width / 2
		}
		return left + 20 + (size.Width-left-right-40)*float32(t-first)/float32(last-first)
	}
	y := func(r float64) float32 { return size.Height - bottom - (size.Height-top-bottom)*float32(r/most) }
	write := func(s string, at fyne.Position, bold bool, middle bool) {
		t := canvas.NewText(s, ink)
		t.TextSize = 12
		t.TextStyle.Bold = bold
		if middle {
			at.X -= t.MinSize().Width / 2
		}
		at.X = max(0, min(at.X, size.Width-t.MinSize().Width))
		t.Move(at)
		v.os = append(v.os, t)
	}
	line := func(a, b fyne.Position, width float32, bold bool) {
		l := canvas.NewLine(faint)
		if bold {
			l.StrokeColor = accent
		}
		l.StrokeWidth, l.Position1, l.Position2 = width, a, b
		v.os = append(v.os, l)
	}
	unit := "lb/ft² an hour"
	if c.units == geometry.Millimetres {
		unit = "kg/m² an hour"
	}
	write("Evaporation, "+unit, fyne.NewPos(0, 2), true, false)
	line(fyne.NewPos(left, y(0)), fyne.NewPos(size.Width-right, y(0)), 1, false)
	for at := left; at < size.Width-right; at += 12 {
		l := canvas.NewLine(bad)
		l.StrokeWidth = 1.5
		l.Position1, l.Position2 = fyne.NewPos(at, y(c.limit())), fyne.NewPos(min(at+7, size.Width-right), y(c.limit()))
		v.os = append(v.os, l)
	}
	limit := fmt.Sprintf("limit %g (ACI 305R)", c.limit())
	write(limit, fyne.NewPos(left, y(c.limit())-18), false, false)
	for i, h := range c.hours {
		p := fyne.NewPos(x(h.Hour.Time), y(c.value(h)))
		if i > 0 {
			line(fyne.NewPos(x(c.hours[i-1].Hour.Time), y(c.value(c.hours[i-1]))), p, 2, true)
		}
		dot := canvas.NewCircle(accent)
		if c.value(h) >= c.limit() {
			dot.FillColor = bad
		}
		dot.Resize(fyne.NewSize(9, 9))
		dot.Move(p.SubtractXY(4.5, 4.5))
		v.os = append(v.os, dot)
		name := p.SubtractXY(0, 22)
		if d := p.Y - y(c.limit()); d > -4 && d < 26 { // no figure on the line of the limit
			name = p.AddXY(0, 6)
		}
		write(fmt.Sprintf("%.2f", c.value(h)), name, false, true)
		if n := len(c.hours); n <= 12 || i%((n+11)/12) == 0 {
			write(h.Hour.Time.String(), fyne.NewPos(p.X, size.Height-bottom+4), false, true)
		}
	}
}
