package workbook

import (
	"fmt"

	"github.com/shopspring/decimal"

	"haunchbook/app/estimate"
)

// concrete writes the parts of the volume and how it becomes an order.
func (b *builder) concrete() error {
	p := b.page("Concrete", false, []column{
		{"Part", 40, false}, {"Working", 52, false}, {"Volume", 14, true}, {"Unit", 8, false},
	})
	net, order := b.line("concrete.net"), b.line("concrete.order")
	unit := string(net.Unit)
	p.band("Parts of the slab")
	for _, s := range net.Trace {
		if s.Source != "" {
			continue // the sum, below
		}
		v, u := splitResult(s.Result)
		p.put(text(s.Text), text(s.Work), styled(v, plainText.right()), indented(u))
	}
	p.put(b.amount("Concrete in the slab", "exact integral of the depth over the slab", num(net.Value, "#,##0.000").named("ConcreteNet").strong(), unit)...)
	p.gap()

	o := b.job.Spec.Order
	p.band("Order")
	p.put(b.amount("Waste", "percent, for spill and uneven ground", input(o.Waste, percent).named("WastePercent"), "")...)
	netD := decimal.NewFromFloat(net.Value).Round(9)
	with := netD.Mul(o.Waste.Shift(-2).Add(decimal.NewFromInt(1)))
	p.put(b.amount("With waste", "", formula("ConcreteNet*(1+WastePercent/100)", with, "#,##0.000"), unit)...)
	p.put(b.amount("Plant's step", "the plant sells whole multiples", input(o.Step, general).named("OrderStep"), unit)...)
	ordered := decimal.NewFromFloat(order.Value).Round(6)
	p.put(b.amount("Concrete to order", "rounded up to the step", formula("ROUND(ROUNDUP(ROUND(ConcreteNet*(1+WastePercent/100)/OrderStep,9),0)*OrderStep,6)", ordered, volume).named("ConcreteOrder").strong(), unit)...)
	p.put(b.amount("One truck", "carries", input(o.Truck, general).named("TruckSize"), unit)...)
	trucks := decimal.NewFromFloat(b.line("concrete.trucks").Value)
	p.put(b.amount("Trucks", "", formula("ROUNDUP(ROUND(ConcreteOrder/TruckSize,9),0)", trucks, whole).named("Trucks").strong(), "")...)
	p.put(b.amount("Last truck's load", "all before it full", formula("ROUND(ConcreteOrder-(Trucks-1)*TruckSize,6)", estimate.LastLoad(ordered, o.Truck), volume).named("LastLoad"), unit)...)
	b.fiber(p)
	p.gap()

	p.band("For comparison")
	naive := b.line("concrete.naive")
	p.put(b.amount("By length times section", "counts outside corners twice and inside corners short", num(naive.Value, "#,##0.000"), unit)...)
	row := p.row
	p.put(b.amount("Difference", "", cell{value: naive.Value - net.Value, formula: fmt.Sprintf("C%d-ConcreteNet", row), style: plainText.as("#,##0.000;-#,##0.000")}, unit)...)
	for _, key := range []string{"slab.area", "slab.perimeter"} {
		l := b.line(key)
		p.put(b.amount(l.Name, "", num(l.Value, measured), string(l.Unit))...)
	}
	p.gap()
	p.put(styled(b.mix(), note))
	return p.close()
}

// fiber writes the dose of fibers per unit of concrete.
func (b *builder) fiber(p *page) {
	l, order := b.line("fiber.weight"), b.line("concrete.order")
	if l.Value == 0 || order.Value == 0 {
		return
	}
	unit := string(l.Unit) + "/" + string(order.Unit)
	p.put(b.amount("Fibers", "dose, ASTM C1116", num(l.Value/order.Value, "#,##0.000").in().named("FiberDose"), unit)...)
}

func (c cell) in() cell { c.style = c.style.in(); return c }

func (b *builder) amount(name, work string, c cell, unit string) []cell {
	label := text(name)
	label.style.bold = c.style.bold
	return []cell{label, styled(work, style{color: grey, line: 'h', wrap: true}), c, indented(unit)}
}

// splitResult parts "18.750 ft³" into number and unit.
func splitResult(s string) (value, unit string) {
	for i, r := range s {
		if r == ' ' {
			return s[:i], s[i+1:]
		}
	}
	return s, ""
}
