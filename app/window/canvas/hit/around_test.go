package hit_test

import (
	"testing"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

func measure(text string) (float64, float64) { return 7 * float64(len(text)), 14 }

func TestBoltMarksAreHitBeforeTheirEdge(t *testing.T) {
	p := plan.Plan{}.WithOutline(plan.Like(geometry.Ring{pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft)}, plan.Edge{}))
	p, _ = p.SetBolts(0, 1, []plan.BoltMark{{Along: 4 * ft}, {Along: 9 * ft}})
	v := view.Fit(pt(-8*ft, -8*ft), pt(40*ft, 30*ft), 960, 760, 0) // 20 pixels to the foot
	for at, want := range map[geometry.Point]hit.Target{
		pt(24*ft-3*in, 9*ft+2*in): {Kind: hit.Bolt, Index: 1, Sub: 1},
		pt(24*ft, 4*ft-2*in):      {Kind: hit.Bolt, Index: 1},
		pt(24*ft, 6*ft):           {Kind: hit.Edge, Index: 1},
	} {
		if got := hit.At(p, v, nil, v.Screen(at)); !got.On(want) {
			t.Errorf("at %v: %+v, want %+v", at, got, want)
		}
	}
}

func TestAroundAndBeside(t *testing.T) {
	v := view.Fit(pt(-8*ft, -8*ft), pt(40*ft, 30*ft), 960, 760, 0)
	sv := plan.Survey{
		Benchmarks: []plan.Benchmark{{Name: "BM", At: pt(30*ft, 0)}},
		Notes: []plan.Note{
			{Text: "a note of some words that is broken into two lines", At: pt(4*ft, 26*ft)},
			{Text: "to the right", At: pt(10*ft, -6*ft), Leader: true, To: pt(20*ft, -2*ft)},
		},
	}
	// 20 pixels to the foot: a line of 32 letters is 11 ft wide, two are 1'-5" high.
	for at, want := range map[geometry.Point]hit.Target{
		pt(30*ft+4*in, 3*in):  {Kind: hit.Benchmark},
		pt(6*ft, 26*ft+6*in):  {Kind: hit.Note},
		pt(6*ft, 26*ft-6*in):  {Kind: hit.Note},
		pt(6*ft, 28*ft):       {},
		pt(20*ft-3*in, -2*ft): {Kind: hit.Note, Index: 1, Sub: 1},
		pt(8*ft, -6*ft):       {Kind: hit.Note, Index: 1}, // the frame stands on the side away from its leader
		pt(12*ft, -6*ft-6*in): {},
	} {
		if got := hit.Around(sv, v, measure, v.Screen(at)); !got.On(want) {
			t.Errorf("at %v: %+v, want %+v", at, got, want)
		}
	}
	box := func(x geometry.Length) plan.Plan {
		return plan.Plan{}.WithOutline(plan.Like(geometry.Ring{pt(x, 0), pt(x+6*ft, 0), pt(x+6*ft, 6*ft), pt(x, 6*ft)}, plan.Edge{}))
	}
	slabs := []plan.Plan{box(0), box(8 * ft), box(16 * ft)}
	for at, want := range map[geometry.Point]hit.Target{
		pt(3*ft, 3*ft): {}, pt(11*ft, 3*ft): {Kind: hit.Other, Index: 1}, pt(22*ft+2*in, 2*ft): {Kind: hit.Other, Index: 2}, pt(30*ft, 3*ft): {},
	} {
		if got := hit.Beside(slabs, 0, v, v.Screen(at)); !got.On(want) {
			t.Errorf("at %v: %+v, want %+v", at, got, want)
		}
	}
}
