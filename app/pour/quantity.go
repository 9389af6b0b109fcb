package pour

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"haunchbook.example/geometry"
)

// Temperature is a temperature with the unit it was written in, so that a job
// file keeps what its writer wrote. The zero Temperature is none.
type Temperature struct {
	hundredths int32
	unit       byte // 'F' or 'C'
}

// Fahrenheit and Celsius give a temperature, kept to a hundredth of a degree.
func Fahrenheit(deg float64) Temperature { return Temperature{hundredths(deg), 'F'} }

// Celsius is Fahrenheit in °C.
func Celsius(deg float64) Temperature { return Temperature{hundredths(deg), 'C'} }

func hundredths(v float64) int32 { return int32(math.Round(v * 100)) }

// Known tells whether a temperature was given.
func (t Temperature) Known() bool { return t.unit != 0 }

// F gives t in °F.
func (t Temperature) F() float64 {
	if t.unit == 'C' {
		return float64(t.hundredths)/100*9/5 + 32
	}
	return float64(t.hundredths) / 100
}

// C gives t in °C.
func (t Temperature) C() float64 {
	if t.unit == 'C' {
		return float64(t.hundredths) / 100
	}
	return (float64(t.hundredths)/100 - 32) * 5 / 9
}

// String prints t as it was written: "85 °F".
func (t Temperature) String() string {
	if !t.Known() {
		return ""
	}
	return decimalText(t.hundredths) + " °" + string(rune(t.unit))
}

// Text prints t in the job's units, in whole degrees or in tenths.
func (t Temperature) Text(u geometry.Units) string {
	switch {
	case t.unit == 'F' && u == geometry.Millimeters:
		return Celsius(math.Round(t.C()*10) / 10).String()
	case t.unit == 'C' && u == geometry.FeetInches:
		return Fahrenheit(math.Round(t.F()*10) / 10).String()
	}
	return t.String()
}

// MarshalText gives what String gives.
func (t Temperature) MarshalText() ([]byte, error) { return []byte(t.String()), nil }

// UnmarshalText reads "85 °F", "85F", "29.5 °C", "29.5 C"; an empty text is none.
func (t *Temperature) UnmarshalText(text []byte) error {
	s := strings.TrimSpace(string(text))
	if s == "" {
		*t = Temperature{}
		return nil
	}
	unit := byte(0)
	for _, u := range []string{"F", "f", "C", "c"} {
		if rest, ok := strings.CutSuffix(s, u); ok {
			unit, s = strings.ToUpper(u)[0], rest
			break
		}
	}
	v, err := number(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "°")))
	if unit == 0 || err != nil {
		return errors.New(`write a temperature with its unit, such as "85 °F" or "29 °C"`)
	}
	got := Temperature{hundredths(v), unit}
	if f := got.F(); f < -60 || f > 200 {
		return errors.New("must be from -60 to 200 °F (-51 to 93 °C)")
	}
	*t = got
	return nil
}

// Speed is a wind speed with the unit it was written in.
type Speed struct {
	hundredths int32
	unit       byte // 'm' for mph, 'k' for km/h
}

// kmPerMile is exact: international yard and pound agreement, 1959.
const kmPerMile = 1.609344

// MilesPerHour gives a speed, kept to a hundredth.
func MilesPerHour(v float64) Speed { return Speed{hundredths(v), 'm'} }

// KilometersPerHour is MilesPerHour in km/h.
func KilometersPerHour(v float64) Speed { return Speed{hundredths(v), 'k'} }

// MPH gives v in miles per hour.
func (v Speed) MPH() float64 {
	if v.unit == 'k' {
		return float64(v.hundredths) / 100 / kmPerMile
	}
	return float64(v.hundredths) / 100
}

// KMH gives v in kilometers per hour.
func (v Speed) KMH() float64 {
	if v.unit == 'k' {
		return float64(v.hundredths) / 100
	}
	return float64(v.hundredths) / 100 * kmPerMile
}

// String prints v as it was written: "12 mph".
func (v Speed) String() string {
	switch v.unit {
	case 'm':
		return decimalText(v.hundredths) + " mph"
	case 'k':
		return decimalText(v.hundredths) + " km/h"
	}
	return ""
}

// Text prints v in the job's units, in tenths at most.
func (v Speed) Text(u geometry.Units) string {
	switch {
	case v.unit == 'm' && u == geometry.Millimeters:
		return KilometersPerHour(math.Round(v.KMH()*10) / 10).String()
	case v.unit == 'k' && u == geometry.FeetInches:
		return MilesPerHour(math.Round(v.MPH()*10) / 10).String()
	}
	return v.String()
}

// MarshalText gives what String gives.
func (v Speed) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// UnmarshalText reads "12 mph" or "19 km/h"; an empty text is no wind.
func (v *Speed) UnmarshalText(text []byte) error {
	s := strings.ToLower(strings.TrimSpace(string(text)))
	if s == "" {
		*v = Speed{}
		return nil
	}
	unit := byte('m')
	rest, ok := strings.CutSuffix(s, "mph")
	if !ok {
		unit = 'k'
		rest, ok = strings.CutSuffix(s, "km/h")
	}
	x, err := number(strings.TrimSpace(rest))
	if !ok || err != nil {
		return errors.New(`write a wind speed with its unit, such as "12 mph" or "19 km/h"`)
	}
	got := Speed{hundredths(x), unit}
	if got.hundredths < 0 || got.MPH() > 200 {
		return errors.New("must be from 0 to 200 mph (322 km/h)")
	}
	*v = got
	return nil
}

// Clock is a time of day in minutes after midnight.
type Clock int

// String prints c as "06:30". Times after midnight go on past 24.
func (c Clock) String() string { return fmt.Sprintf("%02d:%02d", int(c)/60, int(c)%60) }

// MarshalText gives what String gives.
func (c Clock) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText reads "6:30" or "06:30", by the 24-hour clock.
func (c *Clock) UnmarshalText(text []byte) error {
	h, m, ok := strings.Cut(strings.TrimSpace(string(text)), ":")
	hour, err1 := strconv.Atoi(h)
	minute, err2 := strconv.Atoi(m)
	if !ok || err1 != nil || err2 != nil || len(m) != 2 || hour < 0 || hour > 23 || minute < 0 || minute > 59 {
		return errors.New(`write a time of day such as "06:30", up to "23:59"`)
	}
	*c = Clock(60*hour + minute)
	return nil
}

// number reads a plain decimal of few digits: no exponent, infinity or NaN.
func number(s string) (float64, error) {
	if s == "" || len(s) > 12 || strings.Trim(s, "0123456789.-+") != "" {
		return 0, errors.New("no number")
	}
	return strconv.ParseFloat(s, 64)
}

// decimalText prints hundredths without trailing zeros.
func decimalText(h int32) string {
	return strconv.FormatFloat(float64(h)/100, 'f', -1, 64)
}
