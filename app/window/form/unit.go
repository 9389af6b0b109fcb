package form

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/look"
	"haunchbook.example/app/window/words"
)

// newUnit is the unit at the end of a field.
func newUnit() *canvas.Text {
	t := canvas.NewText("", nil)
	t.TextSize = theme.CaptionTextSize()
	return t
}

// showUnit shows the unit that a bare number is in, where the text has not got it.
func (f *Field) showUnit() {
	text := ""
	if f.text.Unit != nil {
		text = words.Say(f.text.Unit())
	}
	if text != "" && strings.HasSuffix(strings.TrimSpace(f.Text), text) {
		text = ""
	}
	ink := look.Shade(theme.ColorNamePlaceHolder)
	if f.unit.Text != text || f.unit.Color != ink {
		f.unit.Text, f.unit.Color = text, ink
		f.unit.Refresh()
	}
	f.placeUnit()
}

// placeUnit puts the unit at the end of the field, or hides it where the text needs
// the room.
func (f *Field) placeUnit() {
	s, m := f.Entry.Size(), f.unit.MinSize()
	f.unit.Resize(m)
	f.unit.Move(fyne.NewPos(s.Width-m.Width-theme.InnerPadding(), (s.Height-m.Height)/2))
	text := fyne.MeasureText(f.Text, theme.TextSize(), f.TextStyle).Width
	room := s.Width == 0 || text+m.Width+3*theme.InnerPadding() <= s.Width // 0 before it is laid out
	Seen(f.unit, f.unit.Text != "" && room)
}

// united lays out a field with its unit over its end.
type united struct{ f *Field }

func (u *united) Layout(_ []fyne.CanvasObject, s fyne.Size) {
	u.f.Entry.Resize(s)
	u.f.placeUnit()
}

func (u *united) MinSize([]fyne.CanvasObject) fyne.Size { return u.f.Entry.MinSize() }

// Name is the label of a field, which says what the field is while the pointer is over
// it.
type Name struct {
	widget.Label
	over func(bool)
}

func newName(text string, over func(bool)) *Name {
	n := &Name{over: over}
	n.Text, n.Truncation = words.Say(text), fyne.TextTruncateEllipsis
	n.ExtendBaseWidget(n)
	return n
}

// sized is a label that can be written smaller.
type sized interface{ fit(room float32) }

// fit writes the label smaller where it has no room.
func (n *Name) fit(room float32) {
	size := theme.SizeNameText
	if fyne.MeasureText(n.Text, theme.TextSize(), n.TextStyle).Width+2*theme.InnerPadding() > room {
		size = theme.SizeNameCaptionText
	}
	if n.SizeName != size {
		n.SizeName = size
		n.Refresh()
	}
}

// MouseIn implements desktop.Hoverable.
func (n *Name) MouseIn(*desktop.MouseEvent) { n.over(true) }

// MouseMoved implements desktop.Hoverable.
func (n *Name) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (n *Name) MouseOut() { n.over(false) }
