// Package words is how the window writes figures and names.
package words

import (
	"math"
	"strconv"
	"time"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
)

// Quantity prints a figure: counts whole, volumes to the hundredth, the rest to
// the tenth where it is small.
func Quantity(v float64, u takeoff.Unit) string {
	digits := 1
	switch u {
	case takeoff.CubicYards, takeoff.CubicMeters, takeoff.Tons, takeoff.Tonnes:
		digits = 2
	case takeoff.Each, takeoff.Pounds, takeoff.Kilograms, takeoff.SquareFeet, takeoff.FluidOunces, takeoff.Millilitres:
		digits = 0
	}
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "–"
	}
	return estimate.Thousands(strconv.FormatFloat(v, 'f', digits, 64)) + " " + string(u)
}

// Plural counts things: "1 job", "2 jobs".
func Plural(n int, noun string) string {
	if n != 1 && noun != "more" {
		noun += "s"
	}
	return estimate.Thousands(strconv.Itoa(n)) + " " + noun
}

// Dash gives a dash for nothing.
func Dash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

// Age says how long before now a time was: "3 days old".
func Age(t, now time.Time) string {
	switch d := now.Sub(t); {
	case d < -time.Minute:
		return "of a time yet to come: a clock was wrong"
	case d < time.Minute:
		return "new"
	case d < time.Hour:
		return Plural(int(d/time.Minute), "minute") + " old"
	case d < 48*time.Hour:
		return Plural(int(d/time.Hour), "hour") + " old"
	default:
		return Plural(int(d/(24*time.Hour)), "day") + " old"
	}
}
