package detail

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/layout/cutlist"
	"haunchbook.example/geometry/lumber"
)

// Stock draws how one bar or board is sawn, true to size along: its pieces in order,
// and what is left over. Placed at one scale, all stock of a list compares.
func Stock(s cutlist.Bar) *drawing.Drawing {
	d := &drawing.Drawing{}
	rim, hatch := pencil(drawing.RuleLine), pencil(drawing.HatchLine)
	for _, aside := range [2]float32{half, -half} {
		rim.Aside = aside
		d.Stroke(rim, geometry.Point{}, geometry.Point{X: s.Length})
	}
	rim.Aside = 0
	x := geometry.Length(0)
	d.Mark(rim, drawing.SawTick, geometry.Point{}, geometry.Point{X: 1})
	for _, p := range s.Pieces {
		x += p.Length
		d.Mark(rim, drawing.SawTick, geometry.Point{X: x}, geometry.Point{X: 1})
	}
	if s.Rest > 0 {
		hatch.Aside, hatch.Deep = -half, 2*half
		d.Hatch(hatch, geometry.Point{X: x}, geometry.Point{X: s.Length})
		d.Mark(rim, drawing.SawTick, geometry.Point{X: s.Length}, geometry.Point{X: 1})
	}
	return d
}

// half is half the height that stock is drawn with, mm on paper.
const half = 1

// Lap draws two bars side by side over a length, in shape, to be placed at a ratio
// of 1.
func Lap(u geometry.Units, length geometry.Length) *drawing.Drawing {
	d := &drawing.Drawing{Units: u}
	bar := drawing.Pencil{Layer: drawing.Steel, Style: drawing.BentLine}
	a, b := geometry.Point{X: 18 * mm}, geometry.Point{X: 42 * mm}
	up := geometry.Point{Y: 1300 * geometry.Micrometer}
	d.Stroke(bar, up, b.Add(up))
	d.Stroke(bar, a, geometry.Point{X: 60 * mm})
	d.Dimension(drawing.Dimension{Of: "lap", A: a.Add(up), B: b.Add(up), Left: true, OneSide: true},
		drawing.Chain{Stops: []geometry.Length{0, b.X - a.X}, Texts: []string{d.Text(length)}})
	return d
}

// PlateEnd draws the end of a sill plate from above with its first bolt, true to
// size: how far the bolt stands from the end and from the face.
func PlateEnd(u geometry.Units, plate lumber.Board, bolt Bolt, end geometry.Length) *drawing.Drawing {
	d := &drawing.Drawing{Units: u}
	long := end + 6*inch
	p := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }
	rim := drawing.Pencil{Layer: drawing.Plates, Style: drawing.RuleLine}
	d.Stroke(rim, p(long, plate.Width), p(0, plate.Width), p(0, 0), p(long, 0))
	d.BreakLine(rim, p(long, plate.Width), p(long, 0))
	d.Stroke(pencil(drawing.CutLine), p(-2*inch, 0), p(0, 0))
	if w := bolt.Washer / 2; w > 0 {
		plated(d, drawing.Pencil{Layer: drawing.Bolts, Style: drawing.RuleLine}, p(end-w, bolt.Inset+w), p(end+w, bolt.Inset-w))
	}
	d.Circle(drawing.Pencil{Layer: drawing.Bolts, Style: drawing.BoltLine}, p(end, bolt.Inset), bolt.Diameter/2, 0.4, 0, false)
	between(d, drawing.Dimension{Of: "bolt from the end", A: p(0, 0), B: p(end, 0), Weight: mainWeight}, end)
	between(d, drawing.Dimension{Of: "bolt from the face", A: p(0, bolt.Inset), B: p(0, 0), OnB: true, Weight: mainWeight}, bolt.Inset)
	return d
}
