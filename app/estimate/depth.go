package estimate

import (
	"cmp"
	"context"
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/guard"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/field"
)

// usualDeepest is as deep as the edges of most slabs on ground go: common practice, no
// source.
const usualDeepest = 2 * geometry.Foot

// Depths gives the edge depths that a job is looked at over: whole inches or steps of
// 25 mm, and the depth as drawn, from the field's thickness to 2 ft, further where the
// edge as drawn or the frost depth is nearly as deep. The error is ErrNoEdge for a job
// without a haunch.
func (b Base) Depths() ([]geometry.Length, error) {
	main, ok := MainSection(b.Slabs)
	if !ok {
		return nil, ErrNoEdge
	}
	step := b.inches(1)
	to := max(usualDeepest, main.Depth+4*step)
	if b.Frost > 0 {
		frost, err := b.frostThreshold(step)
		if err != nil {
			return nil, err
		}
		if frost.Found {
			to = max(to, frost.Depth+4*step)
		}
	}
	to = min(to, Deepest)
	var out []geometry.Length
	for d := (Field(b.Slabs) + step - 1) / step * step; d <= to; d += step {
		out = append(out, d)
	}
	if i, there := slices.BinarySearch(out, main.Depth); !there {
		out = slices.Insert(out, i, main.Depth)
	}
	return out, nil
}

// inches gives whole inches, or as many times 25 mm in a metric job.
func (b Base) inches(n geometry.Length) geometry.Length {
	if b.Units == geometry.Millimeters {
		return n * 25 * geometry.Millimeter
	}
	return n * geometry.Inch
}

// At works out the job with an option. Its difference is for the caller to set.
func (b Base) At(ctx context.Context, o Option) Outcome {
	out, err := guard.Get(o.Name, func() (Outcome, error) { return b.outcome(ctx, o), nil })
	if err != nil {
		return Outcome{Name: o.Name, Option: o, Err: err}
	}
	return out
}

// Mover is one usual step of one thing that a job can be built otherwise in, and what
// that does to the price.
type Mover struct {
	Option     Option
	Difference decimal.Decimal // of the bid
	Open       bool            // something it takes has no price, or one price for any
}

// Movers gives what moves the price of a job, the most first: its edges 4 in deeper or
// its field 1 in thicker, foam under it or none, another reinforcement of the field,
// the next size of edge bars, a mix 500 psi or up to 5 MPa stronger, fibers or none, bolts closer or
// wider. The steps are common practice, no source.
func (b Base) Movers(ctx context.Context) ([]Mover, error) {
	drawn := b.At(ctx, Option{Name: "As drawn"})
	if drawn.Err != nil {
		return nil, drawn.Err
	}
	var out []Mover
	for _, o := range b.steps(drawn) {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		c := b.At(ctx, o)
		if c.Err != nil {
			continue // it cannot be built so
		}
		c.alike(drawn)
		out = append(out, Mover{o, c.Bid.Sub(drawn.Bid), len(c.Alike) > 0 || c.unpriced() > drawn.unpriced()})
	}
	slices.SortStableFunc(out, func(a, b Mover) int {
		return cmp.Or(b.Difference.Abs().Cmp(a.Difference.Abs()), cmp.Compare(a.Option.Name, b.Option.Name))
	})
	return out, nil
}

func (c *Outcome) unpriced() (n int) {
	for _, l := range c.Estimate.Lines {
		if l.Unpriced {
			n++
		}
	}
	return n
}

// steps gives the usual steps that a job can go.
func (b Base) steps(drawn Outcome) []Option {
	var out []Option
	add := func(name string, o Option) {
		o.Name = name
		out = append(out, o)
	}
	u, s := b.Units, b.Spec
	if main, ok := MainSection(b.Slabs); ok {
		add("Edges "+b.inches(4).Text(u)+" deeper", Option{Edge: To(main.Depth + b.inches(4))})
	}
	add("Field "+b.inches(1).Text(u)+" thicker", Option{Field: To(Field(b.Slabs) + b.inches(1))})
	if s.Base.Foam > 0 {
		add("No foam", Option{Foam: To(0)})
	} else {
		add(b.inches(2).Text(u)+" of foam", Option{Foam: To(b.inches(2))})
	}
	if s.Place.Field.Kind == field.None {
		add("Mesh in the field", Option{FieldSteel: FieldChange{true, field.Mesh}})
	} else {
		add("No "+s.Place.Field.Kind.String()+" in the field", Option{FieldSteel: FieldChange{true, field.None}})
	}
	if s.Mix.Fiber > 0 {
		add("No fibers", Option{Fiber: DoseChange{Set: true}})
	}
	if next, ok := s.Place.Bars.Size.Next(); ok && len(s.Place.Bars.Rows) > 0 {
		add("Edge bars "+next.String(), Option{Bar: next})
	}
	stronger := s.Mix.Strength + 500
	if u == geometry.Millimeters { // plants sell by steps of 5 MPa
		n := 20
		for takeoff.MPa(n) <= s.Mix.Strength {
			n += 5
		}
		stronger = takeoff.MPa(n)
	}
	add("Mix of "+takeoff.StrengthText(stronger, u), Option{Strength: stronger})
	if slices.ContainsFunc(drawn.Takeoff.Lines, func(l takeoff.Line) bool { return l.ID.Kind == takeoff.AnchorBolts }) {
		apart := b.inches(48)
		if s.Place.Bolts.Spacing <= apart {
			apart = b.inches(72)
		}
		add("Bolts at most "+apart.Text(u)+" apart", Option{Bolts: To(apart)})
	}
	return out
}
