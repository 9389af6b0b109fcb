package geometry

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseLength(t *testing.T) {
	const sixteenth = Sixteenth
	for _, c := range []struct {
		text  string
		units Units
		want  Length
	}{
		{"24'", FeetInches, 24 * Foot},
		{"24", FeetInches, 24 * Foot},
		{"24", Millimetres, 24 * Millimetre},
		{"24-6", FeetInches, 24*Foot + 6*Inch},
		{"24'6", FeetInches, 24*Foot + 6*Inch},
		{"24'6", Millimetres, 24*Foot + 6*Inch},
		{`24' 6 1/2"`, FeetInches, 24*Foot + 6*Inch + 8*sixteenth},
		{`3'-6 1/2"`, FeetInches, 3*Foot + 6*Inch + 8*sixteenth},
		{`3' - 6-1/2 in`, FeetInches, 3*Foot + 6*Inch + 8*sixteenth},
		{`7' 3/8`, FeetInches, 7*Foot + 6*sixteenth},
		{`18"`, Millimetres, 18 * Inch},
		{`1/2"`, FeetInches, 8 * sixteenth},
		{`6.5"`, FeetInches, 6*Inch + 8*sixteenth},
		{`11-1/4 in`, FeetInches, 11*Inch + 4*sixteenth},
		{`11 1/4"`, FeetInches, 11*Inch + 4*sixteenth},
		{"7.25m", FeetInches, 7250 * Millimetre},
		{"1066.8mm", FeetInches, 42 * Inch},
		{"1066.8 mm", Millimetres, 42 * Inch},
		{"12 cm", FeetInches, 120 * Millimetre},
		{"24 ft 6 in.", FeetInches, 24*Foot + 6*Inch},
		{"24 FEET 6 INCHES", Millimetres, 24*Foot + 6*Inch},
		{"2 yd", FeetInches, 6 * Foot},
		{"24’ 6½”", FeetInches, 24*Foot + 6*Inch + 8*sixteenth},
		{"24′–6 1⁄2″", FeetInches, 24*Foot + 6*Inch + 8*sixteenth},
		{"3''", FeetInches, 3 * Inch},
		{"3’’", FeetInches, 3 * Inch},
		{"  24 '  6  \" ", FeetInches, 24*Foot + 6*Inch},
		{"5 1/2'", FeetInches, 5*Foot + 6*Inch},
		{"0", FeetInches, 0},
		{"-3'6\"", FeetInches, -(3*Foot + 6*Inch)},
		{"−2 m", FeetInches, -2 * Metre},
		{".5\"", FeetInches, 8 * sixteenth},
		{`1/3"`, FeetInches, 8_466_667},
	} {
		got, err := ParseLength(c.text, c.units)
		if err != nil || got != c.want {
			t.Errorf("%q in %v: got %d (%v), want %d", c.text, c.units, got, err, c.want)
		}
	}
}

func TestParseLengthFaults(t *testing.T) {
	for _, c := range []struct {
		text  string
		units Units
		hint  string // a part of the message
	}{
		{"", FeetInches, "nothing there"},
		{"   ", FeetInches, "nothing there"},
		{"abc", FeetInches, "no unit"},
		{"24 furlongs", FeetInches, `"furlongs" is no unit`},
		{"1/2", FeetInches, "fraction of what"},
		{"24-1/2", FeetInches, "fraction of what"},
		{"24-6", Millimetres, "without a unit"},
		{"24 6", FeetInches, "without a unit"},
		{"6\" 3'", FeetInches, "only feet"},
		{"6.5' 3\"", FeetInches, "whole number"},
		{"3' 4 m", FeetInches, "after feet come inches"},
		{"3' 4\" 5\"", FeetInches, "nothing may follow"},
		{"1/0\"", FeetInches, "no fraction"},
		{"6.5 1/2\"", FeetInches, "decimal with a fraction"},
		{"1.2.3 m", FeetInches, "no number"},
		{"'", FeetInches, "number must come before"},
		{"3 -", FeetInches, "number is missing"},
		{"20 000 m", FeetInches, "without a unit"},
		{"20000 m", FeetInches, "beyond 10 km"},
		{"3 € ", FeetInches, "does not belong"},
		{strings.Repeat("9", 70) + "'", FeetInches, "too long"},
	} {
		got, err := ParseLength(c.text, c.units)
		if err == nil {
			t.Errorf("%q: got %d, want an error", c.text, got)
		} else if !strings.Contains(err.Error(), c.hint) || !strings.Contains(err.Error(), "found") {
			t.Errorf("%q: error %q does not say %q", c.text, err, c.hint)
		}
	}
	if _, err := ParseWritten("24"); err == nil || !strings.Contains(err.Error(), "no unit") {
		t.Errorf("a bare number in a file: %v", err)
	}
	if l, err := ParseWritten("0"); l != 0 || err != nil {
		t.Errorf("zero in a file: %v, %v", l, err)
	}
}

func TestText(t *testing.T) {
	for _, c := range []struct {
		l      Length
		us, si string
		exact  string
	}{
		{0, `0"`, "0 mm", `0"`},
		{24 * Foot, `24'-0"`, "7315 mm", `24'-0"`},
		{24*Foot + 6*Inch + 8*Sixteenth, `24'-6 1/2"`, "7480 mm", `24'-6 1/2"`},
		{Foot + Sixteenth, `1'-0 1/16"`, "306 mm", `1'-0 1/16"`},
		{12 * Sixteenth, `3/4"`, "19 mm", `3/4"`},
		{Inch * 23 / 2, `11 1/2"`, "292 mm", `11 1/2"`},
		{SixtyFourth, `0"`, "0 mm", `1/64"`},
		{-Foot, `-1'-0"`, "-305 mm", `-1'-0"`},
		{12*Inch - 1, `1'-0"`, "305 mm", "304.799999 mm"}, // rounds up into the next foot
		{1000 * Millimetre, `3'-3 3/8"`, "1000 mm", "1000 mm"},
	} {
		if got := c.l.Text(FeetInches); got != c.us {
			t.Errorf("%d: %s, want %s", c.l, got, c.us)
		}
		if got := c.l.Text(Millimetres); got != c.si {
			t.Errorf("%d: %s, want %s", c.l, got, c.si)
		}
		if got := c.l.Exact(FeetInches); got != c.exact {
			t.Errorf("%d exactly: %s, want %s", c.l, got, c.exact)
		}
	}
}

// The inch is 25.4 mm exactly (NIST SP 811, appendix B.8), the yard 0.9144 m.
func TestInternationalInch(t *testing.T) {
	if Inch != 25_400_000 || Yard != 914_400_000 || SixtyFourth != 396_875 || 64*SixtyFourth != Inch {
		t.Error("lengths disagree with the international yard of 1959")
	}
}

func TestPrintParse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := Length(rapid.Int64Range(-100_000, 100_000).Draw(t, "sixteenths")) * Sixteenth
		if got, err := ParseLength(n.Text(FeetInches), FeetInches); err != nil || got != n {
			t.Fatalf("%s read back as %d (%v), want %d", n.Text(FeetInches), got, err, n)
		}
		l := Length(rapid.Int64Range(-int64(MaxLength), int64(MaxLength)).Draw(t, "nm"))
		for _, u := range []Units{FeetInches, Millimetres} {
			if got, err := ParseWritten(l.Exact(u)); err != nil || got != l {
				t.Fatalf("%s read back as %d (%v), want %d", l.Exact(u), got, err, l)
			}
		}
	})
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"24'", "24-6", `24' 6 1/2"`, "7.25m", "½", "''", "-", "1/0", "1e9'", "\xff"} {
		f.Add(s, true)
	}
	f.Fuzz(func(t *testing.T, s string, feet bool) {
		u := Millimetres
		if feet {
			u = FeetInches
		}
		l, err := ParseLength(s, u)
		if err != nil {
			return
		}
		if l.Abs() > MaxLength {
			t.Fatalf("%q gave %d", s, l)
		}
		if back, err := ParseLength(l.Exact(u), u); err != nil || back != l {
			t.Fatalf("%q gave %d, printed %s, read back %d (%v)", s, l, l.Exact(u), back, err)
		}
	})
}
