package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// bar is one bar of a chart: its figure is written at its end.
type bar struct {
	name, text string
	value      float64
}

// barChart is bars from zero, one below the other; the first is what the others
// are measured against.
type barChart struct {
	widget.BaseWidget
	measure string
	bars    []bar
}

func newBarChart() *barChart {
	c := &barChart{measure: "Bid"}
	c.ExtendBaseWidget(c)
	return c
}

func (c *barChart) show(bars []bar) {
	c.bars = bars
	c.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (c *barChart) CreateRenderer() fyne.WidgetRenderer {
	v := &barRenderer{c: c, title: canvas.NewText("", nil), axis: canvas.NewLine(nil), mark: canvas.NewLine(nil)}
	v.Refresh()
	return v
}

type barRenderer struct {
	c           *barChart
	title       *canvas.Text
	axis, mark  *canvas.Line
	rects       []*canvas.Rectangle
	backs       []*canvas.Rectangle // behind the figures, so that the mark does not strike them through
	names, ends []*canvas.Text
}

const (
	barHeight = 22
	barPitch  = 32
	barTop    = 30
)

func (v *barRenderer) MinSize() fyne.Size {
	return fyne.NewSize(320, barTop+barPitch*float32(max(1, len(v.c.bars)))+12)
}

func (v *barRenderer) Layout(s fyne.Size) {
	v.title.Move(fyne.NewPos(0, 2))
	most, names, ends := 0.0, float32(0), float32(0)
	for i, b := range v.c.bars {
		v.names[i].Text = b.name
		most = max(most, b.value)
		names, ends = max(names, v.names[i].MinSize().Width), max(ends, v.ends[i].MinSize().Width)
	}
	left := min(names, s.Width*0.35) + 8
	room := max(20, s.Width-left-ends-12)
	for i, b := range v.c.bars {
		y := barTop + barPitch*float32(i)
		w := float32(0)
		if most > 0 {
			w = room * float32(max(0, b.value)/most)
		}
		v.names[i].Text = shorten(v.names[i], b.name, left-8)
		v.names[i].Move(fyne.NewPos(0, y+(barHeight-v.names[i].MinSize().Height)/2))
		v.rects[i].Move(fyne.NewPos(left, y))
		v.rects[i].Resize(fyne.NewSize(w, barHeight))
		end := v.ends[i].MinSize()
		v.ends[i].Move(fyne.NewPos(left+w+6, y+(barHeight-end.Height)/2))
		v.backs[i].Move(fyne.NewPos(left+w+2, y))
		v.backs[i].Resize(fyne.NewSize(end.Width+8, barHeight))
	}
	foot := barTop + barPitch*float32(len(v.c.bars))
	v.axis.Position1, v.axis.Position2 = fyne.NewPos(left, barTop-4), fyne.NewPos(left, foot)
	if len(v.c.bars) > 0 && most > 0 {
		x := left + room*float32(max(0, v.c.bars[0].value)/most)
		v.mark.Position1, v.mark.Position2 = fyne.NewPos(x, barTop-4), fyne.NewPos(x, foot)
	}
}

// shorten gives as much of a text as has room.
func shorten(t *canvas.Text, text string, room float32) string {
	t.Text = text
	rs := []rune(text)
	for t.MinSize().Width > room && len(rs) > 2 {
		rs = rs[:len(rs)-1]
		t.Text = string(rs) + "…"
	}
	return t.Text
}

func (v *barRenderer) Refresh() {
	ink, faint, accent := shade(theme.ColorNameForeground), shade(theme.ColorNamePlaceHolder), shade(theme.ColorNamePrimary)
	for len(v.rects) < len(v.c.bars) {
		v.rects = append(v.rects, canvas.NewRectangle(nil))
		v.backs = append(v.backs, canvas.NewRectangle(nil))
		v.names = append(v.names, canvas.NewText("", nil))
		v.ends = append(v.ends, canvas.NewText("", nil))
	}
	n := len(v.c.bars)
	v.rects, v.backs, v.names, v.ends = v.rects[:n], v.backs[:n], v.names[:n], v.ends[:n]
	v.title.Text, v.title.Color, v.title.TextSize, v.title.TextStyle.Bold = v.c.measure, ink, 13, true
	v.axis.StrokeColor, v.axis.StrokeWidth = faint, 1
	v.mark.StrokeColor, v.mark.StrokeWidth = faint, 1
	v.mark.Hidden = n == 0
	for i, b := range v.c.bars {
		r := v.rects[i]
		// What is drawn is solid; options are an outline over a tint.
		r.FillColor, r.StrokeColor, r.StrokeWidth = shade(theme.ColorNameSelection), accent, 1.5
		if i == 0 {
			r.FillColor = accent
		}
		v.backs[i].FillColor = shade(theme.ColorNameBackground)
		v.names[i].Color, v.names[i].TextSize = ink, 12
		v.names[i].TextStyle.Bold = i == 0
		v.ends[i].Text, v.ends[i].Color, v.ends[i].TextSize = b.text, ink, 12
	}
	v.Layout(v.c.Size())
	for _, o := range v.Objects() {
		o.Refresh()
	}
}

func (v *barRenderer) Objects() []fyne.CanvasObject {
	os := []fyne.CanvasObject{v.title, v.axis, v.mark}
	for i := range v.rects {
		os = append(os, v.rects[i], v.backs[i], v.names[i], v.ends[i])
	}
	return os
}

func (v *barRenderer) Destroy() {}
