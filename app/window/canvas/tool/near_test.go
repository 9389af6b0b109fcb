package tool_test

import (
	"testing"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// hover gives what is under the pointer at a place.
func hover(t *testing.T, slabs []plan.Plan, sv plan.Survey, v view.View, at geometry.Point) tool.Target {
	t.Helper()
	b := newBench(t, slabs[0])
	j := b.doc.Job()
	j.Slabs, j.Survey = slabs, sv
	b.doc.Commit("test", j)
	b.m.View = v
	b.move(at)
	return b.m.Hover
}

func TestBoltMarksAreHitBeforeTheirEdge(t *testing.T) {
	p := plan.Plan{}.WithOutline(plan.Like(geometry.Ring{pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft)}, plan.Edge{}))
	p, _ = p.SetBolts(0, 1, []plan.BoltMark{{Along: 4 * ft}, {Along: 9 * ft}})
	v := view.Fit(pt(-8*ft, -8*ft), pt(40*ft, 30*ft), 960, 760, 0) // 20 pixels to the foot
	for at, want := range map[geometry.Point]tool.Target{
		pt(24*ft-3*in, 9*ft+2*in): {Kind: tool.Bolt, Index: 1, Sub: 1},
		pt(24*ft, 4*ft-2*in):      {Kind: tool.Bolt, Index: 1},
		pt(24*ft, 6*ft):           {Kind: tool.Edge, Index: 1},
	} {
		if got := hover(t, []plan.Plan{p}, plan.Survey{}, v, at); !got.On(want) {
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
	for at, want := range map[geometry.Point]tool.Target{
		pt(30*ft+4*in, 3*in):  {Kind: tool.Benchmark},
		pt(6*ft, 26*ft+6*in):  {Kind: tool.Note},
		pt(6*ft, 26*ft-6*in):  {Kind: tool.Note},
		pt(6*ft, 28*ft):       {},
		pt(20*ft-3*in, -2*ft): {Kind: tool.Note, Index: 1, Sub: 1},
		pt(8*ft, -6*ft):       {Kind: tool.Note, Index: 1}, // the frame stands on the side away from its leader
		pt(12*ft, -6*ft-6*in): {},
	} {
		if got := hover(t, []plan.Plan{{}}, sv, v, at); !got.On(want) {
			t.Errorf("at %v: %+v, want %+v", at, got, want)
		}
	}
	box := func(x geometry.Length) plan.Plan {
		return plan.Plan{}.WithOutline(plan.Like(geometry.Ring{pt(x, 0), pt(x+6*ft, 0), pt(x+6*ft, 6*ft), pt(x, 6*ft)}, plan.Edge{}))
	}
	slabs := []plan.Plan{box(0), box(8 * ft), box(16 * ft)}
	for at, want := range map[geometry.Point]tool.Target{
		pt(3*ft, 3*ft): {Kind: tool.Slab}, pt(11*ft, 3*ft): {Kind: tool.Other, Index: 1}, pt(22*ft+2*in, 2*ft): {Kind: tool.Other, Index: 2}, pt(30*ft, 3*ft): {},
	} {
		if got := hover(t, slabs, plan.Survey{}, v, at); !got.On(want) {
			t.Errorf("at %v: %+v, want %+v", at, got, want)
		}
	}
}

func TestAt(t *testing.T) {
	p := plan.Plan{}.WithOutline(plan.Like(geometry.Ring{pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft)}, plan.Edge{}))
	p, _ = p.AddDoor(0, 1, plan.Door{From: 4 * ft, Width: 3 * ft})
	p = p.AddHole("pit", plan.Like(geometry.Ring{pt(4*ft, 4*ft), pt(8*ft, 4*ft), pt(8*ft, 8*ft), pt(4*ft, 8*ft)}, plan.Edge{}))
	p.Pads = []plan.Pad{{Center: pt(14*ft, 10*ft), Width: 2 * ft, Length: 2 * ft, Turn: 45}}
	p.Strips = []plan.Strip{{Path: []geometry.Point{pt(2*ft, 16*ft), pt(20*ft, 16*ft)}, Bottom: ft}}
	p.Lines = []plan.Line{{Kind: plan.Tubing, Path: []geometry.Point{pt(20*ft, 3*ft), pt(23*ft, 8*ft)}}, {Path: []geometry.Point{pt(2*ft, 18*ft), pt(9*ft, 18*ft)}}}
	p.Top.Falls = []plan.Fall{{From: pt(18*ft, 14*ft), To: pt(18*ft, 2*ft)}}
	v := view.Fit(pt(-8*ft, -8*ft), pt(40*ft, 30*ft), 960, 760, 0)
	tests := []struct {
		at   geometry.Point
		want tool.Target
	}{
		{pt(24*ft+3*in, 20*ft), tool.Target{Kind: tool.Corner, Index: 2}},
		{pt(12*ft, 3*in), tool.Target{Kind: tool.Edge, Index: 0}},
		{pt(24*ft, 5*ft), tool.Target{Kind: tool.Door, Index: 1}},
		{pt(24*ft, 12*ft), tool.Target{Kind: tool.Edge, Index: 1}},
		{pt(8*ft, 8*ft), tool.Target{Kind: tool.Corner, Loop: 1, Index: 2}},
		{pt(6*ft, 6*ft), tool.Target{Kind: tool.Slab, Loop: 1}},
		{pt(14*ft, 11*ft), tool.Target{Kind: tool.Pad}},
		{pt(14*ft+11*in, 10*ft+11*in), tool.Target{Kind: tool.Slab}}, // outside the turned pad
		{pt(10*ft, 16*ft+4*in), tool.Target{Kind: tool.Strip}},
		{pt(20*ft, 16*ft), tool.Target{Kind: tool.Strip, Sub: 2}},
		{pt(18*ft, 9*ft), tool.Target{Kind: tool.Fall}},
		{pt(18*ft, 2*ft), tool.Target{Kind: tool.Fall, Sub: 2}},
		{pt(21*ft+6*in, 5*ft), tool.Target{Kind: tool.Pipe}}, // within its floor
		{pt(23*ft, 8*ft), tool.Target{Kind: tool.Pipe, Sub: 2}},
		{pt(5*ft, 18*ft), tool.Target{Kind: tool.Pipe, Index: 1}},
		{pt(2*ft, 12*ft), tool.Target{Kind: tool.Slab}},
		{pt(30*ft, 12*ft), tool.Target{}},
	}
	for _, test := range tests {
		if got := hover(t, []plan.Plan{p}, plan.Survey{}, v, test.at); !got.On(test.want) {
			t.Errorf("at %s, %s: %+v, want %+v", test.at.X.Text(0), test.at.Y.Text(0), got, test.want)
		}
	}
}
