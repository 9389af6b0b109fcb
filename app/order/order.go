// Package order is how much concrete to order as a decision: what may be needed is not one
// figure but a distribution, and to run short costs something else than to have some
// left. Of each amount that the plant sells it says the chance of running short and what
// that costs on average, and which amount costs least.
package order

import (
	"math"

	"github.com/shopspring/decimal"
	"gonum.org/v1/gonum/stat/distuv"

	"haunchbook.example/geometry/ground"
)

// Own figures: no source. A truck called again comes as a short load and keeps a crew
// waiting for an hour or more; what is left is paid for and has to be washed out.
const (
	ownShort      = 450
	ownLeft       = 190 // a yd³
	ownLeftMetric = 250 // a m³
)

// Costs gives what running short costs and what each unit left does: what is given, and for
// 0 the program's own figures.
func Costs(short, left decimal.Decimal, metric bool) (once, each float64) {
	once, each = short.InexactFloat64(), left.InexactFloat64()
	if !short.IsPositive() {
		once = ownShort
	}
	switch {
	case left.IsPositive():
	case metric:
		each = ownLeftMetric
	default:
		each = ownLeft
	}
	return once, each
}

// Shares that are needed beyond the volume that is to be filled, each between two ends and
// anywhere between them alike.
const (
	YieldMost = 0.02 // concrete in place measures up to 2 % less than as batched (NRMCA CIP 8)
	SpillMost = 0.01 // forms that give way, what is spilled and stays in the drum: own figure
	PlanLeast = 0.04 // over the plan's volume, ground, yield and spill together: 4 to 10 %
	PlanMost  = 0.10 // (NRMCA CIP 8)
)

// Need is what is known of the concrete needed, in the unit that it is ordered in.
type Need struct {
	Fill    ground.Guess // down to the ground as measured, and to the plan where nothing was
	Guessed float64      // how much of it is over ground of which nothing was measured
	Lost    Lost         // by own jobs, in the place of YieldMost and SpillMost
}

// Lost is the share that own jobs lost beyond the measured ground; the zero Lost is not
// known.
type Lost struct{ Mean, Stray float64 }

// Percent gives the mean in percent, of what is not known that of the program's own law.
func (l Lost) Percent() decimal.Decimal {
	if l.Stray == 0 {
		return decimal.NewFromFloat(50 * (YieldMost + SpillMost)).Round(2)
	}
	return decimal.NewFromFloat(100 * l.Mean).Round(2)
}

// Most gives what is hardly ever passed: of own jobs, what 9 of 10 stay below.
func (l Lost) Most() float64 {
	if l.Stray == 0 {
		return YieldMost + SpillMost
	}
	return l.Mean + l.Stray*distuv.UnitNormal.Quantile(0.9)
}

// at gives the share lost at one of alike likely places, of which two figures from 0 to 1
// tell.
func (l Lost) at(a, b int) float64 {
	if l.Stray == 0 {
		return (float64(a)+0.5)/sharePlaces*YieldMost + (float64(b)+0.5)/sharePlaces*SpillMost
	}
	return l.Mean + l.Stray*distuv.UnitNormal.Quantile((float64(a*sharePlaces+b)+0.5)/(sharePlaces*sharePlaces))
}

// Law is the distribution of what is needed, as places that are alike likely.
type Law []float64

const (
	groundPlaces = 61
	sharePlaces  = 9
)

// Law gives the distribution of what is needed.
func (n Need) Law() Law {
	var out Law
	for i := range groundPlaces {
		fill := n.Fill.Mean
		fill = math.Max(0, fill+n.Fill.Error*distuv.UnitNormal.Quantile((float64(i)+0.5)/groundPlaces))
		guessed := math.Min(math.Max(n.Guessed, 0), fill)
		for a := range sharePlaces {
			for b := range sharePlaces {
				u := (float64(a) + 0.5) / sharePlaces
				out = append(out, fill+(fill-guessed)*n.Lost.at(a, b)+guessed*(PlanLeast+(PlanMost-PlanLeast)*u))
			}
		}
		if n.Fill.Error == 0 {
			break
		}
	}
	return out
}

// Short gives the chance that an amount does not do.
func (l Law) Short(amount float64) float64 {
	n := 0
	for _, v := range l {
		if v > amount+1e-9 {
			n++
		}
	}
	return float64(n) / float64(len(l))
}

// Missing gives what an amount falls short by, and what is left of it, on average.
func (l Law) Missing(amount float64) (missing, left float64) {
	for _, v := range l {
		missing += math.Max(v-amount, 0)
		left += math.Max(amount-v, 0)
	}
	return missing / float64(len(l)), left / float64(len(l))
}

// Mean gives what is needed on average.
func (l Law) Mean() float64 {
	sum := 0.0
	for _, v := range l {
		sum += v
	}
	return sum / float64(len(l))
}

// Choice is an amount that may be ordered.
type Choice struct {
	Amount  decimal.Decimal
	Short   float64 // chance of running short, 0 to 1
	Missing float64 // on average over all pours
	Left    float64 // on average
	Cost    float64 // on average, of running short and of what is left
}

// Decision is what may be ordered, the least first.
type Decision struct {
	Need      Need
	Low, High float64 // between which the need lies with 90 %
	Mean      float64
	Choices   []Choice
	Best      int     // the choice that costs least
	Percent   int     // the choice that the percentage gives
	Short     float64 // cost of running short
	Each      float64 // cost of a unit left
}

// most is how many steps of the plant are looked at.
const most = 400

// Decide weighs the amounts that the plant sells, whole multiples of its step; percent is
// what is ordered by a percentage of waste.
func Decide(n Need, step, percent decimal.Decimal, short, left float64) Decision {
	law := n.Law()
	d := Decision{Need: n, Mean: law.Mean(), Low: law.quantile(0.05), High: law.quantile(0.95), Short: short, Each: left}
	if !step.IsPositive() {
		return d
	}
	size := step.InexactFloat64()
	at := func(steps int64) Choice {
		amount := step.Mul(decimal.NewFromInt(steps))
		c := Choice{Amount: amount, Short: law.Short(amount.InexactFloat64())}
		c.Missing, c.Left = law.Missing(amount.InexactFloat64())
		c.Cost = short*c.Short + left*c.Left
		return c
	}
	from, to := int64(math.Ceil(law.quantile(0.02)/size-1e-9)), int64(math.Ceil(law.quantile(0.999)/size-1e-9))
	from = max(1, from-1)
	to = min(max(to, from)+1, from+most)
	for k := from; k <= to; k++ {
		d.Choices = append(d.Choices, at(k))
	}
	by := percent.Div(step).Ceil().IntPart()
	switch {
	case by < from:
		d.Choices = append([]Choice{at(by)}, d.Choices...)
	case by > to:
		d.Choices = append(d.Choices, at(by))
	}
	for i, c := range d.Choices {
		if c.Cost < d.Choices[d.Best].Cost {
			d.Best = i
		}
		if c.Amount.Equal(step.Mul(decimal.NewFromInt(by))) {
			d.Percent = i
		}
	}
	return d
}

// Telling tells whether a choice says anything beside those before it: past the one that
// costs least, those that hardly ever run short do not.
func (d Decision) Telling(i int) bool {
	return d.Choices[i].Short >= 0.0005 || i <= d.Best+2 || i == d.Percent
}

// Note says what is special about a choice: that it costs least, or is that of the
// percentage.
func (d Decision) Note(i int) string {
	switch {
	case i == d.Best && i == d.Percent:
		return "costs least, by percent"
	case i == d.Best:
		return "costs least"
	case i == d.Percent:
		return "by percent"
	}
	return ""
}
