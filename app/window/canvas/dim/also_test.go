package dim_test

import (
	"testing"

	"haunchbook.example/app/window/canvas/dim"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// A slab of 24 by 20 with one 3 ft to its right, one 5 ft above it, and one that
// faces no edge of it.
func TestGapsAndBolts(t *testing.T) {
	const ft = geometry.Foot
	box := func(x, y, w, h geometry.Length) plan.Plan {
		return plan.Plan{}.WithOutline(plan.Like(geometry.Ring{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}, plan.Edge{}))
	}
	p := box(0, 0, 24*ft, 20*ft)
	p, _ = p.SetBolts(0, 0, []plan.BoltMark{{Along: 7 * ft}})
	slabs := []plan.Plan{box(27*ft, 4*ft, 8*ft, 8*ft), p, box(2*ft, 25*ft, 8*ft, 8*ft), box(40*ft, 40*ft, 8*ft, 8*ft), {}}
	v := view.Fit(geometry.Point{X: -6 * ft, Y: -6 * ft}, geometry.Point{X: 50 * ft, Y: 50 * ft}, 1200, 1200, 0)
	measure := func(text string) (float64, float64) { return 7 * float64(len(text)), 14 }
	got := map[dim.Kind][]dim.Dim{}
	for _, d := range dim.Place(p, v, geometry.FeetInches, measure, 0, -1, dim.Also{Bolt: &dim.Bolt{}, Slabs: slabs, Worked: 1}) {
		got[d.Kind] = append(got[d.Kind], d)
	}
	if g := got[dim.Gap]; len(g) != 2 || g[0].Value != 3*ft || g[0].Other != 0 || g[0].Axis != plan.AcrossX || g[1].Value != 5*ft || g[1].Other != 2 || g[1].Axis != plan.AcrossY {
		t.Errorf("gaps %+v, want 3 ft to slab 0 and 5 ft to slab 2", g)
	}
	if f, to := got[dim.BoltFrom], got[dim.BoltTo]; len(f) != 1 || len(to) != 1 || f[0].Value != 7*ft || to[0].Value != 17*ft {
		t.Errorf("bolt %+v %+v, want 7 and 17 ft", f, to)
	}
}
