package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
)

func TestPagesOpenAndClose(t *testing.T) {
	w := open(t, Options{Job: hands.Demo(t)})
	for i := 1; i < len(w.pages.list); i++ {
		w.pages.turn(i)
		if w.pages.object.Objects[0] == w.pages.list[planPage].root {
			t.Errorf("page %d does not take the plan's place", i)
		}
		w.pressed(fyne.KeyEscape)
		if w.pages.at != planPage || w.win.Canvas().Focused() != fyne.Focusable(w.plan) {
			t.Errorf("Esc does not lead from page %d to the plan", i)
		}
	}
	// Esc in a field takes back what was typed, and leaves the field; once more leads
	// to the plan.
	w.pages.turn(pricePage)
	e := hands.On(t, w.pages.list[pricePage].root).Field("Overhead")
	was := e.Text
	w.win.Canvas().Focus(e)
	e.TypedRune('7')
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.pages.at != pricePage || e.Text != was || w.win.Canvas().Focused() != nil {
		t.Errorf("the first Esc is to take back what was typed and leave; the field has %q", e.Text)
	}
	w.pressed(fyne.KeyEscape)
	if w.pages.at != planPage {
		t.Error("the second Esc does not lead to the plan")
	}
	// A tool leads back to the plan.
	w.pages.turn(pourPage)
	w.use(tools()[1].start())
	if w.pages.at != planPage {
		t.Error("a tool of the menu leaves the page open")
	}
}

func TestBlankSheet(t *testing.T) {
	w := open(t, Options{Job: shelf.Blank(geometry.FeetInches)})
	for i := 1; i < len(w.pages.list); i++ {
		w.pages.turn(i)
		if i != bookPage {
			hands.On(t, w.pages.list[i].root).Reads("Draw an outline first")
		}
	}
}

// No page needs more room than a small window has.
func TestPagesFitASmallWindow(t *testing.T) {
	exhaustive(t)
	j := hands.Demo(t)
	for range estimate.MaxOptions {
		j.Price.Options = append(j.Price.Options, estimate.Option{Name: "Some"})
	}
	w := open(t, Options{Job: j, Book: hands.Book(t)})
	fits := func(name string) {
		if m := w.win.Content().MinSize(); m.Width > 1024 || m.Height > 640 {
			t.Errorf("%s needs %v", name, m)
		}
	}
	for i, f := range w.pages.list {
		w.pages.turn(i)
		fits(f.name)
	}
	for _, part := range []string{"Job", "Revisions", "After the pour", "Own figures", "Price lists", "Settings", "The book"} {
		hands.On(t, w.pages.list[bookPage].root).Press(part)
		fits(part)
	}
}

// Labels fit their columns beside the plan.
func TestLabelsFit(t *testing.T) {
	exhaustive(t)
	w := open(t, Options{Job: fullJob(t)})
	for i, s := range w.side.sheets {
		w.side.tab(i)
		hands.On(t, s.Scroll).Each(func(o fyne.CanvasObject) {
			l, ok := o.(*widget.Label)
			if !ok || l.Truncation == fyne.TextTruncateOff {
				return
			}
			room := l.Size().Width - 2*theme.InnerPadding()
			if need := fyne.MeasureText(l.Text, theme.TextSize(), l.TextStyle).Width; need > room {
				t.Errorf("%q is cut off: %g wide in %g", l.Text, need, room)
			}
		})
	}
}

// Layers are turned with the keyboard and remembered for the next window.
func TestLayersByKeyboard(t *testing.T) {
	w := open(t, Options{Job: hands.Demo(t)})
	w.Show()
	w.showLayers()
	names := map[string]bool{}
	for range w.plan.Layers.List() {
		c, ok := w.win.Canvas().Focused().(*form.Check)
		if !ok {
			t.Fatalf("%T has the focus", w.win.Canvas().Focused())
		}
		names[c.Text] = true
		if !c.Checked {
			c.TypedRune(' ')
		}
		test.FocusNext(w.win.Canvas())
	}
	if len(names) != 12 || w.plan.Layers != scene.All {
		t.Errorf("%d layers, of which are on: %s", len(names), w.plan.Layers)
	}
	w.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.win.Canvas().Overlays().Top() != nil {
		t.Error("Esc on a button leaves the list open")
	}
	again, err := New(w.app, Options{Job: hands.Demo(t)})
	if err != nil {
		t.Fatal(err)
	}
	defer again.win.Close()
	if again.plan.Layers != scene.All {
		t.Errorf("the next window shows %s", again.plan.Layers)
	}
	again.plan.Layers = scene.Layers{}
	again.layersChanged()
	if got := loadLayers(w.app.Preferences()); got != (scene.Layers{}) {
		t.Errorf("with all off, %s are on", got)
	}
}

// Moving the pointer over the plan draws no picture anew: only what follows the
// pointer changes.
func TestHoverKeepsThePicture(t *testing.T) {
	w := open(t, Options{Job: hands.Demo(t)})
	before := w.plan.Frame()
	e := &desktop.MouseEvent{}
	for i := range 200 {
		e.Position = fyne.NewPos(float32(40+i*3), float32(60+i*2))
		w.plan.MouseMoved(e)
	}
	if w.plan.Frame() != before {
		t.Error("the picture was drawn anew")
	}
	objects := len(test.WidgetRenderer(w.plan).Objects())
	for i := range 200 {
		e.Position = fyne.NewPos(float32(640-i*3), float32(460-i*2))
		w.plan.MouseMoved(e)
	}
	if n := len(test.WidgetRenderer(w.plan).Objects()); n > objects+8 {
		t.Errorf("%d objects above the picture, %d before", n, objects)
	}
}
