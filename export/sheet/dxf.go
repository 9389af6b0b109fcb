package sheet

import (
	"bufio"
	"fmt"
	"image/color"
	"io"
	"math"
	"slices"
	"strconv"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plan"
)

// WriteDXF writes the layout as a drawing in the open DXF text form, release 12,
// in inches or millimeters of the site: the drawing of the layout sheet without
// its frame, its texts as large as at the sheet's scale.
func (p Layout) WriteDXF(w io.Writer) error {
	j := p.job
	b := bufio.NewWriter(w)
	d := dxf{w: b, page: p.Page, unit: geometry.Inch.Meters(), code: 1}
	name := "inches"
	if j.Units == geometry.Millimeters {
		d.unit, d.code, name = geometry.Millimeter.Meters(), 4, "millimeters"
	}
	d.pair(999, inLines(plainText(job.Program() + ", units " + name + ", " + j.Name))[0])
	d.header()
	d.tables()
	d.pair(0, "SECTION")
	d.pair(2, "BLOCKS")
	for i, m := range p.measures {
		d.block(i, m)
	}
	d.pair(0, "ENDSEC")
	d.pair(0, "SECTION")
	d.pair(2, "ENTITIES")
	for _, s := range p.slabs {
		d.placed(s)
	}
	for _, it := range slices.Concat(p.Items, p.below) {
		d.item(it)
	}
	for i, m := range p.measures {
		d.dimension(i, m)
	}
	d.pair(0, "ENDSEC")
	d.pair(0, "EOF")
	return b.Flush()
}

// placed writes the slab and what is placed on it, in its true place and size.
func (d dxf) placed(s takeoff.Slab) {
	line := func(l Layer, ps ...geometry.Point) {
		d.polyline(l, penEdge, false, len(ps), func(i int) { d.place(10, ps[i]) })
	}
	loops := s.Plan.Loops()
	for _, l := range loops {
		d.polyline(drawing.Outline, penEdge, true, len(l), func(i int) {
			d.place(10, l[i].At)
			if b := l.Arc(i).Bulge(); b != 0 {
				d.pair(42, strconv.FormatFloat(b, 'f', 12, 64))
			}
		})
	}
	for _, w := range s.Layout.Walls {
		for _, p := range w.Pieces {
			d.polyline(drawing.Plates, penEdge, true, len(p.Outline), func(i int) { d.place(10, p.Outline[i]) })
		}
		for _, b := range w.Bolts {
			d.ring(drawing.Bolts, b.At, geometry.Inch)
			if b.HoldDown {
				d.ring(drawing.Bolts, b.At, 2*geometry.Inch)
			}
		}
	}
	for _, w := range s.Layout.Dowels {
		line(drawing.Dowels, w.Outer, w.Inner)
	}
	for _, b := range s.Layout.Bars {
		line(drawing.Steel, b.Path...)
	}
	for _, c := range s.Layout.SawCuts {
		line(drawing.SawCuts, c.A, c.B)
	}
	for _, e := range s.Plan.Embeds {
		if r := e.Ring(); e.Round() {
			d.ring(drawing.Embeds, e.Center, e.Width/2)
		} else {
			d.polyline(drawing.Embeds, penEdge, true, len(r), func(i int) { d.place(10, r[i]) })
		}
		if dot := e.Dot(); dot > 0 {
			d.ring(drawing.Embeds, e.Center, dot)
		}
		for _, sign := range e.Sign() {
			line(drawing.Embeds, sign[0], sign[1])
		}
	}
	for _, l := range s.Layout.LaidLines {
		for _, run := range l.Runs {
			line(drawing.Lines, run...)
		}
	}
	for _, o := range s.Layout.Outs {
		if r := o.Ring(); o.Shape == plan.RoundOut {
			d.ring(drawing.BlockOuts, o.Center, o.Size/2)
		} else {
			d.polyline(drawing.BlockOuts, penEdge, true, len(r), func(i int) { d.place(10, r[i]) })
		}
	}
	for _, f := range s.Layout.Curbs.Faces {
		line(drawing.Curbs, f.A, f.B)
	}
	for _, ring := range slices.Concat(s.Frost.Upright, s.Frost.Lying) {
		d.polyline(drawing.Frost, penEdge, true, len(ring), func(i int) { d.place(10, ring[i]) })
	}
	for _, j := range s.Layout.Construction {
		for _, l := range j.Lines {
			line(drawing.Construction, l.A, l.B)
		}
		for _, w := range j.Dowels {
			line(drawing.Construction, w.A, w.B)
		}
	}
	for _, f := range s.Layout.Forms {
		p := f.Place()
		for _, b := range p.Boards {
			d.polyline(drawing.Forms, penEdge, true, len(b), func(i int) { d.place(10, b[i]) })
		}
		for _, at := range p.Stakes {
			d.ring(drawing.Forms, at, geometry.Inch/2)
		}
		for _, at := range p.Kickers {
			d.ring(drawing.Forms, at, geometry.Inch)
		}
	}
}

// ring writes a circle of true size.
func (d dxf) ring(l Layer, at geometry.Point, radius geometry.Length) {
	d.entity("CIRCLE", l)
	d.place(10, at)
	d.pair(40, radius.Meters()/d.unit)
}

// dxf writes the pairs of group code and value that the form consists of.
type dxf struct {
	w    *bufio.Writer
	page Page
	unit float64 // meters
	code int     // of the unit in the form: 1 for inches, 4 for millimeters
}

func (d dxf) pair(code int, value any) {
	b := append(strconv.AppendInt(d.w.AvailableBuffer(), int64(code), 10), '\n')
	switch v := value.(type) {
	case float64:
		if math.Abs(v) < 5e-7 {
			v = 0
		}
		b = strconv.AppendFloat(b, v, 'f', 6, 64)
	case int:
		b = strconv.AppendInt(b, int64(v), 10)
	case string:
		b = append(b, v...)
	default:
		b = fmt.Append(b, v)
	}
	d.w.Write(append(b, '\n'))
}

// at writes a point of the page as a place on the site, from the group code of
// its X.
func (d dxf) at(code int, p Point) {
	x, y := d.page.View.back(p)
	d.pair(code, x/d.unit)
	d.pair(code+10, y/d.unit)
	d.pair(code+20, 0.0)
}

// place writes a place on the site.
func (d dxf) place(code int, p geometry.Point) {
	d.pair(code, p.X.Meters()/d.unit)
	d.pair(code+10, p.Y.Meters()/d.unit)
	d.pair(code+20, 0.0)
}

// size gives a length on paper as one on the site.
func (d dxf) size(mm float64) float64 { return mm / 1000 * d.page.View.Scale.Ratio / d.unit }

func (d dxf) header() {
	d.pair(0, "SECTION")
	d.pair(2, "HEADER")
	d.pair(9, "$ACADVER")
	d.pair(1, "AC1009")
	d.pair(9, "$DWGCODEPAGE")
	d.pair(3, "ANSI_1252")
	d.pair(9, "$INSUNITS")
	d.pair(70, d.code)
	d.pair(9, "$EXTMIN")
	d.at(10, Point{X: 0, Y: 0})
	d.pair(9, "$EXTMAX")
	d.at(10, Point{X: d.page.Width, Y: d.page.Height})
	d.pair(0, "ENDSEC")
}

// block writes how a dimension looks, for programs that do not draw it themselves.
func (d dxf) block(i int, m measure) {
	name := fmt.Sprintf("*D%d", i+1)
	d.entity("BLOCK", drawing.Outline)
	d.pair(2, name)
	d.pair(70, 1)
	d.at(10, Point{X: d.page.View.Origin.X, Y: d.page.View.Origin.Y})
	d.pair(3, name)
	u := drawing.Unit(m.b.Sub(m.a))
	v := drawing.Unit(u.Add(u.Left())).Times(1.2)
	d.line(Line{Layer: Dimension, Points: []Point{m.a, m.b}, Pen: penDim})
	for _, p := range []Point{m.a, m.b} {
		d.line(Line{Layer: Dimension, Points: []Point{p.Sub(v), p.Add(v)}, Pen: penTick})
	}
	m.text.dim = false
	d.item(m.text)
	d.entity("ENDBLK", drawing.Outline)
}

// dimension writes a dimension along what it measures, with its text as it is printed.
func (d dxf) dimension(i int, m measure) {
	d.entity("DIMENSION", Dimension)
	d.pair(2, fmt.Sprintf("*D%d", i+1))
	d.pair(3, "STANDARD")
	d.at(10, m.b)
	d.at(11, m.text.box().Mid)
	d.pair(70, 0)
	d.pair(1, inLines(plainText(m.text.Text))[0])
	d.at(13, m.from)
	d.at(14, m.to)
	d.pair(50, angle(m.to.Sub(m.from))*180/math.Pi)
}

func (d dxf) entity(kind string, l Layer) {
	d.pair(0, kind)
	d.pair(8, l.String())
}

func (d dxf) item(it Item) {
	switch v := it.(type) {
	case Line:
		if !v.dim && !v.whole {
			d.line(v)
		}
	case Circle:
		if v.whole {
			return
		}
		d.entity("CIRCLE", v.Layer)
		d.at(10, v.Center)
		d.pair(40, d.size(v.Radius))
	case Text:
		if v.dim {
			return
		}
		parts := inLines(plainText(v.Text))
		for i, part := range parts {
			on := float64(i) / float64(len(parts)) * v.Width()
			d.entity("TEXT", v.Layer)
			d.at(10, Point{X: v.At.X + on*math.Cos(v.Turn), Y: v.At.Y + on*math.Sin(v.Turn)})
			d.pair(40, d.size(v.Size*mmPerPoint*0.729))
			d.pair(1, part)
			if v.Turn != 0 {
				d.pair(50, v.Turn*180/math.Pi)
			}
			// Other programs have other typefaces: fit the width by the factor.
			d.pair(41, 0.8)
		}
	}
}

func (d dxf) line(l Line) {
	switch {
	case l.Pen.Width <= 0:
		if len(l.Points) == 3 && l.Fill != (color.RGBA{}) { // an arrow head
			d.entity("SOLID", l.Layer)
			for i, k := range []int{0, 1, 2, 2} {
				d.at(10+i, l.Points[k])
			}
		}
	case len(l.Points) == 2:
		d.entity("LINE", l.Layer)
		d.pair(6, lineType(l.Pen))
		d.at(10, l.Points[0])
		d.at(11, l.Points[1])
	default:
		d.polyline(l.Layer, l.Pen, l.Closed, len(l.Points), func(i int) { d.at(10, l.Points[i]) })
	}
}

// polyline writes a chain of lines through n places, each written by at.
func (d dxf) polyline(l Layer, p Pen, closed bool, n int, at func(i int)) {
	d.entity("POLYLINE", l)
	d.pair(6, lineType(p))
	d.pair(66, 1)
	d.place(10, geometry.Point{})
	flag := 0
	if closed {
		flag = 1
	}
	d.pair(70, flag)
	for i := range n {
		d.entity("VERTEX", l)
		at(i)
	}
	d.entity("SEQEND", l)
}
