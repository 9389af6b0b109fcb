package workbook

import (
	"fmt"
	"math"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/solid"
)

// concrete writes the parts of the volume and how it becomes an order.
func (b *builder) concrete() error {
	net := b.line(takeoff.ConcreteNet)
	unit := string(net.Unit)
	p := b.page("Concrete", portrait, []column{
		{"Part", 40, false}, {"Length or area", 11, true}, {"Unit", 6, false}, {"Times", 10, true}, {"Unit", 6, false}, {"Volume", 13, true}, {"Unit", 8, false},
	})
	var sums []string
	for _, s := range b.takeoff.Slabs {
		p.band(firstOf(s.Name, "Parts of the slab"))
		first := p.row + 1
		for _, part := range s.Solid.Parts {
			p.put(b.part(s, part, p.row+1, unit)...)
		}
		if !s.Curbs.None() {
			p.put(b.amount("Curbs", "above the slab's top", num(b.volume(s.Curbs.Volume), "#,##0.000"), unit)...)
		}
		sum := fmt.Sprintf("SUM(F%d:F%d)", first, p.row)
		sums = append(sums, fmt.Sprintf("F%d", p.row+1))
		if len(b.takeoff.Slabs) == 1 {
			sums[0] = sum
			break
		}
		p.put(b.amount(s.Called("sum"), "", calc(sum, b.volume(s.Volume()), "#,##0.000").strong(), unit)...)
		p.gap()
	}
	p.put(b.amount(net.Name, "exact integral of the depth", calc(strings.Join(sums, "+"), net.Value, "#,##0.000").named("ConcreteNet").strong(), unit)...)
	p.gap()
	b.ordering(p, unit)
	p.gap()

	p.band("For comparison")
	naive := b.line(takeoff.ConcreteByLength)
	p.put(b.amount(naive.Name, "corners twice outside, short inside", num(naive.Value, "#,##0.000"), unit)...)
	p.put(b.amount("Difference", "", calc(fmt.Sprintf("F%d-ConcreteNet", p.row), naive.Value-net.Value, "#,##0.000;-#,##0.000"), unit)...)
	for _, k := range []takeoff.Kind{takeoff.ConcreteToBoard, takeoff.ConcreteToDepth, takeoff.SlabArea, takeoff.SlabPerimeter} {
		if l := b.line(k); l.Name != "" {
			p.put(b.amount(l.Name, "", num(l.Value, measured), string(l.Unit))...)
		}
	}
	p.gap()
	b.mix(p)
	return p.close()
}

// part writes one summand of the volume: as its length times its section, or its
// area times its thickness, where it is one.
func (b *builder) part(s takeoff.Slab, part solid.Part, row int, unit string) []cell {
	v := b.volume(part.Volume)
	cells := []cell{text(s.PartName(part)), text(""), text(""), text(""), text(""), num(v, signedVolume), indented(unit)}
	feet, yards := 0.3048, 27.0
	long, wide := "ft", "ft²"
	if b.metric() {
		feet, yards, long, wide = 1, 1, "m", "m²"
	}
	times := func(a float64, aUnit string, by float64, byUnit string) {
		if math.Abs(a*by/yards-v) > 1e-9 { // a part of its own shape
			return
		}
		cells[1], cells[2] = num(a, "#,##0.000"), indented(aUnit)
		cells[3], cells[4] = num(by, "#,##0.0000"), indented(byUnit)
		f := fmt.Sprintf("B%d*D%d", row, row)
		if yards != 1 {
			f += fmt.Sprintf("/%g", yards)
		}
		cells[5] = calc(f, v, signedVolume)
	}
	switch {
	case part.Kind == solid.Field:
		times(part.Section/(feet*feet), wide, s.Plan.Field.Meters()/feet, long)
	case part.Length > 0 && part.Section != 0:
		times(part.Length/feet, long, part.Section/(feet*feet), wide)
	}
	return cells
}

// signedVolume shows parts that are given back with their sign.
const signedVolume = "#,##0.000;-#,##0.000"

// yard3 is a cubic yard in m³: international yard, 1959; NIST SP 811.
const yard3 = 0.764554857984

// volume gives m³ in the job's unit.
func (b *builder) volume(m3 float64) float64 {
	if b.metric() {
		return m3
	}
	return m3 / yard3
}

// ordering writes how the volume becomes an order.
func (b *builder) ordering(p *page, unit string) {
	net, order := b.line(takeoff.ConcreteNet), b.line(takeoff.ConcreteOrder)
	o := b.job.Spec.Order
	p.band("Order")
	p.put(b.amount("Waste, percent", "for spill and uneven ground", input(o.Waste, percent).named("WastePercent"), "")...)
	with := decimal.NewFromFloat(net.Value).Round(9).Mul(o.Waste.Shift(-2).Add(decimal.NewFromInt(1)))
	p.put(b.amount("With waste", "", formula("ConcreteNet*(1+WastePercent/100)", with, "#,##0.000"), unit)...)
	p.put(b.amount("Plant's step", "the plant sells whole multiples", input(o.Step, general).within(positive).named("OrderStep"), unit)...)
	ordered := decimal.NewFromFloat(order.Value).Round(6)
	if len(b.takeoff.Pours) > 1 {
		p.put(b.amount("One truck", "carries", input(o.Truck, general).within(positive).named("TruckSize"), unit)...)
		b.orderingEach(p, unit, ordered)
		return
	}
	p.put(b.amount(order.Name, "rounded up to the step", formula(orderOf("ConcreteNet"), ordered, volume).named("ConcreteOrder").strong(), unit)...)
	p.put(b.amount("One truck", "carries", input(o.Truck, general).within(positive).named("TruckSize"), unit)...)
	trucks := decimal.NewFromFloat(b.line(takeoff.ConcreteTrucks).Value)
	p.put(b.amount(b.line(takeoff.ConcreteTrucks).Name, "", formula(trucksOf("ConcreteOrder"), trucks, whole).named("Trucks").strong(), "")...)
	p.put(b.amount("Last truck's load", b.loading(), formula(b.lastLoadOf("ConcreteOrder", "Trucks"), lastLoad(b.takeoff.Loads), volume).named("LastLoad"), unit)...)
	b.fibers(p)
}

// loading says how an order is split over trucks.
func (b *builder) loading() string {
	if b.job.Spec.Order.Loads == takeoff.Full {
		return "all before it full"
	}
	return "loads as equal as the plant's step allows"
}

// pourCell names a cell of a pour.
func pourCell(p takeoff.Pour, what string) string { return fmt.Sprintf("Pour%d%s", p.Number, what) }

// orderingEach writes the order of each pour, and their sum.
func (b *builder) orderingEach(p *page, unit string, ordered decimal.Decimal) {
	var orders, trucks []string
	for _, one := range b.takeoff.Pours {
		net, order, n, last := pourCell(one, "Net"), pourCell(one, "Order"), pourCell(one, "Trucks"), pourCell(one, "LastLoad")
		share := one.Net / b.line(takeoff.ConcreteNet).Value
		p.put(b.amount(one.Called(), "its part of the slabs", calc(fmt.Sprintf("ConcreteNet*%.15g", share), one.Net, "#,##0.000").named(net), unit)...)
		p.put(b.amount("To order for it", "with waste, rounded up to the step", formula(orderOf(net), one.Order, volume).named(order), unit)...)
		p.put(b.amount("Trucks for it", "", formula(trucksOf(order), decimal.NewFromInt(int64(len(one.Loads))), whole).named(n), "")...)
		p.put(b.amount("Last truck's load", b.loading(), formula(b.lastLoadOf(order, n), lastLoad(one.Loads), volume).named(last), unit)...)
		orders, trucks = append(orders, order), append(trucks, n)
	}
	all := decimal.NewFromFloat(b.line(takeoff.ConcreteTrucks).Value)
	p.put(b.amount(b.line(takeoff.ConcreteOrder).Name, "of all pours", formula(strings.Join(orders, "+"), ordered, volume).named("ConcreteOrder").strong(), unit)...)
	p.put(b.amount(b.line(takeoff.ConcreteTrucks).Name, "of all pours", formula(strings.Join(trucks, "+"), all, whole).named("Trucks").strong(), "")...)
	b.fibers(p)
}

// fibers writes their dose.
func (b *builder) fibers(p *page) {
	if dose, per := b.dose(b.takeoff); dose > 0 {
		p.put(b.amount("Fibers, dose", "ASTM C1116", num(dose, "#,##0.000").in().named("FiberDose"), per)...)
	}
}

// orderOf is the formula of what to order for a net volume.
func orderOf(net string) string {
	return fmt.Sprintf("ROUND(ROUNDUP(ROUND(%s*(1+WastePercent/100)/OrderStep,9),0)*OrderStep,6)", net)
}

// What a truck carries and an order, in whole steps of the plant.
const truckSteps = "MAX(1,ROUNDDOWN(ROUND(TruckSize/OrderStep,9),0))"

func stepsOf(order string) string { return fmt.Sprintf("ROUND(%s/OrderStep,0)", order) }

// trucksOf is the formula of how many trucks bring an order.
func trucksOf(order string) string {
	return fmt.Sprintf("ROUNDUP(%s/%s,0)", stepsOf(order), truckSteps)
}

// lastLoadOf is the formula of what the last truck brings, which is the least load.
func (b *builder) lastLoadOf(order, trucks string) string {
	if b.job.Spec.Order.Loads == takeoff.Full {
		return fmt.Sprintf("ROUND(%s-(%s-1)*%s*OrderStep,6)", order, trucks, truckSteps)
	}
	return fmt.Sprintf("ROUND(ROUNDDOWN(%s/%s,0)*OrderStep,6)", stepsOf(order), trucks)
}

// shortOf is the formula of what all loads together are short of a least load.
func (b *builder) shortOf(least, order, trucks, last string) string {
	larger, size := fmt.Sprintf("MOD(%s,%s)", stepsOf(order), trucks), last+"-OrderStep"
	if b.job.Spec.Order.Loads == takeoff.Full {
		larger, size = fmt.Sprintf("(%s-1)", trucks), truckSteps+"*OrderStep"
	}
	return fmt.Sprintf("ROUND((%s-%s)*MAX(0,%s-%s)+%s*MAX(0,%s-%s),6)", trucks, larger, least, last, larger, least, size)
}

// shortOfEach is shortOf of every pour of the job.
func (b *builder) shortOfEach(least string) string {
	var sum []string
	for _, one := range b.takeoff.Pours {
		sum = append(sum, b.shortOf(least, pourCell(one, "Order"), pourCell(one, "Trucks"), pourCell(one, "LastLoad")))
	}
	return strings.Join(sum, "+")
}

// lastLoad gives what the last truck brings.
func lastLoad(loads []decimal.Decimal) decimal.Decimal {
	if len(loads) == 0 {
		return decimal.Zero
	}
	return loads[len(loads)-1]
}

// dose gives the fibers per unit of concrete ordered, and its unit; 0 for none.
func (b *builder) dose(t takeoff.Takeoff) (float64, string) {
	l, _ := t.Line(takeoff.Fibers)
	order, _ := t.Line(takeoff.ConcreteOrder)
	if l.Value == 0 || order.Value == 0 {
		return 0, ""
	}
	return l.Value / order.Value, string(l.Unit) + "/" + string(order.Unit)
}

func (c cell) in() cell { c.style = c.style.in(); return c }

// amount is a row with its number in the column of volumes.
func (b *builder) amount(name, work string, c cell, unit string) []cell {
	label, remark := text(name), styled(work, style{color: gray, line: 'h'})
	label.style.bold = c.style.bold
	line := c.style.line
	if line == 't' {
		label.style.line, remark.style.line = 't', 't'
	}
	fill := styled("", style{line: remark.style.line})
	of := indented(unit)
	of.style.line = label.style.line
	return []cell{label, remark, fill, fill, fill, c, of}
}
