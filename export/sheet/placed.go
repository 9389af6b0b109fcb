package sheet

import (
	"haunchbook.example/export/look"
	"haunchbook.example/geometry/drawing"
)

// ink draws on a draft what is placed, moved by a vector.
type ink struct {
	d  *draft
	by Point
}

func (c ink) at(v drawing.Vec) Point { return v.Add(c.by) }

func (c ink) points(vs []drawing.Vec) []Point {
	out := make([]Point, len(vs))
	for i, v := range vs {
		out[i] = c.at(v)
	}
	return out
}

func penOf(k drawing.Ink) Pen {
	p := drawing.Paper[k.Style]
	return Pen{Width: max(p.Width, k.Width), Color: look.Color(k), Dash: p.Dash}
}

// Stroke implements drawing.Canvas.
func (c ink) Stroke(k drawing.Ink, vs []drawing.Vec, closed bool) {
	pen, pts := penOf(k), c.points(vs)
	if pen.Width <= 0 {
		return
	}
	c.d.page.Items = append(c.d.page.Items, Line{
		Layer: k.Layer, Pen: pen, Points: pts, Closed: closed,
		dim: k.Layer == Dimension && (k.Style == drawing.DimLine || k.Style == drawing.TickLine), whole: inPlace(k.Style), bow: k.Bow,
	})
}

// inPlace tells of what is drawn in a style that a drawing file has it in its true place
// and size, not as the sheet shows it.
func inPlace(s drawing.Style) bool {
	switch s {
	case drawing.EdgeLine, drawing.BoltLine, drawing.EmbedLine, drawing.PipeLine, drawing.FrostLine, drawing.BlockOutLine, drawing.CurbLine, drawing.ConstructionLine, drawing.PlateLine, drawing.DowelLine, drawing.BarLine, drawing.SawLine, drawing.FormLine, drawing.StakeLine, drawing.KickerLine:
		return true
	}
	return false
}

// Fill implements drawing.Canvas. Holes are filled white.
func (c ink) Fill(k drawing.Ink, rings [][]drawing.Vec) {
	fill := look.Color(k)
	for i, r := range rings {
		if i > 0 {
			fill = white
		}
		if len(r) > 2 {
			c.d.page.Items = append(c.d.page.Items, Line{Layer: k.Layer, Fill: fill, Points: c.points(r), Closed: true})
		}
	}
}

// Circle implements drawing.Canvas.
func (c ink) Circle(k drawing.Ink, v drawing.Vec, radius float64, full bool) {
	it := Circle{Layer: k.Layer, Center: c.at(v), Radius: radius, Pen: penOf(k), whole: inPlace(k.Style)}
	if full {
		it.Pen, it.Fill = Pen{}, look.Color(k)
	}
	c.d.page.Items = append(c.d.page.Items, it)
}

// Text implements drawing.Canvas.
func (c ink) Text(w drawing.Word) {
	t := Text{Layer: w.Layer, At: c.at(w.At), Turn: angle(w.Along), Size: w.Type.Points(), Bold: w.Type.IsBold(), Color: look.Color(w.Ink), Text: w.Text, dim: w.Layer == Dimension && w.Style == drawing.DimLine}
	if w.Inverse {
		t.Color = white
	}
	c.d.put(t)
}
