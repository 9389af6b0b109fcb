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
	out = append(out, s.ofSlabs(s.barSchedule)...)
	out = append(out, s.ofSlabs(s.meshNote)...)
	out = append(out, s.lapDetails()...)
	out = append(out, s.bendShapes()...)
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

// barSchedule lists the bars by mark.
func (s *set) barSchedule(slab takeoff.Slab) []block {
	u := s.job.Units
	tb := table{
		title: slab.Called("Bars"), head: []string{"Mark", "Pieces", "No.", "Cut", "Shape"},
		right: []bool{false, true, true, true, false}, size: sizeBody,
	}
	for _, m := range bars.Schedule(slab.Layout.Bars) {
		shape := "straight"
		if len(m.Bends) > 0 {
			shape = "bent"
		}
		tb.rows = append(tb.rows, []string{m.Mark.String(), fmt.Sprint(m.Count), fmt.Sprint(m.Size), m.Cut.Text(u), shape})
	}
	if len(tb.rows) == 0 {
		return nil
	}
	return []block{tableBlock{table: tb}}
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
		title, rule := fmt.Sprintf("Lap, No. %d", l.Size), spec.Bars.LapRule()
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

// bendShapes draws each shape of bent bars once, for the bars of all slabs.
func (s *set) bendShapes() []block {
	var all []bars.Bar
	for _, slab := range s.takeoff.Slabs {
		all = append(all, slab.Layout.Bars...)
	}
	var shapes [][]bars.MarkLine
	at, first := map[string]int{}, map[mark.Mark]bars.Bar{}
	for _, m := range bars.Schedule(all) {
		if len(m.Bends) == 0 {
			continue
		}
		b := all[slices.IndexFunc(all, func(b bars.Bar) bool { return b.Mark == m.Mark })]
		k := detail.Alike(b)
		i, ok := at[k]
		if !ok || len(m.Legs) > fewLegs && len(shapes[i]) == 2*fewLegs { // no wider table
			i = len(shapes)
			at[k], shapes = i, append(shapes, nil)
		}
		shapes[i], first[m.Mark] = append(shapes[i], m), b
	}
	var out []block
	u := s.job.Units
	for _, ms := range shapes {
		m := ms[0]
		many := len(ms) > 1 || len(m.Legs) > fewLegs // then what is measured stands in a table
		of := detailBlock{fmt.Sprintf("Bend %s: %d × No. %d, pin %s", m.Mark, m.Count, m.Size, m.Pin.Text(u)), nil, detail.Bend(u, first[m.Mark], many), nil, detailWide}
		if len(out) == 0 {
			of.notes = []string{"Legs over the outside of the bends; bends without an angle are square. Pin: inside diameter of the bend, ACI 318-19 Tables 25.3.1 and 25.3.2."}
		}
		if !many {
			out = append(out, of)
			continue
		}
		tb, marks := bendTable(ms, u), []string{}
		for _, m := range ms {
			marks = append(marks, m.Mark.String())
		}
		if len(marks) > 1 {
			of.title = "Bends " + strings.Join(marks, ", ")
		}
		out = append(out, pile{of, tb})
	}
	return out
}

// fewLegs is how many legs of a bar stand side by side in a table; more stand one
// under another.
const fewLegs = 4

// bendTable lists bars of one shape with their legs.
func bendTable(ms []bars.MarkLine, u geometry.Units) tableBlock {
	rows := [][]string{{"Mark", "Pieces", "No.", "Pin"}}
	for i := range ms[0].Legs {
		rows[0] = append(rows[0], detail.Letter(i))
	}
	for _, m := range ms {
		row := []string{m.Mark.String(), fmt.Sprint(m.Count), fmt.Sprint(m.Size), m.Pin.Text(u)}
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
