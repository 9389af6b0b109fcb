package tool_test

import (
	"strings"
	"testing"

	"haunchbook.example/app/window/canvas/size"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

// apron puts a second slab 3 ft below the shop, and works on the shop.
func apron(b *bench) {
	p := slab(pt(4*ft, -11*ft), pt(16*ft, -11*ft), pt(16*ft, -3*ft), pt(4*ft, -3*ft))
	p.Name = "Apron"
	j := b.doc.Job()
	j.Slabs = append(j.Slabs, p)
	b.doc.Commit("Apron", j)
	b.m.View.H, b.m.View.W = 1000, 1000
	b.m.Fit()
}

func TestAnotherSlabIsChosenByAClick(t *testing.T) {
	b := newBench(t, shop())
	apron(b)
	b.move(pt(10*ft, -7*ft))
	if b.m.Hover.Kind != tool.Other || b.m.Hover.Index != 1 {
		t.Errorf("over the apron: %+v", b.m.Hover)
	}
	var o tool.Overlay
	b.m.Overlay(&o)
	if len(o.Labels) == 0 || !strings.HasPrefix(o.Labels[0].Text, "Apron") {
		t.Errorf("labels %v", o.Labels)
	}
	b.click(pt(10*ft, -7*ft))
	if b.doc.Slab() != 1 || b.m.Selected.Kind != tool.Slab {
		t.Fatalf("working on %d with %+v selected", b.doc.Slab(), b.m.Selected)
	}
	if _, ok := b.doc.CanUndo(); !ok {
		t.Error("no history")
	}
	b.drag(pt(16*ft, -11*ft), pt(18*ft, -12*ft))
	if got := b.doc.Job().Slabs[1].Outline[1].At; got != pt(18*ft, -12*ft) {
		t.Errorf("its corner was dragged to %v", got)
	}
	b.corners(pt(4*ft, -11*ft), pt(18*ft, -12*ft), pt(16*ft, -3*ft), pt(4*ft, -3*ft))
	b.keys("<Next>")
	if b.doc.Slab() != 0 {
		t.Errorf("the key goes to slab %d", b.doc.Slab())
	}
	b.keys("<Prior>")
	if b.doc.Slab() != 1 {
		t.Errorf("the key goes back to slab %d", b.doc.Slab())
	}
}

// A tool that works on edges goes on to another slab that is clicked.
func TestToolsGoOnToTheOtherSlab(t *testing.T) {
	for _, state := range []tool.State{&tool.PlaceDoor{}, &tool.PlaceBolt{}, &tool.Paint{}} {
		b := newBench(t, shop())
		apron(b)
		b.m.Brush = tool.Brush{Sets: tool.SetsWall, Wall: "2x4"}
		b.m.NewDoor = plan.Door{Width: 3 * ft}
		b.m.Use(state)
		b.click(pt(10*ft, -11*ft))
		if b.doc.Slab() != 1 || b.m.State() != state || !strings.Contains(b.m.Info, "click again") {
			t.Errorf("%s: on slab %d with %s; %q", state.Name(), b.doc.Slab(), b.m.State().Name(), b.m.Info)
		}
		if state.Name() == "Paint edges" {
			b.click(pt(10*ft, -11*ft))
			if got := b.doc.Job().Slabs[1].Outline[0].Wall; got != "2x4" {
				t.Errorf("painted %q", got)
			}
		}
	}
}

func TestASlabOutOfSightIsBroughtIntoView(t *testing.T) {
	b := newBench(t, shop())
	apron(b)
	b.m.Pan(5000, 0)
	b.m.Choose(1)
	if s := b.m.View.Screen(pt(10*ft, -7*ft)); s.X < 0 || s.X > b.m.View.W {
		t.Errorf("its middle is at %v", s)
	}
}

func TestSnapsToTheOtherSlab(t *testing.T) {
	b := newBench(t, shop())
	apron(b)
	b.m.Use(&tool.Measure{})
	for name, at := range map[string]geometry.Point{
		"corner 3 of Apron":              pt(16*ft+2*in, -3*ft-2*in),
		"middle of Apron":                pt(10*ft+1*in, -3*ft-1*in),
		"on edge of Apron":               pt(7*ft, -3*ft-1*in),
		"in line with corner 2 of Apron": pt(16*ft+2*in, 25*ft),
	} {
		if b.move(at); b.m.Snap.Name != name {
			t.Errorf("named %q, want %q", b.m.Snap.Name, name)
		}
	}
	// Drawn square until it meets the apron's edge.
	b.m.Use(&tool.Chain{})
	b.click(pt(7*ft, 22*ft))
	b.move(pt(7*ft+1*in, -3*ft-3*in))
	if b.m.Snap.At != pt(7*ft, -3*ft) || !strings.HasSuffix(b.m.Snap.Name, "of Apron") {
		t.Errorf("at %v, %q", b.m.Snap.At, b.m.Snap.Name)
	}
}

func TestWholeSlabMovesToTheOther(t *testing.T) {
	b := newBench(t, shop())
	apron(b)
	b.m.Choose(1)
	b.mods = tool.Mods{Ctrl: true}
	b.drag(pt(5*ft, -4*ft), pt(1*ft+1*in, -1*ft+1*in)) // its upper left corner to the shop's corner 1
	lo, hi := b.doc.Plan().Outline.Corners().Bounds()
	if lo != pt(0, -8*ft) || hi != pt(12*ft, 0) {
		t.Errorf("it is from %v to %v", lo, hi)
	}
	b.mods = tool.Mods{}
	b.m.Use(&tool.MovePlan{})
	b.keys("2' down<Return>")
	if lo, _ := b.doc.Plan().Outline.Corners().Bounds(); lo != pt(0, -10*ft) {
		t.Errorf("typed to %v", lo)
	}
	b.m.Selected = tool.Target{Kind: tool.Slab}
	b.keys("<Delete>")
	if n := len(b.doc.Job().Slabs); n != 1 || b.doc.Slab() != 0 || !strings.Contains(b.m.Info, "Apron") {
		t.Errorf("%d slabs, %q", n, b.m.Info)
	}
	b.doc.Undo()
	if b.doc.Slab() != 1 {
		t.Error("undo does not show the slab it brings back")
	}
}

func TestDistanceBetweenSlabsIsAHandle(t *testing.T) {
	for _, test := range []struct {
		side        plan.Side
		shop, apron geometry.Point // where their lower left corners come to lie
	}{
		{plan.End, pt(0, 2*ft), pt(4*ft, -11*ft)},
		{plan.Start, pt(0, 0), pt(4*ft, -13*ft)},
		{plan.Both, pt(0, 1*ft), pt(4*ft, -12*ft)},
	} {
		b := newBench(t, shop())
		apron(b)
		var gap size.Dim
		for _, d := range b.m.Dims() {
			if d.Kind == planview.Gap {
				gap = d
			}
		}
		if gap.Text != `3'-0"` {
			t.Fatalf("the gap reads %q", gap.Text)
		}
		b.m.Pressed(gap.At, tool.Primary, tool.Mods{})
		b.m.Released()
		for range test.side {
			b.keys("<Tab>")
		}
		b.keys("5'<Return>")
		s := b.doc.Job().Slabs
		a, _ := s[0].Outline.Corners().Bounds()
		c, _ := s[1].Outline.Corners().Bounds()
		if a != test.shop || c != test.apron {
			t.Errorf("side %d: the shop at %v, the apron at %v; notice %q", test.side, a, c, b.m.Notice)
		}
	}
}

func TestASecondSlabBeginsBesideTheFirst(t *testing.T) {
	b := newBench(t, shop())
	b.doc.AddSlab()
	b.m.Use(&tool.Rectangle{})
	b.keys("10 x 8<Return>")
	b.corners(pt(28*ft, 0), pt(38*ft, 0), pt(38*ft, 8*ft), pt(28*ft, 8*ft))
	// Drawn anew, it stays where it is.
	b.m.Use(&tool.Rectangle{})
	if !strings.Contains(b.m.Status().Help.Do, "replaces") {
		t.Errorf("help %q", b.m.Status().Help.Do)
	}
	b.keys("6 x 6<Return>")
	b.corners(pt(28*ft, 0), pt(34*ft, 0), pt(34*ft, 6*ft), pt(28*ft, 6*ft))
}
