package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// settle gives the wheel to the page around a field. A field that can move its
// text takes the wheel even where there is nothing to move, so that a page could
// not be turned past its fields: only the field being typed in, or one whose text
// does not fit, may.
func (e *entry) settle() {
	if e.MultiLine {
		return
	}
	scroll := fyne.ScrollBoth
	if !e.focused && e.fits() {
		scroll = fyne.ScrollNone
	}
	if e.Scroll != scroll {
		e.Scroll = scroll
		e.Refresh()
	}
}

// fits tells whether the whole text can be seen.
func (e *entry) fits() bool {
	room := e.Size().Width - 2*theme.InnerPadding() - 2*theme.InputBorderSize()
	return fyne.MeasureText(e.Text, theme.TextSize(), e.TextStyle).Width <= room
}

// Resize implements fyne.CanvasObject.
func (e *entry) Resize(s fyne.Size) {
	e.Entry.Resize(s)
	e.settle()
}

// SetText replaces the text.
func (e *entry) SetText(s string) {
	e.Entry.SetText(s)
	e.settle()
}
