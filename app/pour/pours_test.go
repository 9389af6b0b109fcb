package pour_test

import (
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// A slab of 60 by 30 ft, 6 in thick, has panels of 15 ft at most: it is sawn along its middle,
// and across at 15, 30 and 45 ft. A joint between pours at 30 ft stands for that cut there. Each
// pour then has the one across it, and its half of that along the middle, on its own day.
func TestSawCutsOfAPour(t *testing.T) {
	const ft, in = geometry.Foot, geometry.Inch
	pt := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }
	j := job.New()
	j.Slabs[0] = plan.Plan{
		Field:        6 * in,
		Construction: []plan.Construction{{Kind: plan.Keyed, From: pt(30*ft, 0), To: pt(30*ft, 30*ft)}},
	}.WithOutline(plan.Like([]geometry.Point{pt(0, 0), pt(60*ft, 0), pt(60*ft, 30*ft), pt(0, 30*ft)}, plan.Edge{}))
	to, err := takeoff.Of(t.Context(), j.Slabs, j.Spec, j.Units)
	if err != nil {
		t.Fatal(err)
	}
	ins := pour.From(j.Spec, to, j.Pour)
	if len(ins) != 2 {
		t.Fatalf("%d pours, want 2", len(ins))
	}
	for i, across := range []geometry.Length{15 * ft, 45 * ft} {
		day, err := pour.Of(ins[i])
		if err != nil {
			t.Fatal(err)
		}
		cuts := day.Cuts[to.Slabs[0].Number]
		if len(cuts) != 2 {
			t.Fatalf("pour %d: %d saw cuts, want 2: %v", i+1, len(cuts), cuts)
		}
		for _, c := range cuts {
			lo, hi := min(c.A.X, c.B.X), max(c.A.X, c.B.X)
			long := geometry.Distance(c.A, c.B)
			if long != 30*ft || !(lo == across && hi == across) && !(lo == geometry.Length(i)*30*ft && hi == lo+30*ft) {
				t.Errorf("pour %d: a saw cut from %v to %v", i+1, c.A, c.B)
			}
		}
	}
}
