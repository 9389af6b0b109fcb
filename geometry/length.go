package geometry

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Length is a signed distance in whole nanometers. Every 1/64 in and every
// micrometer is a whole number of them, so that neither unit system rounds.
//
// The inch is 25.4 mm exactly: international yard and pound agreement of 1959,
// restated in NIST Special Publication 811, appendix B.
type Length int64

// The lengths that people write, in nanometers.
const (
	Nanometer   Length = 1
	Micrometer         = 1000 * Nanometer
	Millimeter         = 1000 * Micrometer
	Centimeter         = 10 * Millimeter
	Meter              = 1000 * Millimeter
	Inch               = 25_400 * Micrometer
	Foot               = 12 * Inch
	Yard               = 3 * Foot
	Sixteenth          = Inch / 16
	SixtyFourth        = Inch / 64
)

// MaxLength bounds what ParseLength accepts and what a plan may hold: 10 km,
// far beyond any slab and far below overflow.
const MaxLength = 10_000 * Meter

// Units says how lengths are printed.
type Units uint8

const (
	// FeetInches prints feet, inches and sixteenths.
	FeetInches Units = iota
	// Millimeters prints whole millimeters.
	Millimeters
)

// Foot gives the length of one where people count feet, as along a side: a foot,
// or a millimeter.
func (u Units) Foot() Length { return u.or(Foot) }

// Inch gives the length of one where people count inches, as of a thickness: an
// inch, or a millimeter.
func (u Units) Inch() Length { return u.or(Inch) }

func (u Units) or(one Length) Length {
	if u == Millimeters {
		return Millimeter
	}
	return one
}

// units names the units.
type units struct{}

// Names implements Named.
func (units) Names() []string { return []string{"ft-in", "mm"} }

// Choices lists the names of units.
func (u Units) Choices() []string { return units{}.Names() }

// String gives the name that job files use: "ft-in" or "mm".
func (u Units) String() string { return Choice[units](u).String() }

// MarshalText gives the name that String gives.
func (u Units) MarshalText() ([]byte, error) { return Choice[units](u).MarshalText() }

// UnmarshalText reads the name that String gives.
func (u *Units) UnmarshalText(text []byte) error { return (*Choice[units])(u).UnmarshalText(text) }

// Meters gives l in meters, correctly rounded.
func (l Length) Meters() float64 { return float64(l) / 1e9 }

// FromMeters gives meters in whole nanometers, to the nearest.
func FromMeters(m float64) Length { return Length(math.Round(m * 1e9)) }

// Feet gives l in feet, correctly rounded.
func (l Length) Feet() float64 { return float64(l) / float64(Foot) }

// Inches gives l in inches, correctly rounded.
func (l Length) Inches() float64 { return float64(l) / float64(Inch) }

// Abs gives the magnitude of l.
func (l Length) Abs() Length {
	if l < 0 {
		return -l
	}
	return l
}

// Round gives the multiple of step nearest to l, halves away from zero.
func (l Length) Round(step Length) Length {
	if step <= 1 {
		return l
	}
	half := step / 2
	if l < 0 {
		return -((-l + half) / step * step)
	}
	return (l + half) / step * step
}

// Text prints l for people: feet, inches and sixteenths such as 24'-6 1/2", or
// whole millimeters such as 7468 mm. It rounds what it prints and nothing else.
func (l Length) Text(u Units) string {
	if u == Millimeters {
		return strconv.FormatInt(int64(l.Round(Millimeter)/Millimeter), 10) + " mm"
	}
	return feetInches(l.Round(Sixteenth), Sixteenth, 16)
}

// Exact prints l without rounding, so that ParseLength gives l back: in feet and
// inches where l is a whole number of 64ths and u is FeetInches, otherwise in
// decimal millimeters.
func (l Length) Exact(u Units) string {
	if u == FeetInches && l%SixtyFourth == 0 {
		return feetInches(l, SixtyFourth, 64)
	}
	sign := ""
	if l < 0 {
		sign, l = "-", -l
	}
	s := fmt.Sprintf("%s%d.%06d", sign, l/Millimeter, l%Millimeter)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".") + " mm"
}

// feetInches prints l, a multiple of step = 1/den inch.
func feetInches(l, step Length, den int64) string {
	sign := ""
	if l < 0 {
		sign, l = "-", -l
	}
	feet, inches := l/Foot, l%Foot/Inch
	num := int64(l % Inch / step)
	for num != 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	var b strings.Builder
	b.WriteString(sign)
	if feet > 0 {
		fmt.Fprintf(&b, "%d'-", feet)
	}
	switch {
	case num == 0:
		fmt.Fprintf(&b, `%d"`, inches)
	case inches == 0 && feet == 0:
		fmt.Fprintf(&b, `%d/%d"`, num, den)
	default:
		fmt.Fprintf(&b, `%d %d/%d"`, inches, num, den)
	}
	return b.String()
}
