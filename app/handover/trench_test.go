package handover_test

import (
	"testing"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/plan"
)

// By hand: 4 in of gravel and 2 in of foam lie under what is 12 in deep; where they
// lie under the field only, the haunch is dug to its own depth.
func TestTrenches(t *testing.T) {
	j := job.New()
	j.Slabs = []plan.Plan{slab("", 0, 40*ft, 30*ft, 6*in, plan.Section{Name: "Edge", Depth: 12 * in, Bottom: 10 * in, Taper: 8 * in})}
	j.Slabs[0].Pads = []plan.Pad{{Center: j.Slabs[0].Outline[2].At.Sub(j.Slabs[0].Outline[0].At), Width: 3 * ft, Length: 2 * ft, Depth: 16 * in, Taper: 4 * in}}
	j.Slabs[0].Pads[0].Center.X /= 2
	j.Slabs[0].Pads[0].Center.Y /= 2
	j.Spec.Base.Gravel, j.Spec.Base.Foam = 4*in, 2*in
	for under, edge := range map[takeoff.Under]int{takeoff.FieldAndHaunches: 18, takeoff.FieldOnly: 12} {
		j.Spec.Base.Under = under
		got := must(t, of(j, 0).Trenches)
		want := []handover.Trench{
			{Name: "A Edge", Wide: 10 * in, Slope: 8 * in, Deep: 12 * in, Dig: in * 12},
			{Name: "P1 pad", Wide: 3 * ft, Long: 2 * ft, Slope: 4 * in, Deep: 16 * in, Dig: in * 16},
			{Name: "field", Deep: 6 * in, Dig: 12 * in, Ground: 6 * in},
		}
		if edge == 18 {
			for i := range 2 {
				want[i].Dig, want[i].Ground = want[i].Dig+6*in, 6*in
			}
		}
		if len(got) != len(want) {
			t.Fatalf("%s: %+v", under, got)
		}
		for i := range want {
			if got[i] != want[i] {
				t.Errorf("%s: %+v, want %+v", under, got[i], want[i])
			}
		}
	}
}
