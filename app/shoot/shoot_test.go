package shoot

import (
	"fmt"
	"strings"
	"testing"

	"haunchbook.example/geometry"
)

const inch = geometry.Inch

// By hand: 4'-2" read on a benchmark of 100'; the ground under 4'-8 1/2" lies at 99'-5
// 1/2". The instrument moves: 5' is read on that ground before, 3' after, so that the line
// of sight is 2' less high over it, and 3' over the ground is what was 5'.
func TestLevel(t *testing.T) {
	l := On(100*geometry.Foot, 50*inch)
	if h := l.Ground(56*inch + inch/2); h != 100*geometry.Foot-6*inch-inch/2 {
		t.Errorf("ground at %v", h)
	}
	turn := l.Ground(60 * inch)
	l = On(turn, 36*inch)
	if h := l.Ground(36 * inch); h != turn || l.Reading(turn) != 36*inch {
		t.Errorf("turning point at %v and %v", turn, h)
	}
}

func TestAsk(t *testing.T) {
	for _, c := range []struct {
		planned, measured geometry.Length
		want              string
	}{
		{-6 * inch, -6*inch - 3*inch/4, ""},
		{-6 * inch, -18*inch + inch/2, "a foot"},
		{-6 * inch, 6 * inch, "sign"},
		{-6 * inch, -11 * inch, "is that so"},
		{-6 * inch, 20 * geometry.Foot, "somewhere else"},
	} {
		got := Ask(c.planned, c.measured, geometry.FeetInches)
		if (got == "") != (c.want == "") || !strings.Contains(got, c.want) {
			t.Errorf("%v for %v: %q", c.measured, c.planned, got)
		}
	}
}

func TestReadCSV(t *testing.T) {
	rows, err := ReadCSV(strings.NewReader("point,reading,said\n1,4' 2\"\n2,\n3,50.5,deep\n"), geometry.FeetInches)
	if err != nil || len(rows) != 2 || rows[1] != (Row{Number: 3, Value: 50*inch + inch/2}) {
		t.Errorf("%v, %v", rows, err)
	}
	rows, err = ReadCSV(strings.NewReader("height, x, y\n-6\", 1', 24\n"), geometry.FeetInches)
	if err != nil || len(rows) != 1 || rows[0] != (Row{At: geometry.Point{X: 12 * inch, Y: 24 * inch}, Value: -6 * inch, Height: true}) {
		t.Errorf("%v, %v", rows, err)
	}
	for text, want := range map[string]string{
		"": "begin with", "a,b\n": "begin with", "reading\n3": "no place", "point,reading\nx,3": "line 2", "point,reading\n1,3\n2,zzz": "line 3", "x,y,height\n1,b,3": "line 2, y",
	} {
		if _, err := ReadCSV(strings.NewReader(text), geometry.FeetInches); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}

func FuzzReadCSV(f *testing.F) {
	f.Add("point,reading\n1,4' 2\"\n")
	f.Add("x,y,height\n1,2,3\n")
	f.Fuzz(func(t *testing.T, text string) {
		for _, u := range []geometry.Units{geometry.FeetInches, geometry.Millimeters} {
			if rows, err := ReadCSV(strings.NewReader(text), u); err != nil && len(rows) > 0 {
				t.Error("rows with an error")
			}
		}
	})
}

// The rod on the benchmark, and what is then read on the base of a slab 6 in below it.
func ExampleOn() {
	l := On(0, 4*geometry.Foot)
	fmt.Println(l.Reading(-6 * inch).Text(geometry.FeetInches))
	// Output: 4'-6"
}
