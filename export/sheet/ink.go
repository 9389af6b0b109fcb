package sheet

import (
	"image"
	"image/color"
	"math"

	"github.com/tdewolff/canvas"

	"haunchbook.example/export/look"
	"haunchbook.example/geometry/drawing"
)

// Point is a place on paper, in millimeters from the lower left corner.
type Point = drawing.Vec

// Layer groups what is drawn by what it shows; the DXF file has the same layers.
type Layer = drawing.Layer

// The layers of what stands beside drawings.
const (
	Frame     = drawing.Frame
	Dimension = drawing.Dimensions
	Notes     = drawing.Notes
)

// Pen is how a line is drawn. Widths and dashes are millimeters on paper.
type Pen struct {
	Width float64
	Color color.RGBA
	Dash  []float64
}

// The inks, and the pens by weight and dash.
var (
	black  = look.Black
	gray   = look.Gray
	blue   = look.Blue
	pale   = look.Pale
	white  = look.White
	noFill = color.RGBA{}

	penEdge   = Pen{Width: 0.7, Color: black}
	penJoint  = Pen{Width: 0.9, Color: black, Dash: []float64{6, 1.4, 1.4, 1.4}}
	penHidden = Pen{Width: 0.22, Color: gray, Dash: []float64{2, 1.2}}
	penDim    = Pen{Width: 0.18, Color: blue}
	penTick   = Pen{Width: 0.4, Color: blue}
	penHatch  = Pen{Width: 0.13, Color: gray}
	penRule   = Pen{Width: 0.2, Color: black}
	penHeavy  = Pen{Width: 0.5, Color: black}
)

// Item is something on a page.
type Item interface{ draw(brush) }

// Line is a chain of straight lines, a filled shape, or both.
type Line struct {
	Layer  Layer
	Points []Point
	Closed bool
	Pen    Pen        // no stroke where its width is 0
	Fill   color.RGBA // none where its alpha is 0
	dim    bool       // part of a measure in Page.measures
	whole  bool       // a side or something placed, which a drawing file has in its true place
	bow    float64    // of chords of one arc: the tangent of a quarter of its sweep, left positive
}

// Circle is a circle.
type Circle struct {
	Layer  Layer
	Center Point
	Radius float64
	Pen    Pen
	Fill   color.RGBA
	whole  bool // as of a Line
}

// Text is one line of text.
type Text struct {
	Layer Layer
	At    Point   // left end of the base line
	Turn  float64 // radians, counter-clockwise
	Size  float64 // points
	Bold  bool
	Color color.RGBA
	Text  string
	dim   bool // of a measure in Page.measures
}

// Picture is an image scaled into a rectangle.
type Picture struct {
	Image image.Image
	At    Point // lower left
	Width float64
}

// Page is one sheet, ready to draw.
type Page struct {
	Name          string // "Layout", as in the bookmarks
	Width, Height float64
	Items         []Item
	View          *View // of the plan drawn on it; nil where there is none
	Unplaced      []string

	measures []measure
}

// grown gives the page as it is printed, so many times as large as it was drawn.
func (p Page) grown(by float64) Page {
	if by == 1 {
		return p
	}
	all := func(ps []Point) []Point {
		out := make([]Point, len(ps))
		for i, q := range ps {
			out[i] = q.Times(by)
		}
		return out
	}
	pen := func(pen Pen) Pen {
		pen.Width *= by
		dash := make([]float64, len(pen.Dash))
		for i, d := range pen.Dash {
			dash[i] = d * by
		}
		pen.Dash = dash
		return pen
	}
	p.Width, p.Height = p.Width*by, p.Height*by
	items := make([]Item, len(p.Items))
	for i, it := range p.Items {
		switch v := it.(type) {
		case Line:
			v.Points, v.Pen = all(v.Points), pen(v.Pen)
			it = v
		case Circle:
			v.Center, v.Radius, v.Pen = v.Center.Times(by), v.Radius*by, pen(v.Pen)
			it = v
		case Text:
			v.At, v.Size = v.At.Times(by), v.Size*by
			it = v
		case Picture:
			v.At, v.Width = v.At.Times(by), v.Width*by
			it = v
		}
		items[i] = it
	}
	p.Items = items
	if p.View != nil {
		v := *p.View
		v.Scale.grown, v.Origin = 0, v.Origin.Times(by)
		p.View = &v
	}
	return p
}

// measure is one dimension as a drawing file has it: what is measured, where its
// line runs, and its text.
type measure struct {
	from, to Point // what is measured
	a, b     Point // its line
	text     Text
}

// Canvas gives the page as a drawing that any renderer of the canvas library
// takes: the window's preview and the PDF are the same drawing.
func (p Page) Canvas() *canvas.Canvas { return p.canvas(map[Text]*canvas.Text{}) }

// canvas is Canvas for pages that share what is set on them.
func (p Page) canvas(set map[Text]*canvas.Text) *canvas.Canvas {
	c := canvas.New(p.Width, p.Height)
	ctx := brush{canvas.NewContext(c), set}
	for _, it := range p.Items {
		it.draw(ctx)
	}
	return c
}

// brush draws items. It keeps every text that it has set: most stand more than once.
type brush struct {
	*canvas.Context
	set map[Text]*canvas.Text // by what does not depend on where it stands
}

func (b brush) text(t Text) *canvas.Text {
	key := Text{Size: t.Size, Bold: t.Bold, Color: t.Color, Text: t.Text}
	line, ok := b.set[key]
	if !ok {
		line = canvas.NewTextLine(face(t.Size, t.Bold, t.Color), t.Text, canvas.Left)
		b.set[key] = line
	}
	return line
}

func setPen(ctx brush, pen Pen, fill color.RGBA) {
	ctx.SetFill(canvas.Transparent)
	if fill.A > 0 {
		ctx.SetFill(fill)
	}
	ctx.SetStroke(canvas.Transparent)
	ctx.SetDashes(0)
	if pen.Width <= 0 {
		return
	}
	ctx.SetStroke(pen.Color)
	ctx.SetStrokeWidth(pen.Width)
	ctx.SetStrokeJoiner(canvas.RoundJoin)
	if len(pen.Dash) > 0 {
		// The library scales dashes by the width of the stroke.
		d := make([]float64, len(pen.Dash))
		for i, v := range pen.Dash {
			d[i] = v / pen.Width
		}
		ctx.SetDashes(0, d...)
	}
}

func (l Line) draw(ctx brush) {
	if len(l.Points) < 2 {
		return
	}
	if d := l.Pen.Dash; len(d) > 0 && l.Fill.A == 0 && chainLength(l.Points) < 2*sum(d)/l.Pen.Width {
		// The library takes dashes for longer than they are, by the stroke's
		// width, and draws what seems shorter than a dash unbroken.
		solid := l.Pen
		solid.Dash = nil
		for _, part := range dashed(l.closedPoints(), d) {
			Line{Points: part, Pen: solid}.draw(ctx)
		}
		return
	}
	setPen(ctx, l.Pen, l.Fill)
	p := &canvas.Path{}
	p.MoveTo(l.Points[0].X, l.Points[0].Y)
	for _, q := range l.Points[1:] {
		p.LineTo(q.X, q.Y)
	}
	if l.Closed {
		p.Close()
	}
	ctx.DrawPath(0, 0, p)
}

// closedPoints gives the chain's points, the first again at the end of a closed
// one.
func (l Line) closedPoints() []Point {
	if l.Closed {
		return append(append([]Point{}, l.Points...), l.Points[0])
	}
	return l.Points
}

func chainLength(pts []Point) (s float64) {
	for i := 1; i < len(pts); i++ {
		s += pts[i].Sub(pts[i-1]).Length()
	}
	return s
}

// dashed cuts a chain into its dashes; every other length of the pattern is a
// gap.
func dashed(pts []Point, pattern []float64) (out [][]Point) {
	k, left := 0, pattern[0]
	part := []Point{pts[0]}
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		u, rest := drawing.Unit(b.Sub(a)), b.Sub(a).Length()
		for rest > left {
			a, rest = a.Toward(u, left), rest-left
			if k%2 == 0 {
				out = append(out, append(part, a))
			}
			k++
			left, part = pattern[k%len(pattern)], []Point{a}
		}
		left -= rest
		part = append(part, b)
	}
	if k%2 == 0 && len(part) > 1 {
		out = append(out, part)
	}
	return out
}

func (c Circle) draw(ctx brush) {
	setPen(ctx, c.Pen, c.Fill)
	ctx.DrawPath(c.Center.X, c.Center.Y, canvas.Circle(c.Radius))
}

func (t Text) draw(ctx brush) {
	if t.Text == "" {
		return
	}
	ctx.Push()
	ctx.ComposeView(canvas.Identity.Translate(t.At.X, t.At.Y).Rotate(t.Turn * 180 / math.Pi))
	ctx.DrawText(0, 0, ctx.text(t))
	ctx.Pop()
}

func (p Picture) draw(ctx brush) {
	ctx.DrawImage(p.At.X, p.At.Y, p.Image, canvas.DPMM(float64(p.Image.Bounds().Dx())/p.Width))
}
