package takeoff

import (
	"context"
	"fmt"

	"github.com/shopspring/decimal"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Loads says how an order is split over trucks.
type Loads = geometry.Choice[loadings]

type loadings struct{}

// Names implements geometry.Named.
func (loadings) Names() []string { return []string{"balanced", "full"} }

const (
	// Balanced loads are as equal as the plant's step allows.
	Balanced Loads = iota
	// Full loads fill each truck; the last brings the rest, called off by eye.
	Full
)

// Split splits an amount of concrete into truck loads that add up to it. Each is a
// whole number of the plant's steps and at most what a truck carries. An amount that
// is no whole number of steps is rounded up to one.
//
// Balanced loads differ by one step at most, larger ones first; full loads fill
// each truck and leave the rest to the last.
func (o Order) Split(amount decimal.Decimal) ([]decimal.Decimal, error) {
	switch {
	case !amount.IsPositive():
		return nil, fmt.Errorf("found an order of %s; it must be more than 0", amount)
	case !o.Step.IsPositive():
		return nil, fmt.Errorf("found a plant's step of %s; it must be more than 0", o.Step)
	case o.Truck.LessThan(o.Step):
		return nil, fmt.Errorf("found a truck of %s; it must carry at least the plant's step, %s", o.Truck, o.Step)
	}
	units := amount.Div(o.Step).Ceil().IntPart()
	most := o.stepsOfTruck()
	n := o.trucks(units)
	if n > maxLoads {
		return nil, fmt.Errorf("found an order of %d loads; this plans a pour of at most %d", n, maxLoads)
	}
	loads := make([]decimal.Decimal, n)
	for i := range loads {
		size := units / n
		switch {
		case o.Loads == Full:
			size = min(most, units-int64(i)*most)
		case int64(i) < units%n:
			size++
		}
		loads[i] = o.Step.Mul(decimal.NewFromInt(size))
	}
	return loads, nil
}

const maxLoads = 1000

// stepsOfTruck gives how many of the plant's steps a truck carries.
func (o Order) stepsOfTruck() int64 { return o.Truck.Div(o.Step).Floor().IntPart() }

// trucks gives how many trucks bring so many steps.
func (o Order) trucks(steps int64) int64 {
	most := max(1, o.stepsOfTruck())
	return (steps + most - 1) / most
}

// ordered gives how much concrete to order for a net volume, and how many trucks
// bring it.
func (o Order) ordered(net decimal.Decimal) (order decimal.Decimal, trucks int64) {
	with := net.Add(net.Mul(o.Waste.Shift(-2)))
	order = ceilTo(with, o.Step)
	return order, o.trucks(order.DivRound(o.Step, 0).IntPart())
}

// Trucks gives how many trucks bring the concrete of a job's slabs: the line
// ConcreteTrucks without the rest of a takeoff.
func Trucks(ctx context.Context, slabs []plan.Plan, s Spec, u geometry.Units) (int, error) {
	drawn, err := solve(ctx, slabs, s, u)
	if err != nil {
		return 0, err
	}
	return int(s.Order.orderedEach(pours(drawn), measure{u})), nil
}
