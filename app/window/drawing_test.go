package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

// shop is a job of one framed slab of 24 by 20 ft.
func shop() job.Job {
	j := Blank(geometry.FeetInches)
	ring := geometry.Ring{pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft)}
	j.Slabs[0].Sections = []plan.Section{{Name: "Edge 12", Depth: ft, Bottom: ft, Taper: ft / 2}}
	j.Slabs[0] = j.Slabs[0].WithOutline(plan.Like(ring, plan.Edge{Section: "Edge 12", Wall: "2x6"}))
	return j
}

// press taps the button of the edit panel that is called so.
func (w *Window) press(t *testing.T, name string) {
	t.Helper()
	var found fyne.Tappable
	walk(w.edit.form.box, func(o fyne.CanvasObject) {
		text := ""
		switch b := o.(type) {
		case *keyButton:
			text = b.Text
		case *widget.Button:
			text = b.Text
		}
		if text != "" && strings.TrimLeft(text, "○● ") == name {
			found = o.(fyne.Tappable)
		}
	})
	if found == nil {
		t.Fatalf("no button %q", name)
	}
	found.Tapped(&fyne.PointEvent{})
}

// field gives the entry of the edit panel beside a label.
func (w *Window) field(t *testing.T, label string) *entry {
	t.Helper()
	var found *entry
	next := false
	walk(w.edit.form.box, func(o fyne.CanvasObject) {
		switch v := o.(type) {
		case *widget.Label:
			next = v.Text == label
		case *entry:
			if next {
				found = v
			}
			next = false
		}
	})
	if found == nil {
		t.Fatalf("no field %q", label)
	}
	return found
}

// fill types into a field and leaves it.
func (w *Window) fill(t *testing.T, label, text string) {
	t.Helper()
	e := w.field(t, label)
	e.FocusGained()
	e.SetText(text)
	e.FocusLost()
}

// tick turns a tick box of the edit panel over.
func (w *Window) tick(t *testing.T, label string) {
	t.Helper()
	found := false
	walk(w.edit.form.box, func(o fyne.CanvasObject) {
		if c, ok := o.(*keyCheck); ok && c.Text == label && !found {
			found = true
			test.Tap(c)
		}
	})
	if !found {
		t.Fatalf("no tick box %q", label)
	}
}

func TestSeveralSlabsInTheWindow(t *testing.T) {
	w := open(t, Options{Job: shop()})
	w.Show()
	w.typed("s")
	if len(w.doc.Job().Slabs) != 2 || w.doc.Slab() != 1 {
		t.Fatalf("%d slabs, on %d", len(w.doc.Job().Slabs), w.doc.Slab())
	}
	w.typed("r10 x 8<Return>")
	if lo, hi := w.doc.Plan().Outline.Corners().Bounds(); lo != pt(28*ft, 0) || hi != pt(38*ft, 8*ft) {
		t.Fatalf("the second slab is from %v to %v", lo, hi)
	}
	w.fill(t, "Name", "Apron")
	w.fill(t, "Top over the job's", "-2\"")
	if p := w.doc.Job().Slabs[1]; p.Name != "Apron" || p.Height != -2*geometry.Inch {
		t.Errorf("it is called %q, at %v", p.Name, p.Height.Text(0))
	}
	if got := w.slabSize(1); got != "80 ft²" {
		t.Errorf("the list gives %q, want 80 ft²", got)
	}
	w.machine.Fit()
	w.click(pt(12*ft, 10*ft)) // on the first
	if w.doc.Slab() != 0 || w.machine.Selected.Kind != hit.Slab {
		t.Errorf("a click on the first works on %d, %+v", w.doc.Slab(), w.machine.Selected)
	}
	w.press(t, "Apron")
	if w.doc.Slab() != 1 {
		t.Errorf("the list works on %d", w.doc.Slab())
	}
	w.press(t, "Copy")
	if len(w.doc.Job().Slabs) != 3 || w.doc.Slab() != 2 {
		t.Errorf("%d slabs, on %d", len(w.doc.Job().Slabs), w.doc.Slab())
	}
	w.press(t, "Move…")
	w.typed("0, 4'<Return>")
	if lo, _ := w.doc.Plan().Outline.Corners().Bounds(); lo != pt(42*ft, 4*ft) {
		t.Errorf("moved to %v", lo)
	}
	w.machine.Selected = hit.Target{}
	w.refresh()
	w.press(t, "Remove")
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
	w := open(t, Options{Job: shop()})
	w.Show()
	w.typed("s")
	w.typed("r10 x 8<Return>")
	w.machine.Choose(0)
	w.machine.Selected = hit.Target{Kind: hit.Edge, Index: 1}
	w.refresh()
	if w.machine.Selected.Kind != hit.Edge {
		t.Fatalf("selected %+v", w.machine.Selected)
	}
	w.undo()
	if w.doc.Slab() != 1 || w.machine.Selected.Kind != hit.Nothing {
		t.Errorf("on slab %d, selected %+v", w.doc.Slab(), w.machine.Selected)
	}
}

func TestTheDistanceOfSlabsIsTyped(t *testing.T) {
	j := shop()
	apron := plan.Plan{Field: ft / 2}.WithOutline(plan.Like(geometry.Ring{pt(28*ft, 2*ft), pt(38*ft, 2*ft), pt(38*ft, 10*ft), pt(28*ft, 10*ft)}, plan.Edge{}))
	j.Slabs = append(j.Slabs, apron)
	w := open(t, Options{Job: j})
	w.Show()
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	for _, d := range w.machine.Dims() {
		if d.Kind == planview.Gap {
			e.Position = position(d.At)
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
	w := open(t, Options{Job: shop()})
	w.Show()
	w.typed("k")
	w.click(pt(6*ft, 0))
	w.typed("<Escape>")
	w.click(pt(15*ft, 0)) // the edge
	bolts := func() []plan.BoltMark { return w.doc.Plan().Outline[0].Bolts }
	if len(bolts()) != 1 || bolts()[0].Along != 6*ft {
		t.Fatalf("marks %v", bolts())
	}
	if w.machine.Selected.Kind != hit.Edge {
		t.Fatalf("selected %+v", w.machine.Selected)
	}
	w.fill(t, "From the start", `1', 6'-4 3/16", 23' H`)
	want := []plan.BoltMark{{Along: ft}, {Along: 6*ft + 4*geometry.Inch + 3*geometry.Sixteenth}, {Along: 23 * ft, HoldDown: true}}
	if len(bolts()) != 3 || bolts()[1] != want[1] || bolts()[2] != want[2] {
		t.Fatalf("marks %v, want %v", bolts(), want)
	}
	w.fill(t, "From the start", "1', 30'")
	if len(bolts()) != 3 {
		t.Error("a mark beyond the wall was taken")
	}
	w.tick(t, "hold-down") // of the first
	if !bolts()[0].HoldDown {
		t.Error("the first is no hold-down")
	}
	w.press(t, `2:  6'-4 3/16"`)
	if w.machine.Selected.Kind != hit.Bolt {
		t.Fatalf("selected %+v", w.machine.Selected)
	}
	w.fill(t, "To end corner", "20'")
	if bolts()[1].Along != 4*ft {
		t.Errorf("marks %v", bolts())
	}
	w.press(t, "Remove")
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
	w := open(t, Options{Job: shop()})
	w.Show()
	w.typed("e")
	w.click(pt(28*ft, 4*ft))
	w.typed("nail in the curb<Return>8\"<Return>")
	sv := func() plan.Survey { return w.doc.Job().Survey }
	if b := sv().Benchmarks; len(b) != 1 || b[0].Name != "nail in the curb" || b[0].Height != 8*geometry.Inch {
		t.Fatalf("benchmarks %+v", b)
	}
	w.fill(t, "Height over datum", "9\"")
	w.fill(t, "Name", "BM 1")
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
	w.tick(t, "With a leader")
	if sv().Notes[0].Leader {
		t.Error("the leader stays")
	}
	walk(w.edit.form.box, func(o fyne.CanvasObject) {
		if e, ok := o.(*wordsEntry); ok {
			e.FocusGained()
			e.SetText("thicken here\nto 12\"")
			e.FocusLost()
		}
	})
	if got := sv().Notes[0].Text; got != "thicken here\nto 12\"" {
		t.Errorf("the note says %q", got)
	}
	w.win.Canvas().Focus(w.plan)
	w.typed("n30<Return>")
	if n := sv().North; !n.Known || n.Turn != 30 {
		t.Errorf("north %+v", n)
	}
	w.turn(surveyPage)
	w.fill(t, "North, degrees", "-15")
	if n := sv().North; n.Turn != -15 {
		t.Errorf("north %+v", n)
	}
	w.press(t, `BM 1,  9"`)
	if w.machine.Selected.Kind != hit.Benchmark {
		t.Errorf("selected %+v", w.machine.Selected)
	}
	w.press(t, "Remove benchmark")
	if len(sv().Benchmarks) != 0 {
		t.Error("the benchmark is still there")
	}
}

// The window counts from 1, says which slab, and leads there.
func TestChecksSayWhere(t *testing.T) {
	j := shop()
	apron := plan.Plan{Name: "Apron", Field: ft / 2}.WithOutline(plan.Like(geometry.Ring{pt(28*ft, 2*ft), pt(38*ft, 2*ft), pt(38*ft, 10*ft), pt(28*ft, 10*ft)}, plan.Edge{}))
	apron.Outline[2].Doors = []plan.Door{{Name: "D1", Width: 12 * ft}}
	j.Slabs = append(j.Slabs, apron)
	w := open(t, Options{Job: j})
	w.Show()
	w.tabs.SelectIndex(1)
	cs := w.checks.checks()
	if len(cs) == 0 || cs[0].title != "Apron, edge 3, door D1: width" {
		t.Fatalf("checks %+v", cs)
	}
	w.visit(cs[0])
	if w.doc.Slab() != 1 || w.machine.Beacon == nil {
		t.Errorf("on slab %d, beacon %v", w.doc.Slab(), w.machine.Beacon)
	}
	// Without the fault there are findings, each with its slab.
	site, err := plan.Site{Plan: w.doc.Plan()}.Remove(plan.Thing{Kind: plan.KindDoor, Index: 2})
	p := site.Plan
	if err != nil {
		t.Fatal(err)
	}
	q, err := w.doc.Job().Slabs[0].SetBolts(0, 0, []plan.BoltMark{{Along: 12 * ft}})
	if err != nil {
		t.Fatal(err)
	}
	w.doc.Commit("Mend", w.doc.Job().WithSlab(1, p).WithSlab(0, q))
	for _, c := range w.checks.checks() {
		if strings.HasPrefix(c.title, "Slab 1: ") && c.slab == 0 {
			w.visit(c)
			if w.doc.Slab() != 0 {
				t.Errorf("on slab %d", w.doc.Slab())
			}
			return
		}
	}
	t.Errorf("no finding on the first slab: %+v", w.checks.checks())
}

// A fault of the specification leads to its form.
func TestChecksLeadToTheForm(t *testing.T) {
	j := shop()
	j.Spec.Base.TurnUp = -ft
	w := open(t, Options{Job: j})
	w.Show()
	cs := w.checks.checks()
	if len(cs) == 0 || !strings.HasPrefix(cs[0].title, "Under the slab") {
		t.Fatalf("checks %+v", cs)
	}
	w.visit(cs[0])
	if w.tabs.SelectedIndex() != 2 {
		t.Errorf("tab %d", w.tabs.SelectedIndex())
	}
}

func TestStatusNamesWhatIsInUse(t *testing.T) {
	w := open(t, Options{Job: shop()})
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
	w.pages.turn(priceView)
	say("Price")
	w.pages.turn(bookView)
	say("Job book")
	w.pages.home()
	w.turn(surveyPage)
	say("North, benchmarks")
	w.tabs.SelectIndex(2)
	say("Select")
}

// The legs of a sketch that do not close: the gap goes where it is put.
func TestLegsInTheWindow(t *testing.T) {
	for choice, want := range map[string]geometry.Ring{
		"put in leg 4, of 19'-11\"": {pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft)},
		"kept as a leg of its own":  {pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft), pt(0, geometry.Inch)},
	} {
		w := open(t, Options{Job: Blank(geometry.FeetInches)})
		w.Show()
		w.turn(legsPage)
		walk(w.edit.form.box, func(o fyne.CanvasObject) {
			if e, ok := o.(*entry); ok {
				e.SetText("24' E, 20' N, 24' W, 19'-11\" S")
			}
		})
		chosen := false
		walk(w.edit.form.box, func(o fyne.CanvasObject) {
			if s, ok := o.(interface {
				SetSelected(string)
				SelectedIndex() int
			}); ok {
				s.SetSelected(choice)
				chosen = s.SelectedIndex() >= 0
			}
		})
		if !chosen {
			t.Errorf("%q is no choice", choice)
		}
		w.press(t, "Draw it")
		got := w.doc.Plan().Outline.Corners()
		if len(got) != len(want) {
			t.Errorf("%s: %v", choice, got)
			continue
		}
		for i := range want {
			if got[i] != want[i] {
				t.Errorf("%s: corner %d at %v, want %v", choice, i+1, got[i], want[i])
			}
		}
	}
}

// Every common shape is drawn from its sizes, where the slab belongs.
func TestShapesInTheWindow(t *testing.T) {
	exhaustive(t)
	for _, s := range plan.Shapes() {
		w := open(t, Options{Job: shop()})
		w.Show()
		w.typed("s")
		w.turn(shapesPage)
		walk(w.edit.form.box, func(o fyne.CanvasObject) {
			if sel, ok := o.(interface{ SetSelected(string) }); ok {
				sel.SetSelected(s.Name)
			}
		})
		w.press(t, "Draw it")
		if lo, _ := w.doc.Plan().Outline.Corners().Bounds(); w.doc.Slab() != 1 || lo != pt(28*ft, 0) {
			t.Errorf("%s: on slab %d at %v", s.Name, w.doc.Slab(), lo)
		}
		if f := w.doc.Faults(); len(f) > 0 {
			t.Errorf("%s: %v", s.Name, f)
		}
	}
}

func TestMirrorTurnAndSplit(t *testing.T) {
	j := shop()
	j.Slabs[0].Outline[0].Doors = []plan.Door{{Name: "D1", From: 2 * ft, Width: 9 * ft}}
	w := open(t, Options{Job: j})
	w.Show()
	w.press(t, "Flip left-right")
	if d := w.doc.Plan().Outline; len(d[0].Doors)+len(d[1].Doors)+len(d[2].Doors)+len(d[3].Doors) != 1 {
		t.Fatal("the door is gone")
	}
	w.undo()
	w.press(t, "Turn 90°")
	if lo, hi := w.doc.Plan().Outline.Corners().Bounds(); hi.X-lo.X != 20*ft || hi.Y-lo.Y != 24*ft {
		t.Errorf("turned to %v by %v", (hi.X - lo.X).Text(0), (hi.Y - lo.Y).Text(0))
	}
	w.undo()
	w.machine.Selected = hit.Target{Kind: hit.Edge, Index: 1}
	w.refresh()
	w.press(t, "Split")
	if n := len(w.doc.Plan().Outline); n != 5 {
		t.Errorf("%d edges", n)
	}
	if _, ok := w.machine.State().(*tool.Select); !ok {
		t.Errorf("the tool is %s", w.machine.State().Name())
	}
}
