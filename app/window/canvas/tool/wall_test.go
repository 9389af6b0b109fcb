package tool_test

import (
	"bytes"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"haunchbook.example/app/job"
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
	b.goes(states)
}

// goes undoes all that made the states of the plan, one after the other, and does it again;
// each is the same when it is saved and opened.
func (b *bench) goes(states []plan.Plan) {
	b.Helper()
	for i := len(states) - 2; i >= 0; i-- {
		if _, ok := b.doc.Undo(); !ok || !cmp.Equal(b.doc.Plan(), states[i]) {
			b.Errorf("undone to %+v, want %+v", b.doc.Plan(), states[i])
		}
	}
	for _, s := range states[1:] {
		if _, ok := b.doc.Redo(); !ok || !cmp.Equal(b.doc.Plan(), s) {
			b.Errorf("done again to %+v, want %+v", b.doc.Plan(), s)
		}
		if j, err := job.Read(bytes.NewReader(b.doc.Job().Encode())); err != nil || !cmp.Equal(j.Slabs[0], s, cmpopts.EquateEmpty()) {
			b.Errorf("reopened to %+v, want %+v: %v", j.Slabs[0], s, err)
		}
	}
}

// A line is drawn, changed, moved by a point and removed in one step of the history each.
func TestLinesAreUndone(t *testing.T) {
	b := newBench(t, shop())
	take := func() { b.m.Use(&tool.Select{}); b.m.Selected = tool.Target{Kind: tool.Pipe} }
	does := func(what string) func() {
		return func() {
			take()
			if err := b.does(what); err != nil {
				t.Fatalf("%s: %v", what, err)
			}
		}
	}
	states := []plan.Plan{b.doc.Plan()}
	for _, do := range []func(){
		func() {
			b.m.Use(&tool.Chain{What: tool.Piping})
			b.click(pt(6*ft, 6*ft))
			b.click(pt(6*ft, 12*ft))
			b.click(pt(14*ft, 12*ft))
			b.keys("<Return>")
		},
		does("Depth of its top=9\""), does("Depth at its other end=12\""), does("Diameter or width=2\""),
		func() {
			take()
			b.m.Selected.Sub = 2
			b.keys("<Right>")
		},
		does("It is:trench drain"), does("Height of the channel=6\""),
		does("It is:hydronic tubing in loops"), does("Spacing=9\""), does("Way of a circuit=30'"),
		func() { take(); b.keys("<Delete>") },
	} {
		do()
		states = append(states, b.doc.Plan())
	}
	l := states[len(states)-2].Lines[0]
	if l.Kind != plan.Tubing || l.Cover != 9*in || l.EndCover != 12*in || l.Diameter != 2*in || l.Path[1] != pt(6*ft+in, 12*ft) || l.Spacing != 9*in || l.Lead != 30*ft || len(b.doc.Plan().Lines) != 0 {
		t.Errorf("%+v; left %+v", l, b.doc.Plan().Lines)
	}
	b.goes(states)
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
