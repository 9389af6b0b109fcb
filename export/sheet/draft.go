package sheet

import (
	"image/color"
	"math"
)

// rect is an upright rectangle on paper.
type rect struct{ x0, y0, x1, y1 float64 }

func (r rect) width() float64  { return r.x1 - r.x0 }
func (r rect) height() float64 { return r.y1 - r.y0 }
func (r rect) center() Point   { return Point{(r.x0 + r.x1) / 2, (r.y0 + r.y1) / 2} }
func (r rect) inset(d float64) rect {
	return rect{r.x0 + d, r.y0 + d, r.x1 - d, r.y1 - d}
}

func (r rect) holds(b box) bool {
	lo, hi := b.bounds()
	return lo.X >= r.x0 && lo.Y >= r.y0 && hi.X <= r.x1 && hi.Y <= r.y1
}

// draft is a page in the making. What is drawn on it is remembered as an
// obstacle, so that later lines and labels find a free place.
type draft struct {
	page    *Page
	obs     *obstacles
	area    rect     // where labels and dimensions may go
	missing []string // what found no place
	rooms   []rect   // what is left of columns that were filled
	clip    rect     // what is seen of the plan: all but on the sheets of a split one
}

// everywhere is a rectangle that holds any sheet.
var everywhere = rect{-1e9, -1e9, 1e9, 1e9}

// clearances around what is drawn, in millimeters.
const (
	clearText = 0.5
	clearLine = 0.35
)

func newDraft(name string, width, height float64) *draft {
	return &draft{
		page: &Page{Name: name, Width: width, Height: height},
		obs:  newObstacles(),
		area: rect{0, 0, width, height},
		clip: everywhere,
	}
}

// line draws a chain of lines that text keeps clear of.
func (d *draft) line(layer Layer, pen Pen, pts ...Point) {
	for _, part := range clipChain(pts, d.clip) {
		d.page.Items = append(d.page.Items, Line{Layer: layer, Pen: pen, Points: part})
		d.blockChain(pen, part)
	}
}

// ring draws a closed shape whose rim text keeps clear of.
func (d *draft) ring(layer Layer, pen Pen, fill color.RGBA, pts ...Point) {
	if fill.A > 0 {
		d.fill(layer, fill, pts...)
	}
	if pen.Width > 0 {
		d.line(layer, pen, append(append([]Point{}, pts...), pts[0])...)
	}
}

func (d *draft) blockChain(pen Pen, pts []Point) {
	for i := 1; i < len(pts); i++ {
		d.obs.add(boxOf(pts[i-1], pts[i], pen.Width/2+clearLine), false)
	}
}

// soft draws a line that is broken where text stands on it.
func (d *draft) soft(layer Layer, pen Pen, pts ...Point) {
	for _, part := range clipChain(pts, d.clip) {
		d.page.Items = append(d.page.Items, Line{Layer: layer, Pen: pen, Points: part, Soft: true})
	}
}

// fill paints a shape without a rim.
func (d *draft) fill(layer Layer, c color.RGBA, pts ...Point) {
	if pts = clipShape(pts, d.clip); len(pts) > 2 {
		d.page.Items = append(d.page.Items, Line{Layer: layer, Fill: c, Points: pts, Closed: true})
	}
}

// circle draws a circle that text keeps clear of.
func (d *draft) circle(layer Layer, pen Pen, fill color.RGBA, c Point, radius float64) {
	if !d.clip.has(c) {
		return
	}
	d.page.Items = append(d.page.Items, Circle{Layer: layer, Center: c, Radius: radius, Pen: pen, Fill: fill})
	r := radius + pen.Width/2
	d.obs.add(box{c, Point{1, 0}, r, r}, false)
}

// put draws a text and remembers where.
func (d *draft) put(t Text) {
	if t.Text == "" {
		return
	}
	d.page.Items = append(d.page.Items, t)
	d.obs.add(t.box().grown(clearText), true)
}

// write puts a text by its left end on the base line.
func (d *draft) write(x, y, size float64, bold bool, s string) {
	d.put(Text{Layer: Notes, At: Point{x, y}, Size: size, Bold: bold, Color: black, Text: s})
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
func leading(size float64) float64 { return size * mmPerPoint * 1.28 }

// paragraph writes wrapped text from the top down and gives the y below it.
func (d *draft) paragraph(x, top, width, size float64, bold bool, s string) float64 {
	for _, l := range wrap(s, width, size, bold) {
		d.write(x, top-capHeight*size*mmPerPoint, size, bold, l)
		top -= leading(size)
	}
	return top
}

// attempt runs f and keeps what it draws only if f says so.
func (d *draft) attempt(f func() bool) bool {
	items, boxes, measures := len(d.page.Items), len(d.obs.boxes), len(d.page.measures)
	if f() {
		return true
	}
	d.page.Items, d.page.measures = d.page.Items[:items], d.page.measures[:measures]
	d.obs.forget(boxes)
	return false
}

// free tells whether b lies in the drawing area and clear of everything.
func (d *draft) free(b box) bool { return d.area.holds(b) && !d.obs.hit(b, false) }

// finish breaks soft lines where text stands and gives the page.
func (d *draft) finish() Page {
	texts := newObstacles()
	for _, it := range d.page.Items {
		if t, ok := it.(Text); ok {
			texts.add(t.box().grown(clearText), true)
		}
	}
	var out []Item
	for _, it := range d.page.Items {
		if c, ok := it.(Circle); ok && c.Soft && texts.hit(box{c.Center, Point{1, 0}, c.Radius, c.Radius}, true) {
			continue
		}
		l, ok := it.(Line)
		if !ok || !l.Soft {
			out = append(out, it)
			continue
		}
		for _, chain := range breakChain(l, texts) {
			l.Points, l.Closed = chain, false
			out = append(out, l)
		}
	}
	d.page.Items = out
	return *d.page
}

// breakChain gives what is left of a line outside all text.
func breakChain(l Line, texts *obstacles) [][]Point {
	pts := l.Points
	if l.Closed {
		pts = append(append([]Point{}, pts...), pts[0])
	}
	var chains [][]Point
	var open []Point
	shut := func() {
		if len(open) > 1 {
			chains = append(chains, open)
		}
		open = nil
	}
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		for _, s := range gaps(a, b, l.Pen.Width/2, texts) {
			p, q := a.add(b.sub(a).times(s[0])), a.add(b.sub(a).times(s[1]))
			if len(open) == 0 || s[0] > 0 {
				shut()
				open = []Point{p}
			}
			open = append(open, q)
			if s[1] < 1 {
				shut()
			}
		}
	}
	shut()
	return chains
}

// gaps gives the stretches of a-b that no text covers, as pairs of fractions.
func gaps(a, b Point, half float64, texts *obstacles) [][2]float64 {
	keep := [][2]float64{{0, 1}}
	for t := range texts.each(boxOf(a, b, half)) {
		from, to, ok := t.grown(half).cuts(a, b)
		if !ok {
			continue
		}
		var next [][2]float64
		for _, k := range keep {
			for _, part := range [2][2]float64{{k[0], min(k[1], from)}, {max(k[0], to), k[1]}} {
				if part[1]-part[0] > 1e-9 {
					next = append(next, part)
				}
			}
		}
		keep = next
	}
	return keep
}

// readable turns an angle so that text along it reads from below or the right.
func readable(u Point) Point {
	if u.X < -1e-9 || math.Abs(u.X) <= 1e-9 && u.Y < 0 {
		return u.times(-1)
	}
	return u
}

func angle(u Point) float64 { return math.Atan2(u.Y, u.X) }
