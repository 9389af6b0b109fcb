package actual

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/field"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
)

// Asked is what was asked of the concrete that came.
type Asked struct {
	Units    geometry.Units
	Mix      takeoff.Mix
	Limit    int             // minutes from batching to the end of discharge
	Thinnest geometry.Length // of the slabs
}

// Limits that loads are held against.
var (
	// ASTM C94/C94M, tolerances of slump: 1/2 in for 2 in and less, 1 in up to 4 in, 1 1/2 in
	// beyond; of air 1.5 points (from memory).
	airOff = decimal.New(15, -1)
	// ACI 305.1, 95 °F at discharge unless another limit is agreed (from memory).
	hottest = pour.Fahrenheit(95)
	// ACI 306R, as placed in cold weather: 55 °F for sections under 12 in, 50 °F up to 36 in.
	coldDay               = pour.Fahrenheit(40)
	coldest, coldestThick = pour.Fahrenheit(55), pour.Fahrenheit(50)
)

// ACI 318-19, 26.12.3.1 (from memory): no test of 28 days more than 500 psi below what is
// specified; at 7 days about two thirds of it are usual (common practice, no source).
const (
	strengthSource = "ACI 318-19, 26.12.3.1, from memory"

	belowMost = 500
	sevenDays = 0.65
)

func slumpOff(asked geometry.Length) geometry.Length {
	switch {
	case asked <= 2*geometry.Inch:
		return geometry.Inch / 2
	case asked <= 4*geometry.Inch:
		return geometry.Inch
	}
	return 3 * geometry.Inch / 2
}

// limits collects findings of a record.
type limits struct {
	Asked
	out []rule.Finding
}

func (s *limits) add(name, source string, how rule.Severity, format string, args ...any) {
	s.out = append(s.out, rule.Finding{Rule: rule.Rule{Name: name, Source: source, Step: rule.Pour}, Severity: how, Text: field.Upper(fmt.Sprintf(format, args...))})
}

// Findings tells where what came passes a limit, and what does not go together in what is
// written down.
func (r Record) Findings(a Asked) []rule.Finding {
	s := limits{Asked: a}
	for i, l := range r.Loads {
		s.load(l, fmt.Sprintf("Load %d", i+1))
	}
	if came := r.Came(); r.Delivered.IsPositive() && !came.Equal(r.Delivered) {
		s.add("Delivered", "", rule.Note, "The loads come to %s, and %s are written down as delivered: the loads count.", came, r.Delivered)
	}
	s.cylinders(r.Cylinders)
	return s.out
}

func (s *limits) load(l Load, name string) {
	if wrong := l.disordered(); wrong != "" {
		s.add("Times of a load", "", rule.Note, "%s: %s; which of them is wrong?", name, wrong)
		return
	}
	if age, ok := l.Age(); ok && age > s.Limit {
		s.add("Discharge limit", "ASTM C94/C94M-21: the purchaser's or the producer's, on the ticket", rule.Limit, "%s was %d min old; the limit agreed is %d min.", name, age, s.Limit)
	}
	if off := slumpOff(s.Mix.Slump); l.Slump > 0 && s.Mix.Slump > 0 && (l.Slump-s.Mix.Slump).Abs() > off {
		s.add("Slump", "ASTM C94/C94M, tolerances in slump, from memory", rule.Limit, "%s came with a slump of %s; %s were asked, with %s more or less.", name, l.Slump.Text(s.Units), s.Mix.Slump.Text(s.Units), off.Text(s.Units))
	}
	if asked := decimal.NewFromFloat(s.Mix.Air); l.Air.IsPositive() && asked.IsPositive() && l.Air.Sub(asked).Abs().GreaterThan(airOff) {
		s.add("Air", "ASTM C94/C94M, tolerance in air, from memory", rule.Limit, "%s came with %s %% of air; %s %% were asked, with %s more or less.", name, l.Air, asked, airOff)
	}
	if least := s.least(); l.Temperature.Known() && l.Temperature.F() < least.F() {
		s.add("Cold concrete", "ACI 306R", rule.Note, "%s came at %s; where less than %s is expected, it is placed at %s or more.", name, l.Temperature.Text(s.Units), coldDay.Text(s.Units), least.Text(s.Units))
	}
	if l.Temperature.Known() && l.Temperature.F() > hottest.F() {
		s.add("Hot concrete", "ACI 305.1, from memory", rule.Limit, "%s came at %s; at most %s, unless another limit is agreed.", name, l.Temperature.Text(s.Units), hottest.Text(s.Units))
	}
	if l.Water.IsPositive() {
		unit := field.Water.Unit(s.Units)
		s.add("Water added", "ASTM C94/C94M, from memory", rule.Note, "%s got %s %s of water on the site: once, before discharge, no more than the ticket allows, and written on it.", name, l.Water, unit)
	}
}

// least gives how warm concrete is at least when it is placed in cold weather.
func (s *limits) least() pour.Temperature {
	if s.Thinnest < 12*geometry.Inch {
		return coldest
	}
	return coldestThick
}

// cylinders holds strengths against what is specified, in the order of the loads.
func (s *limits) cylinders(all []Cylinders) {
	asked := s.Mix.Strength
	var row []int // strengths after 28 days
	for _, c := range all {
		if c.TwentyEight > 0 {
			row = append(row, c.TwentyEight)
		}
		switch {
		case c.TwentyEight > 0 && c.TwentyEight < asked-belowMost:
			s.add("Strength", strengthSource, rule.Severe, "The cylinders of ticket %s broke at %s after 28 days, more than %s below the %s asked: tell the plant, and whoever answers for the structure.", c.Ticket, s.psi(c.TwentyEight), s.psi(belowMost), s.psi(asked))
		case c.TwentyEight > 0 && c.TwentyEight < asked:
			s.add("Strength", strengthSource, rule.Note, "The cylinders of ticket %s broke at %s after 28 days; three tests in a row must reach the %s asked on average.", c.Ticket, s.psi(c.TwentyEight), s.psi(asked))
		case c.TwentyEight == 0 && c.Seven > 0 && float64(c.Seven) < sevenDays*float64(asked):
			s.add("Strength", "common practice, no source", rule.Note, "The cylinders of ticket %s broke at %s after 7 days; about two thirds of the %s asked are usual by then.", c.Ticket, s.psi(c.Seven), s.psi(asked))
		}
	}
	for i := range row {
		if i+3 <= len(row) && row[i]+row[i+1]+row[i+2] < 3*asked {
			s.add("Strength", strengthSource, rule.Limit, "Three tests in a row come to %s on average after 28 days; %s were asked.", s.psi((row[i]+row[i+1]+row[i+2])/3), s.psi(asked))
			return
		}
	}
}

// psi writes a strength in the job's units: "3000 psi", "20.7 MPa".
func (s *limits) psi(n int) string {
	text, _, _ := strings.Cut(takeoff.StrengthText(n, s.Units), " (")
	return text
}
