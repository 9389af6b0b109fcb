// Package rule is what layouts appeal to: rules with their sources, and findings
// where one is broken or there is a thing to know.
package rule

import (
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/geometry"
)

// Rule is what a finding appeals to.
type Rule struct {
	Name   string // "Bolt spacing"
	Source string // "IRC R403.1.6" or "common practice"
	Step   Step   // of the work at which it is minded
}

// Step is a step of the work, as the crew's sheets part it.
type Step uint8

// The steps.
const (
	StakeOut Step = iota // staking out, openings, bolts and dowels
	Forms
	Ground // digging, base, foam and retarder
	Steel
	Pour // placing, finishing, saw cuts
)

// Finding is a broken rule or a thing to know, at its place.
type Finding struct {
	Rule     Rule
	Severity Severity
	At       geometry.Point
	Also     []geometry.Point // other places of which the same is to be said
	Text     string           // what was found and what would do
	Planning bool             // minded before the day of the work: not on the crew's sheets
}

// Most gives a greatest length in the edition that a job is in: of a metric one to the
// millimeter, as codes print it beside inches: 305 mm for 12 in, 1829 mm for 6 ft.
func Most(l geometry.Length, u geometry.Units) geometry.Length {
	if u == geometry.Millimeters {
		return max(l, l.Round(geometry.Millimeter))
	}
	return l
}

// Severity tells how much a finding weighs.
type Severity = geometry.Choice[severities]

type severities struct{}

// Names implements geometry.Named.
func (severities) Names() []string { return []string{"note", "limit", "severe"} }

const (
	// Note is a thing to know.
	Note Severity = iota
	// Limit is a limit of a rule that is broken.
	Limit
	// Severe is what cannot be built as it is drawn, or was not laid out at all.
	Severe
)

// Broken tells that a rule is broken, as against a thing to know.
func (f Finding) Broken() bool { return f.Severity > Note }

// Said gives a finding as it is read by people: how much it weighs where it breaks a
// rule, what was found and what would do, and the source.
func (f Finding) Said() string {
	text := f.Text
	if s := f.Rule.Source; s != "" && s != "geometry" && s != "set on the job" {
		text += " (" + s + ")"
	}
	if f.Broken() {
		text = strings.ToUpper(f.Severity.String()) + ": " + text
	}
	return text
}

// Once gives findings in their order, what is said of several places once for all
// of them, and what is said of several walls once with the first of them and their number.
func Once(fs []Finding) []Finding {
	type said struct {
		rule Rule
		how  Severity
		text string
	}
	at := make(map[said]int, len(fs))
	walls := make(map[int][]string) // of what was said, those that it is said of
	out := make([]Finding, 0, len(fs))
	for _, f := range fs {
		who, what := wall(f.Text)
		k := said{f.Rule, f.Severity, what}
		i, ok := at[k]
		if !ok {
			at[k] = len(out)
			f.Also = slices.Clip(f.Also)
			walls[len(out)] = []string{who}
			out = append(out, f)
			continue
		}
		if !slices.Contains(walls[i], who) {
			walls[i] = append(walls[i], who)
		}
		for _, p := range append(f.Also, f.At) {
			if was := &out[i]; p != was.At && !slices.Contains(was.Also, p) {
				was.Also = append(was.Also, p)
			}
		}
	}
	for i, ws := range walls {
		if more := len(ws) - 1; more > 0 {
			_, what := wall(out[i].Text)
			out[i].Text = fmt.Sprintf("%s and %d more: %s", ws[0], more, what)
		}
	}
	return out
}

// wall parts a text into the wall that it begins with, such as "Wall W1", and what it says
// of it; "" where it is of none.
func wall(text string) (who, what string) {
	if before, after, ok := strings.Cut(text, ": "); ok && strings.HasPrefix(before, "Wall ") && !strings.ContainsAny(before[len("Wall "):], " .,;") {
		return before, after
	}
	return "", text
}
