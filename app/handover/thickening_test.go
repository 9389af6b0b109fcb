package handover_test

import (
	"strings"
	"testing"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// A pad of 24 by 36 in, 12 in deep, with 3 in of cover and No. 4 at 12 in at most, by
// hand: half of 24 less 3 and a quarter is 8.75 in, so three bars along at -8.75, 0 and
// 8.75 in, 18 in long across, their centers 3.25 and 3.75 in over the bottom, however the
// pad is turned. A strip has its bars 3.25 in from the sides of its bottom.
func TestThickeningSteel(t *testing.T) {
	const ft, in = geometry.Foot, geometry.Inch
	for _, turn := range []float64{0, 20, 90} {
		j := job.New()
		j.Slabs = []plan.Plan{slab("", 0, 30*ft, 20*ft, 6*in, plan.Section{Name: "Edge", Depth: 12 * in, Bottom: 12 * in, Taper: 8 * in})}
		j.Slabs[0].Pads = []plan.Pad{{Center: geometry.Point{X: 8 * ft, Y: 12 * ft}, Width: 24 * in, Length: 36 * in, Turn: turn, Depth: 12 * in, Taper: 4 * in}}
		j.Slabs[0].Strips = []plan.Strip{{Path: []geometry.Point{{X: 14 * ft, Y: 10 * ft}, {X: 24 * ft, Y: 10 * ft}, {X: 24 * ft, Y: 6 * ft}}, Bottom: 12 * in, Depth: 12 * in, Taper: 6 * in}}
		tk := must(t, of(j, 0).Takeoff)
		pad, strip := handover.PadSteel(tk.Slabs[0], 0), handover.StripSteel(tk.Slabs[0], 0)
		if len(pad.Ends) != 3 || pad.Lying == nil {
			t.Fatalf("turned %g: %+v", turn, pad)
		}
		near := func(what string, got geometry.Length, want float64) {
			if d := float64(got)/float64(in) - want; d > 0.07 || d < -0.07 {
				t.Errorf("turned %g: %s at %s, want %g in", turn, what, got.Text(geometry.FeetInches), want)
			}
		}
		for i, want := range []float64{4 + 12 - 8.75, 4 + 12, 4 + 12 + 8.75} {
			near("bar", pad.Ends[i].Inset, want)
			near("clear of the bottom", pad.Ends[i].Bottom, 3.5)
		}
		near("lying bar from", pad.Lying.From, 4+3)
		near("lying bar to", pad.Lying.To, 4+21)
		near("lying bar down", pad.Lying.Depth, 12-3.25)
		if said := strings.Join(pad.Said, ", "); !strings.HasPrefix(said, "across: 4 × B") || !strings.Contains(said, "along: 3 × B") {
			t.Errorf("turned %g: %q", turn, said)
		}
		if len(strip.Ends) != 2 || strip.Lying != nil {
			t.Fatalf("%+v", strip)
		}
		near("strip bar", strip.Ends[0].Inset, 6+3.25)
		near("strip bar", strip.Ends[1].Inset, 6+12-3.25)
	}
}
