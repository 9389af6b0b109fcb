package window

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/look"
	"haunchbook.example/app/window/words"
)

// toolEntry is a tool of the rail: its name, its key, its drawing, and the state it
// starts.
type toolEntry struct {
	name  string
	key   rune
	icon  icon
	start func() tool.State
}

// icon is strokes in a square of 24 by 24, Y down; a stroke of one point is a
// dot.
type icon [][]float64

// tools lists the rail from top to bottom.
func tools() []toolEntry {
	return []toolEntry{
		{"Select", 'v', icon{{7, 4, 7, 18, 11, 14.5, 14, 20, 16.5, 18.8, 13.5, 13.5, 18, 13, 7, 4}}, func() tool.State { return &tool.Select{} }},
		{"Outline", 'l', icon{{4, 19, 4, 6, 14, 6, 14, 12, 20, 12, 20, 19}, {4, 19}, {20, 19}}, func() tool.State { return &tool.Chain{What: tool.Outline} }},
		{"Rectangle", 'r', icon{{4, 6, 20, 6, 20, 18, 4, 18, 4, 6}, {4, 18}, {20, 6}}, func() tool.State { return &tool.Rectangle{What: tool.Outline} }},
		{"Door", 'd', icon{{3, 16, 8, 16}, {16, 16, 21, 16}, {8, 12, 8, 20}, {16, 12, 16, 20}, {8, 12, 8, 6}, {8, 6, 11, 6.6, 13.6, 8.2, 15.4, 10, 16, 12}}, func() tool.State { return &tool.PlaceDoor{} }},
		{"Bolt marks", 'k', icon{{3, 19, 21, 19}, {12, 19, 12, 7}, {12, 19, 12, 22}, {8.5, 10, 15.5, 10}, {8.5, 7, 15.5, 7, 17, 4.5, 15.5, 2, 8.5, 2, 7, 4.5, 8.5, 7}}, func() tool.State { return &tool.PlaceBolt{} }},
		{"Paint edges", 'p', icon{{4, 20, 20, 20}, {4, 17.5, 20, 17.5}, {9, 13, 17, 5, 19, 7, 11, 15, 8, 16, 9, 13}}, func() tool.State { return &tool.Paint{} }},
		{"Hole", 'h', icon{{3, 5, 21, 5, 21, 19, 3, 19, 3, 5}, {9, 9, 15, 9, 15, 15, 9, 15, 9, 9}}, func() tool.State { return &tool.Rectangle{What: tool.Hole} }},
		{"Pad", 'a', icon{{6, 8, 18, 8, 18, 20, 6, 20, 6, 8}, {12, 3, 12, 14}, {9, 11, 12, 14, 15, 11}}, func() tool.State { return &tool.PlacePad{} }},
		{"Strip", 'b', icon{{3, 10, 21, 10}, {3, 14, 21, 14}, {3, 12, 6, 12}, {9, 12, 15, 12}, {18, 12, 21, 12}}, func() tool.State { return &tool.Chain{What: tool.Band} }},
		{"Fall", 'f', icon{{3, 7, 21, 16}, {3, 7, 3, 19, 21, 19, 21, 16}, {15, 9.5, 19, 11.6, 14.6, 13.4}}, func() tool.State { return &tool.PlaceFall{} }},
		{"Move", 'm', icon{{12, 3, 12, 21}, {3, 12, 21, 12}, {9, 6, 12, 3, 15, 6}, {9, 18, 12, 21, 15, 18}, {6, 9, 3, 12, 6, 15}, {18, 9, 21, 12, 18, 15}}, func() tool.State { return &tool.MovePlan{} }},
		{"Note", 'w', icon{{3, 20, 9, 12, 21, 12}, {3, 20, 4.2, 15.6}, {3, 20, 7.2, 18.2}, {10, 8, 21, 8}, {10, 4.5, 18, 4.5}}, func() tool.State { return &tool.PlaceNote{} }},
		{"Benchmark", 'e', icon{{4, 8, 20, 8}, {5, 8, 12, 19, 19, 8}, {12, 8, 12, 19}, {12, 3, 12, 8}}, func() tool.State { return &tool.PlaceBenchmark{} }},
		{"North", 'n', icon{{12, 21, 12, 3}, {7, 10, 12, 3, 17, 10}, {9, 21, 9, 15, 15, 21, 15, 15}}, func() tool.State { return &tool.PlaceNorth{} }},
		{"Measure", 't', icon{{3, 15, 21, 15, 21, 9, 3, 9, 3, 15}, {7, 15, 7, 12}, {11, 15, 11, 11}, {15, 15, 15, 12}, {19, 15, 19, 12}}, func() tool.State { return &tool.Measure{} }},
		{"Section", 'x', icon{{3, 7, 21, 7}, {3, 7, 3, 18, 8, 18, 11, 11, 21, 11}, {12, 3, 12, 5}, {12, 14, 12, 16}, {12, 19, 12, 21}}, func() tool.State { return &tool.Measure{Cuts: true} }},
	}
}

// rail is the column of tools at the left.
type rail struct {
	buttons []*railButton
	names   []string
	object  fyne.CanvasObject
}

func newRail(use func(tool.State)) *rail {
	r := &rail{}
	box := container.New(&column{most: 43})
	for _, t := range tools() {
		b := newRailButton(t, func() { use(t.start()) })
		r.buttons = append(r.buttons, b)
		r.names = append(r.names, t.start().Name())
		box.Add(b)
	}
	r.object = container.NewVScroll(box)
	return r
}

// show marks the tool in use.
func (r *rail) show(state string) {
	for i, b := range r.buttons {
		if on := r.names[i] == state; on != b.on {
			b.on = on
			b.Refresh()
		}
	}
}

// column stacks things without gaps, as high as there is room for and as they
// like to be.
type column struct{ most float32 }

func (c *column) Layout(os []fyne.CanvasObject, s fyne.Size) {
	y, share := float32(0), s.Height/float32(max(len(os), 1))
	for _, o := range os {
		h := max(o.MinSize().Height, min(share, c.most))
		o.Resize(fyne.NewSize(s.Width, h))
		o.Move(fyne.NewPos(0, y))
		y += h
	}
}

func (*column) MinSize(os []fyne.CanvasObject) fyne.Size {
	var s fyne.Size
	for _, o := range os {
		m := o.MinSize()
		s.Width = max(s.Width, m.Width)
		s.Height += m.Height
	}
	return s
}

// railButton is a tool: a drawing, its name and its key.
type railButton struct {
	form.Hand
	tool toolEntry
	on   bool
}

func newRailButton(t toolEntry, tap func()) *railButton {
	b := &railButton{tool: t}
	b.Become(b, tap)
	return b
}

// CreateRenderer implements fyne.Widget.
func (b *railButton) CreateRenderer() fyne.WidgetRenderer {
	r := &railRenderer{b: b, ground: canvas.NewRectangle(color.Transparent), bar: canvas.NewRectangle(color.Transparent), label: canvas.NewText(words.Say(b.tool.name), color.Transparent), key: canvas.NewText(string(b.tool.key-'a'+'A'), color.Transparent)}
	r.label.TextSize = 11
	r.label.Alignment = fyne.TextAlignCenter
	r.key.TextSize = 11
	r.icon = canvas.NewRaster(r.draw)
	r.Refresh()
	return r
}

type railRenderer struct {
	b           *railButton
	ground, bar *canvas.Rectangle
	icon        *canvas.Raster
	label, key  *canvas.Text
	brush       paint.Brush
}

// draw draws the strokes of the icon.
func (r *railRenderer) draw(w, h int) image.Image {
	pal := look.Palette()
	r.brush.Reset(w, h, scene.Palette{}.Paper)
	k := math.Min(float64(w), float64(h)) / 24
	c := pal.Ink
	if r.b.on {
		c = pal.Accent
	}
	for _, s := range r.b.tool.icon {
		if len(s) == 2 {
			r.brush.Circle(paint.Point{X: s[0] * k, Y: s[1] * k}, 2.2*k, 0, c)
			continue
		}
		for i := 2; i+1 < len(s); i += 2 {
			r.brush.Line(paint.Point{X: s[i-2] * k, Y: s[i-1] * k}, paint.Point{X: s[i] * k, Y: s[i+1] * k}, 1.5*k, c)
		}
	}
	return r.brush.Img
}

func (r *railRenderer) MinSize() fyne.Size {
	return fyne.NewSize(max(78, r.label.MinSize().Width+4), 33)
}

func (r *railRenderer) Layout(s fyne.Size) {
	r.ground.Resize(s)
	r.bar.Resize(fyne.NewSize(3, s.Height))
	side := min(24, s.Height-16)
	r.icon.Resize(fyne.NewSize(side, side))
	r.icon.Move(fyne.NewPos((s.Width-side)/2, min(2, s.Height-16-side)))
	r.label.Resize(fyne.NewSize(s.Width, 16))
	r.label.Move(fyne.NewPos(0, min(25.5, s.Height-16.5)))
	r.key.Move(fyne.NewPos(s.Width-14, 3))
}

func (r *railRenderer) Refresh() {
	r.label.Color, r.key.Color = look.Shade(theme.ColorNameForeground), look.Shade(theme.ColorNamePlaceHolder)
	r.label.TextStyle.Bold = r.b.on
	r.b.Ground(r.ground, r.b.on)
	r.bar.FillColor = color.Transparent
	if r.b.on {
		r.bar.FillColor = look.Shade(theme.ColorNamePrimary)
	}
	r.bar.Refresh()
	r.icon.Refresh()
	r.label.Refresh()
	r.key.Refresh()
}

func (r *railRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ground, r.bar, r.icon, r.label, r.key}
}

func (r *railRenderer) Destroy() {}
