package sheet

import (
	"strings"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/layout/rule"
)

// stepOf gives the step of the work that a topic of the sheets is of.
var stepOf = map[string]rule.Step{stakeOut: rule.StakeOut, forms: rule.Forms, ground: rule.Ground, steel: rule.Steel, pourDay: rule.Pour}

// findings lists what was found that is minded at a step of the work.
func (s *set) findings(topic string) block {
	return s.found("To check: "+strings.ToLower(topic), func(f rule.Finding) bool { return f.Rule.Step == stepOf[topic] })
}

// findingsOn lists what of the stake-out was found on some slabs; with last also what
// was found on none by itself.
func (s *set) findingsOn(of []takeoff.Slab, last bool) block {
	on := map[string]int{} // the slab of a text
	for _, slab := range s.takeoff.Slabs {
		for _, f := range slab.Layout.Findings {
			on[f.Text] = slab.Number
		}
	}
	return s.found("To check", func(f rule.Finding) bool {
		k, known := on[f.Text]
		here := known && numbered(of, k)
		return f.Rule.Step == rule.StakeOut && (here || !known && last)
	})
}

func (s *set) found(title string, belongs func(rule.Finding) bool) block {
	n := notes{title: title, size: sizeSmall, bullet: "•"}
	for _, f := range s.takeoff.Findings {
		if f.Planning || !belongs(f) {
			continue
		}
		n.items = append(n.items, f.Said())
	}
	if len(n.items) == 0 {
		return nothing{}
	}
	return n
}
