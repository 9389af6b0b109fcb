package form

import (
	"errors"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"haunchbook.example/app/window/bind"
	"haunchbook.example/geometry"
)

type plainDesk struct{}

func (plainDesk) Units() geometry.Units { return geometry.FeetInches }
func (plainDesk) Say(string)            {}
func (plainDesk) Hint(string)           {}

// A long note is kept whenever who types it pauses, as it is then; leaving the field
// keeps the rest, Esc has the value as it was before.
func TestTypingIsKeptAfterAPause(t *testing.T) {
	test.NewTempApp(t)
	var pause func()
	usual := afterPause
	t.Cleanup(func() { afterPause = usual })
	afterPause = func(f func()) func() {
		pause = f
		return func() { pause = func() {} }
	}
	value, kept := "before", 0
	refuse := error(nil)
	f := New(plainDesk{})
	f.Lines("Notes", bind.Text{Get: func() string { return value }, Set: func(s string) error {
		if refuse == nil {
			value = s
			kept++
		}
		return refuse
	}})
	w := test.NewTempWindow(t, f.Box)
	w.Resize(fyne.NewSize(600, 200))
	var e *Entry
	Visit(f.Box, func(o fyne.CanvasObject) {
		if x, ok := o.(*Entry); ok {
			e = x
		}
	})
	w.Canvas().Focus(e)
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	test.Type(e, " long")
	if value != "before" {
		t.Errorf("kept while it is typed: %q", value)
	}
	pause()
	if value != "before long" || e.Text != value {
		t.Errorf("after a pause %q is kept of %q", value, e.Text)
	}
	f.Sync() // as after every change
	test.Type(e, " note ")
	pause()
	if value != "before long note " || e.Text != "before long note " {
		t.Errorf("after another %q is kept of %q", value, e.Text)
	}
	pause() // nothing was typed since
	if kept != 2 {
		t.Errorf("kept %d times", kept)
	}
	refuse = errors.New("no")
	test.Type(e, "bad")
	pause()
	if value != "before long note " || e.Text != "before long note bad" {
		t.Errorf("refused, and there is %q of %q", value, e.Text)
	}
	refuse = nil
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if value != "before" || e.Text != "before" {
		t.Errorf("taken back there is %q, shown as %q", value, e.Text)
	}
	w.Canvas().Focus(e)
	test.Type(e, "x")
	w.Canvas().Unfocus()
	if pause(); value != e.Text || value == "before" {
		t.Errorf("left, there is %q of %q", value, e.Text)
	}
}
