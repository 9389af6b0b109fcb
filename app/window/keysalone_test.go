package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
)

// Whatever can be clicked can have the focus, and what has it is in sight.
func TestEverythingByKeysAlone(t *testing.T) {
	exhaustive(t)
	w := open(t, Options{Job: hands.Demo(t)})
	w.Show()
	w.win.Resize(fyne.NewSize(1024, 700))
	look := func(name string, root fyne.CanvasObject) {
		t.Helper()
		w.win.Resize(fyne.NewSize(1030, 700)) // texts that wrap find their height
		w.win.Resize(fyne.NewSize(1024, 700))
		n := 0
		form.Visit(root, func(o fyne.CanvasObject) {
			_, tappable := o.(fyne.Tappable)
			f, focusable := o.(fyne.Focusable)
			if d, ok := o.(fyne.Disableable); ok && d.Disabled() || !tappable || o == fyne.CanvasObject(w.plan) {
				return
			}
			if !focusable {
				switch o.(type) {
				case *widget.Label: // its text can be selected
				case interface {
					CreateRenderer() fyne.WidgetRenderer
					Tapped(*fyne.PointEvent)
					Refresh()
				}: // places are typed as well
				default:
					t.Errorf("%s: a %T takes clicks but not the focus", name, o)
				}
				return
			}
			n++
			// What the field before showed as it was left may have moved this one.
			w.win.Canvas().Focus(f)
			w.win.Canvas().Unfocus()
			w.win.Canvas().Focus(f)
			if w.win.Canvas().Focused() != f {
				t.Errorf("%s: a %T does not take the focus", name, o)
				return
			}
			w.inSight(t, name, root, o)
		})
		if n == 0 {
			t.Errorf("%s has nothing to focus", name)
		}
	}
	for i := range w.side.tabs.Items {
		if i == 1 {
			continue // the demo has no findings to click
		}
		w.sideTab(i)
		look("panel "+w.side.tabs.Items[i].Text, w.side.object)
	}
	for _, p := range w.side.asked {
		w.side.ask(p)
		look("page "+p.Name(), w.side.object)
	}
	w.showPrint()
	look("page "+w.side.print.Name(), w.side.object)
	look("toolbar", w.bar.object)
	look("tools", w.rail.object)
	for i := 1; i < len(w.pages.list); i++ {
		w.pages.turn(i)
		look("page "+w.pages.list[i].name, w.pages.list[i].root)
	}
}

// inSight checks that what has the focus is not scrolled away.
func (w *Window) inSight(t *testing.T, name string, root, o fyne.CanvasObject) {
	t.Helper()
	d := fyne.CurrentApp().Driver()
	at := d.AbsolutePositionForObject(o)
	for _, p := range form.PathTo(root, o) {
		s, ok := p.(interface {
			fyne.CanvasObject
			ScrollToTop()
		})
		if !ok {
			continue
		}
		top := d.AbsolutePositionForObject(s).Y
		if o.Size().Height < s.Size().Height && (at.Y < top-1 || at.Y+o.Size().Height > top+s.Size().Height+1) {
			t.Errorf("%s: the %T %q with the focus is out of sight, at %g in a page that shows %g to %g", name, o, hands.On(t, o).Text(), at.Y, top, top+s.Size().Height)
		}
	}
}

// Esc leaves each kind of field to the plan, and F6 goes on from it.
func TestLeavingFields(t *testing.T) {
	exhaustive(t)
	w := open(t, Options{Job: hands.Demo(t)})
	w.Show()
	for i := range w.side.tabs.Items {
		if i == 1 {
			continue
		}
		w.sideTab(i)
		form.Visit(w.side.object, func(o fyne.CanvasObject) {
			f, ok := o.(fyne.Focusable)
			if !ok {
				return
			}
			w.win.Canvas().Focus(f)
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
			if w.win.Canvas().Focused() != w.plan {
				t.Errorf("panel %d: Esc does not lead from a %T to the plan", i, o)
			}
			w.win.Canvas().Focus(f)
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF6})
			if got := w.win.Canvas().Focused(); got == f || got == nil {
				t.Errorf("panel %d: F6 does not lead on from a %T", i, o)
			}
		})
	}
}

// An outline and its sheet with the keys alone, by a list of legs.
func TestLegsByKeys(t *testing.T) {
	w := open(t, Options{Job: shelf.Blank(geometry.FeetInches)})
	w.Show()
	w.side.turn(tool.Legs)
	w.typed("24' right, 30' up, 24' left, back to start")
	for range 4 {
		w.win.Canvas().FocusNext()
		if b, ok := w.win.Canvas().Focused().(*form.Button); ok && b.Text == "Draw it" {
			w.pressed(fyne.KeyReturn)
			break
		}
	}
	if o := w.doc.Plan().Outline; len(o) != 4 || o.Length(1) != 30*ft {
		t.Fatalf("the outline is %v", o.Corners())
	}
	if w.win.Canvas().Focused() != w.plan {
		t.Errorf("the focus is on a %T of the page that is gone", w.win.Canvas().Focused())
	}
	w.side.turn(tool.Sections)
	form.Visit(w.side.object, func(o fyne.CanvasObject) {
		if b, ok := o.(*form.Button); ok && b.Text == "New section" {
			w.win.Canvas().Focus(b)
		}
	})
	w.pressed(fyne.KeyReturn)
	if f, ok := w.win.Canvas().Focused().(fyne.CanvasObject); !ok || len(form.PathTo(w.side.object, f)) == 0 || len(w.doc.Plan().Sections) != 2 {
		t.Errorf("with %d sections the focus is on a %T outside the page", len(w.doc.Plan().Sections), w.win.Canvas().Focused())
	}
}

func TestGreeting(t *testing.T) {
	w := open(t, Options{Job: hands.Demo(t), Welcome: true})
	w.Show()
	if !w.greeting.Visible() {
		t.Fatal("the first run does not greet")
	}
	if p := w.plan.Size(); p.Height < 500 || !w.plan.Visible() {
		t.Errorf("the greeting leaves %v of the plan", p)
	}
	form.Visit(w.greeting, func(o fyne.CanvasObject) {
		if b, ok := o.(*form.Button); ok && b.Text == "Start a blank sheet" {
			b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		}
	})
	if w.greeting.Visible() || !w.doc.Blank() {
		t.Errorf("after the button the greeting is shown: %v, the sheet is blank: %v", w.greeting.Visible(), w.doc.Blank())
	}
	w = open(t, Options{Job: hands.Demo(t)})
	if w.greeting.Visible() {
		t.Error("a later run greets")
	}
}
