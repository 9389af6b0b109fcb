package geometry

import "testing"

func TestFull(t *testing.T) {
	for _, c := range []struct {
		l    Length
		u    Units
		want string
	}{
		{12*Foot + 6*Inch, FeetInches, `12'-6"`},
		{Sixteenth, FeetInches, `1/16"`},
		{25 * Millimeter, Millimeters, "25 mm"},
		{Sixteenth, Millimeters, Sixteenth.Exact(Millimeters)},
		{25 * Millimeter, FeetInches, (25 * Millimeter).Exact(FeetInches)},
	} {
		if got := c.l.Full(c.u); got != c.want {
			t.Errorf("%d nm in %v: %q, want %q", c.l, c.u, got, c.want)
		}
		if back, err := ParseLength(c.l.Full(c.u), c.u.Foot()); err != nil || back != c.l {
			t.Errorf("%d nm in %v reads back as %d, %v", c.l, c.u, back, err)
		}
	}
}
