package takeoff

import (
	"strconv"
	"strings"

	"haunchbook.example/geometry"
)

// The size of a unit in SI units, exactly: international yard and pound
// agreement, 1959; NIST SP 811.
const (
	foot2   = 0.3048 * 0.3048
	foot3   = foot2 * 0.3048
	yard3   = 27 * foot3
	pound   = 0.45359237 // kg
	ton     = 2000 * pound
	ounceFl = 29.5735295625e-6 // m³, US: 231 in³ is 128 fl oz
)

// measure turns SI values into the job's units.
type measure struct{ u geometry.Units }

func (m measure) metric() bool { return m.u == geometry.Millimeters }

// ConcreteUnit gives the unit that concrete is measured and ordered in.
func ConcreteUnit(u geometry.Units) Unit {
	if u == geometry.Millimeters {
		return CubicMeters
	}
	return CubicYards
}

func (m measure) volume(m3 float64) (float64, Unit) {
	unit := ConcreteUnit(m.u)
	return m3 / unit.SI(), unit
}

func (m measure) area(m2 float64) (float64, Unit) {
	if m.metric() {
		return m2, SquareMeters
	}
	return m2 / foot2, SquareFeet
}

func (m measure) length(l geometry.Length) (float64, Unit) {
	if m.metric() {
		return l.Meters(), Meters
	}
	return l.Feet(), Feet
}

func (m measure) mass(kg float64) (float64, Unit) {
	if m.metric() {
		return kg, Kilograms
	}
	return kg / pound, Pounds
}

// meters is length of a number of meters.
func (m measure) meters(v float64) (float64, Unit) {
	if m.metric() {
		return v, Meters
	}
	return v / foot, Feet
}

func (m measure) heavy(kg float64) (float64, Unit) {
	if m.metric() {
		return kg / 1000, Tonnes
	}
	return kg / ton, Tons
}

func (m measure) fluid(m3 float64) (float64, Unit) {
	if m.metric() {
		return m3 * 1e6, Millilitres
	}
	return m3 / ounceFl, FluidOunces
}

// text prints a value for a working: three decimals, or none for a count.
func text(v float64, u Unit) string {
	if u == Each {
		return number(v, 0)
	}
	return number(v, 3) + " " + string(u)
}

// number prints with at most so many decimals.
func number(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

func (m measure) volumeText(m3 float64) string        { return text(m.volume(m3)) }
func (m measure) areaText(m2 float64) string          { return text(m.area(m2)) }
func (m measure) text(l geometry.Length) string       { return l.Text(m.u) }
func (m measure) massText(kg float64) string          { return text(m.mass(kg)) }
func (m measure) lengthText(l geometry.Length) string { return text(m.length(l)) }

// count prints so many of a thing.
func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}
