package geometry

import (
	"strings"
	"testing"
)

// 28 ft at 1/8 in per ft falls 28/8 = 3 1/2 in, 3.5/336 = 1.04 %.
func TestFall(t *testing.T) {
	const run = 28 * Foot
	for _, c := range []struct {
		text  string
		units Units
		want  Length
	}{
		{`3 1/2"`, FeetInches, 7 * Inch / 2},
		{"3 1/2", FeetInches, 7 * Inch / 2},
		{`1/8" per ft`, FeetInches, 7 * Inch / 2},
		{"1/8 per foot", FeetInches, 7 * Inch / 2},
		{`1/8"/ft`, FeetInches, 7 * Inch / 2},
		{"1/8 in / ft", FeetInches, 7 * Inch / 2},
		{"2%", FeetInches, 672 * Inch / 100 / SixtyFourth * SixtyFourth}, // 6.72 in, 6 46/64
		{"2 percent", Millimeters, (run / 50).Round(Millimeter / 10)},
		{"90 mm", FeetInches, 90 * Millimeter},
		{"90", Millimeters, 90 * Millimeter},
		{"10 mm per m", Millimeters, (run / 100).Round(Millimeter / 10)},
		{"10/m", Millimeters, (run / 100).Round(Millimeter / 10)},
		{"=1\" + 2 1/2\"", FeetInches, 7 * Inch / 2},
		{"0 %", FeetInches, 0},
	} {
		got, err := ParseFall(c.text, run, c.units)
		if err != nil || got != c.want {
			t.Errorf("%s in %v: got %s (%v), want %s", c.text, c.units, got.Exact(c.units), err, c.want.Exact(c.units))
		}
	}
	for text, hint := range map[string]string{
		"":                "nothing there",
		"%":               "write a percentage",
		"1e9 %":           "write a percentage",
		"1/8 %":           "write a percentage",
		"per ft":          "nothing there",
		"two per ft":      "is no unit",
		"9000000000000 %": "write a percentage",
		"900000000000 %":  "beyond 10 km",
	} {
		if got, err := ParseFall(text, run, FeetInches); err == nil || !strings.Contains(err.Error(), hint) {
			t.Errorf("“%s” gave %d, %v; want %s", text, got, err, hint)
		}
	}
	for _, c := range []struct {
		drop, run Length
		units     Units
		want      string
	}{
		{7 * Inch / 2, run, FeetInches, `3 1/2" (1/8" per ft, 1.04 %)`},
		{Inch, 9 * Foot, FeetInches, `1" (about 7/64" per ft, 0.93 %)`},
		{20 * Millimeter, 2 * Meter, Millimeters, "20 mm (10 mm per m, 1.00 %)"},
		{20 * Millimeter, 3 * Meter, Millimeters, "20 mm (about 6.7 mm per m, 0.67 %)"},
		{Inch, 0, FeetInches, `1"`},
	} {
		if got := FallText(c.drop, c.run, c.units); got != c.want {
			t.Errorf("got %s, want %s", got, c.want)
		}
	}
}
