// Package rule is what layouts appeal to: rules with their sources, and findings
// where one is broken or there is a thing to know.
package rule

import (
	"slices"

	"haunchbook.example/geometry"
)

// Rule is what a finding appeals to.
type Rule struct {
	Name   string // "Bolt spacing"
	Source string // "IRC R403.1.6" or "common practice"
}

// Finding is a broken rule or a thing to know, at its place.
type Finding struct {
	Rule     Rule
	Severity Severity
	At       geometry.Point
	Text     string // what was found and what would do
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

// Once gives findings in their order, those that are the same once.
func Once(fs []Finding) []Finding {
	seen := make(map[Finding]bool, len(fs))
	return slices.DeleteFunc(fs, func(f Finding) bool {
		was := seen[f]
		seen[f] = true
		return was
	})
}
