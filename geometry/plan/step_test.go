package plan_test

import (
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// A length and a direction are read as a carpenter says them.
func TestReadStep(t *testing.T) {
	last := geometry.Point{Y: 20 * ft} // upward
	course := plan.Course{Last: &last, North: plan.North{Known: true, Turn: 10}}
	for _, c := range []struct {
		text    string
		length  geometry.Length
		degrees float64
		aimed   bool
	}{
		{"12' right", 12 * ft, 0, true},
		{"12 r", 12 * ft, 0, true},
		{"12'UP", 12 * ft, 90, true},
		{"24' - 3 1/2\" left", 24*ft + 7*geometry.Inch/2, 180, true},
		{"8\" down", 8 * geometry.Inch, 270, true},
		{"8' up left", 8 * ft, 135, true},
		{"8' left up", 8 * ft, 135, true},
		{"8' right down", 8 * ft, 315, true},
		{"12' at 30", 12 * ft, 30, true},
		{"12' at 30°", 12 * ft, 30, true},
		{"12' at -30 degrees", 12 * ft, 330, true},
		{"12' at 30° to the last side", 12 * ft, 120, true},
		{"12' at 30° right to the last side", 12 * ft, 60, true},
		{"12' 45° right", 12 * ft, 45, true},
		{"12-6 45° left", 12*ft + 6*geometry.Inch, 135, true},
		{"back 4'", 4 * ft, 270, true},
		{"4' back", 4 * ft, 270, true},
		{"10' N", 10 * ft, 80, true},
		{"10' east", 10 * ft, 350, true},
		{"10' NW", 10 * ft, 125, true},
		{"10' N30W", 10 * ft, 110, true},
		{"10' S 30° E", 10 * ft, 290, true},
		{"at 30°", 0, 30, true},
		{"up", 0, 90, true},
		{"12'", 12 * ft, 0, false},
		{"12 in", 12 * geometry.Inch, 0, false},
		{"4 yd", 12 * ft, 0, false},
		{"=24' + 2'", 26 * ft, 0, false},
	} {
		s, err := plan.ReadStep(c.text, course, geometry.FeetInches)
		if err != nil || s.Length != c.length || s.Aimed != c.aimed || (s.Degrees-c.degrees) > 1e-9 || (c.degrees-s.Degrees) > 1e-9 {
			t.Errorf("%s is %+v, %v; want %s at %g°", c.text, s, err, c.length.Text(0), c.degrees)
		}
	}
	for text, want := range map[string]string{
		"12' left right": "no direction between", "12' at 400": "no angle", "-3' up": "more than 0",
		"12' < 30": "does not belong", "12' over": "no unit", "0 up": "more than 0", "10' N95E": "no angle", "": "nothing there",
	} {
		if s, err := plan.ReadStep(text, course, geometry.FeetInches); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %+v, %v; want an error with %q", text, s, err, want)
		}
	}
	for text, want := range map[string]string{"12' N": "where north is", "back 4'": "no side before", "4' 30° left": "no side before"} {
		if s, err := plan.ReadStep(text, plan.Course{}, geometry.FeetInches); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q at the start: %+v, %v; want an error with %q", text, s, err, want)
		}
	}
	right := course
	right.Right = true
	if s, err := plan.ReadStep("6' at 30° to the last side", right, geometry.FeetInches); err != nil || s.Degrees != 60 {
		t.Errorf("toward the right of the last side: %+v, %v", s, err)
	}
}

// Which way a vector goes is said so that it can be typed again.
func TestToward(t *testing.T) {
	for _, c := range []struct {
		to   geometry.Point
		want string
	}{
		{pt(3*ft, 0), "right"}, {pt(-ft, 0), "left"}, {pt(0, ft), "up"}, {pt(0, -ft), "down"},
		{pt(ft, ft), "45° up from right"}, {pt(-4*ft, -4*ft), "45° down from left"}, {pt(0, 0), ""},
	} {
		if got := plan.Toward(c.to); got != c.want {
			t.Errorf("%v goes %q, want %q", c.to, got, c.want)
		}
	}
	if at, err := plan.ReadSteps("12' right, 4' up", plan.Course{}, geometry.FeetInches); err != nil || at != pt(12*ft, 4*ft) {
		t.Errorf("12' right, 4' up leads to %v, %v", at, err)
	}
	if _, err := plan.ReadSteps("12', 4'", plan.Course{}, geometry.FeetInches); err == nil {
		t.Error("two lengths without a way lead somewhere")
	}
}
