package sheet

import (
	"strings"

	"haunchbook.example/geometry/layout/rule"
)

// findings lists what was found on the slab in turn, and for the job as a whole,
// that belongs to a sheet.
func (s *set) findings(belongs func(rule.Rule) bool) block {
	elsewhere := map[string]bool{}
	for _, slab := range s.takeoff.Slabs {
		for _, f := range slab.Layout.Findings {
			elsewhere[f.Text] = slab.Number != s.slab.Number
		}
	}
	return s.found(func(f rule.Finding) bool { return belongs(f.Rule) && !elsewhere[f.Text] })
}

// allFindings lists what was found on all slabs that belongs to a sheet.
func (s *set) allFindings(belongs func(rule.Rule) bool) block {
	return s.found(func(f rule.Finding) bool { return belongs(f.Rule) })
}

func (s *set) found(belongs func(rule.Finding) bool) block {
	n := notes{title: "To check", size: sizeSmall, bullet: "•"}
	for _, f := range s.takeoff.Findings {
		if !belongs(f) {
			continue
		}
		text := f.Text
		if f.Rule.Source != "" && f.Rule.Source != "geometry" && f.Rule.Source != "set on the job" {
			text += " (" + f.Rule.Source + ")"
		}
		if f.Broken() {
			text = "LIMIT: " + text
		}
		n.items = append(n.items, text)
	}
	if len(n.items) == 0 {
		return nothing{}
	}
	return n
}

func ruleHas(words ...string) func(rule.Rule) bool {
	return func(r rule.Rule) bool {
		name := strings.ToLower(r.Name)
		for _, w := range words {
			if strings.Contains(name, w) {
				return true
			}
		}
		return false
	}
}
