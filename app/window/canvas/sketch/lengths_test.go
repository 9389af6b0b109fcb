package sketch

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
)

// A picture of a true drawing that was shrunk, slanted and turned: lengths of the
// drawing, measured on the picture, bring it back, whatever the slant.
func TestLengthsBringAPictureBack(t *testing.T) {
	frame := []geometry.Point{pt(0, 30*ft), pt(40*ft, 30*ft), pt(40*ft, 0), pt(0, 0)}
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(1, 5).Draw(rt, "lengths")
		f := func(lo, hi float64, name string) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
		sx, sy, slant := f(0.3, 3, "scale"), 0.0, 0.0
		sy = sx
		if n >= 2 {
			sy = sx * f(0.75, 1.3, "squeeze")
		}
		if n >= 4 {
			slant = f(-0.2, 0.2, "slant") * sx
		}
		// The drawing as it lies on the plan before the fit.
		shown := make([]geometry.Point, 4)
		for i, c := range frame {
			shown[i] = point(XY{float64(c.X)*sx + float64(c.Y)*slant, float64(c.Y) * sy})
		}
		ends := [][2]geometry.Point{{pt(0, 0), pt(24*ft, 0)}, {pt(24*ft, 0), pt(24*ft, 20*ft)}, {pt(0, 0), pt(24*ft, 20*ft)}, {pt(0, 20*ft), pt(24*ft, 0)}, {pt(2*ft, 5*ft), pt(30*ft, 9*ft)}}[:n]
		on, err := Between(four(frame), unit)
		if err != nil {
			rt.Fatal(err)
		}
		var known []Known
		for _, e := range ends {
			known = append(known, Known{A: on.Apply(xy(e[0])), B: on.Apply(xy(e[1])), Length: geometry.Distance(e[0], e[1])})
		}
		known[0].Turned = true // level
		got, off, err := Fit(shown, known)
		if err != nil {
			rt.Fatal(err)
		}
		for i, d := range off {
			if d.Abs() > geometry.Sixteenth/16 {
				rt.Errorf("length %d is off by %d nm", i, d)
			}
		}
		// The first end of the first length is held: here, the origin.
		for i := range frame {
			if d := geometry.Distance(got[i], frame[i]); d > geometry.Sixteenth/4 {
				rt.Errorf("corner %d is at %v, want %v", i, got[i], frame[i])
			}
		}
	})
}

// With two lengths along one line, one too long by a hundredth and one too short,
// the scale is between, and how far each is off is told.
func TestLengthsThatDoNotQuiteAgree(t *testing.T) {
	frame := []geometry.Point{pt(0, 30*ft), pt(40*ft, 30*ft), pt(40*ft, 0), pt(0, 0)}
	known := []Known{
		{A: XY{0, 1}, B: XY{0.5, 1}, Length: 20*ft + ft/5},
		{A: XY{0, 0.5}, B: XY{0.5, 0.5}, Length: 20*ft - ft/5},
	}
	got, off, err := Fit(frame, known)
	if err != nil {
		t.Fatal(err)
	}
	if w := (got[1].X - got[0].X).Feet(); math.Abs(w-40) > 0.02 {
		t.Errorf("the picture is %g ft wide, want about 40", w)
	}
	if off[0] >= 0 || off[1] <= 0 || (off[0]+ft/5).Abs() > ft/50 || (off[1]-ft/5).Abs() > ft/50 {
		t.Errorf("off by %v, want about -0.2 and 0.2 ft", off)
	}
}

func TestLengthsThatContradictEachOther(t *testing.T) {
	frame := []geometry.Point{pt(0, 30*ft), pt(40*ft, 30*ft), pt(40*ft, 0), pt(0, 0)}
	for name, known := range map[string][]Known{
		"contradict":           {{A: XY{0, 1}, B: XY{0.5, 1}, Length: 20 * ft}, {A: XY{0, 1}, B: XY{0, 0}, Length: 100 * ft}},
		"two different points": {{A: XY{0, 1}, B: XY{0, 1}, Length: ft}},
		"larger than any plan": {{A: XY{0, 1}, B: XY{1e-5, 1}, Length: 20 * geometry.Foot * 1000}},
		"give a length":        nil,
	} {
		if _, _, err := Fit(frame, known); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
