package geometry

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"
)

// fallStep is the finest drop that a slope comes to: nobody builds finer.
func (u Units) fallStep() Length {
	if u == Millimeters {
		return Millimeter / 10
	}
	return SixtyFourth
}

// ParseFall reads how much lower the low end of a fall is, over a run in plan, as
// people say it:
//
//	3 1/2"   1/8" per ft   1/8 per ft   10 mm/m   2 %
//
// A number without a unit is inches, or millimeters in a metric job. A drop that
// comes from a slope is rounded to a 64th of an inch, or a tenth of a millimeter.
func ParseFall(s string, run Length, u Units) (Length, error) {
	slope, err := slopeOf(s, u)
	switch {
	case err != nil:
		return 0, err
	case slope == nil:
		return ParseLength(s, u.Inch())
	}
	drop := slope.Mul(slope, new(big.Rat).SetInt64(int64(run.Abs())))
	if drop.Cmp(maxRat) > 0 || drop.Cmp(minRat) < 0 {
		return 0, fmt.Errorf("found “%s”: a drop beyond 10 km; write a lesser slope", s)
	}
	return roundRat(drop).Round(u.fallStep()), nil
}

// slopeOf gives a slope that is written as one, nil for a drop.
func slopeOf(s string, u Units) (*big.Rat, error) {
	t := strings.ToLower(strings.TrimSpace(s))
	for _, sign := range []string{"%", "percent"} {
		number, ok := strings.CutSuffix(t, sign)
		if !ok {
			continue
		}
		number = strings.TrimSpace(number)
		percent, ok := new(big.Rat).SetString(number)
		if !ok || len(number) > 12 || strings.ContainsAny(number, "/eExX_pP") {
			return nil, fmt.Errorf("found “%s”: write a percentage such as 1.5 %%", s)
		}
		return percent.Mul(percent, big.NewRat(1, 100)), nil
	}
	for _, per := range []struct {
		words []string
		one   Length
	}{{[]string{"per ft", "per foot", "/ft", "/foot", "/ ft", "/ foot"}, Foot}, {[]string{"per m", "/m", "/ m"}, Meter}} {
		for _, word := range per.words {
			number, ok := strings.CutSuffix(t, word)
			if !ok {
				continue
			}
			one := u.Inch()
			if per.one == Foot {
				one = Inch // of a foot, even in a metric job
			}
			rise, err := read(strings.TrimSpace(number), one)
			if err != nil {
				return nil, fmt.Errorf("found “%s”: %w", s, err)
			}
			return rise.Mul(rise, big.NewRat(1, int64(per.one))), nil
		}
	}
	return nil, nil
}

// FallText says a fall in all three ways: 3 1/2" (1/8" per ft, 1.04 %). A slope
// that is no whole 64th, or tenth of a millimeter, is "about".
func FallText(drop, run Length, u Units) string {
	if run <= 0 {
		return drop.Exact(u)
	}
	per, name := Foot, "ft"
	if u == Millimeters {
		per, name = Meter, "m"
	}
	slope := big.NewRat(int64(drop), int64(run))
	exact := new(big.Rat).Mul(slope, new(big.Rat).SetInt64(int64(per)))
	rise := roundRat(exact).Round(u.fallStep())
	about := ""
	if exact.Cmp(new(big.Rat).SetInt64(int64(rise))) != 0 {
		about = "about "
	}
	percent, _ := slope.Float64()
	return fmt.Sprintf("%s (%s%s per %s, %s %%)", drop.Exact(u), about, rise.Exact(u), name, strconv.FormatFloat(percent*100, 'f', 2, 64))
}
