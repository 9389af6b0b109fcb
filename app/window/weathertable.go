package window

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/pour"
	"haunchbook.example/geometry"
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
		if t.p.w.doc.Units() == geometry.Millimeters {
			h.Air, h.Concrete, h.Wind = pour.Celsius(20), pour.Celsius(20), pour.KilometersPerHour(8)
		}
		if n := len(s.Weather); n > 0 {
			h = s.Weather[n-1]
			h.Time += 60
		}
		s.Weather = append(s.Weather, h)
	}))
}
