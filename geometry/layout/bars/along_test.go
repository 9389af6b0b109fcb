package bars

import (
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// A bar bent round the corner of a slab of 20 by 10 ft, 3 in from both faces, lies along
// the first edge up to 3 in before its end and along the second from 3 in on.
func TestBarsAlongEdges(t *testing.T) {
	const ft, in = geometry.Foot, geometry.Inch
	var p plan.Plan
	for _, q := range []geometry.Point{{}, {X: 20 * ft}, {X: 20 * ft, Y: 10 * ft}, {Y: 10 * ft}} {
		p.Outline = append(p.Outline, plan.Edge{At: q})
	}
	b := Bar{Depth: 9 * in, Path: []geometry.Point{{X: 17 * ft, Y: 3 * in}, {X: 20*ft - 3*in, Y: 3 * in}, {X: 20*ft - 3*in, Y: 4 * ft}}}
	want := []Run{{0, 0, 17 * ft, 20*ft - 3*in, 3 * in, 9 * in}, {0, 1, 3 * in, 4 * ft, 3 * in, 9 * in}}
	got := b.Along(p)
	if len(got) != 2 || got[0] != want[0] || got[1] != want[1] {
		t.Errorf("%+v, want %+v", got, want)
	}
	// One along no edge, as across a corner, has none.
	if got := (Bar{Path: []geometry.Point{{X: ft}, {Y: ft}}}).Along(p); len(got) != 0 {
		t.Errorf("across a corner: %+v", got)
	}
}
