package takeoff

import (
	"fmt"

	"github.com/shopspring/decimal"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

// Validate gives the faults of the specification, with paths as in a job file:
// "spec.place.bolts.spacing".
func (s Spec) Validate(u geometry.Units) plan.Faults {
	var fs plan.Faults
	fault := func(path, found, want string) {
		fs = append(fs, plan.Fault{Path: "spec." + path, Found: found, Want: want})
	}
	length := func(path string, l, least, most geometry.Length) {
		if l < least || l > most {
			fault(path, l.Text(u), "must be from "+least.Text(u)+" to "+most.Text(u))
		}
	}
	amount := func(path string, v, least, most float64) {
		if !(v >= least && v <= most) {
			fault(path, number(v, 6), fmt.Sprintf("must be from %s to %s", number(least, 6), number(most, 6)))
		}
	}
	exact := func(path string, d decimal.Decimal, least, most float64) {
		if v := d.InexactFloat64(); !(v >= least && v <= most) {
			fault(path, d.String(), fmt.Sprintf("must be from %s to %s", number(least, 6), number(most, 6)))
		}
	}
	const inch, foot = geometry.Inch, geometry.Foot
	amount("mix.strength", float64(s.Mix.Strength), 1000, 20000)
	length("mix.slump", s.Mix.Slump, 0, 12*inch)
	length("mix.aggregate", s.Mix.Aggregate, 0, 6*inch)
	amount("mix.air", s.Mix.Air, 0, 20)
	amount("mix.fiber", s.Mix.Fiber, 0, 200)
	exact("order.waste", s.Order.Waste, 0, 100)
	exact("order.step", s.Order.Step, 0.001, 100)
	exact("order.truck", s.Order.Truck, 0.1, 100)
	length("base.above", s.Base.Above, -10*foot, 10*foot)
	length("base.gravel", s.Base.Gravel, 0, 10*foot)
	if s.Base.Gravel > 0 {
		exact("base.compaction", s.Base.Compaction, 1, 3)
		exact("base.density", s.Base.Density, 0.1, 5)
	}
	length("base.foam", s.Base.Foam, 0, 2*foot)
	if s.Base.Foam > 0 {
		length("base.foamwidth", s.Base.FoamWidth, 6*inch, 100*foot)
		length("base.foamlength", s.Base.FoamLength, 6*inch, 1000*foot)
	}
	amount("base.retarder", float64(s.Base.Retarder), 0, 1000)
	if s.Base.Retarder > 0 {
		length("base.lap", s.Base.Lap, 0, 10*foot)
		length("base.turnup", s.Base.TurnUp, 0, 10*foot)
		length("base.rollwidth", s.Base.RollWidth, s.Base.Lap+inch, 200*foot)
		length("base.rolllength", s.Base.RollLength, s.Base.Lap+inch, 10000*foot)
	}
	if s.Place.Field.Kind == field.Fiber && s.Mix.Fiber == 0 {
		fault("mix.fiber", "0", "the field is reinforced by fiber: give its dose in lb/yd³")
	}
	for _, f := range s.Layout(u).Validate(u) {
		f.Path = "spec.place." + f.Path
		fs = append(fs, f)
	}
	return fs
}
