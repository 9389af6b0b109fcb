package window

import (
	"testing"

	"fyne.io/fyne/v2"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
)

// draw starts a blank sheet and draws a rectangle of 30 by 24 feet.
func (w *Window) draw(t *testing.T) {
	t.Helper()
	w.newJob()
	w.win.Canvas().Focus(w.plan)
	w.typed("r30 x 24<Return>")
	if len(w.doc.Plan().Outline) != 4 {
		t.Fatalf("the outline is %v", w.doc.Plan().Outline.Corners())
	}
}

// mod types a key with modifier keys held.
func (w *Window) mod(m tool.Mods, key string) {
	was := w.plan.Mods
	w.plan.Mods = func() tool.Mods { return m }
	w.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyName(key)})
	w.plan.Mods = was
}

// text types what <> of typed would take for keys.
func (w *Window) text(s string) {
	for _, r := range s {
		w.win.Canvas().Focused().TypedRune(r)
	}
}

// chain gives how many points are drawn, and chained one of them.
func chain(w *Window) int {
	if c, ok := w.machine.State().(*tool.Chain); ok {
		return len(c.Points)
	}
	return -1
}

func chained(w *Window, i int) geometry.Point {
	if i < chain(w) {
		return w.machine.State().(*tool.Chain).Points[i]
	}
	return pt(-1, -1)
}

func (w *Window) pressed(key fyne.KeyName) {
	if f := w.win.Canvas().Focused(); f != nil {
		f.TypedKey(&fyne.KeyEvent{Name: key})
		return
	}
	w.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: key})
}
