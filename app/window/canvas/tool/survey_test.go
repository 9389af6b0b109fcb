package tool_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

func (b *bench) survey(want plan.Survey) {
	b.Helper()
	if diff := cmp.Diff(want, b.doc.Job().Survey); diff != "" {
		b.Errorf("survey (-want +got):\n%s\nnotice: %s", diff, b.m.Notice)
	}
}

func TestBenchmark(t *testing.T) {
	b := newBench(t, shop())
	b.m.Use(&tool.PlaceBenchmark{})
	b.click(pt(28*ft, 4*ft))
	b.keys("nail, 24 d<Return>") // letters and digits are its name now
	b.keys("1'-3 1/2\"<Return>")
	want := plan.Survey{Benchmarks: []plan.Benchmark{{Name: "nail, 24 d", At: pt(28*ft, 4*ft), Height: ft + 3*in + in/2}}}
	b.survey(want)
	b.state("Select")

	b.m.Use(&tool.PlaceBenchmark{})
	b.keys("30', -2'<Return><Return><Return>") // the name and the height as offered
	want.Benchmarks = append(want.Benchmarks, plan.Benchmark{Name: "BM 1", At: pt(30*ft, -2*ft)})
	b.survey(want)

	b.click(pt(28*ft+2*in, 4*ft))
	if b.m.Selected.Kind != tool.Benchmark || b.m.Selected.Index != 0 {
		t.Fatalf("selected %+v", b.m.Selected)
	}
	b.drag(pt(28*ft, 4*ft), pt(26*ft, 6*ft))
	want.Benchmarks[0].At = pt(26*ft, 6*ft)
	b.survey(want)
	b.keys("<Right>")
	want.Benchmarks[0].At.X += in
	b.survey(want)
	b.keys("<Delete>")
	b.survey(plan.Survey{Benchmarks: want.Benchmarks[1:]})
	b.doc.Undo()
	b.survey(want)
}

func TestBenchmarkBacksOutStepByStep(t *testing.T) {
	b := newBench(t, shop())
	b.m.Use(&tool.PlaceBenchmark{})
	b.click(pt(28*ft, 4*ft))
	b.keys("BM<Return>")
	for i, want := range []string{"Name it again", "Choose the place again", "Stop"} {
		if got := b.m.Status().Help.Esc; got != want {
			t.Errorf("Esc %d: %q, want %q", i+1, got, want)
		}
		b.keys("<Escape>")
	}
	b.state("Select")
	b.survey(plan.Survey{})
}

func TestNoteWithLeader(t *testing.T) {
	b := newBench(t, shop())
	b.m.Use(&tool.PlaceNote{})
	b.click(pt(24*ft, 10*ft))
	b.click(pt(28*ft, 12*ft))
	b.keys("drain by others, rv<Return>") // r and v are letters of the note, not tools
	want := plan.Survey{Notes: []plan.Note{{Text: "drain by others, rv", At: pt(28*ft, 12*ft), Leader: true, To: pt(24*ft, 10*ft)}}}
	b.survey(want)
	// Its text is 7 pixels to the letter: a click in the middle takes it.
	at := b.m.View.Screen(pt(28*ft, 12*ft))
	at.X += 70
	b.m.PointerMoved(at, tool.Mods{})
	b.m.Pressed(at, tool.Primary, tool.Mods{})
	b.m.Released()
	if b.m.Selected.Kind != tool.Note || b.m.Selected.Sub != 0 {
		t.Fatalf("selected %+v", b.m.Selected)
	}
	b.drag(pt(28*ft+6*in, 12*ft), pt(28*ft+6*in, 16*ft))
	want.Notes[0].At = pt(28*ft, 16*ft)
	b.survey(want)
	b.keys("<Tab>") // on to the end of its leader
	if b.m.Selected.Kind != tool.Note || b.m.Selected.Sub != 1 {
		t.Fatalf("selected %+v", b.m.Selected)
	}
	b.keys("<Delete>")
	want.Notes[0].Leader, want.Notes[0].To = false, geometry.Point{}
	b.survey(want)
	b.m.Selected = tool.Target{Kind: tool.Note}
	b.keys("<Delete>")
	b.survey(plan.Survey{Notes: []plan.Note{}})
}

func TestNoteWithoutLeader(t *testing.T) {
	b := newBench(t, shop())
	b.m.Use(&tool.PlaceNote{})
	b.keys("<Return>")
	b.click(pt(2*ft, 24*ft))
	b.keys("existing grade 4\" below<Return>")
	b.survey(plan.Survey{Notes: []plan.Note{{Text: `existing grade 4" below`, At: pt(2*ft, 24*ft)}}})
}

func TestNorth(t *testing.T) {
	b := newBench(t, shop())
	north := func(want float64) {
		t.Helper()
		if got := b.doc.Job().Survey.North; got != (plan.North{Known: true, Turn: want}) {
			t.Errorf("north %+v, want %g; notice %q", got, want, b.m.Notice)
		}
	}
	b.m.Use(&tool.PlaceNorth{})
	b.drag(pt(4*ft, 4*ft), pt(8*ft, 8*ft+3*in)) // held to 45
	north(45)
	b.m.Use(&tool.PlaceNorth{})
	b.click(pt(4*ft, 4*ft))
	b.click(pt(-2*ft, 4*ft+2*in)) // straight left
	north(270)
	b.m.Use(&tool.PlaceNorth{})
	b.keys("-12.5<Return>")
	north(-12.5)
	b.state("Select")
	b.m.Use(&tool.PlaceNorth{})
	b.keys("400<Return>")
	if !strings.Contains(b.m.Notice, "360") {
		t.Errorf("notice %q", b.m.Notice)
	}
	b.doc.Undo()
	north(270)
}

// The arrow in the corner is a handle: it is turned by its point, and removed.
func TestTheNorthArrowIsAHandle(t *testing.T) {
	b := newBench(t, shop())
	b.m.Use(&tool.PlaceNorth{})
	b.keys("10<Return>")
	at, r := hit.NorthArrow(b.m.View)
	to := func(x, y float64) { at := at; at.X, at.Y = at.X+x, at.Y+y; b.m.PointerMoved(at, b.mods) }
	to(4, -20)
	if b.m.Hover.Kind != tool.North {
		t.Fatalf("over the arrow: %+v", b.m.Hover)
	}
	b.m.Pressed(b.m.Pointer, tool.Primary, b.mods)
	to(r, 0)
	to(r, r/60) // held to a right angle
	b.m.Released()
	if n := b.doc.Job().Survey.North; n.Turn != 90 {
		t.Errorf("turned to %g", n.Turn)
	}
	b.doc.Undo()
	if n := b.doc.Job().Survey.North; n.Turn != 10 {
		t.Errorf("undone to %g", n.Turn)
	}
	b.keys("<Delete>")
	if b.doc.Job().Survey.North.Known {
		t.Error("north is still known")
	}
}
