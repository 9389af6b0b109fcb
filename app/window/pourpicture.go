package window

import (
	"fmt"
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"haunchbook/app/pour"
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
	c.raster.SetMinSize(fyne.NewSize(320, 480))
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

// view shows the slabs, the trucks, and room around them to place another.
func (c *pourPicture) view(w, h float64) view.View {
	j := c.p.w.doc.Job()
	var all geometry.Ring
	for _, s := range j.Slabs {
		all = append(all, s.Outline.Corners()...)
	}
	lo, hi := append(all, j.Pour.Stations...).Bounds()
	return view.Fit(lo, hi, w, h, 36)
}

// drawn is what the picture is painted with.
type drawn struct {
	*paint.Brush
	view.View
	pal scene.Palette
	k   float64 // device pixels per logical one
	u   geometry.Units
}

func (d drawn) at(p geometry.Point) paint.Point {
	s := d.Screen(p)
	return paint.Point{X: s.X * d.k, Y: s.Y * d.k}
}

func (d drawn) rings(rs []geometry.Ring) [][]paint.Point {
	out := make([][]paint.Point, len(rs))
	for i, r := range rs {
		for _, p := range r {
			out[i] = append(out[i], d.at(p))
		}
	}
	return out
}

func (d drawn) text(s string, at paint.Point, up float64, c color.NRGBA) {
	d.Brush.Text(s, paint.Point{X: at.X, Y: at.Y - up*d.k}, scene.TextSize*d.k, false, c)
}

func (c *pourPicture) picture(w, h int) image.Image {
	d := drawn{Brush: &c.brush, pal: palette(), k: 1, u: c.p.w.doc.Units()}
	c.brush.Reset(w, h, d.pal.Paper)
	if !c.p.ready || c.p.w.doc.Blank() {
		return c.brush.Img
	}
	if width := c.Size().Width; width > 0 {
		d.k = float64(w) / float64(width)
	}
	d.View = c.view(float64(w)/d.k, float64(h)/d.k)
	var slabs [][]paint.Point
	for _, s := range c.p.w.doc.Job().Slabs {
		var loops []geometry.Ring
		for _, l := range s.Loops() {
			loops = append(loops, l.Corners())
		}
		rings := d.rings(loops)
		d.Fill(rings, d.pal.Slab)
		slabs = append(slabs, rings...)
	}
	day := c.p.day
	d.bays(day)
	for _, r := range slabs {
		d.Polyline(r, true, 2*d.k, d.pal.Ink)
	}
	d.pads(day.Pads)
	d.places(day.Places)
	d.text("Number: order of placing. Figure: used by the end of the bay. P: wet pad. T: truck or pump, with its reach.",
		paint.Point{X: float64(w) / 2, Y: float64(h)}, 12, d.pal.Dim)
	return c.brush.Img
}

// bays draws strips, and bays with their numbers; shaded the bay in which the
// last load is called.
func (d drawn) bays(day pour.Day) {
	for _, b := range day.Bays {
		rings := d.rings(b.Shape)
		if day.Call.Needed && b.Number == day.Call.Bay {
			shade := d.pal.Accent
			shade.A = 50
			d.Fill(rings, shade)
		}
		for _, r := range rings {
			for n := range r {
				d.Dashes(r[n], r[(n+1)%len(r)], 6*d.k, 4*d.k, d.k, d.pal.Faint)
			}
		}
	}
	for _, s := range day.Strips {
		for _, r := range d.rings(s.Shape) {
			d.Polyline(r, true, 1.6*d.k, d.pal.Saw)
		}
	}
	for i, b := range day.Bays {
		mid, name := d.at(b.Middle), fmt.Sprint(b.Number)
		if !b.Reached && b.Station >= 0 {
			name = "! " + name
		}
		d.Brush.Text(name, paint.Point{X: mid.X, Y: mid.Y - 8*d.k}, 15*d.k, false, d.pal.Accent)
		d.text(fmt.Sprintf("%.1f %s", day.Times[i].Used, day.Unit), mid, -8, d.pal.Text)
		if day.Call.Needed && b.Number == day.Call.Bay {
			d.text("call "+day.Call.At.String(), mid, -23, d.pal.Text)
		}
	}
}

func (d drawn) pads(pads []pour.Pad) {
	for _, p := range pads {
		q := d.at(p.At)
		d.Circle(q, 5*d.k, 2*d.k, d.pal.Joint)
		d.text(fmt.Sprintf("P%d", p.Number), paint.Point{X: q.X + 16*d.k, Y: q.Y}, 9, d.pal.Joint)
		if p.Height != 0 {
			d.text("+"+p.Height.Text(d.u), paint.Point{X: q.X + 36*d.k, Y: q.Y}, -9, d.pal.Joint)
		}
	}
}

func (d drawn) places(places []pour.Place) {
	for i, p := range places {
		q := d.at(p.At)
		if p.Reach > 0 {
			d.Circle(q, d.Pixels(p.Reach)*d.k, d.k, d.pal.Door)
		}
		d.Rect(q.X-13*d.k, q.Y-9*d.k, q.X+13*d.k, q.Y+9*d.k, d.pal.Door)
		d.text(fmt.Sprintf("T%d", i+1), q, 0, d.pal.Paper)
	}
}
