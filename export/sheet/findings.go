package sheet

import (
	"slices"
	"strings"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/layout/rule"
)

// ruleTopics tells at which step of the work a rule is minded, by words of its name,
// the first that fits; what fits none is minded when staking out.
var ruleTopics = []struct {
	topic string
	words []string
}{
	{steel, []string{"bar", "lap", "cover", "mesh"}},
	{forms, []string{"form", "board", "stake"}},
	{ground, []string{"fall", "foam", "retarder"}},
	{pourDay, []string{"panel", "saw", "mix", "strength", "air"}},
}

func topicOf(r rule.Rule) string {
	name := strings.ToLower(r.Name)
	for _, t := range ruleTopics {
		if slices.ContainsFunc(t.words, func(w string) bool { return strings.Contains(name, w) }) {
			return t.topic
		}
	}
	return stakeOut
}

// findings lists what was found that is minded at a step of the work.
func (s *set) findings(topic string) block {
	return s.found(func(f rule.Finding) bool { return topicOf(f.Rule) == topic })
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
	return s.found(func(f rule.Finding) bool {
		k, known := on[f.Text]
		here := known && numbered(of, k)
		return topicOf(f.Rule) == stakeOut && (here || !known && last)
	})
}

func (s *set) found(belongs func(rule.Finding) bool) block {
	n := notes{title: "To check", size: sizeSmall, bullet: "•"}
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
