// Package hold is what holds a pour back until it is there: the utility locate, the
// permit, inspections; and what waits after it, stripping and curing. What is asked, and
// for how long it holds, is the law of the place: the program holds what was written down
// against the day of the pour and knows no rule of its own.
package hold

import (
	"cmp"
	"fmt"
	"strings"

	"haunchbook.example/app/date"
	"haunchbook.example/app/field"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
)

// Hold is one thing that holds the pour back, or waits after it.
type Hold struct {
	Kind   Kind     `json:"kind"`
	Name   string   `json:"name,omitzero"`   // beside its kind: who, or which
	Number string   `json:"number,omitzero"` // of the ticket or the permit
	Asked  date.Day `json:"asked,omitzero"`  // called in, or applied for
	From   date.Day `json:"from,omitzero"`   // valid from; of an inspection the day it is set for; of stripping and curing the day itself
	Until  date.Day `json:"until,omitzero"`  // valid to, that day included
	Result Result   `json:"result,omitzero"` // of an inspection
	On     date.Day `json:"on,omitzero"`     // the day of the result
	Note   string   `json:"note,omitzero"`
}

// Kind is what a hold is.
type Kind = geometry.Choice[kinds]

type kinds struct{}

// Names implements geometry.Named.
func (kinds) Names() []string {
	return []string{"locate", "permit", "footing", "steel", "prepour", "inspection", "strip", "cure"}
}

// The kinds.
const (
	Locate     Kind = iota // the marking of buried lines
	Permit                 // of the building department
	Footing                // inspection of what is dug
	Steel                  // inspection of the steel
	PrePour                // inspection of all before the pour
	Inspection             // any other
	Strip                  // when forms come off
	Cure                   // until when it is cured
)

// Result is what came of an inspection.
type Result = geometry.Choice[results]

type results struct{}

// Names implements geometry.Named.
func (results) Names() []string { return []string{"open", "passed", "failed"} }

// The results.
const (
	Open Result = iota
	Passed
	Failed
)

// after tells whether a kind waits after the pour and holds nothing back.
func after(k Kind) bool { return k == Strip || k == Cure }

var called = map[Kind]string{Locate: "utility locate", Permit: "permit", Footing: "footing inspection", Steel: "steel inspection", PrePour: "pre-pour inspection",
	Inspection: "inspection", Strip: "stripping", Cure: "curing"}

// Called gives what a hold is called: "utility locate A-1182", "footing inspection".
func (h Hold) Called() string {
	return strings.TrimSpace(called[h.Kind] + " " + cmp.Or(h.Name, h.Number))
}

// Rule is what a pour that is held back goes against.
var Rule = rule.Rule{Name: "Held back", Source: "as written down; local code and the utility notification center decide", Step: rule.Pour}

// Check holds what was written down against the day of the pour. A finding that is severe
// says what holds the pour, and with it the order, back; a note what cannot be said while
// no day is set. The same holds and day give the same findings, in the order of the holds.
func Check(holds []Hold, pour date.Day) []rule.Finding {
	var out []rule.Finding
	for _, h := range holds {
		how, text := h.against(pour)
		if text != "" {
			out = append(out, rule.Finding{Rule: Rule, Severity: how, Text: field.Upper(h.Called()) + ": " + text + "."})
		}
	}
	return out
}

// against says what of one hold is in the way.
func (h Hold) against(pour date.Day) (rule.Severity, string) {
	switch {
	case after(h.Kind):
		if h.From.Before(pour) {
			return rule.Note, fmt.Sprintf("is set for %s, before the pour on %s", h.From, pour)
		}
		return rule.Note, ""
	case h.Kind == Locate || h.Kind == Permit:
		return h.valid(pour)
	}
	switch day := cmp.Or(h.On.String(), "day not written down"); {
	case h.Result == Failed:
		return rule.Severe, "failed (" + day + ")"
	case h.Result == Passed && pour.Before(h.On):
		return rule.Severe, fmt.Sprintf("passed on %s, after the pour on %s", h.On, pour)
	case h.Result == Passed:
		return rule.Note, ""
	case pour.Before(h.From):
		return rule.Severe, fmt.Sprintf("not passed, and set for %s, after the pour on %s", h.From, pour)
	case h.From.Known():
		return rule.Severe, fmt.Sprintf("not passed, set for %s", h.From)
	}
	return rule.Severe, "not passed, no day is set for it"
}

// valid says what of a locate or a permit is in the way.
func (h Hold) valid(pour date.Day) (rule.Severity, string) {
	ask, got := "not called", "called on %s, not marked yet"
	if h.Kind == Permit {
		ask, got = "not applied for", "applied for on %s, not there yet"
	}
	switch {
	case h.Until.Before(h.From):
		return rule.Severe, fmt.Sprintf("runs from %s to %s, which is before it", h.From, h.Until)
	case !h.From.Known() && !h.Until.Known() && h.Asked.Known():
		return rule.Severe, fmt.Sprintf(got, h.Asked)
	case !h.From.Known() && !h.Until.Known():
		return rule.Severe, ask
	case pour.Before(h.From):
		return rule.Severe, fmt.Sprintf("valid only from %s, after the pour on %s", h.From, pour)
	case h.Until.Before(pour):
		return rule.Severe, fmt.Sprintf("runs out on %s, before the pour on %s", h.Until, pour)
	case !pour.Known() && h.Until.Known():
		return rule.Note, fmt.Sprintf("runs to %s; no day of the pour is set to hold it against", h.Until)
	case !pour.Known():
		return rule.Note, "no day of the pour is set to hold it against"
	}
	return rule.Note, ""
}

// Line says in one line what holds a pour back; "" where nothing does.
func Line(found []rule.Finding) string {
	var items []string
	for _, f := range found {
		if f.Severity == rule.Severe {
			items = append(items, field.Lower(strings.TrimSuffix(f.Text, ".")))
		}
	}
	return strings.Join(items, "; ")
}
