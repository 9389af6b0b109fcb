package takeoff

import (
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

var (
	ruleApron = rule.Rule{Name: "Aprons fall away from the building", Source: "IRC R401.3, exception, from memory", Step: rule.Ground}
	ruleBreak = rule.Rule{Name: "Breaks of the top", Source: "geometry", Step: rule.Ground}
)

// leastApron is how much of its run paved ground within 10 ft of a building drops at least,
// away from it: IRC R401.3, exception, from memory.
const leastApron = 0.02

// checkBreaks reports lines at which the top does not break, and aprons that fall less than
// paved ground beside a building.
func (b *builder) checkBreaks(s Slab) {
	top := s.Solid.Surface()
	for i, k := range s.Plan.Top.Breaks {
		at := geometry.Along(k.From, k.To, geometry.Distance(k.From, k.To)/2)
		of := slices.IndexFunc(top.Arrows, func(a solid.FallArrow) bool { return a.Break == i })
		crossed := slices.ContainsFunc(top.Creases, func(c solid.Crease) bool {
			return c.Break && offLine(k, c.A) <= geometry.Sixteenth && offLine(k, c.B) <= geometry.Sixteenth
		})
		switch {
		case k.Drop == 0:
			b.findOn(s, ruleBreak, rule.Limit, at, "The top breaks at a line and goes on as before: give the drop beyond it, or remove the line.")
		case !crossed:
			b.findOn(s, ruleBreak, rule.Limit, at, "The top is to break at a line that does not cross the slab where it would: move the line, or remove it.")
		case k.Drop > 0 && of >= 0 && top.Arrows[of].Grade < leastApron-1e-9:
			run := top.Arrows[of].Told(k, false, b.m.u)
			b.planOn(s, ruleApron, rule.Note, at, "The apron falls %s in %s: paved ground within 10 ft of a building falls at least 2 %% away from it, %s in that run.",
				b.m.text(top.Arrows[of].Over(run, b.m.u)), b.m.text(run), b.m.text(geometry.Rounded(leastApron*float64(run))))
		}
	}
}

// offLine gives how far a place lies from the line at which the top breaks.
func offLine(b plan.Break, at geometry.Point) geometry.Length {
	return plan.Sideways(b.From, b.To, at.Sub(b.From)).Abs()
}
