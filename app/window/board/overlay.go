package board

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/app/window/look"
	"haunchbook.example/app/window/words"
)

// CreateRenderer implements fyne.Widget.
func (p *Plan) CreateRenderer() fyne.WidgetRenderer {
	r := &planRenderer{p: p}
	r.Refresh()
	return r
}

// planRenderer keeps a pool of objects for the overlay.
type planRenderer struct {
	p       *Plan
	objects []fyne.CanvasObject
	lines   []*canvas.Line
	rings   []*canvas.Circle
	labels  []*plate
}

// plate is a text on a ground of its own.
type plate struct {
	ground *canvas.Rectangle
	text   *canvas.Text
}

func (r *planRenderer) Layout(s fyne.Size) { r.p.raster.Resize(s) }

func (r *planRenderer) MinSize() fyne.Size { return r.p.MinSize() }

func (r *planRenderer) Objects() []fyne.CanvasObject { return r.objects }

func (r *planRenderer) Destroy() {}

// Refresh sets the pool to the overlay.
func (r *planRenderer) Refresh() {
	o := &r.p.overlay
	r.p.Machine.Overlay(o)
	pal := look.Palette()
	before := len(r.lines) + len(r.rings) + len(r.labels)
	for len(r.lines) < len(o.Lines) {
		r.lines = append(r.lines, canvas.NewLine(color.Transparent))
	}
	for len(r.rings) < len(o.Rings) {
		r.rings = append(r.rings, canvas.NewCircle(color.Transparent))
	}
	for len(r.labels) < len(o.Labels) {
		t := canvas.NewText("", color.Black)
		t.TextSize = scene.TextSize
		g := canvas.NewRectangle(color.Transparent)
		g.CornerRadius = 3
		r.labels = append(r.labels, &plate{g, t})
	}
	for i, l := range r.lines {
		if i >= len(o.Lines) {
			l.Hide()
			continue
		}
		c, w := stroke(o.Lines[i].Style, pal)
		l.StrokeColor, l.StrokeWidth = c, w
		l.Position1, l.Position2 = Position(o.Lines[i].A), Position(o.Lines[i].B)
		l.Show()
		l.Refresh()
	}
	for i, c := range r.rings {
		if i >= len(o.Rings) {
			c.Hide()
			continue
		}
		g := o.Rings[i]
		col, w := stroke(g.Style, pal)
		c.StrokeColor, c.StrokeWidth = col, max(w, 1.5)
		rad := float32(g.Radius)
		c.Move(Position(g.At).SubtractXY(rad, rad))
		c.Resize(fyne.NewSize(2*rad, 2*rad))
		c.Show()
		c.Refresh()
	}
	for i, l := range r.labels {
		if i >= len(o.Labels) {
			l.ground.Hide()
			l.text.Hide()
			continue
		}
		r.label(l, o.Labels[i], pal)
	}
	if n := len(r.lines) + len(r.rings) + len(r.labels); n != before || r.objects == nil {
		r.objects = r.objects[:0]
		r.objects = append(r.objects, r.p.raster)
		for _, l := range r.lines {
			r.objects = append(r.objects, l)
		}
		for _, c := range r.rings {
			r.objects = append(r.objects, c)
		}
		for _, l := range r.labels {
			r.objects = append(r.objects, l.ground, l.text)
		}
	}
}

// label places a label, moved in so that it is not cut off.
func (r *planRenderer) label(l *plate, o tool.Label, pal scene.Palette) {
	l.text.Text = words.Say(o.Text)
	l.text.TextStyle.Bold = o.Style == tool.Typing || o.Style == tool.Question
	l.text.TextSize = scene.TextSize
	if o.Style == tool.Typing || o.Style == tool.Question {
		l.text.TextSize = 14
	}
	l.text.Color, l.ground.FillColor, l.ground.StrokeColor = pal.Text, pal.Paper, pal.GridBold
	l.ground.StrokeWidth = 1
	switch o.Style {
	case tool.Guide:
		l.text.Color = pal.Dim
	case tool.Typing, tool.Question:
		l.ground.StrokeColor = pal.Accent
	}
	size := l.text.MinSize()
	box := size.AddWidthHeight(10, 4)
	pos := Position(o.At).SubtractXY(0, box.Height/2)
	if o.Style == tool.Question {
		pos = pos.SubtractXY(box.Width/2, 0)
	}
	limit := r.p.Size()
	pos.X = max(2, min(pos.X, limit.Width-box.Width-2))
	pos.Y = max(2, min(pos.Y, limit.Height-box.Height-2))
	l.ground.Resize(box)
	l.ground.Move(pos)
	l.text.Resize(size)
	l.text.Move(pos.AddXY(5, 2))
	l.ground.Show()
	l.text.Show()
	l.ground.Refresh()
	l.text.Refresh()
}

// Position gives where a place on the screen is in the widget.
func Position(s view.XY) fyne.Position { return fyne.NewPos(float32(s.X), float32(s.Y)) }

// stroke gives how an overlay line is drawn.
func stroke(s tool.Style, pal scene.Palette) (color.Color, float32) {
	switch s {
	case tool.Guide:
		c := pal.Accent
		c.A = 150
		return c, 1
	case tool.Hovered:
		c := pal.Accent
		c.A = 130
		return c, 4
	case tool.Chosen:
		return pal.Select, 4
	case tool.Marker:
		return pal.Accent, 2
	case tool.Origin:
		return pal.Ink, 1.5
	}
	return pal.Accent, 2
}
