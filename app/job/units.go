package job

import (
	"github.com/shopspring/decimal"

	"haunchbook.example/geometry"
)

// In gives the job in other units. Lengths stay as they are and are only printed
// and read otherwise. Volumes that are kept as bare numbers of the job's unit are
// converted, but for the plant's step: a plant that sells whole quarters sells
// quarters of its own unit.
func (j Job) In(u geometry.Units) Job {
	if u == j.Units {
		return j
	}
	factor := yard3
	if u == geometry.FeetInches {
		factor = decimal.NewFromInt(1).Div(yard3)
	}
	j.Units = u
	j.Spec.Order.Truck = converted(j.Spec.Order.Truck, factor)
	j.Pour.Crew.Rate = converted(j.Pour.Crew.Rate, factor)
	j.Ground.Gravel = converted(j.Ground.Gravel, factor)
	return j
}

// yard3 is a cubic yard in m³, exactly: 0.9144³, by the international yard and
// pound agreement of 1959.
var yard3 = decimal.RequireFromString("0.764554857984")

// quarter is what volumes are usually whole multiples of.
var quarter = decimal.RequireFromString("0.25")

// converted gives a volume in its other unit, to a hundredth. What comes as near
// to a quarter as such a rounding can shift it was one: there and back is where
// it began.
func converted(v, factor decimal.Decimal) decimal.Decimal {
	if v.IsZero() {
		return v
	}
	v = v.Mul(factor)
	shift := decimal.New(5, -3).Mul(decimal.Max(factor, decimal.NewFromInt(1)))
	if q := v.DivRound(quarter, 0).Mul(quarter); v.Sub(q).Abs().LessThanOrEqual(shift) {
		return q
	}
	return v.Round(2)
}
