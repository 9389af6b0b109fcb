package window

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/look"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
)

// A minus typed on a side never loses itself: the side stays, and what would do is said.
func TestMinusOnASide(t *testing.T) {
	w := open(t, Options{Job: hands.Demo(t)})
	w.Show()
	w.selects(tool.Target{Kind: tool.Edge})
	before := w.doc.Plan().Outline.Length(0)
	w.typed("-2'<Return>")
	if got := w.doc.Plan().Outline.Length(0); got != before {
		t.Errorf("-2' makes the side %s long; it was %s", got.Text(0), before.Text(0))
	}
	if want := "To make it shorter, write +-2'-0\""; !strings.Contains(w.machine.Notice, want) {
		t.Errorf("the window says %q, without %q", w.machine.Notice, want)
	}
	w.typed("<Escape><Escape>")
	w.selects(tool.Target{Kind: tool.Edge})
	w.typed("+-2'<Return>")
	if got := w.doc.Plan().Outline.Length(0); got != before-2*ft {
		t.Errorf("+-2' makes the side %s long; it was %s", got.Text(0), before.Text(0))
	}
}

// A page is found where it was left, of each job by itself.
func TestScrollBelongsToAPageAndAJob(t *testing.T) {
	book := hands.Book(t)
	w := open(t, Options{Job: hands.Demo(t), Book: book})
	w.Show()
	w.shelf.Settle()
	first := w.shelf.ID()
	w.openFromBook(first) // by its number
	w.win.Resize(fyne.NewSize(1024, 420))
	spec := w.side.sheets[specTab]
	price := func() *container.Scroll {
		w.pages.turn(pricePage)
		return w.pages.list[pricePage].scrolls()[1] // the fields
	}
	w.side.tab(specTab)
	spec.ScrollToOffset(fyne.NewPos(0, 90))
	price().ScrollToOffset(fyne.NewPos(0, 60))
	if at := price().Offset.Y; at != 60 {
		t.Fatalf("the price page does not scroll: it is at %g", at)
	}
	w.sample()
	w.side.tab(specTab)
	if at := spec.Offset.Y; at != 0 {
		t.Errorf("another job's specification begins at %g", at)
	}
	if at := price().Offset.Y; at != 0 {
		t.Errorf("another job's price begins at %g", at)
	}
	w.openFromBook(first)
	w.side.tab(specTab)
	if at := spec.Offset.Y; at != 90 {
		t.Errorf("the specification was left at 90 and is at %g", at)
	}
	if at := price().Offset.Y; at != 60 {
		t.Errorf("the price was left at 60 and is at %g", at)
	}
}

// painted counts how often it is drawn.
type painted struct {
	form.Button
	times int
}

func (p *painted) Refresh() { p.times++; p.Button.Refresh() }

// Another theme repaints the pages and panels that are not in sight too.
func TestThemeRepaintsAll(t *testing.T) {
	exhaustive(t)
	w := open(t, Options{Job: hands.Demo(t)})
	w.Show()
	w.pages.turn(pricePage)
	w.pages.home()
	hidden := map[string]*painted{"page": {}, "tab": {}}
	w.pages.list[pricePage].root = container.NewStack(w.pages.list[pricePage].root, hidden["page"])
	tab := w.side.tabs.Items[jobTab]
	tab.Content = container.NewStack(tab.Content, hidden["tab"])
	for _, p := range hidden {
		p.ExtendBaseWidget(p)
		p.times = 0
	}
	w.setAppearance(look.Dark)
	for name, p := range hidden {
		if p.times == 0 {
			t.Errorf("what is on another %s keeps the colors of the theme before", name)
		}
	}
}

// The window opens as large as it was closed.
func TestWindowRemembersItsSize(t *testing.T) {
	w := open(t, Options{Job: hands.Demo(t)})
	w.Show()
	size := fyne.NewSize(1100, 740)
	w.win.Resize(size)
	w.shelf.Filed(w.doc.Base().Encode())
	w.close()
	if got := lastSize(w.app.Preferences()); got != size {
		t.Errorf("closed at %v, opens at %v", size, got)
	}
	w.app.Preferences().SetFloat(widthKey, 10)
	if got := lastSize(w.app.Preferences()); got.Width < 800 {
		t.Errorf("the window is %v", got)
	}
	if got := lastSize(test.NewTempApp(t).Preferences()); got != fyne.NewSize(1280, 860) {
		t.Errorf("a first window is %v", got)
	}
}

// What the window remembers outlives a kill that leaves the toolkit's own file empty;
// where that is whole, it counts.
func TestHabitsOutliveAKill(t *testing.T) {
	file := filepath.Join(t.TempDir(), "settings", "window.json")
	usual := test.NewTempApp(t).Preferences()
	KeepHabits(usual, file)
	usual.SetFloat(widthKey, 1100)
	usual.SetInt(appearanceKey, int(look.Dark))
	usual.SetString(layersKey, "")
	lost := test.NewTempApp(t).Preferences()
	KeepHabits(lost, file)
	if got := lost.Float(widthKey); got != 1100 {
		t.Errorf("the width is %g", got)
	}
	if got := lost.IntWithFallback(appearanceKey, 9); got != int(look.Dark) {
		t.Errorf("the theme is %d", got)
	}
	if got := loadLayers(lost); got != (scene.Layers{}) {
		t.Errorf("the layers are %+v", got)
	}
	if got := lost.FloatWithFallback(heightKey, 77); got != 77 {
		t.Errorf("the height, which was never kept, is %g", got)
	}
	whole := test.NewTempApp(t).Preferences()
	whole.SetBool(keptKey, true)
	whole.SetFloat(widthKey, 900)
	KeepHabits(whole, file)
	if got := whole.Float(widthKey); got != 900 {
		t.Errorf("the width is %g", got)
	}
	info, err := os.Stat(file)
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v", info.Mode(), err)
	}
}

// A blank sheet turned to millimeters starts from metric sizes, and so does what is
// placed on it; one with anything drawn keeps what it has.
func TestUnitsOfABlankSheet(t *testing.T) {
	const mm = geometry.Millimeter
	w := open(t, Options{Job: shelf.Blank(geometry.FeetInches)})
	w.switchUnits()
	if j := w.doc.Job(); j.Units != geometry.Millimeters || j.Spec.Base.Gravel != 100*mm || j.Slabs[0].Field != 150*mm || w.machine.NewEdge.Section != "Edge 300" || w.machine.NewDoor.Width != 2700*mm || w.machine.NewPad.Width != 600*mm {
		t.Errorf("gravel %v, field %v, section %q, door %v", j.Spec.Base.Gravel, j.Slabs[0].Field, w.machine.NewEdge.Section, w.machine.NewDoor.Width)
	}
	w = open(t, Options{Job: hands.Shop()})
	was := w.doc.Job()
	if w.switchUnits(); !w.doc.Job().In(geometry.FeetInches).Same(was) {
		t.Error("a job with an outline was changed")
	}
}
