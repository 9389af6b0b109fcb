package sheet

import (
	"image/color"
	"math"

	"haunchbook.example/app/language"
	"haunchbook.example/geometry/drawing"
)

// rect is an upright rectangle on paper, and box one that may be turned.
type (
	rect = drawing.Rect
	box  = drawing.Box
)

// draft is a page in the making.
type draft struct {
	page  *Page
	area  rect          // where labels and dimensions may go
	rows  []drawing.Row // what of drawings found no room
	rooms []rect        // what is left of columns that were filled
	say   *language.Speaker

	ink    *filled // of the first items of the page
	looked int     // how many they are
}

// everywhere is a rectangle that holds any sheet.
var everywhere = rect{X0: -1e9, Y0: -1e9, X1: 1e9, Y1: 1e9}

func newDraft(name string, width, height float64) *draft {
	return &draft{
		page: &Page{Name: name, Width: width, Height: height},
		area: rect{X0: 0, Y0: 0, X1: width, Y1: height},
	}
}

// line draws a chain of lines.
func (d *draft) line(layer Layer, pen Pen, pts ...Point) {
	d.page.Items = append(d.page.Items, Line{Layer: layer, Pen: pen, Points: pts})
}

// ring draws a closed shape with its rim.
func (d *draft) ring(layer Layer, pen Pen, fill color.RGBA, pts ...Point) {
	if fill.A > 0 {
		d.fill(layer, fill, pts...)
	}
	if pen.Width > 0 {
		d.line(layer, pen, append(append([]Point{}, pts...), pts[0])...)
	}
}

// fill paints a shape without a rim.
func (d *draft) fill(layer Layer, c color.RGBA, pts ...Point) {
	d.page.Items = append(d.page.Items, Line{Layer: layer, Fill: c, Points: pts, Closed: true})
}

// circle draws a circle.
func (d *draft) circle(layer Layer, pen Pen, fill color.RGBA, c Point, radius float64) {
	d.page.Items = append(d.page.Items, Circle{Layer: layer, Center: c, Radius: radius, Pen: pen, Fill: fill})
}

// put draws a text.
func (d *draft) put(t Text) {
	if t.Text == "" {
		return
	}
	d.page.Items = append(d.page.Items, t)
}

// write puts a text by its left end on the base line.
func (d *draft) write(x, y, size float64, bold bool, s string) {
	d.put(Text{Layer: Notes, At: Point{X: x, Y: y}, Size: size, Bold: bold, Color: black, Text: s})
}

// writeRight puts a text by its right end.
func (d *draft) writeRight(x, y, size float64, bold bool, s string) {
	d.write(x-textWidth(s, size, bold), y, size, bold, s)
}

// writeMid puts a text centered on x.
func (d *draft) writeMid(x, y, size float64, bold bool, s string) {
	d.write(x-textWidth(s, size, bold)/2, y, size, bold, s)
}

// leading is the distance between base lines for text of a size.
func leading(size float64) float64 { return size * mmPerPoint * 1.22 }

// paragraph writes wrapped text from the top down and gives the y below it.
func (d *draft) paragraph(x, top, width, size float64, bold bool, s string) float64 {
	for _, l := range wrap(s, width, size, bold) {
		d.write(x, top-capHeight*size*mmPerPoint, size, bold, l)
		top -= leading(size)
	}
	return top
}

// finish gives the page.
func (d *draft) finish() Page { return *d.page }

func angle(u Point) float64 { return math.Atan2(u.Y, u.X) }
