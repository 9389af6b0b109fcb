package window

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/solid"
)

// cut shows the slab cut along the line that was drawn.
func (p *editPanel) cut() {
	f := p.form
	f.heading("Section cut")
	pic := &cutPicture{w: p.w}
	pic.brush.Fonts = p.w.fonts
	pic.raster = canvas.NewRaster(pic.picture)
	pic.raster.SetMinSize(fyne.NewSize(200, 170))
	pic.ExtendBaseWidget(pic)
	f.add(pic, pic.Refresh)
	f.note("Heights are drawn larger than widths, so that thicknesses can be read. Depths are from the top of the slab. Draw another line to cut elsewhere; Esc ends.")
	f.buttons(newButton("Back", func() { p.turn(selection) }))
}

// cutPicture draws the underside along a line.
type cutPicture struct {
	widget.BaseWidget
	w      *Window
	brush  paint.Brush
	raster *canvas.Raster
}

// CreateRenderer implements fyne.Widget.
func (c *cutPicture) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(c.raster)
}

// Refresh implements fyne.CanvasObject.
func (c *cutPicture) Refresh() { c.raster.Refresh() }

func (c *cutPicture) picture(w, h int) image.Image {
	pal := palette()
	c.brush.Reset(w, h, pal.Paper)
	k := 1.0
	if width := c.Size().Width; width > 0 {
		k = float64(w) / float64(width)
	}
	size := scene.TextSize * k
	t, _ := c.w.doc.Takeoff()
	if t == nil || c.w.section == nil {
		return c.brush.Img
	}
	a, b := c.w.section[0], c.w.section[1]
	var parts []solid.Profile
	for _, slab := range t.Slabs {
		parts = append(parts, slab.Solid.Cut(a, b)...)
	}
	if len(parts) == 0 {
		c.brush.Text("The line does not meet the slab", paint.Point{X: float64(w) / 2, Y: float64(h) / 2}, size, false, pal.Text)
		return c.brush.Img
	}
	lo, hi, deep := parts[0].From, parts[0].To, geometry.Length(0)
	for _, p := range parts {
		lo, hi, deep = min(lo, p.From), max(hi, p.To), max(deep, p.Start, p.End)
	}
	left, right, top, bottom := 14*k, 14*k, 30*k, 26*k
	sx := (float64(w) - left - right) / float64(max(hi-lo, 1))
	sy := min((float64(h)-top-bottom)/float64(max(deep, 1)), sx*8)
	at := func(x, d geometry.Length) paint.Point {
		return paint.Point{X: left + float64(x-lo)*sx, Y: top + float64(d)*sy}
	}
	for _, p := range parts {
		c.brush.Fill([][]paint.Point{{at(p.From, 0), at(p.From, p.Start), at(p.To, p.End), at(p.To, 0)}}, pal.Slab)
	}
	for i, p := range parts {
		c.brush.Line(at(p.From, 0), at(p.To, 0), 1.6*k, pal.Ink)
		c.brush.Line(at(p.From, p.Start), at(p.To, p.End), 1.6*k, pal.Ink)
		if i == 0 || parts[i-1].To != p.From {
			c.brush.Line(at(p.From, 0), at(p.From, p.Start), 1.6*k, pal.Ink)
		} else if parts[i-1].End != p.Start {
			c.brush.Line(at(p.From, parts[i-1].End), at(p.From, p.Start), 1.6*k, pal.Ink)
		}
		if i == len(parts)-1 || parts[i+1].From != p.To {
			c.brush.Line(at(p.To, 0), at(p.To, p.End), 1.6*k, pal.Ink)
		}
	}
	u := c.w.doc.Units()
	last := -1e9
	for _, p := range parts { // the depth of each level stretch with room for it
		if p.Start != p.End {
			continue
		}
		text := p.Start.Text(u)
		q := at((p.From+p.To)/2, p.Start)
		wide := c.brush.Fonts.Width(text, size)
		x := min(max(q.X, wide/2+2*k), float64(w)-wide/2-2*k)
		if x-wide/2 < last+4*k {
			continue
		}
		last = x + wide/2
		c.brush.Text(text, paint.Point{X: x, Y: q.Y + 11*k}, size, false, pal.Text)
	}
	c.brush.Text("length on the slab "+(hi-lo).Text(u), paint.Point{X: float64(w) / 2, Y: 12 * k}, size, false, pal.Dim)
	return c.brush.Img
}
