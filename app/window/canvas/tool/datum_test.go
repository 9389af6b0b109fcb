package tool_test

import (
	"strings"
	"testing"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry/plan"
)

// Positions are typed and shown from the corner that was chosen, which is marked.
func TestPositionsFromTheDatum(t *testing.T) {
	b := newBench(t, shop())
	b.m.Selected = tool.Target{Kind: tool.Corner, Index: 2}
	if err := b.does("!Measure from here"); err != nil {
		t.Fatal(err)
	}
	if got := b.m.Plan().Datum().Corner; got != 2 {
		t.Fatalf("the datum is corner %d", got+1)
	}
	b.m.Use(&tool.PlacePad{})
	b.move(pt(20*ft, 14*ft))
	if got, want := b.m.Status().At, `4'-0" along 3–4, 6'-0" off`; got != want {
		t.Errorf("the status line says %q, want %q", got, want)
	}
	b.keys("8', 5'")
	b.m.Key(tool.Enter, b.mods)
	if pads := b.m.Plan().Pads; len(pads) != 1 || pads[0].Center != pt(16*ft, 15*ft) {
		t.Fatalf("the pads are %+v", pads)
	}
	if err := b.does("Along 3–4=10'"); err != nil {
		t.Fatal(err)
	}
	if at := b.m.Plan().Pads[0].Center; at != pt(14*ft, 15*ft) {
		t.Errorf("the pad is at %v", at)
	}
	var o tool.Overlay
	b.m.Overlay(&o)
	marked := false
	for _, r := range o.Rings {
		marked = marked || r.Style == tool.Origin && r.At == b.m.View.Screen(pt(24*ft, 20*ft))
	}
	if !marked {
		t.Error("no mark at the datum")
	}
	b.m.Selected = tool.Target{Kind: tool.Corner, Index: 2}
	if p := b.panel(); !strings.Contains(strings.Join(p.said, " "), "measured from here") {
		t.Errorf("the corner says %q", p.said)
	}
}

// While a pad is placed, and once it is chosen, its distances to the nearest edges stand
// beside it; those of a hole are from its sides.
func TestDistancesToEdges(t *testing.T) {
	b := newBench(t, shop())
	b.m.Use(&tool.PlacePad{})
	b.move(pt(20*ft, 14*ft))
	shows := func(what string, want ...string) {
		t.Helper()
		got := strings.Join(b.labels(), "|")
		for _, w := range want {
			if !strings.Contains(got, w) {
				t.Errorf("%s: it shows %q, want %q", what, got, w)
			}
		}
	}
	shows("placing", "4'", "6'")
	b.keys("5' along, 3' off")
	shows("typed", "5'", "3'")
	b.keys("<Return>")
	shows("chosen", "5'", "3'")
	b.m.Use(&tool.Rectangle{What: tool.Hole})
	b.click(pt(12*ft, 14*ft))
	b.click(pt(15*ft, 17*ft))
	shows("hole", "9'", "3'")
}

// A click on the number of a distance to an edge has it typed: what is selected moves.
func TestDistancesAreTyped(t *testing.T) {
	b := newBench(t, shop())
	b.m.Use(&tool.PlacePad{})
	b.click(pt(20*ft, 14*ft))
	number := func(text string) {
		t.Helper()
		var o tool.Overlay
		b.m.Overlay(&o)
		for _, l := range o.Labels {
			if l.Text == text && l.Style == tool.Value {
				at := l.At
				at.X += 6
				b.m.PointerMoved(at, b.mods)
				b.m.Pressed(at, tool.Primary, b.mods)
				b.m.Released()
				return
			}
		}
		t.Fatalf("no number %q among %q", text, b.labels())
	}
	number(`4'-0"`)
	b.state("Distance to the edge")
	b.keys("5'-6<Return>")
	if at := b.m.Plan().Pads[0].Center; at != pt(24*ft-5*ft-6*in, 14*ft) {
		t.Fatalf("the pad is at %v", at)
	}
	number(`6'-0"`)
	b.keys("+1'<Return>")
	if at := b.m.Plan().Pads[0].Center; at != pt(24*ft-5*ft-6*in, 13*ft) {
		t.Fatalf("the pad is at %v", at)
	}
	number(`7'-0"`)
	b.m.Key(tool.Escape, b.mods)
	b.state("Select")

	b.m.Use(&tool.Rectangle{What: tool.Hole})
	b.click(pt(8*ft, 14*ft))
	b.click(pt(11*ft, 17*ft))
	b.m.Selected = tool.Target{Kind: tool.Slab, Loop: 1}
	number(`3'-0"`)
	b.keys("2'<Return>")
	if lo, hi := b.m.Plan().Holes[0].Loop.Corners().Bounds(); lo != pt(8*ft, 15*ft) || hi != pt(11*ft, 18*ft) {
		t.Errorf("the hole is from %v to %v", lo, hi)
	}
}

// What is typed is drawn before Enter takes it.
func TestTypedLegIsShown(t *testing.T) {
	b := newBench(t, plan.Plan{Field: 6 * in})
	b.m.Use(&tool.Chain{})
	b.click(pt(0, 0))
	b.move(pt(2*ft, 9*ft))
	b.keys("12' right")
	var o tool.Overlay
	b.m.Overlay(&o)
	for _, l := range o.Lines {
		if l.B == b.m.View.Screen(pt(12*ft, 0)) {
			return
		}
	}
	t.Errorf("the lines are %+v", o.Lines)
}
