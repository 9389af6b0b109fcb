package takeoff

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
)

// checkMix reports a mix or a base that falls short of a rule.
func (b *builder) checkMix() {
	// Each is less than a code's least.
	find := func(at geometry.Point, name, source, text string) {
		b.t.Findings = append(b.t.Findings, rule.Finding{Rule: rule.Rule{Name: name, Source: source}, Severity: rule.Limit, At: at, Text: text})
	}
	if b.spec.Mix.Strength < 2500 {
		find(b.home(), "Concrete strength", "IRC Table R402.2", "Slabs on ground take at least 2,500 psi; garage slabs 3,000 or 3,500 where it freezes.")
	}
	for _, s := range b.t.Slabs {
		if s.Plan.Field < 7*geometry.Inch/2 {
			find(s.Plan.Outline[0].At, "Slab thickness", "IRC R506.1", s.Called("A slab on ground is at least 3 1/2\" thick."))
		}
	}
	if r := b.spec.Base.Retarder; r > 0 && r < 6 {
		find(b.home(), "Vapor retarder", "IRC R506.2.3", "A vapor retarder is at least 10 mil thick, 6 mil in older editions.")
	}
}
