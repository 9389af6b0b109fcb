package tool_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry/plan"
)

// A wall on the slab is drawn, gets doors and bolts, is moved by its end, gets a strip and is
// removed in one step of the history each: undo gives the plan before it, redo the same again.
func TestWallsAreUndone(t *testing.T) {
	b := newBench(t, shop())
	b.m.NewWall.Plate = "2x6"
	want := plan.Wall{Plate: "2x6", From: pt(12*ft, 0), To: pt(12*ft, 20*ft)}
	take := func() { b.m.Use(&tool.Select{}); b.m.Selected = tool.Target{Kind: tool.Wall} }
	does := func(what string) {
		take()
		if err := b.does(what); err != nil {
			t.Fatalf("%s: %v", what, err)
		}
	}
	states := []plan.Plan{b.doc.Plan()}
	for _, s := range []struct {
		label string
		do    func()
		then  func()
	}{
		{"Wall on the slab", func() {
			b.m.Use(&tool.PlaceWall{})
			b.keys("12', 0<Return>")
			b.click(pt(12*ft, 20*ft))
		}, func() {}},
		{"Change wall on the slab 1", func() { does("Doors=4' to 7', 12 to 15") }, func() {
			want.Doors = []plan.Opening{{From: 4 * ft, Width: 3 * ft}, {From: 12 * ft, Width: 3 * ft}}
		}},
		{"Change wall on the slab 1", func() { does("Bolts at=1', 19' H") }, func() {
			want.Bolts = []plan.BoltMark{{Along: ft}, {Along: 19 * ft, HoldDown: true}}
		}},
		{"Change wall on the slab 1", func() { does("It is:braced wall") }, func() { want.Kind = plan.Braced }},
		{"Nudge", func() {
			take()
			b.m.Selected.Sub = 2
			b.keys("<Right>")
		}, func() { want.To.X += in }},
		{"Strip under a wall", func() { does("!Strip under it") }, func() {}},
	} {
		s.do()
		s.then()
		p := b.doc.Plan()
		if len(p.Walls) != 1 || !cmp.Equal(p.Walls[0], want) {
			t.Fatalf("%s: %+v, want %+v; notice %q", s.label, p.Walls, want, b.m.Notice)
		}
		if label, ok := b.doc.CanUndo(); label != s.label || !ok {
			t.Errorf("undo would take back %q, want %q", label, s.label)
		}
		states = append(states, p)
	}
	if p := b.doc.Plan(); len(p.Strips) != 1 || p.Strips[0].Path[1] != want.To {
		t.Errorf("under it lies %+v", p.Strips)
	}
	take()
	b.keys("<Delete>")
	states = append(states, b.doc.Plan())
	if len(b.doc.Plan().Walls) != 0 {
		t.Errorf("it is still there: %+v", b.doc.Plan().Walls)
	}
	for i := len(states) - 2; i >= 0; i-- {
		if _, ok := b.doc.Undo(); !ok || !cmp.Equal(b.doc.Plan(), states[i]) {
			t.Errorf("undone to %+v, want %+v", b.doc.Plan().Walls, states[i].Walls)
		}
	}
	for _, s := range states[1:] {
		if _, ok := b.doc.Redo(); !ok || !cmp.Equal(b.doc.Plan(), s) {
			t.Errorf("done again to %+v, want %+v", b.doc.Plan().Walls, s.Walls)
		}
	}
}

// Doors and bolts that a wall cannot have are refused beside their field.
func TestWallsRefuse(t *testing.T) {
	p := shop()
	p.Walls = []plan.Wall{{Plate: "2x4", From: pt(2*ft, 6*ft), To: pt(14*ft, 6*ft)}}
	for _, what := range []string{"Doors=4'", "Doors=4' to 3'", "Doors=4' to 13'", "Doors=2' to 6', 5' to 8'", "Doors=a to b", "Bolts at=13'", "Bolts at=1', 1'"} {
		b := newBench(t, p)
		b.m.Selected = tool.Target{Kind: tool.Wall}
		if err := b.does(what); err == nil {
			t.Errorf("%s was taken", what)
		}
		if _, changed := b.doc.CanUndo(); changed {
			t.Errorf("%s changed something", what)
		}
	}
}
