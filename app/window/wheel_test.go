package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// A field takes the wheel to itself only while it is typed in or hides a part of
// its text.
func TestFieldsLeaveTheWheelToThePage(t *testing.T) {
	test.NewTempApp(t)
	e := newEntry()
	win := test.NewTempWindow(t, e)
	takes := func() bool {
		for _, o := range test.WidgetRenderer(e).Objects() {
			if _, ok := o.(fyne.Scrollable); ok && o.Visible() {
				return true
			}
		}
		return false
	}
	e.Resize(fyne.NewSize(120, 36))
	for _, c := range []struct {
		name string
		do   func()
		want bool
	}{
		{"a short text", func() { e.SetText("12'-6\"") }, false},
		{"the focus", func() { win.Canvas().Focus(e) }, true},
		{"leaving it", func() { win.Canvas().Unfocus() }, false},
		{"a text too long", func() { e.SetText("a text that is far too long for the field") }, true},
		{"a wider field", func() { e.Resize(fyne.NewSize(800, 36)) }, false},
		{"a narrower one", func() { e.Resize(fyne.NewSize(120, 36)) }, true},
	} {
		if c.do(); takes() != c.want {
			t.Errorf("after %s it takes the wheel: %v, want %v", c.name, takes(), c.want)
		}
	}
}
