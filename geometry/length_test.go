package geometry

import (
	"testing"

	"pgregory.net/rapid"
)

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
		{1000 * Millimeter, `3'-3 3/8"`, "1000 mm", "1000 mm"},
	} {
		if got := c.l.Text(FeetInches); got != c.us {
			t.Errorf("%d: %s, want %s", c.l, got, c.us)
		}
		if got := c.l.Text(Millimeters); got != c.si {
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
		if got, err := ParseLength(n.Text(FeetInches), Foot); err != nil || got != n {
			t.Fatalf("%s read back as %d (%v), want %d", n.Text(FeetInches), got, err, n)
		}
		l := Length(rapid.Int64Range(-int64(MaxLength), int64(MaxLength)).Draw(t, "nm"))
		for _, u := range []Units{FeetInches, Millimeters} {
			if got, err := ParseWritten(l.Exact(u)); err != nil || got != l {
				t.Fatalf("%s read back as %d (%v), want %d", l.Exact(u), got, err, l)
			}
		}
	})
}
