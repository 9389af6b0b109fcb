package job

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// A job with construction joints, written and read, is the same, and written again is the
// same text: of all kinds, with what is left to the usual and what is not, in both units.
func TestConstructionJointsRoundTrip(t *testing.T) {
	start, err := Read(strings.NewReader(minimal))
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(rt *rapid.T) {
		j := start.Clone()
		j.Units = rapid.SampledFrom([]geometry.Units{geometry.FeetInches, geometry.Millimeters}).Draw(rt, "units")
		at := func(name string) geometry.Point {
			of := rapid.Int64Range(-20*int64(geometry.Meter), 20*int64(geometry.Meter)) // to the nanometer
			return geometry.Point{X: geometry.Length(of.Draw(rt, name+" x")), Y: geometry.Length(of.Draw(rt, name+" y"))}
		}
		size := func(name string, most geometry.Length) geometry.Length {
			return geometry.Length(rapid.Int64Range(0, 3).Draw(rt, name)) * most / 3 // 0 is as usual
		}
		for range rapid.IntRange(1, 3).Draw(rt, "joints") {
			c := plan.Construction{
				Name: rapid.SampledFrom([]string{"", "North", `the "big" one, 2nd`}).Draw(rt, "name"),
				Kind: plan.ConstructionKind(rapid.IntRange(0, 2).Draw(rt, "kind")), From: at("from"), To: at("to"),
				First: plan.ConstructionSide(rapid.IntRange(0, 1).Draw(rt, "first")), Days: rapid.IntRange(0, 28).Draw(rt, "days"),
				Steel: plan.ConstructionSteel(rapid.IntRange(0, 2).Draw(rt, "steel")),
			}
			if c.Kind == plan.Doweled {
				c.Diameter, c.Length, c.Spacing = size("diameter", geometry.Inch), size("length", 18*geometry.Inch), size("spacing", 18*geometry.Inch)
			}
			if c.From != c.To {
				j.Slabs[0].Construction = append(j.Slabs[0].Construction, c)
			}
		}
		text := j.Encode()
		back, err := Read(strings.NewReader(string(text)))
		if err != nil {
			rt.Fatalf("%v\n%s", err, text)
		}
		if diff := cmp.Diff(j.Slabs, back.Slabs); diff != "" {
			rt.Errorf("%v: %s", j.Units, diff)
		}
		if again := back.Encode(); string(again) != string(text) {
			rt.Errorf("%v: written twice, two texts:\n%s\n%s", j.Units, text, again)
		}
	})
}
