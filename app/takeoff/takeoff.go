// Package takeoff turns a plan and a specification into quantities, each with
// the steps by which it was computed.
package takeoff

import (
	"context"
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/field"
	"haunchbook.example/app/guard"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/layout/frost"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// Takeoff is every quantity of the slabs of one job.
type Takeoff struct {
	Lines    []Line
	Besides  []Line            // what no drawing shows, by rules; a price list says what is used
	Slabs    []Slab            // those that are drawn, in the order of the job
	Lists    layout.Lists      // to cut from, for all slabs together
	Findings []rule.Finding    // of the layouts and of the specification
	Units    geometry.Units    // of the lines
	Mix      Mix               // that is ordered
	Pours    []Pour            // in the order of their days
	Loads    []decimal.Decimal // of all pours, of concrete, in the unit of the order; none where it is more than a pour of one day
}

// Slab is what lies behind the quantities of one slab.
type Slab struct {
	Number   int          // in the job, from 0
	Name     string       // for people, "" where the job has but one
	Plan     plan.Plan    // oriented
	Solid    *solid.Solid // as it is poured: block-outs are holes
	Whole    *solid.Solid // with what fills these later; nil where there are none
	Curbs    plan.Curbs   // on its edges
	Layout   layout.Layout
	Foam     cover.Laid
	Retarder cover.Laid
	Frost    frost.Placed // at its edges; zero for none
}

// Of takes off the slabs of a job, in the units of the job; a blank one among
// others is passed over. The error is a plan.Faults: of the slabs with paths that
// start with "slabs[0].", or of the specification with "spec."; or the context's, where
// it ended first.
func Of(ctx context.Context, slabs []plan.Plan, s Spec, u geometry.Units) (Takeoff, error) {
	return (*Known)(nil).Of(ctx, slabs, s, u)
}

// Known keeps what takeoffs of variations of one job have in common. The zero Known is
// empty, and nil keeps nothing. Several goroutines may use it at once.
type Known struct{ cuts sawcuts.Known }

// Of is as the function.
func (k *Known) Of(ctx context.Context, slabs []plan.Plan, s Spec, u geometry.Units) (Takeoff, error) {
	drawn, err := solve(ctx, slabs, s, u)
	if err != nil {
		return Takeoff{}, err
	}
	b := builder{spec: s, place: s.Layout(u), m: measure{u}, t: Takeoff{Slabs: drawn, Units: u, Mix: s.Mix}}
	b.place.Each = guard.Each
	if k != nil {
		b.place.Cuts = &k.cuts
	}
	if err := b.layout(ctx); err != nil {
		return Takeoff{}, err
	}
	for _, part := range []func(){b.apart, b.concrete, b.curbs, b.blockOuts, b.trench, b.steel, b.hardware, b.lumber, b.digging, b.ground, b.sawing, b.besides, b.check} {
		if part(); ctx.Err() != nil {
			return Takeoff{}, ctx.Err()
		}
	}
	b.t.Findings = rule.Once(b.t.Findings)
	return b.t, nil
}

// solve looks at the plans and the specification once, for all that follows, and
// computes the solids. The error is as that of Of.
func solve(ctx context.Context, slabs []plan.Plan, s Spec, u geometry.Units) ([]Slab, error) {
	if faults := slices.Concat(Faults(slabs, u), s.Validate(u)); len(faults) > 0 {
		return nil, faults
	}
	var out []Slab
	for k, p := range slabs {
		if p.Blank() {
			continue
		}
		drawn := Slab{Number: k, Plan: p.Oriented()}
		if len(slabs) > 1 {
			drawn.Name = p.Called(k)
		}
		out = append(out, drawn)
	}
	work := make([]func(), len(out))
	for i := range out {
		work[i] = func() {
			if s := &out[i]; ctx.Err() == nil {
				s.Solid = solid.OfSound(s.Plan.Open())
				if len(s.Plan.BlockOuts()) > 0 {
					s.Whole = solid.OfSound(s.Plan)
				}
			}
		}
	}
	guard.Each(work...)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	curbs(out)
	return out, nil
}

// Faults gives what is wrong with the slabs of a job, with paths as in a job
// file. A blank slab has no faults where another is drawn.
func Faults(slabs []plan.Plan, u geometry.Units) plan.Faults {
	var out plan.Faults
	drawn := slices.ContainsFunc(slabs, func(p plan.Plan) bool { return !p.Blank() })
	for k, p := range slabs {
		if drawn && p.Blank() {
			continue
		}
		path := fmt.Sprintf("slabs[%d]", k)
		found := field.Check(path, p, u)
		for _, f := range p.Validate(u) {
			f.Path = field.Join(path, f.Path)
			if !found.Of(f.Path) { // the drawing cannot tell more of a size that will not do
				found = append(found, f)
			}
		}
		out = append(out, found...)
	}
	if len(slabs) == 0 {
		out = append(out, plan.Fault{Path: "slabs", Found: "none", Want: "give at least one"})
	}
	return out
}

// layout places everything on the slabs.
func (b *builder) layout(ctx context.Context) error {
	place := make([]layout.Slab, len(b.t.Slabs))
	for i, s := range b.t.Slabs {
		place[i] = layout.Slab{Name: s.Name, Plan: s.Plan, Solid: s.dug(), Curbs: s.Curbs}
	}
	placed, lists, err := layout.Of(ctx, place, b.place)
	if err != nil {
		return err
	}
	b.t.Lists = lists
	for i, l := range placed {
		b.t.Slabs[i].Layout = l
		b.t.Findings = append(b.t.Findings, l.Findings...)
	}
	b.t.Findings = append(b.t.Findings, lists.Findings...)
	return nil
}

// Called gives a text with the slab's name before it, where it has one.
func (s Slab) Called(text string) string {
	if s.Name == "" {
		return text
	}
	return s.Name + ": " + text
}

// sum adds up a number of every slab.
func (b *builder) sum(of func(Slab) float64) float64 {
	total := 0.0
	for _, s := range b.t.Slabs {
		total += of(s)
	}
	return total
}

// steps gives a step for every slab, and none where there is but one.
func (b *builder) steps(of func(Slab) Step) []Step {
	if len(b.t.Slabs) < 2 {
		return nil
	}
	var out []Step
	for _, s := range b.t.Slabs {
		step := of(s)
		step.Text = s.Called(step.Text)
		out = append(out, step)
	}
	return out
}

// home is where findings about the whole job are shown.
func (b *builder) home() geometry.Point { return b.t.Slabs[0].Plan.Outline[0].At }

// builder collects the lines of one takeoff.
type builder struct {
	spec  Spec
	place layout.Spec
	m     measure
	t     Takeoff
}

// add appends a line; its last step repeats the result.
func (b *builder) add(id ID, value float64, unit Unit, steps ...Step) {
	b.t.Lines = append(b.t.Lines, Line{ID: id, Name: id.Text(b.m.u), Value: value, Unit: unit, Working: steps})
}

// Line gives the line of that kind, the first of several.
func (t Takeoff) Line(k Kind) (Line, bool) {
	i := slices.IndexFunc(t.Lines, func(l Line) bool { return l.ID.Kind == k })
	if i < 0 {
		return Line{}, false
	}
	return t.Lines[i], true
}

// Find gives the line with that ID.
func (t Takeoff) Find(id ID) (Line, bool) {
	i := slices.IndexFunc(t.Lines, func(l Line) bool { return l.ID == id })
	if i < 0 {
		return Line{}, false
	}
	return t.Lines[i], true
}

// Line is one quantity.
type Line struct {
	ID      ID
	Name    string  // for people, as ID.Text gives it: "Concrete to order"
	Value   float64 // in Unit; counts are whole numbers
	Unit    Unit
	Working []Step // how it was computed, in order
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
	Saw      Group = "Saw cuts and isolation"
)

// Unit is what a value counts.
type Unit string

const (
	CubicYards   Unit = "yd³"
	CubicMeters  Unit = "m³"
	SquareFeet   Unit = "ft²"
	SquareMeters Unit = "m²"
	Feet         Unit = "ft"
	Meters       Unit = "m"
	Pounds       Unit = "lb"
	Kilograms    Unit = "kg"
	Tons         Unit = "ton"
	Tonnes       Unit = "t"
	Each         Unit = "ea"
	FluidOunces  Unit = "fl oz"
	Millilitres  Unit = "ml"
)

// Step is one line of a working.
type Step struct {
	Text   string // what it is: "Haunch, edge 3"
	Work   string // with its numbers: "30.000 ft × 0.625 ft²"
	Result string // "18.750 ft³"
	Source string // rule and source where one applies
}
