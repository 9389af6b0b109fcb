package window

import (
	"fmt"
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/pour"
	"haunchbook.example/geometry"
)

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

// CreateRenderer implements fyne.Widget.
func (c *rateChart) CreateRenderer() fyne.WidgetRenderer {
	v := &rateRenderer{c: c}
	v.Refresh()
	return v
}

// rateRenderer draws the chart anew whenever its size or its figures change.
type rateRenderer struct {
	c    *rateChart
	os   []fyne.CanvasObject
	size fyne.Size
	most float64 // rate at the top
}

func (v *rateRenderer) MinSize() fyne.Size           { return fyne.NewSize(320, 190) }
func (v *rateRenderer) Objects() []fyne.CanvasObject { return v.os }
func (v *rateRenderer) Destroy()                     {}
func (v *rateRenderer) Layout(fyne.Size)             { v.draw() }

// Refresh implements fyne.WidgetRenderer.
func (v *rateRenderer) Refresh() {
	v.draw()
	canvas.Refresh(v.c)
}

// Room round the curve for what is written.
const (
	rateLeft, rateRight = 14, 24
	rateTop, rateBottom = 28, 26
)

func (v *rateRenderer) draw() {
	v.os, v.size = nil, v.c.Size()
	if v.size.Width < 100 || len(v.c.hours) == 0 {
		return
	}
	v.most = pour.EvaporationLimit.In(v.c.units)
	for _, h := range v.c.hours {
		v.most = max(v.most, h.Rate.In(v.c.units))
	}
	v.most *= 1.2
	unit := "lb/ft² an hour"
	if v.c.units == geometry.Millimeters {
		unit = "kg/m² an hour"
	}
	v.write("Evaporation, "+unit, fyne.NewPos(0, 2), true, false)
	v.line(fyne.NewPos(rateLeft, v.y(0)), fyne.NewPos(v.size.Width-rateRight, v.y(0)), 1, shade(theme.ColorNamePlaceHolder))
	v.limit()
	for i := range v.c.hours {
		v.hour(i)
	}
}

// x gives the place of a time: the hours fill the width, one alone is in the
// middle.
func (v *rateRenderer) x(t pour.Clock) float32 {
	hs := v.c.hours
	first, last := hs[0].Hour.Time, hs[len(hs)-1].Hour.Time
	if last == first {
		return v.size.Width / 2
	}
	return rateLeft + 20 + (v.size.Width-rateLeft-rateRight-40)*float32(t-first)/float32(last-first)
}

// y gives the place of a rate.
func (v *rateRenderer) y(rate float64) float32 {
	return v.size.Height - rateBottom - (v.size.Height-rateTop-rateBottom)*float32(rate/v.most)
}

// point is an hour's place.
func (v *rateRenderer) point(i int) fyne.Position {
	h := v.c.hours[i]
	return fyne.NewPos(v.x(h.Hour.Time), v.y(h.Rate.In(v.c.units)))
}

// limit draws the limit as dashes with its name.
func (v *rateRenderer) limit() {
	limit := pour.EvaporationLimit.In(v.c.units)
	at, end := v.y(limit), v.size.Width-rateRight
	for x := float32(rateLeft); x < end; x += 12 {
		v.line(fyne.NewPos(x, at), fyne.NewPos(min(x+7, end), at), 1.5, shade(theme.ColorNameError))
	}
	v.write(fmt.Sprintf("limit %g (ACI 305R)", limit), fyne.NewPos(rateLeft, at-18), false, false)
}

// hour draws a dot with its figure and its time, joined to the one before.
func (v *rateRenderer) hour(i int) {
	h, p, accent := v.c.hours[i], v.point(i), shade(theme.ColorNamePrimary)
	if i > 0 {
		v.line(v.point(i-1), p, 2, accent)
	}
	dot := canvas.NewCircle(accent)
	if h.Rate.Over(v.c.units) {
		dot.FillColor = shade(theme.ColorNameError)
	}
	dot.Resize(fyne.NewSize(9, 9))
	dot.Move(p.SubtractXY(4.5, 4.5))
	v.os = append(v.os, dot)
	name, middle := p.SubtractXY(0, 22), true
	if d := p.Y - v.y(pour.EvaporationLimit.In(v.c.units)); d > -4 && d < 26 { // no figure on the line of the limit
		name = p.AddXY(0, 6)
		if name.Y+16 > v.y(0) { // nor on the axis
			name, middle = p.AddXY(9, -9), false
		}
	}
	v.write(fmt.Sprintf("%.2f", h.Rate.In(v.c.units)), name, false, middle)
	if n := len(v.c.hours); n <= 12 || i%((n+11)/12) == 0 {
		v.write(h.Hour.Time.String(), fyne.NewPos(p.X, v.size.Height-rateBottom+4), false, true)
	}
}

// write puts a text with its middle or its left end at a place, kept within the
// chart.
func (v *rateRenderer) write(s string, at fyne.Position, bold, middle bool) {
	t := canvas.NewText(s, shade(theme.ColorNameForeground))
	t.TextSize = 12
	t.TextStyle.Bold = bold
	if middle {
		at.X -= t.MinSize().Width / 2
	}
	at.X = max(0, min(at.X, v.size.Width-t.MinSize().Width))
	t.Move(at)
	v.os = append(v.os, t)
}

func (v *rateRenderer) line(a, b fyne.Position, width float32, c color.Color) {
	l := canvas.NewLine(c)
	l.StrokeWidth, l.Position1, l.Position2 = width, a, b
	v.os = append(v.os, l)
}
