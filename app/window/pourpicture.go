package window

import (
	"fmt"
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"haunchbook/app/window/canvas/paint"
	"haunchbook/app/window/canvas/scene"
	"haunchbook/app/window/canvas/view"
	"haunchbook/geometry"
)

// pourPicture shows strips, bays in the order they are placed, wet pads and the
// places of trucks on the slab.
type pourPicture struct {
	widget.BaseWidget
	p      *pourPage
	brush  paint.Brush
	raster *canvas.Raster
	armed  bool // the next click places a truck
}

func newPourPicture(p *pourPage) *pourPicture {
	c := &pourPicture{p: p}
	c.brush.Fonts = p.w.fonts
	c.raster = canvas.NewRaster(c.picture)
	c.raster.SetMinSize(fyne.NewSize(320, 400))
	c.ExtendBaseWidget(c)
	return c
}

// CreateRenderer implements fyne.Widget.
func (c *pourPicture) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(c.raster)
}

// Refresh implements fyne.CanvasObject.
func (c *pourPicture) Refresh() { c.raster.Refresh() }

// Tapped implements fyne.Tappable.
func (c *pourPicture) Tapped(e *fyne.PointEvent) {
	if !c.armed {
		return
	}
	c.armed = false
	s := c.Size()
	at := c.view(float64(s.Width), float64(s.Height)).Plan(view.XY{X: float64(e.Position.X), Y: float64(e.Position.Y)})
	step := geometry.Inch
	if c.p.w.doc.Units() == geometry.Millimetres {
		step = 10 * geometry.Millimetre
	}
	c.p.report(c.p.place(geometry.Point{X: at.X.Round(step), Y: at.Y.Round(step)}))
}

// view shows the slab, the trucks, and room around them to place another.
func (c *pourPicture) view(w, h float64) view.View {
	j := c.p.w.doc.Job()
	lo, hi := j.Slabs[0].Outline.Corners().Bounds()
	for _, s := range j.Pour.Stations {
		lo = geometry.Point{X: min(lo.X, s.X), Y: min(lo.Y, s.Y)}
		hi = geometry.Point{X: max(hi.X, s.X), Y: max(hi.Y, s.Y)}
	}
	return view.Fit(lo, hi, w, h, 36)
}

func (c *pourPicture) picture(w, h int) image.Image {
	pal := palette()
	c.brush.Reset(w, h, pal.Paper)
	j := c.p.w.doc.Job()
	if len(j.Slabs[0].Outline) == 0 || !c.p.ready {
		return c.brush.Img
	}
	k := 1.0
	if width := c.Size().Width; width > 0 {
		k = float64(w) / float64(width)
	}
	v := c.view(float64(w)/k, float64(h)/k)
	at := func(p geometry.Point) paint.Point {
		s := v.Screen(p)
		return paint.Point{X: s.X * k, Y: s.Y * k}
	}
	var rings [][]paint.Point
	for _, l := range j.Slabs[0].Loops() {
		var r []paint.Point
		for _, e := range l {
			r = append(r, at(e.At))
		}
		rings = append(rings, r)
	}
	c.brush.Fill(rings, pal.Slab)
	size := scene.TextSize * k
	day := c.p.day
	for i, b := range day.Bays {
		var q []paint.Point
		for _, p := range b.Corners {
			q = append(q, at(p))
		}
		for n := range q {
			c.brush.Dashes(q[n], q[(n+1)%4], 6*k, 4*k, 1*k, pal.Faint)
		}
		mid := paint.Point{X: (q[0].X + q[2].X) / 2, Y: (q[0].Y + q[2].Y) / 2}
		name := fmt.Sprint(b.Number)
		if !b.Reached && b.Station >= 0 {
			name = "! " + name
		}
		c.brush.Text(name, paint.Point{X: mid.X, Y: mid.Y - 8*k}, 15*k, false, pal.Accent)
		c.brush.Text(fmt.Sprintf("%.1f %s", day.Times[i].Used, day.Unit), paint.Point{X: mid.X, Y: mid.Y + 8*k}, size, false, pal.Text)
	}
	for _, s := range day.Strips {
		for n := range s.Corners {
			c.brush.Line(at(s.Corners[n]), at(s.Corners[(n+1)%4]), 1.6*k, pal.Saw)
		}
	}
	for _, r := range rings {
		c.brush.Polyline(r, true, 2*k, pal.Ink)
	}
	for _, p := range day.Pads {
		q := at(p.At)
		c.brush.Circle(q, 5*k, 2*k, pal.Joint)
		c.brush.Text(fmt.Sprintf("P%d", p.Number), paint.Point{X: q.X + 16*k, Y: q.Y - 9*k}, size, false, pal.Joint)
	}
	for i, s := range j.Pour.Stations {
		q := at(s)
		c.brush.Rect(q.X-13*k, q.Y-9*k, q.X+13*k, q.Y+9*k, pal.Door)
		c.brush.Text(fmt.Sprintf("T%d", i+1), q, size, false, pal.Paper)
	}
	c.brush.Text("Number: order of placing. Figure: used by the end of the bay. P: wet pad. T: truck or pump.",
		paint.Point{X: float64(w) / 2, Y: float64(h) - 12*k}, size, false, pal.Dim)
	return c.brush.Img
}
