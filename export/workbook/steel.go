package workbook

import (
	"fmt"
	"slices"
	"strings"

	"haunchbook/geometry"
	"haunchbook/geometry/layout"
)

// lengthUnit is the unit of decimal lengths: feet or metres.
func (b *builder) lengthUnit() string {
	if b.metric() {
		return "m"
	}
	return "ft"
}

func (b *builder) decimalLength(l geometry.Length) float64 {
	if b.metric() {
		return l.Metres()
	}
	return l.Feet()
}

func (b *builder) length(l geometry.Length) cell {
	return styled(l.Text(b.job.Units), plainText.right())
}

// steel writes the bars by mark and how they are cut from stock.
func (b *builder) steel() error {
	mass := string(b.line("steel.edge.weight").Unit)
	if mass == "" {
		mass = map[bool]string{true: "kg", false: "lb"}[b.metric()]
	}
	p := b.page("Steel", true, []column{
		{"Mark", 9, false}, {"Where, or pieces in order of cutting", 46, false}, {"Size", 8, true}, {"Pieces", 8, true}, {"Length", 14, true},
		{"Length, " + b.lengthUnit(), 10, true}, {"Total, " + b.lengthUnit(), 11, true}, {mass + "/" + b.lengthUnit(), 9, true}, {"Weight, " + mass, 11, true}, {"Shape, or left over", 40, false},
	})
	b.bars(p)
	b.cuts(p, "Cut list: bars as bought", b.takeoff.Lists.Cuts)
	b.mesh(p)
	return p.close()
}

// barKind is bars of one mark in one place.
type barKind struct {
	layout.Bar
	count int
}

func (b *builder) bars(p *page) {
	var kinds []barKind
	for _, bar := range b.takeoff.Slabs[0].Layout.Bars {
		i := slices.IndexFunc(kinds, func(k barKind) bool {
			return k.Mark == bar.Mark && k.Row == bar.Row && k.Size == bar.Size && k.Cut == bar.Cut
		})
		if i < 0 {
			kinds = append(kinds, barKind{Bar: bar})
			i = len(kinds) - 1
		}
		kinds[i].count++
	}
	if n := len(b.takeoff.Slabs[0].Layout.Dowels); n > 0 {
		d := b.job.Spec.Place.Dowels
		kinds = append(kinds, barKind{layout.Bar{Mark: b.dowelMark(), Row: "dowels", Size: d.Size, Cut: d.Length}, n})
	}
	slices.SortStableFunc(kinds, func(a, b barKind) int { return markOrder(a.Mark, b.Mark) })
	p.band("Bars by mark")
	if len(kinds) == 0 {
		p.put(styled("No bars in this slab.", note))
		p.gap()
		return
	}
	first := p.row + 1
	total, sum := 0.0, 0.0
	for _, k := range kinds {
		row := p.row + 1
		size, _ := layout.BarNumbered(k.Size)
		per := size.PerFoot
		if b.metric() {
			per = size.PerMetre
		}
		one := b.decimalLength(k.Cut)
		run := one * float64(k.count)
		total, sum = total+run, sum+run*per
		p.put(text(k.Mark), text(k.Row), num(float64(k.Size), `"No. "0`), num(float64(k.count), whole), b.length(k.Cut),
			num(one, "#,##0.000"), calc(fmt.Sprintf("D%d*F%d", row, row), run, measured), num(per, "0.000"),
			calc(fmt.Sprintf("G%d*H%d", row, row), run*per, weight), indented(b.shape(k.Bar)))
	}
	cells := b.totalRow(p.cols, "Bars", 8, calc(fmt.Sprintf("SUM(I%d:I%d)", first, p.row), sum, weight))
	cells[6] = calc(fmt.Sprintf("SUM(G%d:G%d)", first, p.row), total, measured).strong()
	p.put(cells...)
	p.put(styled("Weights: ASTM A615/A615M Table 1. Lengths include laps; bent bars have their bend deductions made.", note))
	p.gap()
}

// dowelMark gives the mark that dowels have in the cut list.
func (b *builder) dowelMark() string {
	marks := map[string]bool{}
	for _, bar := range b.takeoff.Slabs[0].Layout.Bars {
		marks[bar.Mark] = true
	}
	for _, s := range b.takeoff.Lists.Cuts.Stock {
		for _, piece := range s.Pieces {
			if !marks[piece.Mark] {
				return piece.Mark
			}
		}
	}
	return "Dowel"
}

// markOrder sorts marks as people count: B9 before B10.
func markOrder(a, b string) int {
	letters := func(s string) string { return strings.TrimRight(s, "0123456789") }
	if c := strings.Compare(letters(a), letters(b)); c != 0 {
		return c
	}
	if c := len(a) - len(b); c != 0 {
		return c
	}
	return strings.Compare(a, b)
}

// shape names a bar's shape with its legs.
func (b *builder) shape(bar layout.Bar) string {
	if len(bar.Legs) < 2 {
		return "straight"
	}
	legs := make([]string, len(bar.Legs))
	for i, l := range bar.Legs {
		legs[i] = l.Text(b.job.Units)
	}
	return "bent: " + strings.Join(legs, " + ")
}

// calc is a formula whose stored value is a float.
func calc(f string, v float64, format string) cell {
	return cell{value: v, formula: f, style: plainText.as(format)}
}

func indented(s string) cell {
	c := text(s)
	c.style.indent = true
	return c
}

// cuts writes a cut list, bars that are cut alike together.
func (b *builder) cuts(p *page, title string, list layout.CutList) {
	if len(list.Stock) == 0 {
		return
	}
	p.band(title)
	type pattern struct {
		layout.StockBar
		text  string
		count int
	}
	var kinds []pattern
	for _, s := range list.Stock {
		t := b.pieces(s.Pieces)
		i := slices.IndexFunc(kinds, func(k pattern) bool {
			return k.text == t && k.Name == s.Name && k.Length == s.Length && k.Yard == s.Yard
		})
		if i < 0 {
			kinds = append(kinds, pattern{StockBar: s, text: t})
			i = len(kinds) - 1
		}
		kinds[i].count++
	}
	first, total := p.row+1, 0.0
	for i, k := range kinds {
		row := p.row + 1
		one := b.decimalLength(k.Length)
		total += one * float64(k.count)
		rest := "left over " + k.Rest.Text(b.job.Units)
		if k.Rest == 0 {
			rest = "nothing left over"
		}
		if k.Yard {
			rest = "from the yard, " + rest
		}
		p.put(text(fmt.Sprintf("Cut %d", i+1)), text(k.text), styled(k.Name, plainText.right()), num(float64(k.count), whole), b.length(k.Length),
			num(one, "#,##0.000"), calc(fmt.Sprintf("D%d*F%d", row, row), one*float64(k.count), measured), text(""), text(""), indented(rest))
	}
	cells := b.totalRow(p.cols, "Stock", 6, calc(fmt.Sprintf("SUM(G%d:G%d)", first, p.row), total, measured))
	p.put(cells...)
	proof := "Least stock, proven."
	if !list.Optimal {
		proof = "No cutting buys less than " + list.Bound.Text(b.job.Units) + "."
	}
	p.put(styled(proof+" Left over in all: "+list.Waste.Text(b.job.Units)+".", note))
	p.gap()
}

// pieces lists pieces in order of cutting, equal neighbours together.
func (b *builder) pieces(list []layout.Piece) string {
	var parts []string
	for i := 0; i < len(list); {
		n := 1
		for i+n < len(list) && list[i+n] == list[i] {
			n++
		}
		part := strings.TrimSpace(list[i].Mark + " " + list[i].Length.Text(b.job.Units))
		if n > 1 {
			part = fmt.Sprintf("%d × %s", n, part)
		}
		parts = append(parts, part)
		i += n
	}
	return strings.Join(parts, ", ")
}

func (b *builder) mesh(p *page) {
	sheets, chairs := b.line("steel.mesh.sheets"), b.line("steel.chairs")
	if sheets.Value == 0 && chairs.Value == 0 {
		return
	}
	p.band("Mesh and chairs")
	for _, key := range []string{"steel.mesh.sheets", "steel.mesh.weight", "steel.chairs"} {
		if l := b.line(key); l.Value != 0 {
			cells := make([]cell, p.cols)
			for i := range cells {
				cells[i].style = plainText
			}
			cells[1], cells[3] = text(l.Name), num(l.Value, quantityFormat(l.Unit))
			cells[4] = indented(string(l.Unit))
			p.put(cells...)
		}
	}
}

// bolts writes running marks of bolts wall by wall, plates, and dowels.
func (b *builder) bolts() error {
	unit := "Inches"
	if b.metric() {
		unit = "Millimetres"
	}
	p := b.page("Bolts and dowels", false, []column{
		{"Wall or edge", 26, false}, {"Mark", 8, true}, {"From the start corner", 17, true}, {unit, 12, true}, {"From the far corner", 17, true}, {"Note", 30, false},
	})
	for _, w := range b.takeoff.Slabs[0].Layout.Walls {
		p.band(fmt.Sprintf("%s, %s, %s plate, %s long", w.Name, b.edgeName(w.Loop, w.Edge), w.Plate, w.Length.Text(b.job.Units)))
		for _, x := range w.Bolts {
			what := ""
			switch {
			case x.HoldDown:
				what = "hold-down"
			case x.Builder:
				what = "given by the builder"
			}
			p.put(text(w.Name), num(float64(x.Mark), "0"), b.length(x.Along), num(b.small(x.Along), b.smallFormat()), b.length(x.Back), indented(what))
		}
		for i, s := range w.Pieces {
			p.put(text(fmt.Sprintf("Plate piece %d", i+1)), text(""), b.length(s.From), num(b.small(s.From), b.smallFormat()), text(""),
				indented(fmt.Sprintf("to %s, %s long", s.To.Text(b.job.Units), (s.To-s.From).Text(b.job.Units))))
		}
		p.gap()
	}
	if len(b.takeoff.Slabs[0].Layout.Walls) == 0 {
		p.put(styled("No framed wall stands on this slab.", note))
		p.gap()
	}
	b.dowels(p)
	p.put(styled("Running distances along one tape per wall, never piece to piece. IRC R403.1.6; the builder's marks win.", note))
	p.put(styled("Adhesive, hole and depth by the maker's data. Drilling makes silica dust: OSHA 29 CFR 1926.1153.", note))
	return p.close()
}

func (b *builder) dowels(p *page) {
	last := -1
	for i, d := range b.takeoff.Slabs[0].Layout.Dowels {
		if d.Edge != last {
			last = d.Edge
			p.band(fmt.Sprintf("Dowels, %s", b.edgeName(0, d.Edge)))
		}
		p.put(text("Dowel"), num(float64(i+1), "0"), b.length(d.Along), num(b.small(d.Along), b.smallFormat()),
			b.length(b.job.Slabs[0].Oriented().Outline.Length(d.Edge)-d.Along), indented(d.Depth.Text(b.job.Units)+" below the top"))
	}
	if last >= 0 {
		p.gap()
	}
}

// small gives a length in inches or millimetres.
func (b *builder) small(l geometry.Length) float64 {
	if b.metric() {
		return l.Metres() * 1000
	}
	return l.Inches()
}

func (b *builder) smallFormat() string {
	if b.metric() {
		return "#,##0.#"
	}
	return "#,##0.0000"
}

func (b *builder) edgeName(loop, edge int) string {
	if loop > 0 {
		return fmt.Sprintf("hole %d edge %d", loop, edge+1)
	}
	return fmt.Sprintf("edge %d", edge+1)
}

// forms writes the boards edge by edge and how they are cut.
func (b *builder) forms() error {
	p := b.page("Forms", true, []column{
		{"Edge", 12, false}, {"Boards in order, or pieces in order of cutting", 50, false}, {"Board", 9, true}, {"Pieces", 8, true}, {"Length", 14, true},
		{"Length, " + b.lengthUnit(), 10, true}, {"Total, " + b.lengthUnit(), 11, true}, {"Stakes", 9, true}, {"Kickers", 9, true}, {"Depth, or left over", 42, false},
	})
	list := b.takeoff.Slabs[0].Layout.Forms
	p.band("Forms by edge")
	first := p.row + 1
	total, stakes, kickers := 0.0, 0, 0
	for _, f := range list {
		boards := make([]string, len(f.Boards))
		for i, l := range f.Boards {
			boards[i] = l.Text(b.job.Units)
		}
		one := b.decimalLength(f.Length)
		total, stakes, kickers = total+one, stakes+len(f.Stakes), kickers+len(f.Kickers)
		p.put(text(capital(b.edgeName(f.Loop, f.Edge))), text(strings.Join(boards, ", ")), styled(f.Board, plainText.right()), num(float64(len(f.Boards)), whole),
			b.length(f.Length), num(one, "#,##0.000"), num(one, measured), num(float64(len(f.Stakes)), whole), num(float64(len(f.Kickers)), whole), indented(b.depthNote(f)))
	}
	if len(list) > 0 {
		sum := func(col string) string { return fmt.Sprintf("SUM(%s%d:%s%d)", col, first, col, p.row) }
		cells := b.totalRow(p.cols, "Forms", 6, calc(sum("G"), total, measured))
		cells[7], cells[8] = calc(sum("H"), float64(stakes), whole).strong(), calc(sum("I"), float64(kickers), whole).strong()
		p.put(cells...)
	} else {
		p.put(styled("No free edge to form.", note))
	}
	p.gap()
	b.cuts(p, "Cut list: boards as bought", b.takeoff.Lists.Lumber)
	b.cuts(p, "Cut list: sill plates", b.takeoff.Lists.Plates)
	b.stakeOut(p)
	p.put(styled("Dressed sizes: NIST PS 20. Stakes and kickers: common practice.", note))
	return p.close()
}

// stakeOut writes the diagonals and squares that true the forms.
func (b *builder) stakeOut(p *page) {
	l := b.takeoff.Slabs[0].Layout
	if len(l.Diagonals) == 0 {
		return
	}
	p.band("Diagonals between corners")
	for _, d := range l.Diagonals {
		cells := make([]cell, p.cols)
		for i := range cells {
			cells[i].style = plainText
		}
		cells[0], cells[1] = text(fmt.Sprintf("%d to %d", d.I+1, d.J+1)), text("corner to corner")
		cells[4], cells[5] = b.length(d.Length), num(b.decimalLength(d.Length), "#,##0.000")
		p.put(cells...)
	}
	p.gap()
}

func (b *builder) depthNote(f layout.Form) string {
	u := b.job.Units
	s := f.Depth.Text(u) + " deep at the face"
	if f.Below > 0 {
		s += ", " + f.Below.Text(u) + " dug below the board"
	}
	if f.Ripped > 0 {
		s += ", board ripped or set in by " + f.Ripped.Text(u)
	}
	return s
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
