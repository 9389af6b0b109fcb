package workbook

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"haunchbook/app/estimate"
	"haunchbook/geometry"
)

// options writes variations of the job side by side, with charts.
func (b *builder) options() error {
	outcomes, base := b.o.Outcomes, b.base()
	if outcomes == nil {
		if len(base.Price.Options) == 0 {
			base.Price.Options = estimate.EdgeOptions(base.Slabs, base.Units)
		}
		outcomes = estimate.Compare(base)
	}
	e, money := b.estimate, b.money()
	p := b.page("Options", true, []column{
		{"Option", 24, false}, {"Edge", 12, true}, {"Field", 12, true}, {"Concrete", 10, true}, {"Unit", 7, false}, {"Trucks", 8, true}, {"Steel", 10, true}, {"Unit", 7, false},
		{"Boards", 8, true}, {"Labour, h", 10, true}, {"Cost", 13, true}, {"Bid", 13, true}, {"Difference", 13, true}, {"Frost depth", 12, false},
	})
	first := p.row + 1
	for _, o := range outcomes {
		row := p.row + 1
		if o.Err != nil {
			p.put(text(o.Name), text("cannot be built: "+o.Err.Error()))
			continue
		}
		frost := "not asked"
		if b.o.Frost > 0 {
			frost = map[bool]string{true: "reached", false: "not reached"}[o.Frost]
		}
		edge := b.length(o.Edge)
		if o.Edge == 0 {
			edge = styled("none", plainText.right())
		}
		p.put(text(o.Name), edge, b.length(o.Field), dec(o.Ordered, volume), indented(string(o.Volume)), num(float64(o.Trucks), whole),
			dec(o.Steel, weight), indented(string(o.Weight)), num(float64(o.Boards), whole), dec(o.Hours, measured), dec(o.Cost, money), dec(o.Bid, money),
			formula(fmt.Sprintf("L%d-L$%d", row, first), o.Difference, money), indented(frost))
	}
	last := p.row
	p.gap()
	p.put(styled("Worked out by the program with the job's prices as they stand; these rows do not follow changes in this workbook.", note))
	p.gap()
	b.thresholds(p, base)
	at := p.row + 1
	p.after = append(p.after, func() error {
		bids := b.chart(p.name, "Bid by option", "L", first, last, e.Prices.Currency+"#,##0", "2F6F9F")
		yards := b.chart(p.name, "Concrete ordered by option", "D", first, last, "#,##0.0#", "7A8B99")
		if err := b.f.AddChart(p.name, fmt.Sprintf("A%d", at), bids); err != nil {
			return err
		}
		return b.f.AddChart(p.name, fmt.Sprintf("G%d", at), yards)
	})
	p.row += chartRows
	return p.close()
}

// chartRows is how many rows a chart covers.
const chartRows = 22

func (b *builder) chart(sheet, title, col string, first, last int, format, color string) *excelize.Chart {
	ref := func(c string) string { return fmt.Sprintf("%s!$%s$%d:$%s$%d", quoted(sheet), c, first, c, last) }
	font := excelize.Font{Family: "Arial", Size: 9, Color: ink}
	zero := 0.0
	gap := uint(60)
	return &excelize.Chart{
		Type: excelize.Col,
		Series: []excelize.ChartSeries{{
			Name: fmt.Sprintf("%s!$%s$%d", quoted(sheet), col, headRows), Categories: ref("A"), Values: ref(col),
			Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{color}},
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

func (b *builder) base() estimate.Base {
	return estimate.Base{Slabs: b.job.Slabs, Spec: b.job.Spec, Units: b.job.Units, Price: b.job.Price, Prices: b.estimate.Prices, Frost: b.o.Frost}
}

// thresholds writes the edge depths at which something changes.
func (b *builder) thresholds(p *page, base estimate.Base) {
	list, err := estimate.Thresholds(base)
	if err != nil {
		return // no haunch to vary
	}
	p.band("Edge depths that matter")
	for _, t := range list {
		depth := "none from the field's thickness to " + geometry.Length(estimate.Deepest).Text(b.job.Units)
		if t.Found {
			depth = t.Depth.Text(b.job.Units)
		}
		p.put(styled(t.Text, style{}), cell{}, cell{}, styled(depth, style{bold: t.Found}))
	}
	p.gap()
}
