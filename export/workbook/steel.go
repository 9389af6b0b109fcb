package workbook

import (
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/cutlist"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/mark"
)

// lengthUnit is the unit of decimal lengths: feet or meters.
func (b *builder) lengthUnit() string {
	if b.metric() {
		return "m"
	}
	return "ft"
}

func (b *builder) decimalLength(l geometry.Length) float64 {
	if b.metric() {
		return l.Meters()
	}
	return l.Feet()
}

func (b *builder) length(l geometry.Length) cell {
	return styled(l.Text(b.job.Units), plainText.right())
}

// steel writes the bars by mark and how they are cut from stock.
func (b *builder) steel() error {
	mass := string(b.line(takeoff.EdgeBarWeight).Unit)
	if mass == "" {
		mass = map[bool]string{true: "kg", false: "lb"}[b.metric()]
	}
	p := b.page("Steel", landscape, []column{
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
	bars.Bar
	where string
	count int
}

func (b *builder) bars(p *page) {
	var kinds []barKind
	for _, s := range b.takeoff.Slabs {
		for _, bar := range s.Layout.Bars {
			where := s.Called(bar.Of.Text(s.Plan, s.Layout.Marks))
			i := slices.IndexFunc(kinds, func(k barKind) bool {
				return k.Mark == bar.Mark && k.where == where && k.Size == bar.Size && k.Cut == bar.Cut
			})
			if i < 0 {
				kinds = append(kinds, barKind{Bar: bar, where: where})
				i = len(kinds) - 1
			}
			kinds[i].count++
		}
		if n, d := len(s.Layout.Dowels), b.job.Spec.Place.Dowels; n > 0 && d.Kind == joints.Tied {
			kinds = append(kinds, barKind{bars.Bar{Mark: layout.DowelMark, Of: bars.Part{Kind: bars.InJoint}, Size: d.Size, Cut: d.Length}, s.Called("dowels"), n})
		}
	}
	slices.SortStableFunc(kinds, func(a, b barKind) int { return mark.Compare(a.Mark, b.Mark) })
	p.band("Bars by mark")
	if len(kinds) == 0 {
		p.put(styled("No bars.", note))
		p.gap()
		return
	}
	first := p.row + 1
	total, sum := 0.0, 0.0
	for _, k := range kinds {
		row := p.row + 1
		per := k.Size.PerFoot()
		if b.metric() {
			per = k.Size.PerMeter()
		}
		one := b.decimalLength(k.Cut)
		run := one * float64(k.count)
		total, sum = total+run, sum+run*per
		p.put(text(k.Mark.String()), text(k.where), barSize(k.Size), num(float64(k.count), whole), b.length(k.Cut),
			num(one, "#,##0.000"), calc(fmt.Sprintf("D%d*F%d", row, row), run, measured), num(per, "0.000"),
			calc(fmt.Sprintf("G%d*H%d", row, row), run*per, weight), indented(b.shape(k.Bar)))
	}
	cells := b.totalRow(p.cols, "Bars", 8, calc(fmt.Sprintf("SUM(I%d:I%d)", first, p.row), sum, weight))
	cells[6] = calc(fmt.Sprintf("SUM(G%d:G%d)", first, p.row), total, measured).strong()
	p.put(cells...)
	p.put(styled("Weights: ASTM A615/A615M Table 1. Lengths include laps; bent bars have their bend deductions made.", note))
	p.gap()
}

// barSize is a number that is shown as "No. 4", or the text of a diameter.
func barSize(s bars.Size) cell {
	if s.Metric() {
		return text(s.String())
	}
	return num(float64(s), `"No. "0`)
}

// shape names a bar's shape with its legs.
func (b *builder) shape(bar bars.Bar) string {
	if len(bar.Legs) < 2 {
		if bar.Radius > 0 {
			return "to R " + bar.Radius.Text(b.job.Units)
		}
		return "straight"
	}
	legs := make([]string, len(bar.Legs))
	for i, l := range bar.Legs {
		legs[i] = l.Text(b.job.Units)
	}
	shape := "bent: " + strings.Join(legs, " + ")
	if bar.Radius > 0 {
		shape += ", and to R " + bar.Radius.Text(b.job.Units)
	}
	return shape
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
func (b *builder) cuts(p *page, title string, list cutlist.List) {
	if len(list.Stock) == 0 {
		return
	}
	p.band(title)
	type pattern struct {
		cutlist.Bar
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
			kinds = append(kinds, pattern{Bar: s, text: t})
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

// pieces lists pieces in order of cutting, equal neighbors together.
func (b *builder) pieces(list []cutlist.Piece) string {
	var parts []string
	for i := 0; i < len(list); {
		n := 1
		for i+n < len(list) && list[i+n] == list[i] {
			n++
		}
		part := strings.TrimSpace(list[i].Mark.String() + " " + list[i].Length.Text(b.job.Units))
		if n > 1 {
			part = fmt.Sprintf("%d × %s", n, part)
		}
		parts = append(parts, part)
		i += n
	}
	return strings.Join(parts, ", ")
}

func (b *builder) mesh(p *page) {
	sheets, chairs := b.line(takeoff.MeshStock), b.line(takeoff.Chairs)
	if sheets.Value == 0 && chairs.Value == 0 {
		return
	}
	p.band("Mesh and chairs")
	for _, k := range []takeoff.Kind{takeoff.MeshStock, takeoff.MeshWeight, takeoff.Chairs} {
		if l := b.line(k); l.Value != 0 {
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
