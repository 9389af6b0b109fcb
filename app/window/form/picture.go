package form

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/look"
	"haunchbook.example/app/window/words"
)

// Drawing is a picture of so many device pixels, k of which are in one of the window.
type Drawing struct {
	*paint.Brush
	W, H, K float64
}

// Picture is drawn with a brush, anew whenever it is refreshed.
type Picture struct {
	widget.BaseWidget
	brush  paint.Brush
	raster *canvas.Raster
	draw   func(d Drawing) // on paper of the theme
}

// NewPicture gives a picture of at least a size.
func NewPicture(fonts *paint.Fonts, least fyne.Size, draw func(d Drawing)) *Picture {
	p := &Picture{brush: paint.Brush{Fonts: fonts}, draw: draw}
	p.raster = canvas.NewRaster(p.picture)
	p.raster.SetMinSize(least)
	p.ExtendBaseWidget(p)
	return p
}

func (p *Picture) picture(w, h int) image.Image {
	p.brush.Reset(w, h, look.Palette().Paper)
	k := 1.0
	if width := p.Size().Width; width > 0 {
		k = float64(w) / float64(width)
	}
	p.draw(Drawing{&p.brush, float64(w), float64(h), k})
	return p.brush.Img
}

// CreateRenderer implements fyne.Widget.
func (p *Picture) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.raster) }

// Refresh implements fyne.CanvasObject.
func (p *Picture) Refresh() { p.raster.Refresh() }

// Chart is made of lines and texts, anew whenever its size or what it shows changes.
type Chart struct {
	widget.BaseWidget
	least func() fyne.Size
	draw  func(c *Chart)
	os    []fyne.CanvasObject
}

// NewChart gives a chart, which draw adds its shapes to.
func NewChart(least func() fyne.Size, draw func(c *Chart)) *Chart {
	c := &Chart{least: least, draw: draw}
	c.ExtendBaseWidget(c)
	return c
}

// CreateRenderer implements fyne.Widget.
func (c *Chart) CreateRenderer() fyne.WidgetRenderer {
	r := &chartRenderer{c}
	r.Layout(c.Size())
	return r
}

type chartRenderer struct{ c *Chart }

func (r *chartRenderer) MinSize() fyne.Size           { return r.c.least() }
func (r *chartRenderer) Objects() []fyne.CanvasObject { return r.c.os }
func (r *chartRenderer) Destroy()                     {}

func (r *chartRenderer) Layout(fyne.Size) {
	r.c.os = nil
	r.c.draw(r.c)
}

func (r *chartRenderer) Refresh() {
	r.Layout(r.c.Size())
	canvas.Refresh(r.c)
}

// Line adds a straight line.
func (c *Chart) Line(a, b fyne.Position, width float32, ink color.Color) {
	l := canvas.NewLine(ink)
	l.StrokeWidth, l.Position1, l.Position2 = width, a, b
	c.os = append(c.os, l)
}

// Bar adds a rectangle with an edge; nil for none.
func (c *Chart) Bar(at fyne.Position, size fyne.Size, fill, edge color.Color) {
	r := canvas.NewRectangle(fill)
	if edge != nil {
		r.StrokeColor, r.StrokeWidth = edge, 1.5
	}
	r.Move(at)
	r.Resize(size)
	c.os = append(c.os, r)
}

// Dot adds a disk about a place.
func (c *Chart) Dot(at fyne.Position, across float32, ink color.Color) {
	d := canvas.NewCircle(ink)
	d.Resize(fyne.NewSquareSize(across))
	d.Move(at.SubtractXY(across/2, across/2))
	c.os = append(c.os, d)
}

// Label gives a text of a chart, which Write puts there.
func Label(text string, bold bool) *canvas.Text {
	t := canvas.NewText(words.Say(text), look.Shade(theme.ColorNameForeground))
	t.TextSize = 12
	t.TextStyle.Bold = bold
	return t
}

// Write puts a text with its upper left corner at a place, or moved in so that it is
// not cut off.
func (c *Chart) Write(t *canvas.Text, at fyne.Position) {
	at.X = max(0, min(at.X, c.Size().Width-t.MinSize().Width))
	t.Move(at)
	c.os = append(c.os, t)
}
