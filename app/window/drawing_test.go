package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

func TestSeveralSlabsInTheWindow(t *testing.T) {
	w := open(t, Options{Job: hands.Shop()})
	w.Show()
	w.typed("s")
	if len(w.doc.Job().Slabs) != 2 || w.doc.Slab() != 1 {
		t.Fatalf("%d slabs, on %d", len(w.doc.Job().Slabs), w.doc.Slab())
	}
	w.typed("r10 x 8<Return>")
	if lo, hi := w.doc.Plan().Outline.Corners().Bounds(); lo != pt(28*ft, 0) || hi != pt(38*ft, 8*ft) {
		t.Fatalf("the second slab is from %v to %v", lo, hi)
	}
	w.edit(t).Fill("Name", "Apron")
	w.edit(t).Fill("Top over the job's", "-2\"")
	if p := w.doc.Job().Slabs[1]; p.Name != "Apron" || p.Height != -2*geometry.Inch {
		t.Errorf("it is called %q, at %v", p.Name, p.Height.Text(0))
	}
	w.selects(tool.Target{})
	w.edit(t).Reads("80 ft²")
	w.machine.Fit()
	w.click(pt(12*ft, 10*ft)) // on the first
	if w.doc.Slab() != 0 || w.machine.Selected.Kind != tool.Slab {
		t.Errorf("a click on the first works on %d, %+v", w.doc.Slab(), w.machine.Selected)
	}
	w.edit(t).Press("Apron")
	if w.doc.Slab() != 1 {
		t.Errorf("the list works on %d", w.doc.Slab())
	}
	w.edit(t).Press("Copy")
	if len(w.doc.Job().Slabs) != 3 || w.doc.Slab() != 2 {
		t.Errorf("%d slabs, on %d", len(w.doc.Job().Slabs), w.doc.Slab())
	}
	w.edit(t).Press("Move…")
	w.typed("4' up<Return>")
	if lo, _ := w.doc.Plan().Outline.Corners().Bounds(); lo != pt(42*ft, 4*ft) {
		t.Errorf("moved to %v", lo)
	}
	w.selects(tool.Target{})
	w.edit(t).Press("Remove")
	if len(w.doc.Job().Slabs) != 2 {
		t.Errorf("%d slabs after one was removed", len(w.doc.Job().Slabs))
	}
	w.undo()
	if len(w.doc.Job().Slabs) != 3 || w.doc.Slab() != 2 {
		t.Errorf("undo: %d slabs, on %d", len(w.doc.Job().Slabs), w.doc.Slab())
	}
	if got := w.figure(t, takeoff.SlabArea); got < 639.9 || got > 640.1 {
		t.Errorf("area %g ft², want 480 + 80 + 80", got)
	}
}

// What was selected is not taken for a thing of the slab that an undo leads to.
func TestUndoOnAnotherSlabSelectsNothing(t *testing.T) {
	w := open(t, Options{Job: hands.Shop()})
	w.Show()
	w.typed("s")
	w.typed("r10 x 8<Return>")
	w.machine.Choose(0)
	w.selects(tool.Target{Kind: tool.Edge, Index: 1})
	if w.machine.Selected.Kind != tool.Edge {
		t.Fatalf("selected %+v", w.machine.Selected)
	}
	w.undo()
	if w.doc.Slab() != 1 || w.machine.Selected.Kind != nil {
		t.Errorf("on slab %d, selected %+v", w.doc.Slab(), w.machine.Selected)
	}
}

func TestTheDistanceOfSlabsIsTyped(t *testing.T) {
	j := hands.Shop()
	apron := plan.Plan{Field: ft / 2}.WithOutline(plan.Like(geometry.Ring{pt(28*ft, 2*ft), pt(38*ft, 2*ft), pt(38*ft, 10*ft), pt(28*ft, 10*ft)}, plan.Edge{}))
	j.Slabs = append(j.Slabs, apron)
	w := open(t, Options{Job: j})
	w.Show()
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	for _, d := range w.machine.Dims() {
		if d.Kind == planview.Gap {
			e.Position = fyne.NewPos(float32(d.At.X), float32(d.At.Y))
		}
	}
	w.plan.MouseMoved(e)
	w.plan.MouseDown(e)
	w.plan.MouseUp(e)
	w.typed("<Tab>2-6<Return>") // the other slab moves
	if lo, _ := w.doc.Job().Slabs[1].Outline.Corners().Bounds(); lo != pt(26*ft+ft/2, 2*ft) {
		t.Errorf("the other slab is at %v", lo)
	}
}

func TestBoltMarksInTheWindow(t *testing.T) {
	w := open(t, Options{Job: hands.Shop()})
	w.Show()
	w.typed("k")
	w.click(pt(6*ft, 0))
	w.typed("<Escape>")
	w.click(pt(15*ft, 0)) // the edge
	bolts := func() []plan.BoltMark { return w.doc.Plan().Outline[0].Bolts }
	if len(bolts()) != 1 || bolts()[0].Along != 6*ft {
		t.Fatalf("marks %v", bolts())
	}
	if w.machine.Selected.Kind != tool.Edge {
		t.Fatalf("selected %+v", w.machine.Selected)
	}
	w.edit(t).Fill("From the start", `1', 6'-4 3/16", 23' H`)
	want := []plan.BoltMark{{Along: ft}, {Along: 6*ft + 4*geometry.Inch + 3*geometry.Sixteenth}, {Along: 23 * ft, HoldDown: true}}
	if len(bolts()) != 3 || bolts()[1] != want[1] || bolts()[2] != want[2] {
		t.Fatalf("marks %v, want %v", bolts(), want)
	}
	w.edit(t).Fill("From the start", "1', 30'")
	if len(bolts()) != 3 {
		t.Error("a mark beyond the wall was taken")
	}
	w.edit(t).Tick("hold-down", 0) // of the first
	if !bolts()[0].HoldDown {
		t.Error("the first is no hold-down")
	}
	w.edit(t).Press(`2:  6'-4 3/16"`)
	if w.machine.Selected.Kind != tool.Bolt {
		t.Fatalf("selected %+v", w.machine.Selected)
	}
	w.edit(t).Fill("To end corner", "20'")
	if bolts()[1].Along != 4*ft {
		t.Errorf("marks %v", bolts())
	}
	w.edit(t).Press("Remove")
	if len(bolts()) != 2 {
		t.Errorf("marks %v", bolts())
	}
	// What is taken off has the builder's bolts.
	taken, _ := w.doc.Takeoff()
	s, _ := taken.Slab(0)
	for _, wall := range s.Layout.Walls {
		if wall.Loop == 0 && wall.Edge == 0 && !wall.Bolts[0].Builder {
			t.Errorf("bolts of the wall: %+v", wall.Bolts)
		}
	}
}

func TestSurveyInTheWindow(t *testing.T) {
	w := open(t, Options{Job: hands.Shop()})
	w.Show()
	w.typed("e")
	w.click(pt(28*ft, 4*ft))
	w.typed("nail in the curb<Return>8\"<Return>")
	sv := func() plan.Survey { return w.doc.Job().Survey }
	if b := sv().Benchmarks; len(b) != 1 || b[0].Name != "nail in the curb" || b[0].Height != 8*geometry.Inch {
		t.Fatalf("benchmarks %+v", b)
	}
	w.edit(t).Fill("Height over datum", "9\"")
	w.edit(t).Fill("Name", "BM 1")
	if b := sv().Benchmarks[0]; b.Name != "BM 1" || b.Height != 9*geometry.Inch {
		t.Errorf("benchmark %+v", b)
	}
	w.typed("w")
	w.click(pt(24*ft, 12*ft))
	w.click(pt(28*ft, 14*ft))
	w.typed("thicken here<Return>")
	if n := sv().Notes; len(n) != 1 || n[0].Text != "thicken here" || n[0].To != pt(24*ft, 12*ft) {
		t.Fatalf("notes %+v", n)
	}
	w.edit(t).Tick("With a leader", 0)
	if sv().Notes[0].Leader {
		t.Error("the leader stays")
	}
	text := w.edit(t).Entries()[0]
	w.win.Canvas().Focus(text)
	text.SetText("thicken here\nto 12\"")
	w.win.Canvas().Focus(w.plan)
	if got := sv().Notes[0].Text; got != "thicken here\nto 12\"" {
		t.Errorf("the note says %q", got)
	}
	w.win.Canvas().Focus(w.plan)
	w.typed("n30<Return>")
	if n := sv().North; !n.Known || n.Turn != 30 {
		t.Errorf("north %+v", n)
	}
	w.side.turn(tool.Surveying)
	w.edit(t).Fill("North, turned", "-15")
	if n := sv().North; n.Turn != -15 {
		t.Errorf("north %+v", n)
	}
	w.edit(t).Press(`BM 1,  9"`)
	if w.machine.Selected.Kind != tool.Benchmark {
		t.Errorf("selected %+v", w.machine.Selected)
	}
	w.edit(t).Press("Remove benchmark")
	if len(sv().Benchmarks) != 0 {
		t.Error("the benchmark is still there")
	}
}

func TestStatusNamesWhatIsInUse(t *testing.T) {
	w := open(t, Options{Job: hands.Shop()})
	w.Show()
	say := func(want string) {
		t.Helper()
		w.tell("News")
		if got := w.status.tool.Text; got != want {
			t.Errorf("the status line says %q, want %q", got, want)
		}
		if !strings.Contains(w.status.help.Text, "News") {
			t.Errorf("it helps with %q", w.status.help.Text)
		}
	}
	say("Select")
	w.typed("d")
	say("Place door")
	w.pages.turn(pricePage)
	say("Price")
	w.pages.turn(bookPage)
	say("Job book")
	w.pages.home()
	w.side.turn(tool.Surveying)
	say("North, benchmarks")
	w.side.tab(specTab)
	say("Select")
}

func TestMirrorTurnAndSplit(t *testing.T) {
	j := hands.Shop()
	j.Slabs[0].Outline[0].Doors = []plan.Door{{Name: "D1", From: 2 * ft, Width: 9 * ft}}
	w := open(t, Options{Job: j})
	w.Show()
	w.edit(t).Press("Flip left-right")
	if d := w.doc.Plan().Outline; len(d[0].Doors)+len(d[1].Doors)+len(d[2].Doors)+len(d[3].Doors) != 1 {
		t.Fatal("the door is gone")
	}
	w.undo()
	w.edit(t).Press("Turn 90°")
	if lo, hi := w.doc.Plan().Outline.Corners().Bounds(); hi.X-lo.X != 20*ft || hi.Y-lo.Y != 24*ft {
		t.Errorf("turned to %v by %v", (hi.X - lo.X).Text(0), (hi.Y - lo.Y).Text(0))
	}
	w.undo()
	w.selects(tool.Target{Kind: tool.Edge, Index: 1})
	w.edit(t).Press("Split")
	if n := len(w.doc.Plan().Outline); n != 5 {
		t.Errorf("%d edges", n)
	}
	if _, ok := w.machine.State().(*tool.Select); !ok {
		t.Errorf("the tool is %s", w.machine.State().Name())
	}
}
