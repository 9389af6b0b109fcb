package estimate

import (
	"context"
	"fmt"
	"reflect"
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/guard"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Outcome is what an option comes to. Quantities are in the job's units.
type Outcome struct {
	Name       string
	Option     Option
	Err        error // why it cannot be built; the rest is zero then
	Takeoff    takeoff.Takeoff
	Estimate   Estimate
	Edge       geometry.Length // depth of the main section
	Field      geometry.Length
	Ordered    decimal.Decimal // concrete
	Volume     takeoff.Unit
	Trucks     int
	Steel      decimal.Decimal // weight of bars and mesh
	Weight     takeoff.Unit
	Boards     int
	Hours      decimal.Decimal
	Cost, Bid  decimal.Decimal
	Difference decimal.Decimal // of the bid, from the job as it is
	Frost      bool            // every edge reaches the frost depth below the ground
	Alike      []string        // what is priced by one price for any, and is another than as drawn
	Broken     int             // findings of the takeoff that break a limit
	Noted      int             // its other findings: things to know
}

// Base is the job that options vary.
type Base struct {
	Slabs  []plan.Plan
	Spec   takeoff.Spec
	Units  geometry.Units
	Price  Spec
	Prices PriceList
	Frost  geometry.Length // depth to reach below the ground, IRC R403.1.4; 0 if it does not matter

	Drawn *takeoff.Takeoff // of the slabs as they are, where it is known; else it is worked out
	Known *takeoff.Known   // of variations of the job; nil for nothing
}

// takeoff takes off slabs that are those of the base or vary them.
func (b Base) takeoff(ctx context.Context, slabs []plan.Plan, spec takeoff.Spec) (takeoff.Takeoff, error) {
	if b.Drawn != nil && reflect.DeepEqual(slabs, b.Slabs) && reflect.DeepEqual(spec, b.Spec) {
		return *b.Drawn, nil
	}
	return b.Known.Of(ctx, slabs, spec, b.Units)
}

// Compare works out the job as it is, first, and each of its options.
func Compare(ctx context.Context, b Base) []Outcome {
	options := append([]Option{{Name: "As drawn"}}, b.Price.Options...)
	out := make([]Outcome, len(options))
	all := make([]func(), len(options))
	for i, o := range options {
		all[i] = func() { out[i] = b.At(ctx, o) }
	}
	guard.Each(all...)
	for i := range out {
		if out[i].Err == nil && out[0].Err == nil {
			out[i].Difference = out[i].Bid.Sub(out[0].Bid)
			out[i].alike(out[0])
		}
	}
	return out
}

func (b Base) outcome(ctx context.Context, o Option) Outcome {
	p, s := o.Apply(b.Slabs, b.Spec)
	c := Outcome{Name: o.Name, Option: o, Field: Field(p)}
	if main, ok := MainSection(p); ok {
		c.Edge = main.Depth
	}
	t, err := b.takeoff(ctx, p, s)
	if err != nil {
		return Outcome{Name: o.Name, Option: o, Err: err}
	}
	e := Of(t, b.Price, b.Prices)
	c.Takeoff, c.Estimate = t, e
	c.Frost = !slices.ContainsFunc(t.Slabs, func(d takeoff.Slab) bool {
		return !takeoff.FrostLineOf(d.Plan, d.Solid, s.Base, b.Frost, d.Layout.Met()).Reached(d.Plan)
	})
	if l, ok := t.Line(takeoff.ConcreteOrder); ok {
		c.Ordered, c.Volume = need(l), l.Unit
	}
	if l, ok := t.Line(takeoff.ConcreteTrucks); ok {
		c.Trucks = int(l.Value)
	}
	for _, l := range t.Lines {
		switch {
		case l.ID.Kind.Group() == takeoff.Steel && (l.Unit == takeoff.Pounds || l.Unit == takeoff.Kilograms):
			c.Steel, c.Weight = c.Steel.Add(need(l)), l.Unit
		case l.ID.Kind == takeoff.FormBoards:
			c.Boards += int(l.Value)
		}
	}
	for _, f := range t.Findings {
		if f.Broken() {
			c.Broken++
		} else {
			c.Noted++
		}
	}
	c.Steel = c.Steel.Round(1)
	c.Hours, c.Cost, c.Bid = e.Hours, e.Cost, e.Bid
	return c
}

// alike finds what is priced alike though it is another than as drawn: the difference
// does not know what it costs.
func (c *Outcome) alike(drawn Outcome) {
	for _, l := range c.Estimate.Lines {
		if !l.Alike || l.ByOthers {
			continue
		}
		kind, same := false, false
		for _, d := range drawn.Estimate.Lines {
			kind = kind || d.ID.Kind == l.ID.Kind
			same = same || d.ID == l.ID
		}
		if kind && !same {
			c.Alike = append(c.Alike, l.Name)
		}
	}
}

// Findings counts what was found. That nothing was found approves nothing: see
// Checked.
func (c Outcome) Findings() string {
	broken := fmt.Sprintf("%d limits broken", c.Broken)
	if c.Broken == 1 {
		broken = "1 limit broken"
	}
	return fmt.Sprintf("%s, %d to know", broken, c.Noted)
}

// Checked says what the findings come from, and what nobody has checked.
const Checked = "Checked: covers, laps and bends, bolts and plates, dowels, forms, saw cuts, slabs apart, concrete for its exposure. " +
	"Not checked: loads, soil, drainage, the local code. No finding is no approval."
