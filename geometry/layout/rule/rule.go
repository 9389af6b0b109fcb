// Package rule is what layouts appeal to: rules with their sources, and findings
// where one is broken or there is a thing to know.
package rule

import (
	"fmt"
	"regexp"
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
// of them, and what is said of several walls, or rows of bars, once with the first of them
// and their number.
func Once(fs []Finding) []Finding {
	type said struct {
		rule Rule
		how  Severity
		text string
	}
	at := make(map[said]int, len(fs))
	told := make(map[int][]string) // of what was said, those that it is said of
	out := make([]Finding, 0, len(fs))
	for _, f := range fs {
		who, what := parted(f.Text)
		k := said{f.Rule, f.Severity, what}
		i, ok := at[k]
		if !ok {
			at[k] = len(out)
			f.Also = slices.Clip(f.Also)
			told[len(out)] = []string{who}
			out = append(out, f)
			continue
		}
		if !slices.Contains(told[i], who) {
			told[i] = append(told[i], who)
		}
		for _, p := range append(f.Also, f.At) {
			if was := &out[i]; p != was.At && !slices.Contains(was.Also, p) {
				was.Also = append(was.Also, p)
			}
		}
	}
	for i, who := range told {
		if more := len(who) - 1; more > 0 {
			_, what := parted(out[i].Text)
			out[i].Text = fmt.Sprintf("%s and %d more: %s", who[0], more, what)
		}
	}
	return out
}

// whose is what a text may begin with: a wall, or a row of bars on an edge.
var whose = regexp.MustCompile(`^(Wall [^ .,;]+|Row \d+ on edge \d+(?: of \S+)?): `)

// parted parts a text into what it is said of, such as "Wall W1", and what is said of it; ""
// where that is one.
func parted(text string) (who, what string) {
	if m := whose.FindStringSubmatch(text); m != nil {
		return m[1], text[len(m[0]):]
	}
	return "", text
}
