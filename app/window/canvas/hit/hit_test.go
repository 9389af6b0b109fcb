package hit_test

import (
	"testing"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const ft, in = geometry.Foot, geometry.Inch

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

func TestAt(t *testing.T) {
	p := plan.Plan{}.WithOutline(plan.Like(geometry.Ring{pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft)}, plan.Edge{}))
	p, _ = p.AddDoor(0, 1, plan.Door{From: 4 * ft, Width: 3 * ft})
	p = p.AddHole("pit", plan.Like(geometry.Ring{pt(4*ft, 4*ft), pt(8*ft, 4*ft), pt(8*ft, 8*ft), pt(4*ft, 8*ft)}, plan.Edge{}))
	p.Pads = []plan.Pad{{Center: pt(14*ft, 10*ft), Width: 2 * ft, Length: 2 * ft, Turn: 45}}
	p.Strips = []plan.Strip{{Path: []geometry.Point{pt(2*ft, 16*ft), pt(20*ft, 16*ft)}, Bottom: ft}}
	p.Top.Falls = []plan.Fall{{From: pt(18*ft, 14*ft), To: pt(18*ft, 2*ft)}}
	v := view.Fit(pt(-8*ft, -8*ft), pt(40*ft, 30*ft), 960, 760, 0)
	tests := []struct {
		at   geometry.Point
		want hit.Target
	}{
		{pt(24*ft+3*in, 20*ft), hit.Target{Kind: hit.Corner, Index: 2}},
		{pt(12*ft, 3*in), hit.Target{Kind: hit.Edge, Index: 0}},
		{pt(24*ft, 5*ft), hit.Target{Kind: hit.Door, Index: 1}},
		{pt(24*ft, 12*ft), hit.Target{Kind: hit.Edge, Index: 1}},
		{pt(8*ft, 8*ft), hit.Target{Kind: hit.Corner, Loop: 1, Index: 2}},
		{pt(6*ft, 6*ft), hit.Target{Kind: hit.Slab, Loop: 1}},
		{pt(14*ft, 11*ft), hit.Target{Kind: hit.Pad, Sub: -1}},
		{pt(14*ft+11*in, 10*ft+11*in), hit.Target{Kind: hit.Slab}}, // outside the turned pad
		{pt(10*ft, 16*ft+4*in), hit.Target{Kind: hit.Strip, Sub: -1}},
		{pt(20*ft, 16*ft), hit.Target{Kind: hit.Strip, Sub: 1}},
		{pt(18*ft, 9*ft), hit.Target{Kind: hit.Fall, Sub: -1}},
		{pt(18*ft, 2*ft), hit.Target{Kind: hit.Fall, Sub: 1}},
		{pt(2*ft, 12*ft), hit.Target{Kind: hit.Slab}},
		{pt(30*ft, 12*ft), hit.Target{}},
	}
	for _, test := range tests {
		if got := hit.At(p, v, nil, v.Screen(test.at)); !got.On(test.want) {
			t.Errorf("at %s, %s: %+v, want %+v", test.at.X.Text(0), test.at.Y.Text(0), got, test.want)
		}
	}
}
