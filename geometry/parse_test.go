package geometry

import (
	"strings"
	"testing"
)

func TestParseLength(t *testing.T) {
	const sixteenth = Sixteenth
	for _, c := range []struct {
		text string
		one  Length
		want Length
	}{
		{"24'", Foot, 24 * Foot},
		{"24", Foot, 24 * Foot},
		{"24", Millimeter, 24 * Millimeter},
		{"24-6", Foot, 24*Foot + 6*Inch},
		{"24'6", Foot, 24*Foot + 6*Inch},
		{"24'6", Millimeter, 24*Foot + 6*Inch},
		{`24' 6 1/2"`, Foot, 24*Foot + 6*Inch + 8*sixteenth},
		{`3'-6 1/2"`, Foot, 3*Foot + 6*Inch + 8*sixteenth},
		{`3' - 6-1/2 in`, Foot, 3*Foot + 6*Inch + 8*sixteenth},
		{`7' 3/8`, Foot, 7*Foot + 6*sixteenth},
		{`18"`, Millimeter, 18 * Inch},
		{`1/2"`, Foot, 8 * sixteenth},
		{`6.5"`, Foot, 6*Inch + 8*sixteenth},
		{`11-1/4 in`, Foot, 11*Inch + 4*sixteenth},
		{`11 1/4"`, Foot, 11*Inch + 4*sixteenth},
		{"7.25m", Foot, 7250 * Millimeter},
		{"1066.8mm", Foot, 42 * Inch},
		{"1066.8 mm", Millimeter, 42 * Inch},
		{"12 cm", Foot, 120 * Millimeter},
		{"24 ft 6 in.", Foot, 24*Foot + 6*Inch},
		{"24 FEET 6 INCHES", Millimeter, 24*Foot + 6*Inch},
		{"2 yd", Foot, 6 * Foot},
		{"24’ 6½”", Foot, 24*Foot + 6*Inch + 8*sixteenth},
		{"24′–6 1⁄2″", Foot, 24*Foot + 6*Inch + 8*sixteenth},
		{"3''", Foot, 3 * Inch},
		{"3’’", Foot, 3 * Inch},
		{"  24 '  6  \" ", Foot, 24*Foot + 6*Inch},
		{"5 1/2'", Foot, 5*Foot + 6*Inch},
		{"0", Foot, 0},
		{"-3'6\"", Foot, -(3*Foot + 6*Inch)},
		{"−2 m", Foot, -2 * Meter},
		{".5\"", Foot, 8 * sixteenth},
		{`1/3"`, Foot, 8_466_667},
		{"2", Inch, 2 * Inch},
		{"3 1/2", Inch, 3*Inch + 8*sixteenth},
		{"3-1/2", Inch, 3*Inch + 8*sixteenth},
		{"½", Inch, 8 * sixteenth},
		{"1.5", Inch, Inch + 8*sixteenth},
		{"2'", Inch, 2 * Foot},
		{`24' - 3 1/2"`, Foot, 24*Foot + 3*Inch + 8*sixteenth}, // a hyphen, spaced or not, only separates
		{`24' -3 1/2"`, Foot, 24*Foot + 3*Inch + 8*sixteenth},
		{`-6"`, Foot, -6 * Inch},
		{"-6", Inch, -6 * Inch},
		{`=24' + 2' - 3 1/2"`, Foot, 26*Foot - 3*Inch - 8*sixteenth},
		{`=24'-6" + 2'`, Foot, 26*Foot + 6*Inch},
		{"= 24 + 2", Foot, 26 * Foot},
		{"=24+2", Foot, 26 * Foot},
		{"=24-6", Foot, 24*Foot + 6*Inch},
		{"=3 1/2 + 1/2", Inch, 4 * Inch},
		{"=7.5 + 2.5", Millimeter, 10 * Millimeter},
		{"=+2'", Foot, 2 * Foot},
		{"=-2' + 6'", Foot, 4 * Foot},
		{"=2' + -6\"", Foot, 18 * Inch},
		{`=1/3" + 1/3" + 1/3"`, Foot, Inch}, // rounded once
	} {
		got, err := ParseLength(c.text, c.one)
		if err != nil || got != c.want {
			t.Errorf("“%s” counting %d: got %d (%v), want %d", c.text, c.one, got, err, c.want)
		}
	}
}

func TestParseLengthFaults(t *testing.T) {
	for _, c := range []struct {
		text string
		one  Length
		hint string // a part of the message
	}{
		{"", Foot, "nothing there"},
		{"   ", Foot, "nothing there"},
		{"abc", Foot, "no unit"},
		{"24 furlongs", Foot, "“furlongs” is no unit"},
		{"1/2", Foot, "fraction of what"},
		{"24-1/2", Foot, "fraction of what"},
		{"24-6", Millimeter, "without a unit"},
		{"24 6", Foot, "without a unit"},
		{"6\" 3'", Foot, "only feet"},
		{"6.5' 3\"", Foot, "whole number"},
		{"3' 4 m", Foot, "after feet come inches"},
		{"3' 4\" 5\"", Foot, "nothing may follow"},
		{"1/0\"", Foot, "no fraction"},
		{"6.5 1/2\"", Foot, "decimal with a fraction"},
		{"1.2.3 m", Foot, "no number"},
		{"'", Foot, "number must come before"},
		{"3 -", Foot, "number is missing"},
		{"20 000 m", Foot, "without a unit"},
		{"20000 m", Foot, "beyond 10 km"},
		{"3 € ", Foot, "does not belong"},
		{strings.Repeat("9", 70) + "'", Foot, "too long"},
		{"24-6", Inch, "two numbers without a unit"},
		{"+2'", Foot, "begin with = to add"},
		{"24' + 2'", Foot, "begin with = to add"},
		{`=24' -3"`, Foot, "one on both to subtract"},
		{`=24'- 3"`, Foot, "one on both to subtract"},
		{"=", Foot, "nothing there"},
		{"=24' +", Foot, "nothing there"},
		{"=24' + + 2'", Foot, "missing before a +"},
		{"=" + strings.Repeat("1' + ", 60) + "1'", Foot, "too long"},
		{"=6 km + 6 km", Foot, "is no unit"},
		{"=6000 m + 6000 m", Foot, "beyond 10 km"},
	} {
		got, err := ParseLength(c.text, c.one)
		if err == nil {
			t.Errorf("%q: got %d, want an error", c.text, got)
		} else if !strings.Contains(err.Error(), c.hint) || !strings.Contains(err.Error(), "found") {
			t.Errorf("%q: error %q does not say %q", c.text, err, c.hint)
		}
	}
	if _, err := ParseWritten("24"); err == nil || !strings.Contains(err.Error(), "no unit") {
		t.Errorf("a bare number in a file: %v", err)
	}
	if _, err := ParseWritten("=2' + 3'"); err == nil {
		t.Error("a sum in a file")
	}
	if l, err := ParseWritten("0"); l != 0 || err != nil {
		t.Errorf("zero in a file: %v, %v", l, err)
	}
}

// What cannot be read is refused, never a panic; what is read prints and reads
// back as itself.
func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"24'-6 1/2\"", "=24' + 2' - 3 1/2\"", "−2 m", "½", "=", "1/3\"", "+2'", "24-6", "''", "-", "1/0", "1e9'", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, one := range []Length{0, Foot, Inch, Millimeter} {
			l, err := parse(s, one)
			if err != nil {
				continue
			}
			if l.Abs() > MaxLength {
				t.Fatalf("“%s” gave %d", s, l)
			}
			if back, err := ParseWritten(l.Exact(FeetInches)); err != nil || back != l {
				t.Fatalf("“%s” counting %d is %d, printed %s, read back %d (%v)", s, one, l, l.Exact(FeetInches), back, err)
			}
		}
	})
}
