package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"testing"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// A key plan of many slabs shows those whose middles lie nearest, itself among them, found
// by looking at all.
func TestKeyPlanShowsTheNearest(t *testing.T) {
	s := &set{}
	for i := range geometry.Length(100) {
		at := geometry.Point{X: i % 10 * 25 * geometry.Foot, Y: i / 10 * 31 * geometry.Foot}
		corners := geometry.Ring{at, at.Add(geometry.Point{X: 16 * geometry.Foot}), at.Add(geometry.Point{X: 16 * geometry.Foot, Y: 16 * geometry.Foot}), at.Add(geometry.Point{Y: 16 * geometry.Foot})}
		p := plan.Plan{Name: fmt.Sprint("Slab ", i+1)}.WithOutline(plan.Like(corners, plan.Edge{}))
		s.takeoff.Slabs = append(s.takeoff.Slabs, takeoff.Slab{Number: int(i), Name: p.Name, Plan: p})
	}
	for k, own := range s.takeoff.Slabs {
		shown := s.neighbors(k)
		if len(shown) != mostOnKey || !slices.ContainsFunc(shown, func(t takeoff.Slab) bool { return t.Number == k }) {
			t.Fatalf("%s: %d shown", own.Name, len(shown))
		}
		// From the middle of its own to the nearest point of each.
		far := func(o takeoff.Slab) geometry.Length {
			lo, hi := o.Plan.Outline.Rim().Bounds()
			mid := own.Plan.Outline[0].At.Add(geometry.Point{X: 8 * geometry.Foot, Y: 8 * geometry.Foot})
			return geometry.Distance(mid, geometry.Point{X: max(lo.X, min(mid.X, hi.X)), Y: max(lo.Y, min(mid.Y, hi.Y))})
		}
		all := slices.Clone(s.takeoff.Slabs)
		slices.SortFunc(all, func(a, b takeoff.Slab) int { return cmp.Compare(far(a), far(b)) })
		for _, o := range shown {
			if far(o) > far(all[mostOnKey-1]) {
				t.Fatalf("%s shows %s, which is farther than the %d nearest", own.Name, o.Name, mostOnKey)
			}
		}
	}
}
