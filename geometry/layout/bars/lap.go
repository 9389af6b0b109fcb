package bars

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
)

// topBar is the depth of concrete below a bar from which ACI 318-19 counts it as
// a top bar (table 25.4.2.5, casting position).
const topBar = 12 * geometry.Inch

// Development gives the tension development length ld of a bar by ACI 318-19,
// table 25.4.2.3, clear spacing and cover met, in normal-weight concrete:
//
//	ld = fy·ψt·ψe·ψg / (25·√f'c) · db   for No. 6 (19 mm) and smaller
//	ld = fy·ψt·ψe·ψg / (20·√f'c) · db   for larger ones
//
// with ψt 1.3 for a bar with more than 12 in of concrete cast below it, ψe 1.5
// for an epoxy-coated one (the clear cover is below 3 db or the clear spacing
// below 6 db on a lap), ψt·ψe at most 1.7, ψg 1.0 up to grade 60 and 1.15 for
// grade 80 (table 25.4.2.5), √f'c at most 100 psi (25.4.1.4) and ld at least
// 12 in (25.4.2.1). strength is f'c in psi. The table has no B500: it takes the ψg of
// the next grade that is there, 80, which is on the safe side.
func Development(size Size, grade Grade, strength int, coated, top bool) geometry.Length {
	return max(12*geometry.Inch, development(size, grade, strength, coated, top))
}

func development(size Size, grade Grade, strength int, coated, top bool) geometry.Length {
	if strength <= 0 {
		return 0
	}
	psiT, psiE, psiG := 1.0, 1.0, 1.0
	if top {
		psiT = 1.3
	}
	if coated {
		psiE = 1.5
	}
	if grade > 60 {
		psiG = 1.15
	}
	factor := 25.0
	if size.Diameter() > 750*mil {
		factor = 20
	}
	root := math.Min(math.Sqrt(float64(strength)), 100)
	return geometry.Rounded(grade.psi() * math.Min(psiT*psiE, 1.7) * psiG / (factor * root) * float64(size.Diameter()))
}

// leastLap is the least lap in tension, whatever the bar (ACI 318-19 25.5.2.1).
const leastLap = 12 * geometry.Inch

// LapLength gives how long two bars of a size lie side by side. By ACI 318-19 it
// is a Class B tension lap: 1.3 ld and at least 12 in, both of 25.5.2.1, where ld is
// taken without its own 12 in minimum (25.5.1.4, from memory).
func (s Spec) LapLength(size Size, top bool, c slab.Concrete) geometry.Length {
	switch s.Lap.Rule {
	case LapByDiameters:
		return 40 * size.Diameter()
	case LapByLength:
		return s.Lap.Length
	}
	ld := development(size, s.Grade, c.Strength, s.Coated, top)
	return max(leastLap, ld*13/10)
}

// LapRule names the rule that LapLength goes by, with its source.
func (s Spec) LapRule() rule.Rule {
	switch s.Lap.Rule {
	case LapByDiameters:
		return rule.Rule{Name: "Lap of 40 bar diameters", Source: "common practice", Step: rule.Steel}
	case LapByLength:
		return rule.Rule{Name: "Lap as typed", Source: "set on the job", Step: rule.Steel}
	}
	name := "Class B tension lap"
	if s.Grade == B500 {
		name += " of " + B500.String()
	}
	return rule.Rule{Name: name, Source: "ACI 318-19 25.4.2.3, 25.5.2.1", Step: rule.Steel}
}

// BendDiameter gives the least inside diameter of a standard hook: 6 db for
// No. 3 to No. 8, 10 to 25 mm (ACI 318-19 and 318M-19 table 25.3.1).
func BendDiameter(size Size) geometry.Length { return 6 * size.Diameter() }

// bendRadius is of the bar's center line.
func bendRadius(size Size) geometry.Length { return (BendDiameter(size) + size.Diameter()) / 2 }

// bendSaving gives by how much a bar bent by turn radians is shorter than its
// center lines drawn to their sharp corner: two tangents less the arc.
func bendSaving(size Size, turn float64) geometry.Length {
	turn = math.Min(math.Abs(turn), sharpest)
	return geometry.Rounded(float64(bendRadius(size)) * (2*math.Tan(turn/2) - turn))
}

// bendReach gives how far from the sharp corner a bend starts.
func bendReach(size Size, turn float64) geometry.Length {
	return geometry.Rounded(float64(bendRadius(size)) * math.Tan(math.Min(math.Abs(turn), sharpest)/2))
}

// sharpest is the turn beyond which no bar is bent, 135 degrees: judgment, after the
// hook of ties in ACI 318-19 table 25.3.2, which is of stirrups, ties and hoops.
const sharpest = 3 * math.Pi / 4
