package pour

import (
	"strings"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
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

// Finish is how the top is finished.
type Finish = geometry.Choice[finishes]

type finishes struct{}

// Names implements geometry.Named.
func (finishes) Names() []string {
	return []string{"unstated", "broom", "float", "trowel", "burnished"}
}

// The finishes, rougher ones first.
const (
	AnyFinish Finish = iota // not stated
	Broom
	Float
	Trowel
	Burnished // troweled until it is dense and shines
)

// leastStrength is IRC Table R402.2, 2018 edition: minimum specified compressive
// strength at 28 days in psi, by use and weathering.
var leastStrength = [...][4]int{
	Garage:   {Negligible: 2500, Moderate: 3000, Severe: 3500},
	Interior: {Negligible: 2500, Moderate: 2500, Severe: 2500},
}

const r402 = "IRC Table R402.2, 2018"

// Limits of the air in a mix, percent by volume. IRC Table R402.2, note, asks 5 to 7
// of garage slabs where weathering is moderate or severe; a footnote of it, from
// memory, lets 3 stand for steel-troweled garage floors of at least 4,000 psi.
// ACI 302.1R keeps the total air of troweled floors to 3: above it the trowel seals
// air and water in, which blisters and delaminates the top.
const (
	leastAir, mostAir = 5, 7
	mostTroweledAir   = 3
	leastTroweledAir  = 3
	troweledStrength  = 4000 // psi
)

const aci302 = "ACI 302.1R"

// MixFindings gives where the mix falls short of the weathering region, where its air
// does not go with the finish, and what of both could not be checked.
func MixFindings(m takeoff.Mix, s Spec, u geometry.Units) []rule.Finding {
	var out []rule.Finding
	add := func(name, source string, how rule.Severity, format string, args ...any) {
		out = append(out, found(name, source, how, format, args...))
	}
	w, use := s.Weathering, s.Use
	if least := leastStrength[use][w]; m.Strength < least && least > takeoff.LeastStrength { // that is told of any slab
		add("Strength", r402, rule.Limit, "%s is less than the %s that a %s slab needs where weathering is %s: order at least %s.",
			takeoff.StrengthText(m.Strength, u), takeoff.StrengthText(least, u), use, w, takeoff.StrengthText(least, u))
	}
	asked := use == Garage && (w == Moderate || w == Severe)
	troweled := s.Finish == Trowel || s.Finish == Burnished
	short := asked && m.Air < leastAir && !(troweled && m.Air >= leastTroweledAir && m.Strength >= troweledStrength)
	switch {
	case troweled && m.Air > mostTroweledAir && asked:
		add("Air", r402+"; "+aci302, rule.Limit, "%g %% air under a %s finish: the code asks 5 to 7 %% where weathering is %s, and above 3 %% a troweled top blisters and delaminates. "+
			"Finish it with a broom or a float; or agree with the plant and the inspector on 3 %% at %s or more (footnote of the table, from memory).", m.Air, s.Finish, w, takeoff.StrengthText(troweledStrength, u))
	case troweled && m.Air > mostTroweledAir:
		add("Air", aci302, rule.Limit, "%g %% air under a %s finish: above 3 %% in all the top blisters and delaminates. Order none entrained, or finish with a broom or a float.", m.Air, s.Finish)
	case short && troweled:
		add("Air", r402+"; "+aci302, rule.Limit, "%g %% air: the code asks 5 to 7 %% where weathering is %s, and a %s finish goes with 3 %% at most. "+
			"Order 5 to 7 %% and finish with a broom or a float; or agree with the plant and the inspector on 3 %% at %s or more (footnote of the table, from memory).", m.Air, w, s.Finish, takeoff.StrengthText(troweledStrength, u))
	case short:
		add("Air", r402, rule.Limit, "%g %% air: where weathering is %s this slab needs 5 to 7 %% entrained: order 5 to 7 %%.", m.Air, w)
	case asked && m.Air < leastAir:
		add("Air", r402+"; "+aci302, rule.Note, "%g %% air at %s: allowed only for a steel-troweled garage floor (footnote of the table, from memory); otherwise order 5 to 7 %%.", m.Air, takeoff.StrengthText(m.Strength, u))
	case asked && m.Air > mostAir:
		add("Air", r402, rule.Limit, "%g %% air is more than the 7 %% that the table allows, and costs strength: order 5 to 7 %%.", m.Air)
	}
	if text := unchecked(m, s); text != "" {
		out = append(out, planning(found("Air", r402+"; "+aci302, rule.Note, "Not checked: %s", text)))
	}
	return out
}

// unchecked says why air and strength could not be checked; "" where they could.
func unchecked(m takeoff.Mix, s Spec) string {
	var missing []string
	if s.Weathering == Unstated {
		missing = append(missing, "the weathering region")
	}
	if s.Finish == AnyFinish && (m.Air > mostTroweledAir || s.Weathering >= Moderate && s.Use == Garage) {
		missing = append(missing, "the finish")
	}
	if len(missing) == 0 {
		return ""
	}
	return "strength and air, without " + strings.Join(missing, " and ") + "."
}
