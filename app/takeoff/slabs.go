package takeoff

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plan"
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

// Meetings gives, slab by slab of a job, where each lies against others; none of one that
// nothing is drawn of.
func Meetings(slabs []plan.Plan) [][]plan.Meeting {
	out := make([][]plan.Meeting, len(slabs))
	drawn := make([]plan.Plan, len(slabs))
	for k, p := range slabs {
		if !p.Blank() {
			drawn[k] = p.Oriented()
		}
	}
	all := plan.Meetings(drawn)
	for k := range slabs {
		out[k] = plan.OfSlab(all, k)
	}
	return out
}

// touching is the greatest area that slabs side by side may share by rounding, m².
const touching = 1e-6

// slit is how far apart slabs of a job are that hardly are meant to be: own figure.
const slit = geometry.Inch

// apart reports slabs that overlap: what they share is counted twice; and such as all but meet.
func (b *builder) apart() {
	plans := make([]plan.Plan, len(b.t.Slabs))
	for k, s := range b.t.Slabs {
		plans[k] = s.Plan
	}
	for _, g := range plan.Gaps(plans, slit) {
		one, other := b.t.Slabs[g.Slab], b.t.Slabs[g.Other]
		if plane.Intersect(one.Plan.Region(), other.Plan.Region()).Area() > touching {
			continue
		}
		b.t.Findings = append(b.t.Findings, rule.Finding{Rule: rule.Rule{Name: "Slabs meet or stand apart", Source: "geometry"}, Severity: rule.Note, At: g.At,
			Text: fmt.Sprintf("%s and %s are %s apart: both edges are formed. Draw them on each other, where they are to meet.", one.Name, other.Name, b.m.text(g.Wide))})
	}
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
