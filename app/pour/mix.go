package pour

import (
	"fmt"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// Weathering is the weathering region of the site, after the weathering
// probability map that IRC Table R301.2(1) refers to.
type Weathering = geometry.Choice[regions]

type regions struct{}

// Names implements geometry.Named.
func (regions) Names() []string { return []string{"unstated", "negligible", "moderate", "severe"} }

// The regions. Unstated asks nothing of the mix.
const (
	Unstated Weathering = iota
	Negligible
	Moderate
	Severe
)

// Use is what the slab is for, as IRC Table R402.2 tells slabs apart.
type Use = geometry.Choice[uses]

type uses struct{}

// Names implements geometry.Named.
func (uses) Names() []string { return []string{"garage", "interior"} }

// The uses.
const (
	Garage   Use = iota // garage and carport floors, porches, steps
	Interior            // slabs on grade indoors, other than garage floors
)

// leastStrength is IRC Table R402.2, 2018 edition: minimum specified compressive
// strength at 28 days in psi, by use and weathering.
var leastStrength = [...][4]int{
	Garage:   {Negligible: 2500, Moderate: 3000, Severe: 3500},
	Interior: {Negligible: 2500, Moderate: 2500, Severe: 2500},
}

const r402 = "IRC Table R402.2, 2018"

// MixFindings gives where the mix falls short of the weathering region.
//
// Air of 5 to 7 % by volume is asked of garage slabs where weathering is moderate
// or severe. The table's footnote on steel-troweled garage floors, 3 % where the
// strength is at least 4,000 psi, is from memory.
func MixFindings(m takeoff.Mix, w Weathering, use Use, u geometry.Units) []Finding {
	if w == Unstated {
		return nil
	}
	var out []Finding
	add := func(name string, severe bool, format string, args ...any) {
		out = append(out, Finding{name, r402, severe, fmt.Sprintf(format, args...)})
	}
	if least := leastStrength[use][w]; m.Strength < least {
		add("Strength", true, "%s is less than the %s that a %s slab needs where weathering is %s: order at least %s",
			StrengthText(m.Strength, u), StrengthText(least, u), use, w, StrengthText(least, u))
	}
	if use != Garage || w == Negligible {
		return out
	}
	switch {
	case m.Air >= 5 && m.Air <= 7:
	case m.Air >= 3 && m.Air < 5 && m.Strength >= 4000:
		add("Air", false, "%g %% air at %s: allowed only for a steel-troweled garage floor (footnote, from memory); otherwise order 5 to 7 %%", m.Air, StrengthText(m.Strength, u))
	case m.Air > 7:
		add("Air", true, "%g %% air is more than the 7 %% that the table allows, and costs strength: order 5 to 7 %%", m.Air)
	default:
		add("Air", true, "%g %% air: where weathering is %s this slab needs 5 to 7 %% entrained: order 5 to 7 %%", m.Air, w)
	}
	return out
}
