package actual

import (
	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/ground"
)

// Ground is what shots said of a job before its pour, in the unit that it orders concrete
// in.
type Ground struct {
	Shot    bool
	Fill    ground.Guess    // concrete down to the ground as measured
	Guessed float64         // how much of it is over ground of which nothing was shot
	Lost    decimal.Decimal // percent that the order of the job took as lost on average
}

// Cause is where a part of the concrete went.
type Cause struct {
	Name    string
	Volume  decimal.Decimal
	Percent decimal.Decimal // of the plan's volume
}

// Causes parts the concrete that came by where it went: what the plan takes, what the ground
// took beyond that as far as it was shot, what yield, spill and forms took, and what was
// left. None where it is not written down what came and what was left.
func Causes(j Job) []Cause {
	net := value(line(j.Takeoff, takeoff.ConcreteNet))
	used, known := j.Record.Used()
	if !known || !net.IsPositive() {
		return nil
	}
	var out []Cause
	add := func(name string, v decimal.Decimal) {
		out = append(out, Cause{name, v.Round(2), v.Div(net).Shift(2).Round(1)})
	}
	add("By the plan", net)
	if j.Ground.Shot {
		fill := decimal.NewFromFloat(j.Ground.Fill.Mean)
		add("Ground, as it was shot", fill.Sub(net))
		add("Yield, spill and forms", used.Sub(fill))
	} else {
		add("Ground, yield, spill and forms", used.Sub(net))
	}
	add("Left over", j.Record.Left.Decimal)
	add("Delivered", j.Record.Came())
	return out
}
