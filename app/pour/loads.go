package pour

import (
	"github.com/shopspring/decimal"

	"haunchbook.example/app/field"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
)

// The pace of a crew: five people place and bull-float about 11 yd³ in 30 to 35
// min straight off the chute (common practice, no source). With buggies we allow
// half of it, which a crew should replace by its own figure.
const (
	paceYards  = 11.0
	pacePeople = 5.0
	paceFast   = 30.0 // minutes
	paceSlow   = 35.0
	buggyShare = 0.5
)

// cubicYard is exact: international yard and pound agreement, 1959.
const cubicYard = 0.9144 * 0.9144 * 0.9144 // m³

// volumeUnit gives the size in m³ of the unit in which a job's concrete is
// bought, and its name.
func volumeUnit(u geometry.Units) (size float64, name string) {
	if u == geometry.Millimeters {
		return 1, "m³"
	}
	return cubicYard, "yd³"
}

// VolumeUnit names the unit in which a job's concrete is bought.
func VolumeUnit(u geometry.Units) string {
	_, name := volumeUnit(u)
	return name
}

// mostPace is how much a crew of any size is taken to place in an hour, m³: a truck of
// 11 yd³ is not emptied down its chute in less than about 15 min, and hands beyond
// those who stand round it do not make it faster (judgment, no source).
const mostPace = paceYards * 4 * cubicYard

// Pace gives how much the crew places in an hour, at its slower and its faster,
// in the unit concrete is bought in: by the people, up to a ceiling. A rate given wins.
func (s Spec) Pace(u geometry.Units) (slow, fast float64) {
	if s.Crew.Rate.IsPositive() {
		r := s.Crew.Rate.InexactFloat64()
		return r, r
	}
	size, _ := volumeUnit(u)
	each := paceYards / pacePeople * 60 * cubicYard / size * float64(s.Crew.People)
	if s.Reach.Method == Buggy {
		each *= buggyShare
	}
	most := mostPace / size
	return min(each/paceSlow, most), min(each/paceFast, most)
}

// middlePace is the pace that times are planned by: the one that takes the mean
// of the slower and the faster time.
func (s Spec) middlePace(u geometry.Units) float64 {
	slow, fast := s.Pace(u)
	return 2 / (1/slow + 1/fast)
}

// tiny is the share of a truck below which a last load is worth a word: our own
// limit.
const tiny = 0.25

// loadFindings tells of loads that cost more or leave no room.
func loadFindings(loads []decimal.Decimal, capacity, net, short decimal.Decimal, unit string) []rule.Finding {
	var out []rule.Finding
	last := loads[len(loads)-1]
	if len(loads) > 1 && last.LessThan(capacity.Mul(decimal.NewFromFloat(tiny))) {
		out = append(out, planning(found("Small last load", practice, rule.Note,
			"The last load is only %s %s: ask for balanced loads, or add it to the others if the trucks can carry it.", last, unit)))
	}
	var small []int
	for i, l := range loads {
		if l.LessThan(short) {
			small = append(small, i+1)
		}
	}
	if len(small) > 0 {
		out = append(out, planning(found("Short load", "the plant's terms, by the price list", rule.Note,
			"%s of %s %s %s below the plant's %s %s: a fee is due.", field.Upper(numbered("load", small)), loads[small[len(small)-1]-1], unit, isAre(len(small)), short, unit)))
	}
	total := decimal.Sum(decimal.Zero, loads...)
	margin := total.Sub(net)
	switch {
	case margin.IsNegative():
		out = append(out, found("Order", practice, rule.Severe, "The order of %s %s is less than the slab's own %s %s: order more.", total, unit, net.StringFixed(2), unit))
	case margin.LessThan(net.Mul(decimal.NewFromFloat(leastMargin))):
		out = append(out, found("Margin", practice, rule.Limit,
			"The order leaves %s %s beyond the slab itself, less than %.0f %%: order more, or be sure of the base.", margin.StringFixed(2), unit, 100*leastMargin))
	case last.Equal(capacity):
		out = append(out, found("Full last truck", practice, rule.Note,
			"The last truck comes full: if the order falls short another truck must be called, so measure before it is emptied."))
	}
	return out
}

// leastMargin is the least share of the slab's volume to have in hand. Waste on
// slabs on ground is 5 to 10 % (common practice); below 3 % is our own alarm.
const leastMargin = 0.03
