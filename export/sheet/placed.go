package sheet

import (
	"haunchbook.example/export/look"
	display "haunchbook.example/geometry/drawing"
)

// ink draws on a draft what is placed, moved by a vector.
type ink struct {
	d  *draft
	by Point
}

func (c ink) at(v display.Vec) Point { return Point{v.X, v.Y}.add(c.by) }

func (c ink) points(vs []display.Vec) []Point {
	out := make([]Point, len(vs))
	for i, v := range vs {
		out[i] = c.at(v)
	}
	return out
}

func penOf(k display.Ink) Pen {
	p := display.Paper[k.Style]
	return Pen{Width: max(p.Width, k.Width), Color: look.Color(k), Dash: p.Dash}
}

// Stroke implements display.Canvas.
func (c ink) Stroke(k display.Ink, vs []display.Vec, closed bool) {
	l := Line{Layer: Layer(k.Layer.String()), Pen: penOf(k), Points: c.points(vs), Closed: closed}
	if l.Pen.Width <= 0 {
		return
	}
	c.d.page.Items = append(c.d.page.Items, l)
	if display.Paper[k.Style].Hard {
		c.d.blockChain(l.Pen, l.closedPoints())
	}
}

// Fill implements display.Canvas.
func (c ink) Fill(k display.Ink, rings [][]display.Vec) {
	for _, r := range rings {
		c.d.page.Items = append(c.d.page.Items, Line{Layer: Layer(k.Layer.String()), Fill: look.Color(k), Points: c.points(r), Closed: true})
	}
}

// Circle implements display.Canvas.
func (c ink) Circle(k display.Ink, v display.Vec, radius float64, full bool) {
	it := Circle{Layer: Layer(k.Layer.String()), Center: c.at(v), Radius: radius, Pen: penOf(k)}
	if full {
		it.Pen, it.Fill = Pen{}, look.Color(k)
	}
	c.d.page.Items = append(c.d.page.Items, it)
}

// Text implements display.Canvas.
func (c ink) Text(w display.Word) {
	c.d.put(Text{Layer: Layer(w.Layer.String()), At: c.at(w.At), Turn: angle(Point{w.Along.X, w.Along.Y}), Size: w.Type.Points(), Bold: w.Type.IsBold(), Color: look.Color(w.Ink), Text: w.Text})
}
