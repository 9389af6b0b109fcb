package takeoff

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/solid"
)

// concrete takes off the slabs' volume and what to order for it.
func (b *builder) concrete() {
	m := b.m
	net, unit := m.volume(b.sum(func(s Slab) float64 { return s.Volume() }))
	var steps []Step
	for _, s := range b.t.Slabs {
		for _, p := range s.Solid.Parts {
			steps = append(steps, Step{Text: s.Called(s.PartName(p)), Work: b.partWork(s.Plan.Field, p), Result: m.volumeText(p.Volume)})
		}
		if !s.Curbs.None() {
			steps = append(steps, Step{Text: s.Called("Curbs"), Work: "above the slab's top", Result: m.volumeText(s.Curbs.Volume)})
		}
		if len(b.t.Slabs) > 1 {
			steps = append(steps, Step{Text: s.Called("Sum"), Result: m.volumeText(s.Volume()), Source: exactly})
		}
	}
	b.add(ID{Kind: ConcreteNet}, net, unit, append(steps,
		Step{Text: "Sum", Result: text(net, unit), Source: exactly})...)

	naive, _ := m.volume(b.sum(func(s Slab) float64 { return s.Solid.Naive + s.Curbs.Volume }))
	b.add(ID{Kind: ConcreteByLength}, naive, unit, append(
		b.steps(func(s Slab) Step {
			return Step{Text: "By length times section", Result: m.volumeText(s.Solid.Naive + s.Curbs.Volume)}
		}),
		Step{Text: "Field and every edge's length times its section", Work: "corners counted twice outside, short inside", Result: text(naive, unit)},
		Step{Text: "Against the exact volume", Work: fmt.Sprintf("%s − %s", text(naive, unit), text(net, unit)), Result: text(naive-net, unit)})...)

	exact := decimal.NewFromFloat(net).Round(9)
	factor := b.spec.Order.Waste.Shift(-2)
	waste := exact.Mul(factor)
	b.add(ID{Kind: ConcreteWaste}, waste.InexactFloat64(), unit,
		Step{Text: "Waste", Work: fmt.Sprintf("%s × %s %%", text(net, unit), b.spec.Order.Waste), Result: text(waste.InexactFloat64(), unit), Source: "common practice: 5 to 10 % on ground"})

	with := exact.Add(waste)
	b.t.Pours = pours(b.t.Slabs)
	trucks := b.spec.Order.orderedEach(b.t.Pours, m)
	var order decimal.Decimal
	for _, p := range b.t.Pours {
		order = order.Add(p.Order)
		b.t.Loads = append(b.t.Loads, p.Loads...)
	}
	if slices.ContainsFunc(b.t.Pours, func(p Pour) bool { return len(p.Loads) == 0 }) {
		b.t.Loads = nil
	}
	steps = []Step{{Text: "With waste", Work: fmt.Sprintf("%s + %s", text(net, unit), text(waste.InexactFloat64(), unit)), Result: text(with.InexactFloat64(), unit)}}
	up := fmt.Sprintf("whole multiples of %s %s", b.spec.Order.Step, unit)
	if len(b.t.Pours) > 1 {
		for _, p := range b.t.Pours {
			steps = append(steps, Step{Text: p.Called(), Work: fmt.Sprintf("%s and %s %%, up to the plant's step", text(p.Net, unit), b.spec.Order.Waste), Result: text(p.Order.InexactFloat64(), unit)})
		}
		up += " for each pour"
	}
	b.add(ID{Kind: ConcreteOrder}, order.InexactFloat64(), unit, append(steps,
		Step{Text: "Up to the plant's step", Work: up, Result: text(order.InexactFloat64(), unit)})...)

	work := fmt.Sprintf("%s ÷ %s %s, up to whole trucks", text(order.InexactFloat64(), unit), b.spec.Order.Truck, unit)
	if len(b.t.Pours) > 1 {
		work += " for each pour"
	}
	b.add(ID{Kind: ConcreteTrucks}, float64(trucks), Each, Step{Text: "Trucks", Work: work, Result: fmt.Sprint(trucks)})

	area, au := m.area(b.sum(func(s Slab) float64 { return s.Solid.Area }))
	b.add(ID{Kind: SlabArea}, area, au, append(
		b.steps(func(s Slab) Step { return Step{Text: "Area", Result: m.areaText(s.Solid.Area)} }),
		Step{Text: "Area of the outline, holes out", Result: text(area, au)})...)
	var perimeter geometry.Length
	for _, s := range b.t.Slabs {
		perimeter += s.Solid.Perimeter
	}
	around, lu := m.length(perimeter)
	b.add(ID{Kind: SlabPerimeter}, around, lu, append(
		b.steps(func(s Slab) Step { return Step{Text: "Perimeter", Result: m.lengthText(s.Solid.Perimeter)} }),
		Step{Text: "Sum of the edges of the outline", Result: text(around, lu)})...)

	if b.spec.Mix.Fiber > 0 {
		yd := order.InexactFloat64()
		if m.metric() {
			yd /= yard3
		}
		w, wu := m.mass(b.spec.Mix.Fiber * yd * pound)
		b.add(ID{Kind: Fibers}, w, wu,
			Step{Text: "Dose times concrete ordered", Work: fmt.Sprintf("%s lb/yd³ × %s yd³", number(b.spec.Mix.Fiber, 3), number(yd, 3)), Result: text(w, wu)})
	}
}

// exactly is how a volume was found.
const exactly = "exact integral of the depth over the slab"

// ceilTo gives the least multiple of step that is at least v.
func ceilTo(v, step decimal.Decimal) decimal.Decimal {
	n := v.DivRound(step, 12).Ceil()
	return n.Mul(step)
}

// PartName names a part of the slab's volume for people: "Haunch, edge 3".
func (t Slab) PartName(p solid.Part) string {
	switch {
	case p.Kind == solid.PadPart && p.Span >= 0 && p.Span < len(t.Plan.Pads):
		return "Pad " + t.Layout.Marks.Pad(p.Span).Called(t.Plan.Pads[p.Span].Name)
	case p.Kind == solid.StripPart && p.Span >= 0 && p.Span < len(t.Plan.Strips):
		return "Thickened strip " + t.Layout.Marks.Strip(p.Span).Called(t.Plan.Strips[p.Span].Name)
	case p.Edge < 0:
		return p.Kind.String()
	}
	return p.Kind.String() + ", " + t.Layout.Marks.Edge(p.Loop, p.Edge)
}

// partWork prints how a part was computed, in the job's units.
func (b *builder) partWork(field geometry.Length, p solid.Part) string {
	switch {
	case p.Kind == solid.Field:
		return fmt.Sprintf("%s × %s", b.m.areaText(p.Section), b.m.text(field))
	case p.Length > 0 && p.Section != 0:
		l, u := p.Length, Meters
		if !b.m.metric() {
			l, u = l/0.3048, Feet
		}
		return fmt.Sprintf("%s × %s beyond the field", text(l, u), b.m.areaText(p.Section))
	}
	return ""
}
