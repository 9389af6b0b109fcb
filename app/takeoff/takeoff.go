// Package takeoff turns a plan and a specification into quantities, each with
// the steps by which it was computed.
package takeoff

import (
	"slices"

	"haunchbook/geometry"
	"haunchbook/geometry/layout"
	"haunchbook/geometry/plan"
	"haunchbook/geometry/solid"
)

// Takeoff is every quantity of one slab.
type Takeoff struct {
	Lines    []Line
	Solid    *solid.Solid
	Layout   layout.Layout
	Foam     layout.Cover
	Retarder layout.Cover
	Findings []layout.Finding // of the layout and of the specification
	Units    geometry.Units   // of the lines
}

// Of takes off a plan, in the units of the job. The error is a plan.Faults: of
// the plan, or of the specification with paths that start with "spec.".
func Of(p plan.Plan, s Spec, u geometry.Units) (Takeoff, error) {
	p = p.Oriented()
	sol, err := solve(p, s, u)
	if err != nil {
		return Takeoff{}, err
	}
	b := builder{
		plan: p, spec: s, place: s.place(u), m: measure{u},
		t: Takeoff{Solid: sol, Units: u},
	}
	b.t.Layout = layout.Of(p, b.place, sol)
	b.t.Findings = slices.Clone(b.t.Layout.Findings)
	b.concrete()
	b.trench()
	b.steel()
	b.hardware()
	b.lumber()
	b.digging()
	b.ground()
	b.joints()
	b.checkMix()
	return b.t, nil
}

// solve looks at the plan and the specification once, for all that follows, and
// computes the solid. The error is as that of Of.
func solve(p plan.Plan, s Spec, u geometry.Units) (*solid.Solid, error) {
	if faults := slices.Concat(p.Validate(u), s.Validate(u)); len(faults) > 0 {
		return nil, faults
	}
	return solid.OfSound(p), nil
}

// builder collects the lines of one takeoff.
type builder struct {
	plan  plan.Plan
	spec  Spec
	place layout.Spec
	m     measure
	t     Takeoff
}

// add appends a line; its last step repeats the result.
func (b *builder) add(key string, g Group, name string, value float64, unit Unit, steps ...Step) {
	b.t.Lines = append(b.t.Lines, Line{Key: key, Group: g, Name: name, Value: value, Unit: unit, Trace: steps})
}

// buy appends a line that is a thing to buy.
func (b *builder) buy(key string, g Group, name string, value float64, unit Unit, steps ...Step) {
	b.add(key, g, name, value, unit, steps...)
	b.t.Lines[len(b.t.Lines)-1].Buy = true
}

// Line gives the line with that key.
func (t Takeoff) Line(key string) (Line, bool) {
	i := slices.IndexFunc(t.Lines, func(l Line) bool { return l.Key == key })
	if i < 0 {
		return Line{}, false
	}
	return t.Lines[i], true
}

// Line is one quantity.
type Line struct {
	Key   string  // stable name: "concrete.order"
	Group Group   // where it is listed
	Name  string  // for people: "Concrete to order"
	Value float64 // in Unit; counts are whole numbers
	Unit  Unit
	Buy   bool   // a thing to buy; the others explain or serve the crew
	Trace []Step // how it was computed, in order
}

// Group is a heading of the takeoff.
type Group string

// The groups, in the order they are listed.
const (
	Concrete Group = "Concrete"
	Steel    Group = "Steel"
	Hardware Group = "Bolts and dowels"
	Lumber   Group = "Forms"
	Ground   Group = "Base and insulation"
	Saw      Group = "Joints"
)

// Unit is what a value counts.
type Unit string

const (
	CubicYards   Unit = "yd³"
	CubicMetres  Unit = "m³"
	SquareFeet   Unit = "ft²"
	SquareMetres Unit = "m²"
	Feet         Unit = "ft"
	Metres       Unit = "m"
	Pounds       Unit = "lb"
	Kilograms    Unit = "kg"
	Tons         Unit = "ton"
	Tonnes       Unit = "t"
	Each         Unit = "ea"
	FluidOunces  Unit = "fl oz"
	Millilitres  Unit = "ml"
)

// Step is one line of a trace.
type Step struct {
	Text   string // what it is: "Haunch, edge 3"
	Work   string // with its numbers: "30.000 ft × 0.625 ft²"
	Result string // "18.750 ft³"
	Source string // rule and source where one applies
}
