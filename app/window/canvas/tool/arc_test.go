package tool_test

import (
	"strings"
	"testing"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
)

// Bowing an edge out, bending it by the pointer, typing its radius on the plan and its middle
// ordinate beside it, and making it straight are a step of the history each.
func TestBowAnEdge(t *testing.T) {
	b := newBench(t, shop())
	do := func(what string) {
		t.Helper()
		if err := b.does(what); err != nil {
			t.Fatal(what, err)
		}
	}
	middle := func() geometry.Length { return b.doc.Plan().Outline[0].Middle }
	b.m.Selected = tool.Target{Kind: tool.Edge}
	if do("!Bow out"); middle() != 3*ft {
		t.Fatalf("an edge of 24 ft bows by %v", middle())
	}
	if b.drag(pt(12*ft, -3*ft), pt(12*ft, -5*ft)); middle() != 5*ft {
		t.Errorf("dragged to 5 ft, it is %v: %s", middle(), b.m.Notice)
	}
	b.m.Selected = tool.Target{Kind: tool.Edge}
	b.keys("13<Return>") // 12² = m·(26-m)
	if middle() != 8*ft {
		t.Errorf("typed a radius of 13 ft, it bows by %v: %s", middle(), b.m.Notice)
	}
	b.m.Selected = tool.Target{Kind: tool.Edge}
	if do("Middle ordinate=-2"); middle() != -2*ft {
		t.Errorf("typed, it is %v", middle())
	}
	do("Radius=20")
	if r := b.doc.Plan().Outline.Arc(0).Radius(); r != 20*ft || middle() >= 0 {
		t.Errorf("a radius of 20 ft is %v, and it bows by %v", r, middle())
	}
	if err := b.does("Radius=11"); err == nil || !strings.Contains(err.Error(), "half the distance") {
		t.Errorf("a radius less than half the chord: %v", err)
	}
	if do("!Make it straight"); middle() != 0 {
		t.Error("it is no straight edge")
	}
	want := []geometry.Length{-4 * ft, -2 * ft, 8 * ft, 5 * ft, 3 * ft, 0}
	for i, w := range want {
		b.doc.Undo()
		if i > 0 && middle() != w {
			t.Errorf("undone, it is %v, want %v", middle(), w)
		}
	}
}

// A wall on an edge that is bowed is a fault, and can be taken off where the arc is typed.
func TestWallOnAnArc(t *testing.T) {
	p := shop()
	p.Outline[0].Wall = "2x6"
	b := newBench(t, p)
	b.m.Selected = tool.Target{Kind: tool.Edge}
	for _, what := range []string{"!Bow out", "Wall:none"} {
		if len(b.doc.Faults()) > 0 != (what == "Wall:none") {
			t.Errorf("before %s: %v", what, b.doc.Faults())
		}
		if err := b.does(what); err != nil {
			t.Fatal(what, err)
		}
	}
	if len(b.doc.Faults()) > 0 {
		t.Error(b.doc.Faults())
	}
}

// A corner is rounded by a radius typed beside the plan, in one step.
func TestRoundACorner(t *testing.T) {
	b := newBench(t, shop())
	b.m.Selected = tool.Target{Kind: tool.Corner, Index: 2}
	if err := b.does("Rounded, radius=4"); err != nil {
		t.Fatal(err)
	}
	b.corners(pt(0, 0), pt(24*ft, 0), pt(24*ft, 16*ft), pt(20*ft, 20*ft), pt(0, 20*ft))
	if l := b.doc.Plan().Outline; l.Arc(2).Radius() != 4*ft || b.m.Selected != (tool.Target{Kind: tool.Edge, Index: 2}) {
		t.Errorf("radius %v, selected %v", l.Arc(2).Radius(), b.m.Selected)
	}
	// 4 ft · (1 - cos 45°) are 14.06 in.
	if p := b.panel().texts; p["Radius"].Get() != `4'-0"` || p["Middle ordinate"].Get() != `1'-2 1/16"` {
		t.Errorf("it says a radius of %s, a middle ordinate of %s", p["Radius"].Get(), p["Middle ordinate"].Get())
	}
	b.doc.Undo()
	b.corners(pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft))
	b.m.Selected = tool.Target{Kind: tool.Corner, Index: 2}
	if err := b.does("Rounded, radius=21"); err == nil || !strings.Contains(err.Error(), "room") {
		t.Errorf("a radius of more than the edges: %v", err)
	}
}

// The pointer finds an arc where it is drawn, not on its chord.
func TestAnArcIsTakenWhereItIs(t *testing.T) {
	p, err := shop().SetMiddle(0, 0, 3*ft)
	if err != nil {
		t.Fatal(err)
	}
	b := newBench(t, p)
	b.click(pt(12*ft, -3*ft))
	if b.m.Selected.Kind != tool.Edge || b.m.Selected.Index != 0 {
		t.Errorf("on the arc: %v", b.m.Selected)
	}
	b.click(pt(12*ft, 0))
	if b.m.Selected.Kind == tool.Edge {
		t.Errorf("on its chord: %v", b.m.Selected)
	}
}
