package workbook

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
)

// price writes how cost becomes a bid.
func (b *builder) price() error {
	p := b.page(priceSheet, portrait, []column{
		{"", 40, false}, {"Quantity", 12, true}, {"Unit", 9, false}, {"Rate", 13, true}, {"Least load", 11, true}, {"Amount", 15, true},
	})
	e, s, money := b.estimate, b.estimate.Spec, b.money()
	b.fees(p)
	b.extras(p)

	p.band("Cost")
	taxed := e.Materials
	p.put(b.priceRow("Materials, from the order and extras", formula("OrderTotal+MaterialExtras", taxed, money).named("MaterialTotal"))...)
	p.put(b.priceRow("Labor", formula("LaborTotal", e.Labor, money))...)
	p.put(b.priceRow("Fees and equipment", formula("FeeTotal", e.Fees, money))...)
	p.put(b.priceRow("Extras", formula("ExtraTotal", e.Extras, money))...)
	p.put(b.priceRow("Cost", formula("MaterialTotal+LaborTotal+FeeTotal+ExtraTotal", e.Cost, money).named("CostTotal").strong())...)
	p.gap()

	p.band("Price")
	rate := func(label string, r cell, amount cell) {
		cells := b.priceRow(label, amount)
		cells[3] = r
		p.put(cells...)
	}
	rate("Overhead, on cost", input(s.Overhead, percent).named("OverheadPercent"),
		formula("ROUND(CostTotal*OverheadPercent/100,2)", e.Overhead, money).named("OverheadTotal"))
	before := "CostTotal+OverheadTotal"
	for _, m := range markups(s) {
		amount := m.by.Mul(m.on(e)).Shift(-2).Round(2)
		rate("Markup of "+m.name, input(m.by, percent).named("Markup_"+m.of), formula(fmt.Sprintf("ROUND(%s*Markup_%s/100,2)", m.of, m.of), amount, money))
		before += fmt.Sprintf("+F%d", p.row)
	}
	basis := styled(b.say.Word(s.ProfitAs.String()), plainText.right().in()).named("ProfitBasis")
	basis.choice = []string{b.say.Word(estimate.Markup.String()), b.say.Word(estimate.Margin.String())}
	rate("Profit: markup of cost with overhead, or margin of the price", basis, text(""))
	rate("Profit", input(s.Profit, percent).named("ProfitPercent"),
		formula(b.profitOf("("+before+")"), e.Profit, money).named("ProfitTotal"))
	raised := ""
	if s.Least.IsPositive() {
		raised += "+Raised"
		rate("Up to the least charge", input(s.Least, money).named("LeastCharge"), formula("MAX(0,LeastCharge-("+before+"+ProfitTotal))", b.toLeast(e), money).named("Raised"))
	}
	if s.Round.IsPositive() {
		rate("Up to a round bid", input(s.Round, general).within(positive).named("RoundTo"),
			formula(b.roundingOf(before+"+ProfitTotal"+raised, "MaterialTotal"), e.Raised.Sub(b.toLeast(e)), money).named("Rounding"))
		raised += "+Rounding"
	}
	p.put(b.priceRow("Price before tax", formula(before+"+ProfitTotal"+raised, e.Price, money).named("PriceBeforeTax").strong())...)
	on := styled(b.say.Word(s.TaxOn.String()), plainText.right().in()).named("TaxBasis")
	on.choice = []string{b.say.Word(estimate.TaxMaterials.String()), b.say.Word(estimate.TaxAll.String()), b.say.Word(estimate.TaxNone.String())}
	rate("Sales tax on: materials, all or none", on, text(""))
	rate("Sales tax", input(s.Tax, percent).named("TaxPercent"),
		formula(b.taxOf("MaterialTotal", "PriceBeforeTax"), e.Tax, money).named("TaxTotal"))
	bid := formula("PriceBeforeTax+TaxTotal", e.Bid, money).named("BidTotal").strong()
	bid.style.size = 13
	cells := b.priceRow("Bid", bid)
	cells[0].style.size = 13
	p.put(cells...)
	p.gap()
	p.put(b.unpricedNote())
	for _, w := range e.Draft(b.o.Date) {
		p.put(styled(w.Text, warning))
	}
	return p.close()
}

// markup is a percentage of one kind of cost.
type markup struct {
	name, of string // of: the name of the cell that holds it
	by       decimal.Decimal
	on       func(estimate.Estimate) decimal.Decimal
}

// markups gives those that a job has.
func markups(s estimate.Spec) []markup {
	return slices.DeleteFunc([]markup{
		{"materials", "MaterialTotal", s.MarkupMaterials, func(e estimate.Estimate) decimal.Decimal { return e.Materials }},
		{"labor", "LaborTotal", s.MarkupLabor, func(e estimate.Estimate) decimal.Decimal { return e.Labor }},
		{"fees and equipment", "FeeTotal", s.MarkupFees, func(e estimate.Estimate) decimal.Decimal { return e.Fees }},
	}, func(m markup) bool { return !m.by.IsPositive() })
}

// toLeast gives what brings a price up to the least charge.
func (b *builder) toLeast(e estimate.Estimate) decimal.Decimal {
	if !e.Spec.Least.IsPositive() {
		return decimal.Zero
	}
	return decimal.Max(decimal.Zero, e.Spec.Least.Sub(decimal.Sum(e.Cost, e.Overhead, e.Markup, e.Profit)))
}

// roundingOf is the formula of what makes the bid, or the price where tax is on all of
// it, a whole multiple.
func (b *builder) roundingOf(price, materials string) string {
	with := fmt.Sprintf(`(%s+IF(TaxBasis="%s",ROUND(%s*TaxPercent/100,2),0))`, price, b.say.Word(estimate.TaxMaterials.String()), materials)
	return fmt.Sprintf("ROUND(ROUNDUP(ROUND(%s/RoundTo,6),0)*RoundTo-%s,2)", with, with)
}

// profitOf is the formula of the profit on a cost with overhead.
func (b *builder) profitOf(burdened string) string {
	return fmt.Sprintf(`IF(ProfitBasis="%[2]s",ROUND(%[1]s*ProfitPercent/(100-ProfitPercent),2),ROUND(%[1]s*ProfitPercent/100,2))`, burdened, b.say.Word(estimate.Margin.String()))
}

// taxOf is the formula of the sales tax.
func (b *builder) taxOf(materials, price string) string {
	return fmt.Sprintf(`ROUND(IF(TaxBasis="%s",%s,IF(TaxBasis="%s",%s,0))*TaxPercent/100,2)`, b.say.Word(estimate.TaxMaterials.String()), materials, b.say.Word(estimate.TaxAll.String()), price)
}

func (b *builder) priceRow(label string, amount cell) []cell {
	cells := make([]cell, 6)
	for i := range cells {
		cells[i] = text("")
		cells[i].style.bold, cells[i].style.line = amount.style.bold, firstByte(amount.style.line, 'h')
	}
	cells[0].value = plain(label)
	cells[0].style.wrap = true
	cells[5] = amount
	return cells
}

func firstByte(a, b byte) byte {
	if a != 0 {
		return a
	}
	return b
}

// fees writes suppliers' fees, equipment and mobilization. A short-load fee
// stands there also when nothing is due: another waste may bring it about.
func (b *builder) fees(p *page) {
	e, money := b.estimate, b.money()
	lines := map[string]estimate.Line{}
	for _, l := range e.Lines {
		if l.Kind == estimate.Charge || l.Kind == estimate.Equipment {
			lines[l.Name] = l
		}
	}
	p.band("Fees and equipment")
	first := p.row + 1
	sum := func() string { return fmt.Sprintf("SUM(F%d:F%d)", first, p.row) }
	for _, f := range e.Prices.Fees {
		if l, due := lines[f.Name]; f.For != estimate.FeeOfCost && (due || f.For == estimate.FeeShortLoad && !f.Off) {
			b.feeRow(p, f, l, "")
		}
	}
	m := e.Spec.Mobilization
	row := p.row + 1
	p.put(text("Mobilization"), num(1, whole), indented("job"), input(m, money), text(""), formula(fmt.Sprintf("ROUND(B%d*D%d,2)", row, row), m.Round(2), money).named("Mobilization"))
	own := p.row + 1
	for range addedRows {
		row := p.row + 1
		p.put(written(""), blank(general), written(""), blank(money), text(""), formula(fmt.Sprintf("ROUND(B%d*D%d,2)", row, row), decimal.Zero, money))
	}
	p.nameRange("AddedFees", "F", own)
	all := "MaterialTotal+LaborTotal+ExtraTotal+" + sum()
	for _, f := range e.Prices.Fees {
		if l, due := lines[f.Name]; f.For == estimate.FeeOfCost && due {
			b.feeRow(p, f, l, all)
		}
	}
	p.put(b.priceRow("Fees and equipment", formula(sum(), e.Fees, money).named("FeeTotal").strong())...)
	p.gap()
}

// feeRow writes a fee. cost is the formula of what a percentage of all other cost is of.
func (b *builder) feeRow(p *page, f estimate.Fee, l estimate.Line, cost string) {
	money, row := b.money(), p.row+1
	amount := formula(fmt.Sprintf("ROUND(B%d*D%d,2)", row, row), l.Extended, money)
	rate, least, unit := input(f.Amount.To, money), text(""), l.Unit
	if f.For == estimate.FeeShortLoad {
		least, unit = input(f.Least, general), string(b.line(takeoff.ConcreteOrder).Unit)
	}
	if f.For == estimate.FeeOfLabor || f.For == estimate.FeeOfCost {
		rate = input(f.Amount.To, general)
	}
	b.charged[f.Name] = row
	switch {
	case l.Unpriced && f.Amount.Set: // its unit is not the job's: listed, not charged
		amount = formula("0", l.Extended, money)
	case l.Unpriced:
		rate.value = nil
	}
	quantity := b.charges(f, l, fmt.Sprint("E", row), here, "LastLoad", "LaborHours", "LaborTotal", cost)
	p.put(text(f.Name), quantity, indented(unit), rate.named(b.nameFor("Fee", f.Name)), least, amount)
}

// charges is how many times a fee is charged, by the cells of a job or of an option.
func (b *builder) charges(f estimate.Fee, l estimate.Line, least string, c concreteCells, last, hours, labor, cost string) cell {
	switch f.For {
	case estimate.FeeShortLoad:
		switch {
		case len(b.takeoff.Pours) < 2:
			return formula(b.shortOf(least, c.order, c.trucks, last), l.Quantity, volume)
		case c == here:
			return formula(b.shortOfEach(least), l.Quantity, volume)
		}
		return dec(l.Quantity, volume) // of several pours, an option has no cells for each
	case estimate.FeePerDay:
		return formula(fmt.Sprintf("ROUNDUP(ROUND(%s/(Crew*%s),6),0)", hours, estimate.DayHours), l.Quantity, whole)
	case estimate.FeeOfLabor:
		return formula(fmt.Sprintf("(%s)/100", labor), l.Quantity, measured)
	case estimate.FeeOfCost:
		return formula(fmt.Sprintf("(%s)/100", cost), l.Quantity, measured)
	case estimate.FeePerUnit:
		q := b.follows(f.What, l.Need, l.Of, c)
		if f.Pack.IsPositive() && !l.Unpriced {
			from := q.formula
			if from == "" {
				from = l.Need.String()
			}
			return formula(fmt.Sprintf("ROUNDUP(ROUND(%s/%s,6),0)", from, f.Pack), l.Quantity, whole)
		}
		return q
	}
	return dec(l.Quantity, quantityFormat(l.Of))
}

// extras writes the amounts of this job alone.
func (b *builder) extras(p *page) {
	e, money := b.estimate, b.money()
	p.band("Extras of this job")
	sum := func(material bool) (string, decimal.Decimal) {
		list, total := "", decimal.Zero
		for _, x := range e.Spec.Extras {
			if x.Material != material || x.Amount.IsZero() {
				continue
			}
			name := x.Name
			if material {
				name += " (material)"
			}
			row := p.row + 1
			p.put(text(name), text(""), text(""), input(x.Amount, money).within(signed), text(""), formula(fmt.Sprintf("ROUND(D%d,2)", row), x.Amount.Round(2), money))
			if list != "" {
				list += "+"
			}
			list += fmt.Sprintf("F%d", row)
			total = total.Add(x.Amount.Round(2))
		}
		if list == "" {
			list = "0"
		}
		return list, total
	}
	list, total := sum(true)
	p.put(b.priceRow("Extra materials", formula(list, total, money).named("MaterialExtras"))...)
	list, total = sum(false)
	p.put(b.priceRow("Other extras", formula(list, total, money).named("ExtraTotal"))...)
	p.gap()
}
