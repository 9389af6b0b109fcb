// Package takeoff turns a plan and a specification into quantities, each with
// the steps by which it was computed.
package takeoff

import (
	"haunchbook/geometry/layout"
	"haunchbook/geometry/solid"
)

// Takeoff is every quantity of one slab.
type Takeoff struct {
	Lines    []Line
	Solid    *solid.Solid
	Layout   layout.Layout
	Findings []layout.Finding // of the layout and of the specification
}

// Line is one quantity.
type Line struct {
	Key   string  // stable name: "concrete.order"
	Group Group   // where it is listed
	Name  string  // for people: "Concrete to order"
	Value float64 // in Unit; counts are whole numbers
	Unit  Unit
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
