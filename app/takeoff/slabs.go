package takeoff

import (
	"fmt"

	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plane"
)

// Bars gives the bars of all slabs.
func (t Takeoff) Bars() []bars.Bar {
	var out []bars.Bar
	for _, s := range t.Slabs {
		out = append(out, s.Layout.Bars...)
	}
	return out
}

// Slab gives the slab with that number in the job; false while it is blank.
func (t Takeoff) Slab(number int) (Slab, bool) {
	for _, s := range t.Slabs {
		if s.Number == number {
			return s, true
		}
	}
	return Slab{}, false
}

// touching is the greatest area that slabs side by side may share by rounding, m².
const touching = 1e-6

// apart reports slabs that overlap: what they share is counted twice.
func (b *builder) apart() {
	for i, s := range b.t.Slabs {
		for _, o := range b.t.Slabs[:i] {
			common := plane.Intersect(s.Plan.Region(), o.Plan.Region())
			if shared := common.Area(); shared > touching {
				at, _ := common.Middle()
				b.t.Findings = append(b.t.Findings, rule.Finding{Rule: rule.Rule{Name: "Slabs apart", Source: "geometry"}, Severity: rule.Severe, At: at,
					Text: fmt.Sprintf("%s and %s overlap by %s: the concrete there is counted twice. Move one, or cut it back.", o.Name, s.Name, b.m.areaText(shared))})
			}
		}
	}
}
