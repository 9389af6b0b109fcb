package options

import (
	"haunchbook.example/app/estimate"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/look"
)

func (d *depth) amount(a handover.AtDepth) string { return estimate.Money(d.money, a.Bid) }

// Room around the curves: amounts at the left, concrete at the right, the names of
// steps above in rows, depths below.
const (
	chartSide  = 84
	chartFoot  = 24
	stepRow    = 15
	stepRows   = 3
	chartAbove = stepRow*stepRows + 24
)

// across gives where a depth stands in a chart so wide.
func (d *depth) across(i int, width float32) float32 {
	at := d.of.At
	first, last := at[0].Edge, at[len(at)-1].Edge
	return chartSide + (width-2*chartSide)*float32(at[i].Edge-first)/float32(max(1, last-first))
}

// nearest gives the depth nearest to a place.
func (d *depth) nearest(x, width float32) int {
	best := 0
	for i := range d.of.At {
		if math.Abs(float64(d.across(i, width)-x)) < math.Abs(float64(d.across(best, width)-x)) {
			best = i
		}
	}
	return best
}

// draw draws bid and concrete over the depths.
func (d *depth) draw(c *form.Chart) {
	at, s, u := d.of.At, c.Size(), d.p.frame.Units()
	if len(at) < 2 || s.Width < 3*chartSide {
		return
	}
	faint, accent := look.Shade(theme.ColorNamePlaceHolder), look.Shade(theme.ColorNamePrimary)
	top, foot := float32(chartAbove), s.Height-chartFoot
	text := func(t string, bold bool, x, y, of float32) {
		l := form.Label(t, bold)
		c.Write(l, fyne.NewPos(x-of*l.MinSize().Width, y))
	}
	for i := range at {
		x := d.across(i, s.Width)
		c.Line(fyne.NewPos(x, foot), fyne.NewPos(x, foot+3), 1, faint)
	}
	for _, i := range []int{0, d.of.Drawn, len(at) - 1} {
		text(at[i].Edge.Text(u), i == d.of.Drawn, d.across(i, s.Width), foot+5, 0.5)
	}
	c.Line(fyne.NewPos(chartSide, foot), fyne.NewPos(s.Width-chartSide, foot), 1, faint)
	d.drawSteps(c, top, foot)
	// The bid is a line in the upper part, the concrete bars in the lower one.
	middle := top + (foot-top)*0.55
	rises := func(rise []float64, top, foot float32) func(i int) float32 {
		return func(i int) float32 { return foot - (foot-top)*float32(rise[i]) }
	}
	bid := rises(d.of.Rise(handover.ByBid), top+8, middle-12)
	concrete := rises(d.of.Rise(handover.ByConcrete), middle+4, foot-16)
	wide := (d.across(len(at)-1, s.Width) - d.across(0, s.Width)) / float32(len(at)) * 0.7
	for i := range at {
		fill := look.Shade(theme.ColorNameSelection)
		if i == d.mark {
			fill = accent
		}
		c.Bar(fyne.NewPos(d.across(i, s.Width)-wide/2, concrete(i)), fyne.NewSize(wide, foot-concrete(i)), fill, nil)
	}
	for i := 1; i < len(at); i++ {
		c.Line(fyne.NewPos(d.across(i-1, s.Width), bid(i-1)), fyne.NewPos(d.across(i, s.Width), bid(i)), 2.5, accent)
	}
	text("Bid", true, 0, 2, 0)
	text("Concrete", true, 0, middle+10, 0)
	for i, of := range map[int]float32{0: 0, len(at) - 1: 1} {
		x := of * s.Width
		text(d.amount(at[i]), false, x, bid(i)-8, of)
		text(at[i].Ordered.String()+" "+string(at[i].Volume), false, x, max(concrete(i)-8, middle+26*(1-of)), of)
	}
	x := d.across(d.mark, s.Width)
	ink := look.Shade(theme.ColorNameForeground)
	c.Line(fyne.NewPos(x, top-4), fyne.NewPos(x, foot), 2, ink)
	c.Dot(fyne.NewPos(x, bid(d.mark)), 11, accent)
	c.Dot(fyne.NewPos(x, foot), 13, ink)
	text(at[d.mark].Edge.Text(u)+"  "+d.amount(at[d.mark])+"  "+at[d.mark].Ordered.String()+" "+string(at[d.mark].Volume), true, x, top-22, 0.5)
}

// drawSteps marks the depths at which something changes, as many by name as there is
// room for; all stand in words below.
func (d *depth) drawSteps(c *form.Chart, top, foot float32) {
	var ends [stepRows]float32
	for _, s := range d.of.Steps {
		for i, a := range d.of.At {
			if a.Edge != s.Depth {
				continue
			}
			x := d.across(i, c.Size().Width)
			c.Line(fyne.NewPos(x, top), fyne.NewPos(x, foot), 1, look.Shade(theme.ColorNameSeparator))
			name := form.Label(s.Text, false)
			name.TextSize = 11
			left := x - name.MinSize().Width/2
			for row := range ends {
				if left > max(ends[row], chartSide/2) && left+name.MinSize().Width < c.Size().Width-chartSide/2 {
					c.Write(name, fyne.NewPos(left, stepRow*float32(row)))
					ends[row] = left + name.MinSize().Width + 6
					break
				}
			}
		}
	}
}

// handle lies over the chart and moves its mark, by mouse or arrow keys.
type handle struct {
	widget.BaseWidget
	d    *depth
	ring *canvas.Rectangle
}

func newHandle(d *depth) *handle {
	h := &handle{d: d, ring: canvas.NewRectangle(color.Transparent)}
	h.ring.StrokeWidth, h.ring.CornerRadius = 2, 4
	h.ExtendBaseWidget(h)
	return h
}

// CreateRenderer implements fyne.Widget.
func (h *handle) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(h.ring) }

func (h *handle) to(x float32) {
	if len(h.d.of.At) > 0 {
		h.d.move(h.d.nearest(x, h.Size().Width))
	}
}

// MouseDown implements desktop.Mouseable.
func (h *handle) MouseDown(e *desktop.MouseEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(h); c != nil {
		c.Focus(h)
	}
	h.to(e.Position.X)
}

// MouseUp implements desktop.Mouseable.
func (h *handle) MouseUp(*desktop.MouseEvent) {}

// Dragged implements fyne.Draggable.
func (h *handle) Dragged(e *fyne.DragEvent) { h.to(e.Position.X) }

// DragEnd implements fyne.Draggable.
func (h *handle) DragEnd() {}

// Cursor implements desktop.Cursorable.
func (h *handle) Cursor() desktop.Cursor { return desktop.HResizeCursor }

// FocusGained implements fyne.Focusable.
func (h *handle) FocusGained() {
	h.ring.StrokeColor = look.Shade(theme.ColorNameFocus)
	h.ring.Refresh()
}

// FocusLost implements fyne.Focusable.
func (h *handle) FocusLost() {
	h.ring.StrokeColor = color.Transparent
	h.ring.Refresh()
}

// TypedRune implements fyne.Focusable.
func (h *handle) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (h *handle) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyRight:
		h.d.move(h.d.mark + 1)
	case fyne.KeyLeft:
		h.d.move(h.d.mark - 1)
	case fyne.KeyHome:
		h.d.move(0)
	case fyne.KeyEnd:
		h.d.move(len(h.d.of.At))
	default:
		form.HandOn(h, k.Name)
	}
}
