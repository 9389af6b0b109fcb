package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/cover"
)

// forms are the form boards with their stakes.
func (s *set) forms() []block {
	title, retarder := "Forms", s.withForms()
	if retarder {
		title = "Forms and vapor retarder"
	}
	out := s.figures(title, func(t takeoff.Slab) bool { return len(t.Layout.Forms) > 0 }, func(plans []*drawing) {
		for _, g := range plans {
			g.slab()
			if retarder {
				g.sheets(g.of.Retarder.Sheets)
			}
			g.forms()
			g.strings()
			g.cornerMarks()
		}
		each((*drawing).formLabels)(plans)
		if retarder {
			each(func(g *drawing) { g.sheetsName(g.of.Retarder.Sheets, "retarder") })(plans)
		}
	})
	if len(out) == 0 {
		return []block{s.findings(forms)}
	}
	out = append(append(out, s.ofSlabs(s.formTable)...), s.stakeNotes())
	out = append(out, s.cutDiagrams("Cutting boards", s.takeoff.Lists.Lumber)...)
	return append(out, s.findings(forms))
}

var (
	penString = Pen{Width: 0.15, Color: blue, Dash: []float64{3, 1}}
	penStake  = Pen{Width: 0.5, Color: black}
)

// forms draws the boards to scale outside the slab, with stakes and kickers.
func (g *drawing) forms() {
	for _, f := range g.of.Layout.Forms {
		r := g.side(f.Loop, f.Edge)
		u := r.along()
		thick := max(0.9, g.view.Scale.paperOf(f.Board.Thickness))
		a, b := r.a, r.a.toward(u, g.view.Scale.paperOf(f.Length))
		g.line(Forms, penRule, a.toward(r.out, thick), b.toward(r.out, thick))
		at := geometry.Length(0)
		for _, l := range f.Boards {
			at += l
			if at < f.Length {
				p := r.a.toward(u, g.view.Scale.paperOf(at))
				g.line(Forms, penRule, p, p.toward(r.out, thick))
			}
		}
		kicker := map[geometry.Length]bool{}
		for _, k := range f.Kickers {
			kicker[k] = true
		}
		for _, st := range f.Stakes {
			p := r.a.toward(u, g.view.Scale.paperOf(st)).toward(r.out, thick)
			g.line(Forms, penStake, p.toward(r.out, 0.2), p.toward(r.out, 1.2))
			if kicker[st] {
				g.line(Forms, penRule, p.toward(r.out, 1.2), p.toward(r.out, 3.4))
			}
		}
		for _, k := range f.Kickers {
			p := r.a.toward(u, g.view.Scale.paperOf(k)).toward(r.out, thick)
			g.line(Forms, penRule, p.toward(r.out, 0.6), p.toward(r.out, 3.4))
		}
	}
}

// strings draws the string lines out to their stakes.
func (g *drawing) strings() {
	for _, l := range g.of.Layout.Lines {
		a, b := g.view.at(l.A), g.view.at(l.B)
		r := g.side(0, l.Edge)
		if a.sub(r.a).dot(r.along()) > 0 {
			a, b = b, a
		}
		g.soft(Forms, penString, a, r.a)
		g.soft(Forms, penString, r.b, b)
		g.circle(Forms, penRule, white, a, 0.6)
		g.circle(Forms, penRule, white, b, 0.6)
	}
}

// formLabels writes on each side its boards.
func (g *drawing) formLabels() {
	for _, f := range g.of.Layout.Forms {
		r := g.side(f.Loop, f.Edge)
		lines := []string{f.Mark.String() + " " + f.Board.Name, boardsText(f.Boards, g.j.Units)}
		if f.Ripped > 0 {
			lines[0] += ", ripped or set in by " + f.Ripped.Text(g.j.Units)
		}
		g.mustLabel(label{
			layer: Forms, size: sizeSmall, bold: true, color: black, lines: lines,
			at: r.a.add(r.b).times(0.5), prefer: r.out, start: 5, limit: 80, near: 10,
		})
	}
}

// boardsText writes boards as "2 × 16'-0" + 8'-0"".
func boardsText(boards []geometry.Length, u geometry.Units) string {
	var parts []string
	for i := 0; i < len(boards); {
		k := i
		for k < len(boards) && boards[k] == boards[i] {
			k++
		}
		t := boards[i].Text(u)
		if k-i > 1 {
			t = fmt.Sprintf("%d × %s", k-i, t)
		}
		parts = append(parts, t)
		i = k
	}
	return strings.Join(parts, " + ")
}

// formTable lists the boards of a slab.
func (s *set) formTable(slab takeoff.Slab) []block {
	u := s.job.Units
	tb := table{
		title: slab.Called("Forms"), head: []string{"Side", "Board", "Long", "Deep", "Dig"},
		right: []bool{false, false, true, true, true},
	}
	loops := slab.Plan.Loops()
	for _, f := range slab.Layout.Forms {
		below := "–"
		if f.Below > 0 {
			below = f.Below.Text(u)
		}
		tb.rows = append(tb.rows, []string{edgeRef{slab.Number, f.Loop, f.Edge, 0}.name(loops, slab.Layout.Marks), f.Mark.String() + " " + f.Board.Name, f.Length.Text(u), f.Depth.Text(u), below})
	}
	if len(tb.rows) == 0 {
		return nil
	}
	return []block{tableBlock{table: tb}}
}

func (s *set) stakeNotes() block {
	spec, u := s.job.Spec.Place.Forms, s.job.Units
	return notes{title: "Stakes", size: sizeSmall, items: []string{
		"Dashed: string lines. Short strokes: stakes; with a tail, a kicker too.",
		"Dig: how far the trench goes below the board.",
		fmt.Sprintf("A stake each %s at most, at each joint of boards and at each end; a kicker each %s at most.", spec.Stakes.Text(u), spec.Kickers.Text(u)),
	}}
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
	if l.Unit == takeoff.Each || l.Value == float64(int64(l.Value)) {
		return strconv.FormatFloat(l.Value, 'f', 0, 64)
	}
	return strconv.FormatFloat(l.Value, 'f', 2, 64)
}

// withForms tells whether the retarder is drawn with the forms: where nothing else is
// laid in sheets under the slab, and only a few.
func (s *set) withForms() bool {
	n := 0
	for _, t := range s.takeoff.Slabs {
		if len(t.Foam.Sheets) > 0 || len(t.Retarder.Sheets) > 0 && len(t.Layout.Forms) == 0 {
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
		what  string
		note  string
	}{
		{"Foam", func(s takeoff.Slab) cover.Laid { return s.Foam }, "foam sheets", s.foamNote()},
		{"Vapor retarder", func(s takeoff.Slab) cover.Laid { return s.Retarder }, "retarder", "Lap and tape as specified; seal round pipes; patch before the pour."},
	} {
		laid := s.figures(c.title, func(t takeoff.Slab) bool { return len(c.cover(t).Sheets) > 0 && !s.withForms() }, each(func(g *drawing) {
			g.slab()
			g.sheets(c.cover(g.of).Sheets)
			g.cornerMarks()
			g.sheetsName(c.cover(g.of).Sheets, c.what)
		}))
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
