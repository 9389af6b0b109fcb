package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/layout/cover"
)

// forms are the form boards with their stakes.
func (s *set) forms() []block {
	title, retarder := "Forms", s.withForms()
	if retarder {
		title = "Forms and vapor retarder"
	}
	shows := figureOf(drawing.Forms)
	if retarder {
		shows = figureOf(drawing.Forms, drawing.Retarder)
	}
	out := s.figures(title, func(t takeoff.Slab) bool { return len(t.Layout.Forms) > 0 }, shows)
	if len(out) == 0 {
		return []block{s.findings(forms)}
	}
	out = append(append(out, s.ofSlabs(s.formTable)...), s.stakeNotes())
	out = append(out, s.cutDiagrams("Cutting boards", s.takeoff.Lists.Lumber)...)
	return append(out, s.findings(forms))
}

// formTable lists the boards of a slab.
func (s *set) formTable(slab takeoff.Slab) []block {
	u := s.job.Units
	tb := table{
		title: slab.Called("Forms"), head: []string{"Side", "Board", "Long", "Deep", "Dig"},
		right: []bool{false, false, true, true, true},
	}
	for _, f := range slab.Layout.Forms {
		below := "–"
		if f.Below > 0 {
			below = f.Below.Text(u)
		}
		side := f.Side(slab.Layout.Marks)
		if f.Loop >= 0 {
			side = sideName(slab, f.Loop, f.Edge)
		}
		deep := f.Depth.Text(u)
		if a, b := f.Ends(); a != b { // as its edge runs
			deep = a.Text(u) + " to " + b.Text(u)
		}
		tb.rows = append(tb.rows, []string{f.Named(side), f.Mark.String() + " " + f.Board.Name, f.Length.Text(u), deep, below})
	}
	if len(tb.rows) == 0 {
		return nil
	}
	return []block{tableBlock{table: tb}}
}

func (s *set) stakeNotes() block {
	spec, u := s.job.Spec.Place.Forms, s.job.Units
	n := notes{title: "Stakes", size: sizeSmall, items: []string{
		s.stringNote(),
		"Dashed: string lines. Short strokes: stakes; with a tail, a kicker too. Dig: how far the trench goes below the board.",
		fmt.Sprintf("A stake each %s at most, at joints of boards and ends; a kicker each %s at most.", spec.Stakes.Text(u), spec.Kickers.Text(u)),
	}}
	if slices.ContainsFunc(s.takeoff.Slabs, func(t takeoff.Slab) bool { return len(t.Layout.Bows) > 0 }) {
		n.items = append(n.items, "Along an arc stakes stand twice as close.")
	}
	if slices.ContainsFunc(s.takeoff.Slabs, func(t takeoff.Slab) bool { return len(t.Layout.Outs) > 0 }) {
		n.items = append(n.items, "Block-outs round columns: line them with joint filler as deep as the slab; fill them, level with the top, once the columns stand and are plumb.")
	}
	if slices.ContainsFunc(s.takeoff.Slabs, func(t takeoff.Slab) bool { return !t.Layout.Curbs.None() }) {
		n.items = append(n.items, "Curbs: their outer boards stand on the edge's, held by the same stakes, made longer; their inner boards and ends hang from hangers across. Pour the curb once the slab under it has stiffened, the same day, or roughen it and clean it first.")
	}
	n.items = append(n.items, s.rippedNotes()...)
	return n
}

// stringNote says where the stakes of the string lines stand.
func (s *set) stringNote() string {
	usual, u := s.job.Spec.Place.StakeOut.Offset, s.job.Units
	note := fmt.Sprintf("String-line stakes: in line with each side, %s beyond its corners", usual.Text(u))
	var others []string
	for _, t := range s.takeoff.Slabs {
		for _, l := range t.Layout.Lines {
			if l.Before != usual || l.Past != usual {
				others = append(others, fmt.Sprintf("%s %s, %s", t.Called(sideName(t, 0, l.Edge)), l.Before.Text(u), l.Past.Text(u)))
			}
		}
	}
	if len(others) > fewItems {
		return note + "; further where the slab is in the way, as drawn."
	}
	if len(others) > 0 {
		note += "; but of side " + strings.Join(others, "; ")
	}
	return note + "."
}

// quantities lists what the takeoff says to buy of some groups.
func (s *set) quantities(title string, groups ...takeoff.Group) block {
	out := notes{title: title, size: sizeSmall}
	for _, l := range s.takeoff.Lines {
		if l.ID.Kind.Bought() && slices.Contains(groups, l.ID.Kind.Group()) {
			out.items = append(out.items, fmt.Sprintf("%s %s  %s", quantity(l), l.Unit, l.Name))
		}
	}
	if len(out.items) == 0 {
		return nothing{}
	}
	out.whole = len(out.items) <= fewItems
	return out
}

// fewItems of a list stand together.
const fewItems = 12

// quantity prints a takeoff line's value: counts whole, the rest to two places.
func quantity(l takeoff.Line) string {
	if l.ID.Kind == takeoff.ConcreteOrder { // whole steps of the plant, as they are called in
		return strconv.FormatFloat(l.Value, 'f', -1, 64)
	}
	if l.Unit == takeoff.Each || l.Value == float64(int64(l.Value)) {
		return strconv.FormatFloat(l.Value, 'f', 0, 64)
	}
	return strconv.FormatFloat(l.Value, 'f', 2, 64)
}

// withForms tells whether the retarder is drawn with the forms: where it is of a few
// sheets.
func (s *set) withForms() bool {
	n := 0
	for _, t := range s.takeoff.Slabs {
		if len(t.Retarder.Sheets) > 0 && len(t.Layout.Forms) == 0 {
			return false
		}
		n += len(t.Retarder.Sheets)
	}
	return n > 0 && n <= 8*len(s.takeoff.Slabs)
}

// ground is what lies under the slab, sheet by sheet.
func (s *set) ground() []block {
	var out []block
	var how []string
	for _, c := range []struct {
		title string
		cover func(takeoff.Slab) cover.Laid
		layer drawing.Layer
		note  string
	}{
		{"Foam", func(s takeoff.Slab) cover.Laid { return s.Foam }, drawing.Foam, s.foamNote()},
		{"Vapor retarder", func(s takeoff.Slab) cover.Laid { return s.Retarder }, drawing.Retarder, "Lap and tape as specified; seal round pipes; patch before the pour."},
	} {
		laid := s.figures(c.title, func(t takeoff.Slab) bool {
			return len(c.cover(t).Sheets) > 0 && !(c.layer == drawing.Retarder && s.withForms())
		}, figureOf(c.layer))
		if !slices.ContainsFunc(s.takeoff.Slabs, func(t takeoff.Slab) bool { return len(c.cover(t).Sheets) > 0 }) {
			continue
		}
		out, how = append(out, laid...), append(how, c.note)
		out = append(out, s.ofSlabs(func(slab takeoff.Slab) []block { return s.cutPieces(slab, c.cover(slab)) })...)
	}
	out = append(out, s.ofSlabs(s.trenchTable)...)
	return append(out, s.underNotes(how), s.quantities("To order", takeoff.Lumber, takeoff.Ground), s.findings(ground))
}

// foamNote says how foam is laid.
func (s *set) foamNote() string {
	note := "Whole sheets lie flat under the field: stagger their joints."
	if slices.ContainsFunc(s.takeoff.Slabs, func(t takeoff.Slab) bool { return len(t.Foam.Sheets) > t.Foam.Flat }) {
		note += " Cut pieces lie on the dug flats and slopes, ripped from the same sheets."
	}
	gaps := 0
	for _, t := range s.takeoff.Slabs {
		gaps += len(t.Foam.Filled)
	}
	if gaps > 0 {
		note += fmt.Sprintf(" Gaps narrower than %s, %d of them, have no piece: fill them with trimmings or foam from a can.", cover.LeastFoam.Text(s.job.Units), gaps)
	}
	return note
}

// trenchTable lists what to dig under a slab, from the strings at its top.
func (s *set) trenchTable(slab takeoff.Slab) []block {
	u := s.job.Units
	tb := table{
		title: slab.Called("To dig, below the top"), head: []string{"Where", "Wide", "Side", "Concrete", "Dig"},
		right: []bool{false, true, true, true, true},
	}
	text := func(l geometry.Length) string {
		if l == 0 {
			return "–"
		}
		return l.Text(u)
	}
	for _, t := range s.trenches {
		if t.Slab == slab.Number {
			wide := text(t.Wide)
			if t.Long > 0 {
				wide += " × " + t.Long.Text(u)
			}
			tb.rows = append(tb.rows, []string{t.Name, wide, text(t.Slope), t.Deep.Text(u), t.Dig.Text(u)})
		}
	}
	return []block{tableBlock{table: tb}}
}

// cutPieces lists the pieces that are cut for the dug flats and slopes, by size.
func (s *set) cutPieces(slab takeoff.Slab, c cover.Laid) []block {
	type size struct{ width, length geometry.Length }
	count := map[size]int{}
	var sizes []size
	for _, p := range c.Sheets[c.Flat:] {
		z := size{p.Width.Round(geometry.Sixteenth), p.Length.Round(geometry.Sixteenth)}
		if count[z] == 0 {
			sizes = append(sizes, z)
		}
		count[z]++
	}
	if len(sizes) == 0 {
		return nil
	}
	slices.SortFunc(sizes, func(a, b size) int {
		return cmp.Or(cmp.Compare(b.width, a.width), cmp.Compare(b.length, a.length))
	})
	tb := table{title: slab.Called("Cut pieces"), head: []string{"Width", "Length", "Pieces"}, right: []bool{true, true, true}}
	for _, z := range sizes {
		tb.rows = append(tb.rows, []string{z.width.Text(s.job.Units), z.length.Text(s.job.Units), strconv.Itoa(count[z])})
	}
	return []block{tableBlock{table: tb}}
}
