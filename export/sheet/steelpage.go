package sheet

import (
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/detail"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/mark"
)

// steel is the bars and the mesh, with how they are cut and bent.
func (s *set) steel() []block {
	out := s.figures("Steel", func(t takeoff.Slab) bool { return len(t.Layout.Bars) > 0 || len(t.Layout.Mesh) > 0 }, figureOf(drawing.Steel, drawing.Mesh))
	shapes := s.shapes()
	out = append(out, s.ofSlabs(func(t takeoff.Slab) []block { return s.barSchedule(t, shapes) })...)
	out = append(out, s.ofSlabs(s.meshNote)...)
	out = append(out, s.lapDetails()...)
	out = append(out, s.bendDetails(shapes)...)
	out = append(out, s.cutDiagrams("Cutting bars", s.takeoff.Lists.Cuts)...)
	if len(out) == 0 {
		return []block{s.findings(steel)}
	}
	out = append(out, s.findings(steel))
	if s.options.Part == ForSteel { // else the first sheet says it
		out = append(out, cautionBlock(cautionLift))
	}
	return out
}

// barsTitle names the bars as they are asked for in the yard.
func (s *set) barsTitle() string {
	spec := s.job.Spec.Place.Bars
	if spec.Coated {
		return fmt.Sprintf("Bars, %s, epoxy-coated", spec.Grade)
	}
	return fmt.Sprintf("Bars, %s", spec.Grade)
}

// barSchedule lists the bars by mark, with the legs of those bent once, where their
// drawing gives letters.
func (s *set) barSchedule(slab takeoff.Slab, shapes []bendShape) []block {
	u, all := s.job.Units, bars.Schedule(slab.Layout.Bars)
	size, called := sizeColumn(all)
	tb := table{
		title: slab.Called(s.barsTitle()), head: []string{"Mark", "Pieces", size, "Cut", "Shape"},
		right: []bool{false, true, true, true, false}, size: sizeBody,
	}
	listed := func(m bars.MarkLine) bool {
		return slices.ContainsFunc(shapes, func(b bendShape) bool { return b.listed() && b.has(m.Mark) })
	}
	if slices.ContainsFunc(all, listed) {
		tb.head = append(tb.head[:4], "Pin", detail.Letter(0), detail.Letter(1))
		tb.right = append(tb.right, true, true)
	}
	for _, m := range all {
		row := []string{m.Mark.String(), fmt.Sprint(m.Count), called(m.Size), m.Cut.Text(u), "straight"}
		switch {
		case m.Radius > 0 && len(m.Bends) > 0:
			row[4] = "bent, and to R " + m.Radius.Text(u)
		case m.Radius > 0:
			row[4] = "to R " + m.Radius.Text(u)
		case len(m.Bends) > 0:
			row[4] = "bent"
		}
		if listed(m) {
			row = append(row[:4], m.Pin.Text(u), m.Legs[0].Text(u), m.Legs[1].Text(u))
		}
		tb.rows = append(tb.rows, append(row, make([]string, len(tb.head)-len(row))...))
	}
	if len(tb.rows) == 0 {
		return nil
	}
	return []block{tableBlock{table: tb}}
}

// sizeColumn gives the head of a column of bar sizes, and what stands in it: numbers
// alone under "No.", unless there are bars without.
func sizeColumn(ms []bars.MarkLine) (head string, called func(bars.Size) string) {
	if slices.ContainsFunc(ms, func(m bars.MarkLine) bool { return m.Size.Metric() }) {
		return "Size", bars.Size.String
	}
	return "No.", func(s bars.Size) string { return fmt.Sprint(int(s)) }
}

// meshNote says how much mesh there is.
func (s *set) meshNote(slab takeoff.Slab) []block {
	l, f, u := slab.Layout, s.job.Spec.Place.Field, s.job.Units
	bought, ok := s.takeoff.Line(takeoff.MeshStock)
	if len(l.Mesh) == 0 || !ok {
		return nil
	}
	kind := "sheets"
	if f.Roll {
		kind = "rolls"
	}
	size := f.Width.Text(u) + " × " + f.Length.Text(u)
	if len(s.takeoff.Slabs) > 1 {
		size += " for all slabs together"
	}
	return []block{notes{title: slab.Called("Mesh"), size: sizeSmall, items: []string{
		fmt.Sprintf("%s, %g %s of %s, in %d pieces as drawn.", f.Style, bought.Value, kind, size, len(l.Mesh)),
		"Lap one full square plus 2 in (50 mm). Set it on chairs or pull it up: on the ground it does nothing (common practice).",
	}}}
}

// lapDetails draws each lap of bars that run on from piece to piece.
func (s *set) lapDetails() []block {
	u, spec := s.job.Units, s.job.Spec.Layout(s.job.Units)
	var out []block
	for _, l := range s.takeoff.Laps() {
		title, rule := "Lap, "+l.Size.String(), spec.Bars.LapRule()
		text := "At least, by " + rule.Name + " (" + rule.Source + ")."
		if l.TopCast {
			title, text = title+", top rows", "Of "+l.Text(u)+". "+text
		}
		if spec.Bars.Stagger > 0 {
			text += " Laps of neighboring rows " + spec.Bars.Stagger.Text(u) + " clear of each other."
		}
		out = append(out, detailBlock{title, []string{text}, detail.Lap(u, l.Length), nil, detailWide})
	}
	return out
}

// bendShape is bars bent alike.
type bendShape struct {
	bar   bars.Bar // one of them
	marks []bars.MarkLine
}

// lettered tells whether a shape's drawing has letters, and what is measured stands in a
// table.
func (b bendShape) lettered() bool { return len(b.marks) > 1 || len(b.marks[0].Legs) > fewLegs }

// listed tells whether what is measured stands in the schedule of bars.
func (b bendShape) listed() bool { return b.lettered() && len(b.marks[0].Legs) == 2 }

func (b bendShape) has(m mark.Mark) bool {
	return slices.ContainsFunc(b.marks, func(l bars.MarkLine) bool { return l.Mark == m })
}

// shapes gives the shapes of bent bars of all slabs.
func (s *set) shapes() (out []bendShape) {
	var all []bars.Bar
	for _, slab := range s.takeoff.Slabs {
		all = append(all, slab.Layout.Bars...)
	}
	at := map[string]int{}
	for _, m := range bars.Schedule(all) {
		if len(m.Bends) == 0 {
			continue
		}
		b := all[slices.IndexFunc(all, func(b bars.Bar) bool { return b.Mark == m.Mark })]
		k := detail.Alike(b)
		i, ok := at[k]
		if !ok || len(m.Legs) > fewLegs && len(out[i].marks) == 2*fewLegs { // no wider table
			i = len(out)
			at[k], out = i, append(out, bendShape{bar: b})
		}
		out[i].marks = append(out[i].marks, m)
	}
	return out
}

// bendDetails draws each shape of bent bars once.
func (s *set) bendDetails(shapes []bendShape) (out []block) {
	u := s.job.Units
	for _, b := range shapes {
		m, marks := b.marks[0], []string{}
		for _, m := range b.marks {
			marks = append(marks, m.Mark.String())
		}
		of := detailBlock{fmt.Sprintf("Bend %s: %d × %s, pin %s", m.Mark, m.Count, m.Size, m.Pin.Text(u)), nil, detail.Bend(u, b.bar, b.lettered()), nil, detailWide}
		if len(marks) > 1 {
			of.title = "Bends " + strings.Join(marks, ", ")
		}
		if len(out) == 0 {
			of.notes = []string{"Legs over the outside of the bends; bends without an angle are square. Pin: inside diameter of the bend, ACI 318-19 Tables 25.3.1 and 25.3.2."}
		}
		if b.lettered() && !b.listed() {
			out = append(out, pile{of, bendTable(b.marks, u)})
		} else {
			out = append(out, of)
		}
	}
	return out
}

// fewLegs is how many legs of a bar stand side by side in a table; more stand one
// under another.
const fewLegs = 4

// bendTable lists bars of one shape with their legs.
func bendTable(ms []bars.MarkLine, u geometry.Units) tableBlock {
	size, called := sizeColumn(ms)
	rows := [][]string{{"Mark", "Pieces", size, "Pin"}}
	for i := range ms[0].Legs {
		rows[0] = append(rows[0], detail.Letter(i))
	}
	for _, m := range ms {
		row := []string{m.Mark.String(), fmt.Sprint(m.Count), called(m.Size), m.Pin.Text(u)}
		for _, l := range m.Legs {
			row = append(row, l.Text(u))
		}
		rows = append(rows, row)
	}
	folds := 0
	if len(ms[0].Legs) > fewLegs {
		turned := make([][]string, len(rows[0]))
		for _, r := range rows {
			for k, cell := range r {
				turned[k] = append(turned[k], cell)
			}
		}
		rows, folds = turned, 3
	}
	right := make([]bool, len(rows[0]))
	for i := 1; i < len(right); i++ {
		right[i] = true
	}
	return tableBlock{table{head: rows[0], right: right, rows: rows[1:], size: sizeBody}, folds}
}
