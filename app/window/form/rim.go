package form

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"haunchbook.example/app/window/look"
)

// rimmed draws a widget of the toolkit with a rim of our own round it.
type rimmed struct {
	fyne.WidgetRenderer
	rim *canvas.Rectangle
	ink func() color.Color // of the rim now
	all []fyne.CanvasObject
}

func newRimmed(of fyne.WidgetRenderer, ink func() color.Color) *rimmed {
	r := &rimmed{WidgetRenderer: of, rim: canvas.NewRectangle(color.Transparent), ink: ink}
	r.paint()
	return r
}

func (r *rimmed) paint() {
	r.rim.StrokeColor = r.ink()
	r.rim.StrokeWidth = 2 * theme.Size(theme.SizeNameInputBorder)
	r.rim.CornerRadius = theme.Size(theme.SizeNameInputRadius)
}

// Layout implements fyne.WidgetRenderer.
func (r *rimmed) Layout(s fyne.Size) {
	r.WidgetRenderer.Layout(s)
	r.rim.Resize(s)
}

// Refresh implements fyne.WidgetRenderer.
func (r *rimmed) Refresh() {
	r.paint()
	r.WidgetRenderer.Refresh()
	r.rim.Refresh()
}

// Objects implements fyne.WidgetRenderer.
func (r *rimmed) Objects() []fyne.CanvasObject {
	r.all = append(append(r.all[:0], r.WidgetRenderer.Objects()...), r.rim)
	return r.all
}

// ring is the rim of what has the keys.
func ring(held bool) color.Color {
	if held {
		return look.Shade(theme.ColorNameFocus)
	}
	return color.Transparent
}
