package takeoff

import (
	"github.com/shopspring/decimal"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// ordered gives how much concrete to order for a net volume, and how many trucks
// bring it.
func (o Order) ordered(net decimal.Decimal) (order, trucks decimal.Decimal) {
	with := net.Add(net.Mul(o.Waste.Shift(-2)))
	order = ceilTo(with, o.Step)
	return order, ceilTo(order, o.Truck).Div(o.Truck)
}

// Trucks gives how many trucks bring the concrete of a job's slabs: the line
// "concrete.trucks" without the rest of a takeoff.
func Trucks(slabs []plan.Plan, s Spec, u geometry.Units) (int, error) {
	drawn, err := solve(slabs, s, u)
	if err != nil {
		return 0, err
	}
	volume := 0.0
	for _, d := range drawn {
		volume += d.Solid.Volume
	}
	net, _ := measure{u}.volume(volume)
	_, trucks := s.Order.ordered(decimal.NewFromFloat(net).Round(9))
	return int(trucks.IntPart()), nil
}
