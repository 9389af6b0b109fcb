package layout_test

import (
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/plan"
)

// No line is sawn twice, wherever joints of the old slab and jambs of doors draw cuts to them:
// a garage of 24 ft 3 in by 26 ft, whose old slab has a joint 12 ft along, was once.
func TestSawnOnce(t *testing.T) {
	check := func(t interface{ Errorf(string, ...any) }, p plan.Plan) {
		cuts := of(p, spec(func(*layout.Spec) {}), nil).SawCuts
		for i, c := range cuts {
			for _, o := range cuts[:i] {
				on := func(share geometry.Length) bool {
					_, away := geometry.Nearest(geometry.Along(c.A, c.B, geometry.Distance(c.A, c.B)*share/5), o.A, o.B)
					return away < inch
				}
				if on(1) && on(2) || on(3) && on(4) {
					t.Errorf("%v to %v and %v to %v", c.A, c.B, o.A, o.B)
				}
			}
		}
	}
	garage := ring(0, 0, 24.25, 0, 24.25, 26, 0, 26)
	garage.Outline[2].Joint, garage.Outline[2].OldCuts = true, []geometry.Length{12 * foot}
	check(t, garage)
	rapid.Check(t, func(t *rapid.T) {
		ft := func(name string, lo, hi int) float64 { return float64(rapid.IntRange(lo*4, hi*4).Draw(t, name)) / 4 }
		w, h := ft("wide", 12, 60), ft("long", 12, 60)
		p := ring(0, 0, w, 0, w, h, 0, h)
		p.Outline[2].Joint = true
		for range rapid.IntRange(1, 3).Draw(t, "joints") {
			p.Outline[2].OldCuts = append(p.Outline[2].OldCuts, geometry.Length(ft("joint", 1, 59)*float64(foot)))
		}
		p.Outline[0].Doors = []plan.Door{{From: 2 * foot, Width: geometry.Length(ft("door", 3, 9) * float64(foot))}}
		check(t, p)
	})
}
