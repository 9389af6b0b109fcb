package tool_test

import (
	"strings"
	"testing"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry/plan"
)

// short types legs round a rectangle whose last one is an inch short.
func short(b *bench) {
	b.m.Use(&tool.Chain{})
	b.keys("<Return><Right>24'<Return><Up>20'<Return><Left>24'<Return><Down>19-11<Return>")
}

func TestMisclosureIsShownAndDealtWith(t *testing.T) {
	b := newBench(t, plan.Plan{Field: 6 * in})
	short(b)
	if got := b.m.Status().Help.Do; !strings.Contains(got, `1"`) || !strings.Contains(got, "kept as an edge") {
		t.Errorf("help %q", got)
	}
	var o tool.Overlay
	b.m.Overlay(&o)
	shown := false
	for _, l := range o.Labels {
		shown = shown || strings.Contains(l.Text, `misses the start by 1"`)
	}
	if !shown {
		t.Errorf("labels %v", o.Labels)
	}
	b.keys("<Return>") // as it is
	b.corners(pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft), pt(0, in))

	short(b)
	b.keys("<Tab><Tab><Return>") // into the last leg
	b.corners(pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft))

	short(b)
	b.keys("<Tab><Tab><Tab><Tab>") // into the second, which was measured to its upper end
	if got := b.m.Status().Help.Do; !strings.Contains(got, "put in edge 2") {
		t.Errorf("help %q", got)
	}
	b.keys("<Return>")
	b.corners(pt(0, 0), pt(24*ft, 0), pt(24*ft, 19*ft+11*in), pt(0, 19*ft+11*in))

	short(b)
	b.keys("<Tab><Return>") // spread in proportion: no corner far off
	ring := b.doc.Plan().Outline.Corners()
	if len(ring) != 4 || ring[2] == pt(24*ft, 20*ft) || ring[2].Sub(pt(24*ft, 20*ft)).Y.Abs() > in {
		t.Errorf("corners %v", ring)
	}
}

func TestDirectionTypedAlone(t *testing.T) {
	b := newBench(t, plan.Plan{Field: 6 * in})
	b.m.Use(&tool.Chain{})
	b.keys("<Return>")
	b.keys("at 30<Return>")
	if b.m.Snap.Name != "pointing 30° up from right" {
		t.Errorf("snap %q, notice %q", b.m.Snap.Name, b.m.Notice)
	}
	b.keys("10'<Return><Up>4'<Return><Return>")
	got := b.doc.Plan().Outline.Corners()
	if want := plan.Turn(pt(10*ft, 0), 30); len(got) != 3 || got[1] != want {
		t.Errorf("corners %v, want the second at %v", got, want)
	}
}

func TestTwoArrowsMakeADiagonal(t *testing.T) {
	b := newBench(t, plan.Plan{Field: 6 * in})
	b.m.Use(&tool.Chain{})
	b.keys("<Return><Right>")
	b.mods = tool.Mods{Ctrl: true}
	b.keys("<Up>")
	b.mods = tool.Mods{}
	if b.m.Snap.Name != "pointing 45° up from right" {
		t.Errorf("snap %q", b.m.Snap.Name)
	}
}

func TestInsertPutsACornerOnTheSelectedEdge(t *testing.T) {
	b := newBench(t, shop())
	b.m.Selected = tool.Target{Kind: tool.Edge, Index: 1}
	b.keys("<Insert>")
	b.corners(pt(0, 0), pt(24*ft, 0), pt(24*ft, 10*ft), pt(24*ft, 20*ft), pt(0, 20*ft))
	if b.m.Selected.Kind != tool.Corner || b.m.Selected.Index != 2 {
		t.Errorf("selected %+v", b.m.Selected)
	}
}
