// Package prices holds the price lists that a new job book starts with. Every
// price and rate in them is invented.
package prices

import (
	_ "embed"
	"slices"
)

//go:embed feet-inches.json
var feetInches []byte

//go:embed metric.json
var metric []byte

// FeetInches gives the price list file for jobs in feet and inches.
func FeetInches() []byte { return slices.Clone(feetInches) }

// Metric gives the price list file for jobs in millimeters.
func Metric() []byte { return slices.Clone(metric) }
