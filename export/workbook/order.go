package workbook

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
)

// order writes what to buy, by supplier.
func (b *builder) order() error {
	p := b.page(orderSheet, landscape, []column{
		{"Item", 42, false}, {"Needed", 9, true}, {"Unit", 7, false}, {"Pack", 6, true}, {"Order", 9, true}, {"Sold as", 21, false},
		{"Unit price", 11, true}, {"Uses", 6, true}, {"Total", 12, true}, {"For this job", 12, true}, {"Supplier", 17, false}, {"Price of", 12, false},
	})
	if b.held != "" {
		p.put(styled("NOT TO BE ORDERED YET: "+b.held+".", note))
	}
	var totals []int
	paid := func(ls []estimate.Line) decimal.Decimal {
		sum := decimal.Zero
		for _, l := range ls {
			sum = sum.Add(toPay(l))
		}
		return sum
	}
	for _, g := range estimate.Groups {
		lines := b.materials(g)
		if len(lines) == 0 {
			continue
		}
		p.band(string(g))
		if g == estimate.ReadyMix {
			b.mix(p)
		}
		first := p.row + 1
		sum := decimal.Zero
		for _, l := range lines {
			b.orderLine(p, l)
			sum = sum.Add(l.Extended)
		}
		row := b.totalRow(p.cols, string(g)+" total", 8, formula(fmt.Sprintf("SUM(I%d:I%d)", first, p.row), paid(lines), b.money()))
		row[9] = formula(fmt.Sprintf("SUM(J%d:J%d)", first, p.row), sum, b.money()).strong()
		totals = append(totals, p.put(row...))
		p.gap()
	}
	totals = append(totals, b.added(p))
	all := decimal.Zero
	for _, l := range b.estimate.Lines {
		if l.Kind == estimate.Material && !l.ID.IsZero() {
			all = all.Add(l.Extended)
		}
	}
	in := func(col string) string {
		var parts []string
		for _, row := range totals {
			parts = append(parts, fmt.Sprint(col, row))
		}
		return strings.Join(parts, "+")
	}
	total := paid(b.estimate.Lines)
	p.put(b.totalRow(p.cols, "Total, to be paid", 8, formula(in("I"), total, b.money()).named("ToBePaid"))...)
	p.put(b.totalRow(p.cols, "Of it what serves other jobs too, by their share", 8, formula("ToBePaid-OrderTotal", total.Sub(all), b.money()).named("ForOtherJobs"))...)
	p.put(b.totalRow(p.cols, "Materials of this job", 8, formula(in("J"), all, b.money()).named("OrderTotal"))...)
	b.unpriced(p)
	p.gap()
	p.put(styled("Yellow cells are to fill in: prices, and on the other sheets waste, rates and percentages. Everything else follows.", note))
	p.put(styled("Needed is what the drawing takes; Order is whole packs of it. Total is what will be paid; boards, stakes and what else lasts serve so many jobs as Uses says, and this one pays its share.", note))
	return p.close()
}

// unpriced counts and names the lines of the order without a price, by what its cells
// hold: they are in no total.
func (b *builder) unpriced(p *page) {
	var count, names []string
	none := ""
	n := 0
	for _, l := range b.estimate.Lines {
		row, ok := b.ordered[l.ID]
		if l.Kind != estimate.Material || !ok || l.ByOthers {
			continue
		}
		count = append(count, fmt.Sprintf(`IF(G%d="",1,0)`, row))
		names = append(names, fmt.Sprintf(`IF(G%d="","; "&A%d,"")`, row, row))
		if l.Unpriced {
			n++
			none += "; " + b.say.Say(l.Name)
		}
	}
	if len(count) == 0 {
		count, names = []string{"0"}, []string{`""`}
	}
	if n == 0 {
		none = b.say.Word("none")
	}
	says := styled(none, style{bold: true})
	says.formula = `IF(Unpriced>0,` + strings.Join(names, "&") + `,"` + b.say.Word("none") + `")`
	says.name = "UnpricedNames"
	p.put(b.totalRow(p.cols, "Lines without a price, in no total", 1, formula(strings.Join(count, "+"), decimal.NewFromInt(int64(n)), whole).named("Unpriced"))...)
	p.put(says)
	b.none = b.none[:0]
	b.none = append(b.none, fmt.Sprint(n), none)
}

// unpricedNote says beside a total what is not in it.
func (b *builder) unpricedNote() cell {
	every, without := b.say.Word("Every line of the order has a price."), b.say.Word("In no total, since without a price")+": "
	c := styled(every, style{bold: true})
	if b.none[0] != "0" {
		c.value = plain(without + b.none[0] + b.none[1])
	}
	c.formula = fmt.Sprintf(`IF(Unpriced>0,"%s"&Unpriced&UnpricedNames,"%s")`, without, every)
	return c
}

// materials gives the lines of one supplier group.
func (b *builder) materials(g estimate.Group) []estimate.Line {
	var out []estimate.Line
	for _, l := range b.estimate.Lines {
		if l.Kind == estimate.Material && l.Group == g && !l.ID.IsZero() {
			out = append(out, l)
		}
	}
	return out
}

// mix describes the concrete as it is ordered: a note of what every mix has, and one
// of what else is asked. How long the words are moves no row.
func (b *builder) mix(p *page) {
	parts := []string{"ASTM C94/C94M"}
	for _, i := range pour.MixItems(b.job.Spec.Mix, b.job.Pour, b.job.Units) {
		parts = append(parts, i.Name+": "+i.Text)
	}
	for part := range slices.Chunk(parts, 5) {
		p.put(styled(strings.Join(part, "; "), note))
	}
}

func (b *builder) orderLine(p *page, l estimate.Line) {
	row := p.row + 1
	money := b.money()
	need := b.follows(l.ID, l.Need, l.Of, here)
	places, buy := 0, whole
	if l.Loose {
		places, buy = 2, volume
	}
	price := input(l.Price, money).named(b.nameFor("Price", l.Name))
	if l.Unpriced {
		price.value = nil
	}
	uses := input(decimal.NewFromInt(int64(l.Uses)), whole).within(positive)
	total, extended := formula(fmt.Sprintf("ROUND(E%d*G%d,2)", row, row), toPay(l), money), formula(fmt.Sprintf("ROUND(E%d*G%d/H%d,2)", row, row, row), l.Extended, money)
	supplier := written(l.Supplier)
	b.ordered[l.ID] = row
	if l.ByOthers {
		price, uses = styled("by others", plainText.right()), text("")
		total, extended = formula("0", decimal.Zero, money), formula("0", decimal.Zero, money)
		supplier = text("")
	}
	p.put(text(l.Name), need, indented(string(l.Of)), dec(l.Pack, general),
		formula(fmt.Sprintf("ROUNDUP(ROUND(B%d/D%d,6),%d)", row, row, places), l.Quantity, buy),
		indented(l.Unit), price, uses, total, extended, supplier, indented(l.Date))
}

// toPay is what all of a line costs, also what lasts beyond the job.
func toPay(l estimate.Line) decimal.Decimal {
	if l.Kind != estimate.Material || l.ID.IsZero() || l.ByOthers || l.Unpriced {
		return decimal.Zero
	}
	return l.Quantity.Mul(l.Price).Round(2)
}

// written is a text to fill in: written over by hand it stays text, whatever it starts
// with.
func written(text string) cell {
	return cell{value: plain(text), style: style{line: 'h', wrap: true, input: true, indent: true, num: "@"}}
}

// blank is a number to fill in.
func blank(format string) cell {
	c := input(decimal.Zero, format)
	c.value = nil
	return c
}

// addedRows is how many lines of one's own fit each list.
const addedRows = 3

// added leaves room for materials that the program knows nothing of, and gives the row
// of their sum.
func (b *builder) added(p *page) int {
	money := b.money()
	p.band("Your own lines")
	first := p.row + 1
	for range addedRows {
		row := p.row + 1
		p.put(written(""), text(""), text(""), text(""), blank(volume), written(""), blank(money), input(decimal.NewFromInt(1), whole).within(positive),
			formula(fmt.Sprintf("ROUND(E%d*G%d,2)", row, row), decimal.Zero, money), formula(fmt.Sprintf("ROUND(E%d*G%d/H%d,2)", row, row, row), decimal.Zero, money), written(""), text(""))
	}
	row := b.totalRow(p.cols, "Your own lines, total", 8, formula(fmt.Sprintf("SUM(I%d:I%d)", first, p.row), decimal.Zero, money))
	row[9] = formula(fmt.Sprintf("SUM(J%d:J%d)", first, p.row), decimal.Zero, money).named("AddedMaterials").strong()
	n := p.put(row...)
	p.gap()
	return n
}

// concreteCells names the cells that hold what an order of concrete comes to.
type concreteCells struct{ net, order, trucks, dose string }

// here are those of the job as it is.
var here = concreteCells{"ConcreteNet", "ConcreteOrder", "Trucks", "FiberDose"}

// follows is how much of a quantity there is: a formula where waste, step, truck or
// dose change it, else the number that the drawing takes.
func (b *builder) follows(id takeoff.ID, n decimal.Decimal, of takeoff.Unit, c concreteCells) cell {
	switch id.Kind {
	case takeoff.ConcreteOrder, takeoff.MixStrength, takeoff.MixAir, takeoff.MixReducer:
		return formula(c.order, n, volume)
	case takeoff.ConcreteWaste:
		return formula(fmt.Sprintf("ROUND(%s*WastePercent/100,6)", c.net), n, measured)
	case takeoff.ConcreteTrucks:
		return formula(c.trucks, n, whole)
	case takeoff.Fibers:
		return formula(fmt.Sprintf("ROUND(%s*%s,6)", c.dose, c.order), n, measured)
	}
	return dec(n, quantityFormat(of))
}

// quantityFormat is how a quantity in a unit is shown.
func quantityFormat(u takeoff.Unit) string {
	switch u {
	case takeoff.Each:
		return whole
	case "":
		return general
	}
	return measured
}

// totalRow is a bold row with its amount in column col.
func (b *builder) totalRow(cols int, label string, col int, amount cell) []cell {
	cells := make([]cell, cols)
	for i := range cells {
		cells[i].style = totalText
	}
	cells[0].value = label
	cells[col] = amount.strong()
	return cells
}
