package plan_test

import (
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// A block-out lies wholly in the slab, and off holes and other block-outs: a diamond of 34 in is
// 24 1/16 in from its middle to its points.
func TestBlockOutsLieInTheSlab(t *testing.T) {
	const in, ft = geometry.Inch, geometry.Foot
	ring := geometry.Ring{{}, {X: 24 * ft}, {X: 24 * ft, Y: 20 * ft}, {Y: 20 * ft}}
	pad := func(x, y geometry.Length) plan.Pad {
		return plan.Pad{Center: geometry.Point{X: x, Y: y}, Width: ft, Length: ft, Depth: ft, Isolation: plan.DiamondOut, BlockOut: 34 * in}
	}
	for _, c := range []struct {
		pads []plan.Pad
		want string
	}{
		{[]plan.Pad{pad(12*ft, 10*ft)}, ""},
		{[]plan.Pad{pad(12*ft, 25*in)}, ""},
		{[]plan.Pad{pad(12*ft, 24*in)}, "pads[0].blockout"},
		{[]plan.Pad{pad(12*ft, 10*ft), pad(16*ft+in, 10*ft)}, ""},
		{[]plan.Pad{pad(12*ft, 10*ft), pad(16*ft, 10*ft)}, "pads[1].blockout"},
		{[]plan.Pad{pad(12*ft, 10*ft), pad(12*ft, 10*ft)}, "pads[1].blockout"},
	} {
		p := plan.Plan{Field: 4 * in}.WithOutline(plan.Like(ring, plan.Edge{}))
		p.Pads = c.pads
		if got := p.Validate(geometry.FeetInches); (c.want == "") != (len(got) == 0) || c.want != "" && !strings.HasPrefix(got.Error(), c.want) {
			t.Errorf("%v: %v, want %q", c.pads, got, c.want)
		}
	}
}
