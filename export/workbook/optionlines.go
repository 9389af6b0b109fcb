package workbook

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
)

// optionLines names the sheet on which options are worked out.
const optionLines = "Option lines"

// Other sheets that one refers to.
const (
	orderSheet = "Order"
	laborSheet = "Labor"
	priceSheet = "Price"
)

// firstOption is the column, from 0, of the job as it is; its options follow.
const firstOption = 5

// optionTable is where the lines of the options stand: every line that any of
// them has, in one place for all.
type optionTable struct {
	materials []estimate.Line // one for each takeoff line
	tasks     []estimate.Line // one for each task
	fees      []estimate.Fee

	net, order, trucks, last, dose                   int // rows
	need, amount, materialTotal                      int // rows, the first of their kind
	quantity, hour, hours, wages                     int
	feeQuantity, feeAmount, feeTotal                 int
	cost, overhead, profit, price, tax, bid, bidFrom int
}

// optionTable lays the table out.
func (b *builder) optionTable() optionTable {
	var t optionTable
	for _, o := range b.outcomes {
		for _, l := range o.Estimate.Lines {
			switch {
			case l.Kind == estimate.Material && !l.ID.IsZero() && !slices.ContainsFunc(t.materials, func(m estimate.Line) bool { return m.ID == l.ID }):
				t.materials = append(t.materials, l)
			case l.Kind == estimate.Labor && !slices.ContainsFunc(t.tasks, func(m estimate.Line) bool { return m.Name == l.Name }):
				t.tasks = append(t.tasks, l)
			}
		}
	}
	slices.SortStableFunc(t.materials, func(a, b estimate.Line) int {
		return slices.Index(estimate.Groups, a.Group) - slices.Index(estimate.Groups, b.Group)
	})
	slices.SortStableFunc(t.tasks, func(a, b estimate.Line) int { return toDays(a) - toDays(b) })
	for _, f := range b.estimate.Prices.Fees {
		due := slices.ContainsFunc(b.outcomes, func(o estimate.Outcome) bool { _, ok := feeLine(o.Estimate, f.Name); return ok })
		if due || f.For == estimate.FeeShortLoad && !f.Off {
			t.fees = append(t.fees, f)
		}
	}
	slices.SortStableFunc(t.fees, func(a, b estimate.Fee) int { return ofCost(a) - ofCost(b) })
	row := headRows
	next := func(n int) int { row += n; return row - n + 1 }
	next(1) // a band over each part, and a gap after it
	t.net, t.order, t.trucks, t.last, t.dose = next(1), next(1), next(1), next(1), next(1)
	next(2)
	t.need = next(len(t.materials))
	next(2)
	t.amount, t.materialTotal = next(len(t.materials)), next(1)
	next(2)
	t.quantity = next(len(t.tasks))
	next(2)
	t.hour, t.hours, t.wages = next(len(t.tasks)), next(1), next(1)
	next(2)
	t.feeQuantity = next(len(t.fees))
	next(2)
	t.feeAmount, t.feeTotal = next(len(t.fees)), next(1)
	next(2)
	t.bidFrom = next(4)
	t.cost, t.overhead = next(1), next(1)
	next(len(markups(b.estimate.Spec)))
	t.profit = next(1)
	for _, raises := range []decimal.Decimal{b.estimate.Spec.Least, b.estimate.Spec.Round} {
		if raises.IsPositive() {
			next(1)
		}
	}
	t.price, t.tax, t.bid = next(1), next(1), next(1)
	return t
}

// What goes by all lines before it stands last.
func toDays(l estimate.Line) int {
	if l.Name == estimate.ToDays {
		return 1
	}
	return 0
}

func ofCost(f estimate.Fee) int {
	if f.For == estimate.FeeOfCost {
		return 1
	}
	return 0
}

// feeLine gives the line of a fee.
func feeLine(e estimate.Estimate, name string) (estimate.Line, bool) {
	i := slices.IndexFunc(e.Lines, func(l estimate.Line) bool {
		return (l.Kind == estimate.Charge || l.Kind == estimate.Equipment) && l.Name == name
	})
	if i < 0 {
		return estimate.Line{}, false
	}
	return e.Lines[i], true
}

func materialLine(e estimate.Estimate, id takeoff.ID) (estimate.Line, bool) {
	i := slices.IndexFunc(e.Lines, func(l estimate.Line) bool { return l.Kind == estimate.Material && l.ID == id })
	if i < 0 {
		return estimate.Line{}, false
	}
	return e.Lines[i], true
}

func laborLine(e estimate.Estimate, name string) (estimate.Line, bool) {
	i := slices.IndexFunc(e.Lines, func(l estimate.Line) bool { return l.Kind == estimate.Labor && l.Name == name })
	if i < 0 {
		return estimate.Line{}, false
	}
	return e.Lines[i], true
}

// optionLines works the options out, line by line, with the prices, rates and
// percentages of the other sheets. What only an option takes is priced here.
func (b *builder) optionLines() error {
	columns := []column{{"Line", 36, false}, {"Unit", 18, false}, {"Pack or rate", 12, true}, {"Price, or hours besides", 14, true}, {"Uses", 6, true}}
	for _, o := range b.outcomes {
		columns = append(columns, column{plain(o.Name), 13, true})
	}
	w := &optionWriter{b, b.page(optionLines, landscape, columns), b.optionTable()}
	w.concrete()
	w.materials()
	w.labor()
	w.fees()
	w.bid()
	if w.p.row != w.at.bid {
		return fmt.Errorf("sheet %s: %d rows where %d were laid out", optionLines, w.p.row, w.at.bid)
	}
	return w.p.close()
}

// optionWriter writes the lines of the options.
type optionWriter struct {
	b  *builder
	p  *page
	at optionTable
}

// row writes a line: what stands before the options, and a cell for each that can
// be built.
func (w *optionWriter) row(label, unit string, before [3]cell, of func(col string, o estimate.Outcome) cell) {
	cells := []cell{text(label), text(unit), before[0], before[1], before[2]}
	for i := range before {
		if before[i].style == (style{}) {
			cells[2+i] = text("")
		}
	}
	bold := false
	for i, o := range w.b.outcomes {
		c := text("")
		if o.Err == nil {
			c = of(letter(firstOption+i), o)
			bold = c.style.bold
		}
		cells = append(cells, c)
	}
	if bold {
		for i := range cells {
			cells[i].style.bold, cells[i].style.line = true, 't'
		}
	}
	w.p.put(cells...)
}

func (w *optionWriter) concrete() {
	b, p, at := w.b, w.p, w.at
	unit := string(b.line(takeoff.ConcreteNet).Unit)
	p.band("Concrete")
	w.row(b.line(takeoff.ConcreteNet).Name, unit, [3]cell{}, func(_ string, o estimate.Outcome) cell {
		l, _ := o.Takeoff.Line(takeoff.ConcreteNet)
		return num(l.Value, "#,##0.000")
	})
	w.row(b.line(takeoff.ConcreteOrder).Name, unit, [3]cell{}, func(col string, o estimate.Outcome) cell {
		if len(o.Takeoff.Pours) > 1 {
			return dec(o.Ordered, volume)
		}
		return formula(orderOf(fmt.Sprint(col, at.net)), o.Ordered, volume)
	})
	w.row(b.line(takeoff.ConcreteTrucks).Name, "", [3]cell{}, func(col string, o estimate.Outcome) cell {
		if len(o.Takeoff.Pours) > 1 {
			return dec(decimal.NewFromInt(int64(o.Trucks)), whole)
		}
		return formula(trucksOf(fmt.Sprint(col, at.order)), decimal.NewFromInt(int64(o.Trucks)), whole)
	})
	w.row("Last truck's load", unit, [3]cell{}, func(col string, o estimate.Outcome) cell {
		if len(o.Takeoff.Pours) > 1 {
			return dec(lastLoad(o.Takeoff.Loads), volume)
		}
		return formula(b.lastLoadOf(fmt.Sprint(col, at.order), fmt.Sprint(col, at.trucks)), lastLoad(o.Takeoff.Loads), volume)
	})
	_, per := b.dose(b.takeoff)
	w.row("Fibers, dose", per, [3]cell{}, func(_ string, o estimate.Outcome) cell {
		dose, _ := b.dose(o.Takeoff)
		if usual, _ := b.dose(b.takeoff); usual > 0 && dose > 0 && !o.Option.Fiber.Set {
			return calc("FiberDose", dose, "#,##0.000")
		}
		return num(dose, "#,##0.000")
	})
	p.gap()
}

func (w *optionWriter) materials() {
	b, p, at := w.b, w.p, w.at
	p.band("Materials: needed")
	for _, m := range at.materials {
		w.row(m.Name, string(m.Of), [3]cell{}, func(col string, o estimate.Outcome) cell {
			l, ok := materialLine(o.Estimate, m.ID)
			if !ok {
				return dec(decimal.Zero, quantityFormat(m.Of))
			}
			return b.follows(m.ID, l.Need, m.Of, at.cells(col))
		})
	}
	p.gap()
	p.band("Materials: amounts")
	for i, m := range at.materials {
		row := p.row + 1
		w.row(m.Name, m.Unit, w.priced(m), func(col string, o estimate.Outcome) cell {
			l, _ := materialLine(o.Estimate, m.ID)
			if m.ByOthers {
				return dec(decimal.Zero, b.money())
			}
			return formula(bought(fmt.Sprintf("%s%d/$C%d", col, at.need+i, row), m.Loose, fmt.Sprintf("$D%d", row), fmt.Sprintf("$E%d", row)), l.Extended, b.money())
		})
	}
	w.total("Materials", at.amount, len(at.materials), func(e estimate.Estimate) decimal.Decimal {
		return sum(e, func(l estimate.Line) bool { return l.Kind == estimate.Material && !l.ID.IsZero() })
	})
	p.gap()
}

// bought is the formula of an amount: whole packs, or hundredths of loose goods,
// at a price that several jobs may share.
func bought(packs string, loose bool, price, uses string) string {
	places := 0
	if loose {
		places = 2
	}
	return fmt.Sprintf("ROUND(ROUNDUP(ROUND(%s,6),%d)*%s/%s,2)", packs, places, price, uses)
}

// priced gives pack, price and uses of a material: those of the order where it
// stands there, else to fill in here.
func (w *optionWriter) priced(m estimate.Line) [3]cell {
	b := w.b
	price, uses := input(m.Price, b.money()), input(decimal.NewFromInt(int64(m.Uses)), whole)
	if m.Unpriced {
		price.value = nil
	}
	if r, ok := b.ordered[m.ID]; ok {
		price, uses = formula(fmt.Sprintf("%sG%d", b.cellsOf(orderSheet), r), m.Price, b.money()), formula(fmt.Sprintf("%sH%d", b.cellsOf(orderSheet), r), decimal.NewFromInt(int64(m.Uses)), whole)
	}
	if m.ByOthers {
		price, uses = styled("by others", plainText.right()), text("")
	}
	return [3]cell{dec(m.Pack, general), price, uses}
}

// total writes the sum of n rows.
func (w *optionWriter) total(label string, first, n int, of func(estimate.Estimate) decimal.Decimal) {
	w.row(label, "", [3]cell{}, func(col string, o estimate.Outcome) cell {
		f := "0"
		if n > 0 {
			f = fmt.Sprintf("SUM(%s%d:%s%d)", col, first, col, first+n-1)
		}
		return formula(f, of(o.Estimate), w.b.money()).strong()
	})
}

// sum adds up the lines that which tells.
func sum(e estimate.Estimate, which func(estimate.Line) bool) decimal.Decimal {
	total := decimal.Zero
	for _, l := range e.Lines {
		if which(l) {
			total = total.Add(l.Extended)
		}
	}
	return total
}

func (w *optionWriter) labor() {
	b, p, at := w.b, w.p, w.at
	p.band("Labor: quantities")
	for _, m := range at.tasks {
		w.row(m.Name, string(m.Of), [3]cell{}, func(col string, o estimate.Outcome) cell {
			l, ok := laborLine(o.Estimate, m.Name)
			switch {
			case m.ID.IsZero() && ok:
				return dec(decimal.NewFromInt(1), whole)
			case m.ID.IsZero() || !ok:
				return dec(decimal.Zero, quantityFormat(m.Of))
			}
			return b.follows(m.ID, l.Need, m.Of, at.cells(col))
		})
	}
	p.gap()
	p.band("Labor: hours")
	for i, m := range at.tasks {
		row := p.row + 1
		rate, each := input(m.Rate, general), input(m.Each, general)
		if r, ok := b.tasks[m.Name]; ok {
			rate, each = formula(fmt.Sprintf("%sE%d", b.cellsOf(laborSheet), r), m.Rate, general), formula(fmt.Sprintf("%sF%d", b.cellsOf(laborSheet), r), m.Each, general)
		}
		rated := !m.ID.IsZero() && m.Rate.IsPositive() && !m.Unpriced
		if !rated {
			rate = text("")
		}
		if m.Unpriced || m.Name == estimate.ToDays { // its unit is not the job's, or it goes by the others
			each = text("")
		}
		w.row(m.Name, "h", [3]cell{rate, each}, func(col string, o estimate.Outcome) cell {
			l, _ := laborLine(o.Estimate, m.Name)
			q := fmt.Sprintf("%s%d", col, at.quantity+i)
			switch {
			case m.Unpriced:
				return dec(l.Quantity, measured)
			case m.Name == estimate.ToDays:
				return formula(b.toDays("("+span("SUM(%s)", col, at.hour, i)+"+SUM(AddedHours))"), l.Quantity, measured)
			case !rated:
				return formula(fmt.Sprintf("IF(%s=0,0,ROUND($D%d,2))", q, row), l.Quantity, measured)
			}
			return formula(fmt.Sprintf("IF(%s=0,0,ROUND(ROUND(%s/$C%d,2)+$D%d,2))", q, q, row, row), l.Quantity, measured)
		})
	}
	w.row("Hours", "h", [3]cell{}, func(col string, o estimate.Outcome) cell {
		return formula(span("SUM(%s)", col, at.hour, len(at.tasks))+"+SUM(AddedHours)", o.Hours, measured).strong()
	})
	w.row("Labor, at the wage", "", [3]cell{}, func(col string, o estimate.Outcome) cell {
		return formula(span("SUMPRODUCT(ROUND(%s*Wage,2))", col, at.hour, len(at.tasks))+"+SUM(AddedLabor)", o.Estimate.Labor, b.money()).strong()
	})
	p.gap()
}

// span is a formula over n rows of a column; 0 for none.
func span(f, col string, first, n int) string {
	if n == 0 {
		return "0"
	}
	return fmt.Sprintf(f, fmt.Sprintf("%s%d:%s%d", col, first, col, first+n-1))
}
