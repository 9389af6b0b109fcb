package book

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/look"
)

// margins shows what is left of prices.
func margins(title string, ms []actual.Margin, currency string) (os []fyne.CanvasObject) {
	table := form.Table{0, 100, 100, 76, 120}
	for i, m := range ms {
		if i == 0 {
			os = append(os, table.Head(title, ">Price", ">Cost", ">Margin", ">Not written down"))
		}
		left := "–"
		if d, ok := m.Percent(); ok {
			left = d.StringFixed(1) + " %"
		}
		open := "–"
		if !m.Unknown.IsZero() {
			open = estimate.Money(currency, m.Unknown)
		}
		os = append(os, table.Figures(m.Name, estimate.Money(currency, m.Price), estimate.Money(currency, m.Cost), left, open))
	}
	if c := marginChart(ms); c != nil {
		os = append(os, c)
	}
	return os
}

// barTall is how tall a bar of the chart stands with the room round it.
const barTall = 24

// marginChart draws margins side by side: to the right of a line what is left of a price,
// to the left what was lost. Fewer than two say nothing that the table does not: nil.
func marginChart(ms []actual.Margin) *form.Chart {
	type bar struct {
		name, text string
		part       float64 // of the price
	}
	var bars []bar
	for _, m := range ms {
		if d, ok := m.Percent(); ok {
			bars = append(bars, bar{m.Name, d.StringFixed(1) + " %", d.InexactFloat64() / 100})
		}
	}
	if len(bars) < 2 {
		return nil
	}
	lo, hi := 0.0, 0.0
	for _, b := range bars {
		lo, hi = min(lo, b.part), max(hi, b.part)
	}
	return form.NewChart(func() fyne.Size { return fyne.NewSize(320, barTall*float32(len(bars))) }, func(c *form.Chart) {
		const figures = 64 // the room for a figure at either end
		names := c.Size().Width * 0.3
		room := max(1, c.Size().Width-names-2*figures)
		x := func(part float64) float32 { return names + figures + room*float32((part-lo)/max(hi-lo, 1e-9)) }
		for i, b := range bars {
			y, fill := barTall*float32(i), look.Shade(theme.ColorNamePrimary)
			from, to := x(min(0, b.part)), x(max(0, b.part))
			name, figure := form.Label("", false), form.Label(b.text, true)
			form.Shorten(name, b.name, names-20)
			at := fyne.NewPos(to+6, y+3)
			if b.part < 0 {
				fill, at.X = look.Shade(theme.ColorNameError), from-6-figure.MinSize().Width
			}
			c.Write(name, fyne.NewPos(12, y+3))
			c.Bar(fyne.NewPos(from, y+4), fyne.NewSize(max(1, to-from), barTall-8), fill, nil)
			c.Write(figure, at)
		}
		c.Line(fyne.NewPos(x(0), 0), fyne.NewPos(x(0), barTall*float32(len(bars))), 1, look.Shade(theme.ColorNameForeground))
	})
}
