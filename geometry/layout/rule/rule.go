// Package rule is what layouts appeal to: rules with their sources, and findings
// where one is broken or there is a thing to know.
package rule

import "haunchbook.example/geometry"

// Rule is what a finding appeals to.
type Rule struct {
	Name   string // "Bolt spacing"
	Source string // "IRC R403.1.6" or "common practice"
}

// Finding is a broken rule or a thing to know, at its place.
type Finding struct {
	Rule   Rule
	Severe bool // breaks a limit, as against a thing to know
	At     geometry.Point
	Text   string // what was found and what would do
}
