package workbook

import (
	"errors"
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// optionsPage writes variations of the job side by side, a column each, with charts.
func (b *builder) optionsPage() error {
	outcomes, e := b.outcomes, b.estimate
	wide := max(15, optionsWidth/float64(len(outcomes)))
	columns := []column{{"", 27, false}}
	for _, o := range outcomes {
		columns = append(columns, column{o.Name, wide, true})
	}
	p := b.page("Options", poster, columns)
	at := b.optionTable()
	lines := b.cellsOf(optionLines)
	row := func(label string, of func(col string, o estimate.Outcome) cell) int {
		cells := []cell{text(label)}
		for i, o := range outcomes {
			c := text("")
			if o.Err == nil {
				c = of(letter(firstOption+i), o)
			}
			cells = append(cells, c)
			cells[0].style.bold = cells[0].style.bold || c.style.bold && c.style.line == 't'
		}
		if cells[0].style.bold {
			cells[0].style.line = 't'
		}
		return p.put(cells...)
	}
	linked := func(line int, v func(estimate.Outcome) decimal.Decimal, format string) func(string, estimate.Outcome) cell {
		return func(col string, o estimate.Outcome) cell {
			return formula(fmt.Sprintf("%s%s%d", lines, col, line), v(o), format)
		}
	}
	unit, mass := b.line(takeoff.ConcreteOrder).Unit, ""
	for _, o := range outcomes {
		mass = firstOf(mass, string(o.Weight))
	}
	p.band("What is built")
	p.put(b.changes()...)
	row("Edge depth", func(_ string, o estimate.Outcome) cell {
		if o.Edge == 0 {
			return styled("none", plainText.right())
		}
		return b.length(o.Edge)
	})
	row("Field thickness", func(_ string, o estimate.Outcome) cell { return b.length(o.Field) })
	row("Frost depth", func(_ string, o estimate.Outcome) cell {
		switch {
		case b.frost == 0:
			return styled("not asked", plainText.right())
		case o.Frost:
			return styled("reached", plainText.right())
		}
		return styled("not reached", style{line: 'h', align: "right", bold: true, color: red})
	})
	row("Findings", func(_ string, o estimate.Outcome) cell {
		if o.Broken == 0 {
			return styled(o.Findings(), plainText.right())
		}
		return styled(o.Findings(), style{line: 'h', align: "right", bold: true, color: red, wrap: true})
	})
	for _, sentence := range strings.SplitAfter(estimate.Checked, ". ") {
		p.put(styled(sentence, note))
	}
	p.band("What it takes")
	yards := row(fmt.Sprintf("%s, %s", b.line(takeoff.ConcreteOrder).Name, unit), linked(at.order, func(o estimate.Outcome) decimal.Decimal { return o.Ordered }, volume))
	row("Trucks", linked(at.trucks, func(o estimate.Outcome) decimal.Decimal { return decimal.NewFromInt(int64(o.Trucks)) }, whole))
	row(joinNonEmpty(", ", "Steel", mass), func(_ string, o estimate.Outcome) cell { return dec(o.Steel, weight) })
	row("Form boards", func(_ string, o estimate.Outcome) cell { return num(float64(o.Boards), whole) })
	row("Labor hours", linked(at.hours, func(o estimate.Outcome) decimal.Decimal { return o.Hours }, measured))
	p.band("What it costs")
	money := b.money()
	row("Cost", linked(at.cost, func(o estimate.Outcome) decimal.Decimal { return o.Cost }, money))
	bid := linked(at.bid, func(o estimate.Outcome) decimal.Decimal { return o.Bid }, money)
	bids := row("Bid", func(col string, o estimate.Outcome) cell { return bid(col, o).strong() })
	row("Difference from as drawn", func(col string, o estimate.Outcome) cell {
		return formula(fmt.Sprintf("%s%s%d-%s$%s%d", lines, col, at.bid, lines, letter(firstOption), at.bid), o.Difference, money)
	})
	p.gap()
	p.put(b.unpricedNote())
	for _, o := range outcomes {
		if o.Err != nil {
			p.put(styled(o.Name+" cannot be built: "+firstFault(o.Err), warning))
		}
		for _, name := range o.Alike {
			p.put(styled(fmt.Sprintf("%s: %s has the price of any. Price it by its size to compare.", o.Name, name), warning))
		}
	}
	p.put(styled("Every figure follows the waste, prices and rates of this workbook, line by line on the next sheet; what the drawing takes stands there as numbers.", note))
	p.gap()
	b.depths(p)
	below := p.row + 1
	p.after = append(p.after, func() error {
		format := plain(e.Prices.Currency)
		format = `"` + strings.ReplaceAll(format, `"`, "") + `"#,##0`
		left := b.chart(p.name, b.say.Word("Bid by option"), bids, len(outcomes), format, "2F6F9F")
		right := b.chart(p.name, b.say.Word("Concrete ordered by option")+", "+string(unit), yards, len(outcomes), "#,##0.0#", "7A8B99")
		half := p.pixels(len(p.width)) / 2
		left.Dimension.Width, right.Dimension.Width = uint(half-10), uint(half-10)
		middle := 0
		for p.pixels(middle+1) <= half {
			middle++
		}
		right.Format.OffsetX = half - p.pixels(middle)
		return errors.Join(
			b.f.AddChart(p.name, fmt.Sprintf("A%d", below), left),
			b.f.AddChart(p.name, fmt.Sprintf("%s%d", letter(middle), below), right))
	})
	p.row += chartRows
	return p.close()
}

// firstFault gives the first of many things wrong.
func firstFault(err error) string {
	var fs plan.Faults
	if errors.As(err, &fs) && len(fs) > 1 {
		return fmt.Sprintf("%v, and %d more", fs[:1], len(fs)-1)
	}
	return err.Error()
}

// changes says what each option changes, or that it cannot be built.
func (b *builder) changes() []cell {
	cells := []cell{text("Changed")}
	for i, o := range b.outcomes {
		s := styled(strings.Join(b.changed(o.Option), ", "), plainText.right())
		switch {
		case o.Err != nil:
			s = styled("cannot be built", style{line: 'h', align: "right", bold: true, color: red})
		case i == 0:
			s = styled("–", plainText.right())
		}
		cells = append(cells, s)
	}
	return cells
}

// changed lists what an option changes.
func (b *builder) changed(o estimate.Option) []string {
	var out []string
	length := func(what string, c estimate.Change) {
		if c.Set {
			out = append(out, what+" "+c.To.Text(b.job.Units))
		}
	}
	length("edge", o.Edge)
	length("flat bottom", o.Bottom)
	length("taper", o.Taper)
	length("field", o.Field)
	if o.Foam.Set && o.Foam.To == 0 {
		out = append(out, "no foam")
	} else {
		length("foam", o.Foam)
	}
	length("bolts at most", o.Bolts)
	if o.Strength != 0 {
		out = append(out, takeoff.StrengthText(o.Strength, b.job.Units))
	}
	if o.Bar != 0 {
		out = append(out, "edge bars "+o.Bar.String())
	}
	if o.FieldSteel.Set {
		out = append(out, "field: "+o.FieldSteel.To.String())
	}
	if o.Fiber.Set {
		out = append(out, "fibers "+pour.DoseText(o.Fiber.To, b.job.Units))
	}
	return out
}

// optionsWidth is the least width of all options together, so that the charts
// below have room.
const optionsWidth = 92

// pixels gives the width of the first n columns on a screen: by the form's rule,
// 7 pixels for a digit and 5 around a cell.
func (p *page) pixels(n int) int {
	sum := 0
	for _, w := range p.width[:n] {
		sum += int(w*7+0.5) + 5
	}
	return sum
}

// chartRows is how many rows a chart covers.
const chartRows = 20

func (b *builder) chart(sheet, title string, row, options int, format, color string) *excelize.Chart {
	last := letter(options)
	font := excelize.Font{Family: "Arial", Size: 9, Color: ink}
	zero := 0.0
	gap := uint(60)
	return &excelize.Chart{
		Type: excelize.Col,
		Series: []excelize.ChartSeries{{
			Name:       fmt.Sprintf("%s!$A$%d", quoted(sheet), row),
			Categories: fmt.Sprintf("%s!$B$%d:$%s$%d", quoted(sheet), headRows, last, headRows),
			Values:     fmt.Sprintf("%s!$B$%d:$%s$%d", quoted(sheet), row, last, row),
			Fill:       excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{color}},
		}},
		Title:     excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: title, Font: &excelize.Font{Family: "Arial", Size: 11, Bold: true, Color: ink}}}},
		Legend:    excelize.ChartLegend{Position: "none"},
		Dimension: excelize.ChartDimension{Width: 560, Height: 330},
		PlotArea:  excelize.ChartPlotArea{ShowVal: true, NumFmt: excelize.ChartNumFmt{CustomNumFmt: format}},
		XAxis:     excelize.ChartAxis{Font: font},
		YAxis:     excelize.ChartAxis{Font: font, Minimum: &zero, MajorGridLines: true, NumFmt: excelize.ChartNumFmt{CustomNumFmt: format}},
		GapWidth:  &gap,
	}
}

// depths writes the edge depths at which something changes.
func (b *builder) depths(p *page) {
	if len(b.thresholds) == 0 {
		return // no haunch to vary
	}
	p.band("Edge depths that matter")
	for _, t := range b.thresholds {
		depth := "none from the field's thickness to " + geometry.Length(estimate.Deepest).Text(b.job.Units)
		if t.Found {
			depth = t.Depth.Text(b.job.Units)
		}
		p.put(styled(t.Text, style{}), cell{}, cell{}, styled(depth, style{bold: t.Found}))
	}
	p.put(styled("Found by the program for the plan with the waste, step and truck that the job has: these do not follow changes here.", note))
	p.gap()
}
