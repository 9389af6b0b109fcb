package pour

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/app/window/look"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
)

// picture shows lanes, bays in the order they are placed, wet pads and the places of
// trucks on the slab.
type picture struct {
	widget.BaseWidget
	p      *Page
	scene  scene.Scene
	raster *canvas.Raster
	armed  bool // the next click places a truck
}

func newPicture(p *Page, fonts *paint.Fonts) *picture {
	c := &picture{p: p}
	c.scene.Brush.Fonts = fonts
	c.raster = canvas.NewRaster(c.draw)
	c.raster.SetMinSize(fyne.NewSize(320, 480))
	c.ExtendBaseWidget(c)
	return c
}

// CreateRenderer implements fyne.Widget.
func (c *picture) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(c.raster) }

// Refresh implements fyne.CanvasObject.
func (c *picture) Refresh() { c.raster.Refresh() }

// Tapped implements fyne.Tappable.
func (c *picture) Tapped(e *fyne.PointEvent) {
	if !c.armed {
		return
	}
	c.armed = false
	s := c.Size()
	at := c.view(float64(s.Width), float64(s.Height)).Plan(view.XY{X: float64(e.Position.X), Y: float64(e.Position.Y)})
	step := geometry.Inch
	if c.p.frame.Units() == geometry.Millimeters {
		step = 10 * geometry.Millimeter
	}
	c.p.form.Act(func() error { return c.p.place(geometry.Point{X: at.X.Round(step), Y: at.Y.Round(step)}) })()
}

// view shows the slabs, the trucks, and room around them to place another.
func (c *picture) view(w, h float64) view.View {
	j := c.p.frame.Job()
	var all geometry.Ring
	for _, s := range j.Slabs {
		all = append(all, s.Outline.Rim()...)
	}
	lo, hi := append(all, j.Pour.Stations...).Bounds()
	return view.Fit(lo, hi, w, h, 36)
}

// draw draws what the plan's layer of the pour shows, and nothing else.
func (c *picture) draw(w, h int) image.Image {
	k := 1.0
	if width := c.Size().Width; width > 0 {
		k = float64(w) / float64(width)
	}
	j := c.p.frame.Job()
	in := scene.Input{
		Units: j.Units, View: c.view(float64(w)/k, float64(h)/k), Ratio: k, Palette: look.Palette(), Layers: scene.Layers{Pour: true},
	}
	for i, s := range j.Slabs {
		if i > 0 && s.Blank() {
			continue
		}
		slab := planview.Slab{Number: i, Plan: s}
		if len(j.Slabs) > 1 {
			slab.Name = s.Called(i)
		}
		in.Slabs = append(in.Slabs, slab)
	}
	if c.p.ready {
		in.Pour = handover.PoursDrawn(c.p.days, j.Units)
	}
	c.scene.Draw(in, w, h)
	return c.scene.Brush.Img
}
