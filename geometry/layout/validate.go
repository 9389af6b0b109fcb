package layout

import (
	"fmt"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

// Laps gives what is wrong with the laps of a specification whose fields are sound
// each by itself, by their names in a job file: "bars.lap". No lap is longer than
// half the stock: beyond, most of the steel would be laps. The leg of a corner bar
// holds its lap. Lengths are printed in u.
func (s Spec) Laps(u geometry.Units) plan.Faults {
	if len(s.Bars.Stock) == 0 {
		return nil
	}
	half := slices.Max(s.Bars.Stock) / 2
	sizes := []bars.Size{s.Bars.Size}
	for _, r := range s.Bars.Rows {
		if r.Size != 0 {
			sizes = append(sizes, r.Size)
		}
	}
	if s.Field.Kind == field.Grid {
		sizes = append(sizes, s.Field.Size)
	}
	if s.Strips.Count > 0 {
		sizes = append(sizes, s.Strips.Size)
	}
	for i, r := range s.Bars.Rows {
		n := s.Bars.Size
		if r.Size != 0 {
			n = r.Size
		}
		if least := bars.LeastLeg(n, s.Bars.LapLength(n, r.Top > 0, s.Concrete)); s.Bars.Corner == bars.CornerBars && s.Bars.Leg != 0 && s.Bars.Leg < least {
			return plan.Faults{{Path: "bars.leg", Found: s.Bars.Leg.Exact(u), Want: fmt.Sprintf("must be at least %s, the lap and the bend of row %d; or 0 for just that", shown(least, u), i+1)}}
		}
	}
	for _, n := range sizes {
		if l := s.Bars.LapLength(n, true, s.Concrete); l > half {
			return plan.Faults{{Path: "bars.lap", Found: fmt.Sprintf("a lap of %s for %s", shown(l, u), n),
				Want: "must be at most half the longest stock, " + half.Exact(u) + ": choose another rule, smaller bars or longer stock"}}
		}
	}
	return nil
}

// shown prints a length that was computed: up to a 16th or a millimeter, since
// less would not do.
func shown(l geometry.Length, u geometry.Units) string {
	step := geometry.Sixteenth
	if u == geometry.Millimeters {
		step = geometry.Millimeter
	}
	return ((l + step - 1) / step * step).Exact(u)
}
