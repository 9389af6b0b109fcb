package workbook

import (
	"fmt"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
)

// price writes how cost becomes a bid.
func (b *builder) price() error {
	p := b.page("Price", portrait, []column{
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
	basis := styled(s.ProfitAs.String(), plainText.right().in()).named("ProfitBasis")
	basis.choice = []string{estimate.Markup.String(), estimate.Margin.String()}
	rate("Profit: markup of cost with overhead, or margin of the price", basis, text(""))
	rate("Profit", input(s.Profit, percent).named("ProfitPercent"),
		formula(profitOf("(CostTotal+OverheadTotal)"), e.Profit, money).named("ProfitTotal"))
	p.put(b.priceRow("Price before tax", formula("CostTotal+OverheadTotal+ProfitTotal", e.Price, money).named("PriceBeforeTax").strong())...)
	on := styled(s.TaxOn.String(), plainText.right().in()).named("TaxBasis")
	on.choice = []string{estimate.TaxMaterials.String(), estimate.TaxAll.String(), estimate.TaxNone.String()}
	rate("Sales tax on: materials, all or none", on, text(""))
	rate("Sales tax", input(s.Tax, percent).named("TaxPercent"),
		formula(taxOf("MaterialTotal", "PriceBeforeTax"), e.Tax, money).named("TaxTotal"))
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

// profitOf is the formula of the profit on a cost with overhead.
func profitOf(burdened string) string {
	return fmt.Sprintf(`IF(ProfitBasis="margin",ROUND(%[1]s*ProfitPercent/(100-ProfitPercent),2),ROUND(%[1]s*ProfitPercent/100,2))`, burdened)
}

// taxOf is the formula of the sales tax.
func taxOf(materials, price string) string {
	return fmt.Sprintf(`ROUND(IF(TaxBasis="materials",%s,IF(TaxBasis="all",%s,0))*TaxPercent/100,2)`, materials, price)
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
	for _, f := range e.Prices.Fees {
		row := p.row + 1
		l, due := lines[f.Name]
		delete(lines, f.Name)
		amount := formula(fmt.Sprintf("ROUND(B%d*D%d,2)", row, row), l.Extended, money)
		least, unit := text(""), l.Unit
		quantity := dec(l.Quantity, quantityFormat(l.Of))
		switch {
		case f.For == estimate.FeeShortLoad:
			quantity = formula(b.shortOf(fmt.Sprint("E", row), "ConcreteOrder", "Trucks", "LastLoad"), l.Quantity, volume)
			least, unit = input(f.Least, general), string(b.line(takeoff.ConcreteOrder).Unit)
		case !due:
			continue
		case f.What.Kind == takeoff.ConcreteTrucks:
			quantity = formula("Trucks", l.Quantity, whole)
		}
		b.charged[f.Name] = row
		if l.Unpriced { // its unit is not the job's: listed, not charged
			amount = formula("0", l.Extended, money)
		}
		p.put(text(f.Name), quantity, indented(unit), input(f.Amount.To, money).named(b.nameFor("Fee", f.Name)), least, amount)
	}
	{
		m := e.Spec.Mobilization
		row := p.row + 1
		p.put(text("Mobilization"), num(1, whole), indented("job"), input(m, money), text(""), formula(fmt.Sprintf("ROUND(B%d*D%d,2)", row, row), m.Round(2), money).named("Mobilization"))
	}
	p.put(b.priceRow("Fees and equipment", formula(fmt.Sprintf("SUM(F%d:F%d)", first, p.row), e.Fees, money).named("FeeTotal").strong())...)
	p.gap()
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
