package workbook

import (
	"fmt"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bolts"
)

// bolts writes running marks of bolts wall by wall, plates, and dowels.
func (b *builder) bolts() error {
	unit := "Inches"
	if b.metric() {
		unit = "Millimeters"
	}
	p := b.page("Bolts and dowels", portrait, []column{
		{"Wall or edge", 26, false}, {"Mark", 8, true}, {"From the start corner", 17, true}, {unit, 12, true}, {"From the far corner", 17, true}, {"Note", 30, false},
	})
	walls := 0
	for _, s := range b.takeoff.Slabs {
		walls += len(s.Layout.Walls)
		for _, w := range s.Layout.Walls {
			b.wall(p, s, w)
		}
	}
	if walls == 0 {
		p.put(styled("No framed wall stands on it.", note))
		p.gap()
	}
	for _, s := range b.takeoff.Slabs {
		b.dowels(p, s)
	}
	p.put(styled("Running distances along one tape per wall, never piece to piece. IRC R403.1.6; the builder's marks win.", note))
	p.put(styled("Adhesive, hole and depth by the maker's data. Drilling makes silica dust: OSHA 29 CFR 1926.1153.", note))
	return p.close()
}

// wall writes the marks of one wall and the pieces of its plate.
func (b *builder) wall(p *page, s takeoff.Slab, w bolts.Wall) {
	p.band(s.Called(fmt.Sprintf("%s, %s, %s plate, %s long", w.Name(), w.Where(s.Layout.Marks), w.Plate, w.Length.Text(b.job.Units))))
	for _, x := range w.Bolts {
		what := ""
		switch {
		case x.HoldDown:
			what = "hold-down"
		case x.Builder:
			what = "given by the builder"
		}
		p.put(text(w.Name()), text(x.Mark.String()), b.length(x.Along), num(b.small(x.Along), b.smallFormat()), b.length(x.Back), indented(what))
	}
	for i, s := range w.Pieces {
		p.put(text("Plate piece "+w.Mark.Piece(i+1).String()), text(""), b.length(s.From), num(b.small(s.From), b.smallFormat()), text(""),
			indented(fmt.Sprintf("to %s, %s long", s.To.Text(b.job.Units), (s.To-s.From).Text(b.job.Units))))
	}
	p.gap()
}

// dowels writes the holes of one slab along its joints.
func (b *builder) dowels(p *page, s takeoff.Slab) {
	last := -1
	for _, d := range s.Layout.Dowels {
		if d.Edge != last {
			last = d.Edge
			p.band(s.Called(fmt.Sprintf("Dowels, %s", s.Layout.Marks.Edge(0, d.Edge))))
		}
		p.put(text("Dowel"), num(float64(d.Number), "0"), b.length(d.Along), num(b.small(d.Along), b.smallFormat()),
			b.length(s.Plan.Outline.Length(d.Edge)-d.Along), indented(d.Depth.Text(b.job.Units)+" below the top"))
	}
	if last >= 0 {
		p.gap()
	}
}

// small gives a length in inches or millimeters.
func (b *builder) small(l geometry.Length) float64 {
	if b.metric() {
		return l.Meters() * 1000
	}
	return l.Inches()
}

func (b *builder) smallFormat() string {
	if b.metric() {
		return "#,##0.#"
	}
	return "#,##0.0000"
}
