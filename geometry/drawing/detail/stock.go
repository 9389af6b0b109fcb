package detail

import (
	"strconv"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/layout/cutlist"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/solid"
)

// Stock draws how one bar or board is sawn, true to size along: its pieces in
// order with their marks and lengths, and what is left over. Placed at one scale,
// all stock of a list compares.
func Stock(u geometry.Units, s cutlist.Bar) *drawing.Drawing {
	d := &drawing.Drawing{Units: u}
	rim := drawing.Pencil{Layer: drawing.Details, Style: drawing.RuleLine}
	for _, aside := range [2]float32{half, -half} {
		rim.Aside = aside
		d.Stroke(rim, geometry.Point{}, geometry.Point{X: s.Length})
	}
	saw := drawing.Pencil{Layer: drawing.Details, Style: drawing.RuleLine}
	x := geometry.Length(0)
	d.Mark(saw, drawing.SawTick, geometry.Point{}, geometry.Point{X: 1})
	piece := func(length geometry.Length, text, of string) {
		p, q := geometry.Point{X: x}, geometry.Point{X: x + length}
		x += length
		d.Mark(saw, drawing.SawTick, q, geometry.Point{X: 1})
		mid := drawing.Between(p, q, 0.5)
		d.Label(drawing.Label{
			Layer: drawing.Details, Style: drawing.NoteText, Type: drawing.Small, Of: of, At: mid, Prefer: geometry.Point{Y: -1}, Start: half + 1, Near: half + 1.5, Reach: 30,
		}, []string{text}, drawing.Spot{At: mid, Line: q.Sub(p), Turned: true, Within: true})
	}
	for _, p := range s.Pieces {
		text := d.Text(p.Length)
		if p.Mark != (mark.Mark{}) {
			text = p.Mark.String() + " " + text
		}
		piece(p.Length, text, "piece")
	}
	if s.Rest > 0 {
		hatch := drawing.Pencil{Layer: drawing.Details, Style: drawing.HatchLine, Aside: -half, Deep: 2 * half}
		d.Hatch(hatch, geometry.Point{X: s.Length - s.Rest}, geometry.Point{X: s.Length})
		x = s.Length - s.Rest
		piece(s.Rest, "rest "+d.Text(s.Rest), "rest")
	}
	return d
}

// half is half the height that stock is drawn with, mm on paper.
const half = 1.9

// Pieces writes the pieces of a stock bar: "A1 12'-3", 2 × A2 4'-0", rest 6"".
func Pieces(u geometry.Units, s cutlist.Bar) string {
	text := ""
	for i := 0; i < len(s.Pieces); {
		k := i
		for k < len(s.Pieces) && s.Pieces[k] == s.Pieces[i] {
			k++
		}
		if text != "" {
			text += ", "
		}
		if k-i > 1 {
			text += strconv.Itoa(k-i) + " × "
		}
		if p := s.Pieces[i]; p.Mark != (mark.Mark{}) {
			text += p.Mark.String() + " "
		}
		text += s.Pieces[i].Length.Text(u)
		i = k
	}
	if s.Rest > 0 {
		text += ", rest " + s.Rest.Text(u)
	}
	return text
}

// Lap draws two bars side by side over a length, in shape, to be placed at a ratio
// of 1.
func Lap(u geometry.Units, length geometry.Length) *drawing.Drawing {
	d := &drawing.Drawing{Units: u}
	bar := drawing.Pencil{Layer: drawing.Steel, Style: drawing.BentLine}
	a, b := geometry.Point{X: 20 * mm}, geometry.Point{X: 46 * mm}
	up := geometry.Point{Y: 1300 * geometry.Micrometer}
	d.Stroke(bar, up, b.Add(up))
	d.Stroke(bar, a, geometry.Point{X: 66 * mm})
	d.Dimension(drawing.Dimension{Of: "lap", A: a.Add(up), B: b.Add(up), Left: true, OneSide: true},
		drawing.Chain{Stops: []geometry.Length{0, b.X - a.X}, Texts: []string{d.Text(length)}})
	return d
}

// PlateEnd draws the end of a sill plate from above with its first bolt, true to
// size: how far the bolt stands from the end and from the face.
func PlateEnd(u geometry.Units, plate lumber.Board, bolt Bolt, end, washer geometry.Length) *drawing.Drawing {
	d := &drawing.Drawing{Units: u}
	long := end + 6*inch
	p := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }
	rim := drawing.Pencil{Layer: drawing.Plates, Style: drawing.RuleLine}
	d.Stroke(rim, p(long, plate.Width), p(0, plate.Width), p(0, 0), p(long, 0))
	d.BreakLine(rim, p(long, plate.Width), p(long, 0))
	d.Stroke(pencil(drawing.CutLine), p(-2*inch, 0), p(0, 0))
	if w := washer / 2; w > 0 {
		d.Ring(drawing.Pencil{Layer: drawing.Bolts, Style: drawing.RuleLine}, p(end-w, bolt.Inset-w), p(end+w, bolt.Inset-w), p(end+w, bolt.Inset+w), p(end-w, bolt.Inset+w))
	}
	d.Circle(drawing.Pencil{Layer: drawing.Bolts, Style: drawing.BoltLine}, p(end, bolt.Inset), bolt.Diameter/2, 0.4, 0, false)
	between(d, "bolt from the end", p(0, 0), p(end, 0), false, false, false, end, mainWeight)
	between(d, "bolt from the face", p(0, bolt.Inset), p(0, 0), false, false, true, bolt.Inset, mainWeight)
	return d
}

// Profile draws the slab cut along a line, its heights stretched by a factor so
// that thicknesses can be read, with the depth of each level stretch and the whole
// length.
func Profile(u geometry.Units, parts []solid.Profile, tall float64) *drawing.Drawing {
	d := &drawing.Drawing{Units: u}
	if len(parts) == 0 {
		return d
	}
	p := func(x, depth geometry.Length) geometry.Point {
		return geometry.Point{X: x, Y: -geometry.Length(float64(depth) * tall)}
	}
	low := geometry.Length(0)
	for _, s := range parts {
		d.Fill(pencil(drawing.ConcreteFill), p(s.From, 0), p(s.From, s.Start), p(s.To, s.End), p(s.To, 0))
		low = max(low, s.Start, s.End)
	}
	cut := pencil(drawing.CutLine)
	for i, s := range parts {
		d.Stroke(cut, p(s.From, 0), p(s.To, 0))
		d.Stroke(cut, p(s.From, s.Start), p(s.To, s.End))
		switch before := i > 0 && parts[i-1].To == s.From; {
		case !before:
			d.Stroke(cut, p(s.From, 0), p(s.From, s.Start))
		case parts[i-1].End != s.Start:
			d.Stroke(cut, p(s.From, parts[i-1].End), p(s.From, s.Start))
		}
		if i == len(parts)-1 || parts[i+1].From != s.To {
			d.Stroke(cut, p(s.To, 0), p(s.To, s.End))
		}
		if s.Start == s.End {
			mid := drawing.Between(p(s.From, s.Start), p(s.To, s.End), 0.5)
			d.Label(drawing.Label{Layer: drawing.Details, Style: drawing.NoteText, Type: drawing.Small, Of: "depth", At: mid, Prefer: geometry.Point{Y: -1}, Start: 0.8, Reach: 3, Optional: true}, []string{d.Text(s.Start)})
		}
	}
	a, b := parts[0].From, parts[len(parts)-1].To
	d.Dimension(drawing.Dimension{Of: "length on the slab", A: p(a, 0), B: p(b, 0), Left: true, Weight: mainWeight},
		drawing.Chain{Stops: []geometry.Length{0, b - a}, Texts: []string{d.Text(b - a)}})
	return d
}
