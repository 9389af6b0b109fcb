package handover_test

import (
	"testing"

	"haunchbook.example/app/handover"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// The heights tell where a break of the top meets the forms, and how high a door's lip lies. An
// apron of 1/4 in per ft begins 4 ft in: its edge lies 1 in lower, the lip 3/4 in below that.
func TestHeightsOfAnApron(t *testing.T) {
	j := demo(t)
	s := slab("", 0, 24*ft, 20*ft, 6*in, plan.Section{Name: "Edge", Depth: 12 * in, Bottom: 12 * in, Taper: 6 * in})
	s.Top.Breaks = []plan.Break{{From: geometry.Point{X: 24 * ft, Y: 4 * ft}, To: geometry.Point{Y: 4 * ft}, Drop: in / 4, Over: ft}}
	s.Outline[0].Doors = []plan.Door{{From: 4 * ft, Width: 9 * ft, Lip: plan.Lip{Inset: 5 * in, Drop: 3 * in / 4}}}
	j.Slabs = []plan.Plan{s}
	h := must(t, of(j, 0).Heights).Slabs[0]
	if len(h.Breaks) != 2 {
		t.Fatalf("breaks %+v", h.Breaks)
	}
	for i, want := range []handover.BreakEnd{{Edge: 1, Along: 4 * ft}, {Edge: 3, Along: 16 * ft}} {
		b := h.Breaks[i]
		if h.Breaks[0].Edge == 3 {
			b = h.Breaks[1-i]
		}
		if b.Loop != 0 || b.Edge != want.Edge || b.Along != want.Along || b.Top != h.Top+in {
			t.Errorf("%+v, want %+v", b, want)
		}
	}
	if len(h.Lips) != 1 || h.Lips[0].Door != "D1" || h.Lips[0].Near != h.Top-3*in/4 || h.Lips[0].Far != h.Lips[0].Near {
		t.Errorf("lips %+v over %v", h.Lips, h.Top)
	}
	if h.Corners[0].Top != h.Top || h.Corners[2].Top != h.Top+in {
		t.Errorf("corners %+v", h.Corners)
	}
}
