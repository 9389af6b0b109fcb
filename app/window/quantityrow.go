package window

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// quantityRow is a name and a figure on one line that can be opened.
type quantityRow struct {
	widget.BaseWidget
	name, value string
	faint       bool
	plain       bool // has nothing to open
	open, hover bool
	focused     bool
	tap         func()
}

func newQuantityRow(tap func()) *quantityRow {
	r := &quantityRow{tap: tap}
	r.ExtendBaseWidget(r)
	return r
}

func (r *quantityRow) set(name, value string, faint bool) {
	if r.name == name && r.value == value && r.faint == faint {
		return
	}
	r.name, r.value, r.faint = name, value, faint
	r.Refresh()
}

// Tapped implements fyne.Tappable.
func (r *quantityRow) Tapped(*fyne.PointEvent) { r.tap() }

// MouseIn implements desktop.Hoverable.
func (r *quantityRow) MouseIn(*desktop.MouseEvent) { r.hover = true; r.Refresh() }

// MouseMoved implements desktop.Hoverable.
func (r *quantityRow) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (r *quantityRow) MouseOut() { r.hover = false; r.Refresh() }

// FocusGained implements fyne.Focusable.
func (r *quantityRow) FocusGained() {
	r.focused = true
	r.Refresh()
	reveal(r)
}

// FocusLost implements fyne.Focusable.
func (r *quantityRow) FocusLost() { r.focused = false; r.Refresh() }

// TypedRune implements fyne.Focusable.
func (r *quantityRow) TypedRune(c rune) {
	if c == ' ' {
		r.tap()
	}
}

// TypedKey implements fyne.Focusable.
func (r *quantityRow) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter {
		r.tap()
		return
	}
	handOn(r, k)
}

// CreateRenderer implements fyne.Widget.
func (r *quantityRow) CreateRenderer() fyne.WidgetRenderer {
	v := &rowRenderer{
		r: r, ground: canvas.NewRectangle(color.Transparent),
		sign: canvas.NewText("", color.Transparent), name: canvas.NewText("", color.Transparent), value: canvas.NewText("", color.Transparent),
	}
	v.value.Alignment = fyne.TextAlignTrailing
	v.Refresh()
	return v
}

type rowRenderer struct {
	r                 *quantityRow
	ground            *canvas.Rectangle
	sign, name, value *canvas.Text
}

func (v *rowRenderer) MinSize() fyne.Size {
	return fyne.NewSize(180, v.value.MinSize().Height+6)
}

func (v *rowRenderer) Layout(s fyne.Size) {
	v.ground.Resize(s)
	w := v.value.MinSize().Width
	v.value.TextStyle.Bold, v.value.TextStyle.Italic = false, false
	y := (s.Height - v.name.MinSize().Height) / 2
	v.value.TextStyle.Bold, v.value.TextStyle.Italic = !v.r.faint, v.r.faint
	v.sign.Move(fyne.NewPos(4, y))
	v.value.Move(fyne.NewPos(s.Width-w-6, y))
	v.value.Resize(fyne.NewSize(w, v.value.MinSize().Height))
	v.name.Move(fyne.NewPos(18, y))
	// A name that has no room ends in dots rather than under the figure.
	name := v.r.name
	room := s.Width - w - 32
	v.name.Text = name
	for v.name.MinSize().Width > room && len(name) > 3 {
		rs := []rune(name)
		name = string(rs[:len(rs)-1])
		v.name.Text = name + "…"
	}
}

func (v *rowRenderer) Refresh() {
	v.sign.Text = "▸"
	if v.r.open {
		v.sign.Text = "▾"
	}
	if v.r.plain {
		v.sign.Text = ""
	}
	v.name.Text, v.value.Text = v.r.name, v.r.value
	ink := shade(theme.ColorNameForeground)
	if v.r.faint {
		ink = shade(theme.ColorNamePlaceHolder)
	}
	for _, t := range []*canvas.Text{v.sign, v.name, v.value} {
		t.Color, t.TextSize = ink, 13
	}
	v.sign.Color = shade(theme.ColorNamePlaceHolder)
	v.value.TextStyle.Bold = !v.r.faint
	v.value.TextStyle.Italic = v.r.faint
	v.ground.FillColor = color.Transparent
	if v.r.hover || v.r.focused {
		v.ground.FillColor = shade(theme.ColorNameHover)
	}
	v.ground.StrokeWidth = 0
	if v.r.focused {
		v.ground.StrokeColor, v.ground.StrokeWidth = shade(theme.ColorNameFocus), 2
	}
	v.Layout(v.r.Size())
	v.ground.Refresh()
	v.sign.Refresh()
	v.name.Refresh()
	v.value.Refresh()
}

func (v *rowRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{v.ground, v.sign, v.name, v.value}
}

func (v *rowRenderer) Destroy() {}
