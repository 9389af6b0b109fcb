package window

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/xuri/excelize/v2"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/look"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

const ft = geometry.Foot

// exhaustive leaves out, with -short, a test that goes through all there is in
// the window one by one.
func exhaustive(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("goes through everything: run without -short")
	}
}

// open makes a window of 1280 by 900 without a display, whose takeoff is
// computed at once.
func open(t *testing.T, o Options) *Window {
	t.Helper()
	a := test.NewTempApp(t)
	w, err := New(a, o)
	if err != nil {
		t.Fatal(err)
	}
	w.win.SetPadded(false)
	w.plan.Mods = func() tool.Mods { return tool.Mods{} }
	w.win.Resize(fyne.NewSize(1280, 900))
	t.Cleanup(func() {
		if slices.Contains(a.Driver().AllWindows(), w.win) {
			w.win.Close()
		}
	})
	return w
}

// edit gives hands for the first panel beside the plan.
func (w *Window) edit(t *testing.T) hands.Hands { return hands.On(t, w.side.sheets[editTab].Scroll) }

// selects selects a thing on the plan.
func (w *Window) selects(g tool.Target) {
	w.machine.Selected = g
	w.refresh()
}

// at gives where a point of the plan is in the widget.
func (w *Window) at(p geometry.Point) fyne.Position {
	q := w.machine.View.Screen(p)
	return fyne.NewPos(float32(q.X), float32(q.Y))
}

// click presses and releases at a point of the plan, as the toolkit reports it.
func (w *Window) click(p geometry.Point) {
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	e.Position = w.at(p)
	w.plan.MouseMoved(e)
	w.plan.MouseDown(e)
	w.plan.MouseUp(e)
}

// drag presses at one point and releases at another. Over something that takes
// no presses there is no MouseUp, only DragEnd.
func (w *Window) drag(from, to geometry.Point, up bool) {
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	e.Position = w.at(from)
	w.plan.MouseMoved(e)
	w.plan.MouseDown(e)
	for i := range 4 {
		f := geometry.Length(i + 1)
		d := &fyne.DragEvent{}
		d.Position = w.at(geometry.Point{X: from.X + (to.X-from.X)*f/4, Y: from.Y + (to.Y-from.Y)*f/4})
		w.plan.Dragged(d)
	}
	if up {
		w.plan.MouseUp(e)
	}
	w.plan.DragEnd()
}

// typed sends text and keys in < > to whatever has the focus.
func (w *Window) typed(s string) {
	for s != "" {
		if name, rest, ok := strings.Cut(s[1:], ">"); s[0] == '<' && ok {
			w.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyName(name)})
			s = rest
			continue
		}
		w.win.Canvas().Focused().TypedRune(rune(s[0]))
		s = s[1:]
	}
}

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

func (w *Window) figure(t *testing.T, k takeoff.Kind) float64 {
	t.Helper()
	got, stale := w.doc.Takeoff()
	if got == nil || stale {
		t.Fatalf("no takeoff; faults: %v; error: %v", w.doc.Faults(), w.doc.Err())
	}
	l, ok := got.Line(k)
	if !ok {
		t.Fatalf("no line %s", k)
	}
	return l.Value
}

// From an empty plan to both files, with pointer and keys only.
func TestDrawAndPrint(t *testing.T) {
	w := open(t, Options{Job: shelf.Blank(geometry.FeetInches)})
	w.Show()
	w.machine.NewEdge.Wall = "2x6"
	w.typed("r30 x 24<Return>")
	if len(w.doc.Plan().Outline) != 4 {
		t.Fatalf("outline %v", w.doc.Plan().Outline.Corners())
	}
	w.typed("d")
	w.click(pt(15*ft, 0))
	w.typed("p")
	w.machine.Brush = tool.Brush{Sets: tool.SetsJoint}
	w.click(pt(15*ft, 24*ft))
	w.typed("v")
	w.drag(pt(30*ft, 12*ft), pt(32*ft, 12*ft), true)

	p := w.doc.Plan()
	if !p.Outline[2].Joint || len(p.Outline[0].Doors) != 1 || p.Outline.Length(0) != 32*ft {
		t.Fatalf("plan %+v", p.Outline)
	}
	if got := w.figure(t, takeoff.SlabArea); got < 767.9 || got > 768.1 {
		t.Errorf("area %g ft², want 32 × 24 = 768", got)
	}

	w.showPrint()
	folder := filepath.Join(t.TempDir(), "sheets")
	w.edit(t).Hinted("Folder to write to").SetText(folder)
	w.edit(t).Press("Write")
	pdf, err := os.ReadFile(filepath.Join(folder, form.FileName(w.doc.Job().Name)+"-layout.pdf"))
	if err != nil || !bytes.HasPrefix(pdf, []byte("%PDF-")) || len(pdf) < 5000 {
		t.Errorf("layout.pdf: %d bytes, %v", len(pdf), err)
	}
	x, err := excelize.OpenFile(filepath.Join(folder, form.FileName(w.doc.Job().Name)+"-materials.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	defer x.Close()
	if len(x.GetSheetList()) < 2 {
		t.Errorf("materials.xlsx has sheets %v", x.GetSheetList())
	}
	left, err := filepath.Glob(filepath.Join(folder, ".haunchbook-*"))
	if err != nil || len(left) > 0 {
		t.Errorf("left behind: %v %v", left, err)
	}
}

func TestTakeoffFollowsADragAndGoesStaleOnAFault(t *testing.T) {
	w := open(t, Options{Job: hands.Demo(t)})
	w.Show()
	before := w.figure(t, takeoff.ConcreteNet)
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	e.Position = w.at(pt(0, 28*ft))
	w.plan.MouseMoved(e)
	w.plan.MouseDown(e)
	to := func(p geometry.Point) {
		d := &fyne.DragEvent{}
		d.Position = w.at(p)
		w.plan.Dragged(d)
	}
	to(pt(-1*ft, 29*ft))
	to(pt(-2*ft, 30*ft))
	during := w.figure(t, takeoff.ConcreteNet)
	if !(during > before) {
		t.Errorf("concrete was %g, is %g while a corner is dragged outward", before, during)
	}
	to(pt(30*ft, -6*ft)) // the outline crosses itself
	got, stale := w.doc.Takeoff()
	if len(w.doc.Faults()) == 0 || got == nil || !stale {
		t.Errorf("faults %v, takeoff %v, stale %v", w.doc.Faults(), got != nil, stale)
	}
	w.side.tab(checksTab)
	if w.side.checks.Count() == 0 {
		t.Error("no checks")
	}
	w.side.tab(takeoffTab)
	hands.On(t, w.side.takeoff.Box).Reads("last sound plan")
	w.typed("<Escape>")
	if w.figure(t, takeoff.ConcreteNet) != before {
		t.Error("Esc did not bring the plan back")
	}
}

func TestADragEndsWithoutMouseUp(t *testing.T) {
	w := open(t, Options{Job: hands.Demo(t)})
	w.Show()
	w.drag(pt(36*ft, 28*ft), pt(38*ft, 28*ft), false)
	if got := w.doc.Plan().Outline[4].At; got != pt(38*ft, 28*ft) {
		t.Errorf("the corner is at %v", got)
	}
	if label, _ := w.doc.CanUndo(); label != "Move corner 5" {
		t.Errorf("history has %q", label)
	}
}

func TestUndoAcrossRestarts(t *testing.T) {
	path := filepath.Join(t.TempDir(), "jobs.book")
	book, err := storage.Open(path, storage.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w := open(t, Options{Job: shelf.Blank(geometry.FeetInches), Book: book})
	w.Show()
	w.typed("r30 x 24<Return>")
	w.typed("r20 x 12<Return>")
	id := w.shelf.ID()
	if err := book.Close(); err != nil {
		t.Fatal(err)
	}

	if book, err = storage.Open(path, storage.Options{}); err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	j, err := book.Get(id)
	if err != nil {
		t.Fatal(err)
	}
	w = open(t, Options{Job: j, Book: book, ID: id})
	w.Show()
	if got := w.doc.Plan().Outline.Length(0); got != 20*ft {
		t.Fatalf("the book has a width of %v", got.Text(0))
	}
	w.undo()
	if got := w.doc.Plan().Outline.Length(0); got != 30*ft {
		t.Errorf("undone to a width of %v", got.Text(0))
	}
	w.undo()
	if !w.doc.Blank() {
		t.Error("undone to something other than the blank sheet")
	}
	w.redo()
	if j, err = book.Get(id); err != nil || len(j.Slabs[0].Outline) != 4 {
		t.Errorf("the book has %d corners after a redo, %v", len(j.Slabs[0].Outline), err)
	}
}

func TestUnitsSwitchWithoutChangingThePlan(t *testing.T) {
	w := open(t, Options{Job: hands.Demo(t)})
	before := w.doc.Plan().Outline.Corners()
	w.switchUnits()
	for i, p := range w.doc.Plan().Outline.Corners() {
		if p != before[i] {
			t.Errorf("corner %d moved", i)
		}
	}
	if w.doc.Units() != geometry.Millimeters {
		t.Error("units did not switch")
	}
	w.undo()
	if w.doc.Units() != geometry.FeetInches {
		t.Error("undo did not switch back")
	}
}

func TestEveryPageAndToolCanBeShown(t *testing.T) {
	exhaustive(t)
	for _, j := range []job.Job{hands.Demo(t), shelf.Blank(geometry.Millimeters)} {
		w := open(t, Options{Job: j})
		w.Show()
		for p := range w.side.asked {
			w.side.turn(p)
			w.win.Canvas().Capture()
		}
		w.showPrint()
		w.win.Canvas().Capture()
		for _, tl := range tools() {
			w.typed(string(tl.key))
			w.typed("<Return><Escape><Escape><Escape>")
		}
		for i := range w.side.tabs.Items {
			w.side.tabs.SelectIndex(i)
			w.win.Canvas().Capture()
		}
		for range 40 {
			w.win.Canvas().Focus(w.plan)
			w.typed("<Tab>")
		}
		w.setAppearance(look.Dark)
		w.win.Canvas().Capture()
		w.setAppearance(look.Light)
		w.win.Canvas().Capture()
	}
}

// No text is smaller than 11 in any theme size that text uses, and no label runs
// out of a window of the least size.
func TestLeastWindow(t *testing.T) {
	w := open(t, Options{Job: hands.Demo(t)})
	w.Show()
	if m := w.win.Content().MinSize(); m.Width > 1024 || m.Height > 660 {
		t.Errorf("the window needs %v; it must fit 1024 by 700 with its menu", m)
	}
	for _, s := range []fyne.ThemeSizeName{"text", "helperText", "headingText", "subHeadingText"} {
		if got := w.theme.Size(s); got < 11 {
			t.Errorf("%s is %g", s, got)
		}
	}
}
