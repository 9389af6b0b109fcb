package joints

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
)

var ruleStep = rule.Rule{Name: "Edges at steps reach below the lower slab", Source: "common practice"}

// checkSteps reports edges over a lower slab of the job that end above its underside: the ground
// under them would lie open there, or be dug away for the lower slab.
func (t *joint) checkSteps() {
	for _, m := range t.Meetings {
		if m.Lower <= 0 || m.Loop > 0 {
			continue
		}
		s := t.Sides[m.Loop][m.Edge]
		deep, asks := geometry.Length(0), m.Lower+m.Field
		for _, along := range [...]geometry.Length{m.From, (m.From + m.To) / 2, m.To} {
			if d := t.DepthUnder(s, min(max(along, 1), s.Length-1), 0); deep == 0 || d < deep {
				deep = d
			}
		}
		if deep < asks {
			t.Find(ruleStep, rule.Limit, s.At((m.From+m.To)/2, 0), "%s steps down %s to another slab of the job, whose underside lies %s below this slab's top; the edge is %s deep: give it a section of at least %s, or build a wall under it.",
				t.SideName(s), t.Text(m.Lower), t.Text(asks), t.Text(deep), t.Text(asks))
		}
	}
}
