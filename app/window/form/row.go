package form

import (
	"image/color"
	"sort"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/look"
	"haunchbook.example/app/window/words"
)

// Hand is what the pointer and the keys do with a thing that is pressed: it shows
// where they are, and Enter, Space and a click press it.
type Hand struct {
	widget.BaseWidget
	Hover, Held bool // under the pointer; with the focus
	Tap         func()
	of          fyne.Widget
}

// Become makes it a part of a widget.
func (h *Hand) Become(o fyne.Widget, tap func()) {
	h.of, h.Tap = o, tap
	h.ExtendBaseWidget(o)
}

// Tapped implements fyne.Tappable.
func (h *Hand) Tapped(*fyne.PointEvent) { h.Tap() }

// MouseIn implements desktop.Hoverable.
func (h *Hand) MouseIn(*desktop.MouseEvent) { h.Hover = true; h.Refresh() }

// MouseMoved implements desktop.Hoverable.
func (h *Hand) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (h *Hand) MouseOut() { h.Hover = false; h.Refresh() }

// FocusGained implements fyne.Focusable.
func (h *Hand) FocusGained() {
	h.Held = true
	h.Refresh()
	reveal(h.of)
}

// FocusLost implements fyne.Focusable.
func (h *Hand) FocusLost() { h.Held = false; h.Refresh() }

// TypedRune implements fyne.Focusable.
func (h *Hand) TypedRune(r rune) {
	if r == ' ' {
		h.Tap()
	}
}

// TypedKey implements fyne.Focusable.
func (h *Hand) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter {
		h.Tap()
	} else {
		HandOn(h.of, k.Name)
	}
}

// Ground colors what a pressed thing stands on.
func (h *Hand) Ground(r *canvas.Rectangle, on bool) {
	r.FillColor, r.StrokeWidth = color.Transparent, 0
	if h.Hover || h.Held || on {
		r.FillColor = look.Shade(theme.ColorNameHover)
	}
	if h.Held {
		r.StrokeColor, r.StrokeWidth = look.Shade(theme.ColorNameFocus), 2
	}
	r.Refresh()
}

// Row is a name and a figure on one line that can be opened.
type Row struct {
	Hand
	Name, Value string
	faint, open bool
}

// NewRow gives a row without words.
func NewRow(tap func()) *Row {
	r := &Row{}
	r.Become(r, tap)
	return r
}

// Set changes the words, where they differ; a faint row is of less weight.
func (r *Row) Set(name, value string, faint bool) {
	if r.Name != name || r.Value != value || r.faint != faint {
		r.Name, r.Value, r.faint = name, value, faint
		r.Refresh()
	}
}

// Opened tells whether what belongs to it is shown.
func (r *Row) Opened() bool { return r.open }

// CreateRenderer implements fyne.Widget.
func (r *Row) CreateRenderer() fyne.WidgetRenderer {
	v := &rowRenderer{r: r, ground: canvas.NewRectangle(nil), sign: canvas.NewText("", nil), name: canvas.NewText("", nil), value: canvas.NewText("", nil)}
	v.value.Alignment = fyne.TextAlignTrailing
	v.Refresh()
	return v
}

type rowRenderer struct {
	r                 *Row
	ground            *canvas.Rectangle
	sign, name, value *canvas.Text
}

func (v *rowRenderer) MinSize() fyne.Size {
	return fyne.NewSize(180, v.value.MinSize().Height+6)
}

func (v *rowRenderer) Layout(s fyne.Size) {
	v.ground.Resize(s)
	m := v.value.MinSize()
	y := (s.Height - v.name.MinSize().Height) / 2
	v.sign.Move(fyne.NewPos(4, y))
	v.value.Move(fyne.NewPos(s.Width-m.Width-6, y))
	v.value.Resize(m)
	v.name.Move(fyne.NewPos(18, y))
	// A name that has no room ends in dots rather than under the figure.
	Shorten(v.name, words.Say(v.r.Name), s.Width-m.Width-32)
}

func (v *rowRenderer) Refresh() {
	v.sign.Text = "▸"
	if v.r.open {
		v.sign.Text = "▾"
	}
	v.name.Text, v.value.Text = words.Say(v.r.Name), words.Say(v.r.Value)
	ink, faint := look.Shade(theme.ColorNameForeground), look.Shade(theme.ColorNamePlaceHolder)
	if v.r.faint {
		ink = faint
	}
	for _, t := range []*canvas.Text{v.sign, v.name, v.value} {
		t.Color, t.TextSize = ink, 13
	}
	v.sign.Color = faint
	v.value.TextStyle.Bold, v.value.TextStyle.Italic = !v.r.faint, v.r.faint
	v.r.Ground(v.ground, false)
	v.Layout(v.r.Size())
	v.sign.Refresh()
	v.name.Refresh()
	v.value.Refresh()
}

func (v *rowRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{v.ground, v.sign, v.name, v.value}
}

func (v *rowRenderer) Destroy() {}

// Shorten shows as much of a text as has room, with dots for the rest.
func Shorten(t *canvas.Text, text string, room float32) {
	t.Text = text
	if t.MinSize().Width <= room {
		return
	}
	rs := []rune(text)
	n := sort.Search(len(rs), func(n int) bool {
		t.Text = string(rs[:n]) + "…"
		return t.MinSize().Width > room
	})
	t.Text = string(rs[:max(0, n-1)]) + "…"
}

// Fold is a row that opens what is below it, which is made when it is first opened
// and kept up to date while it is open.
type Fold struct {
	*Row
	Box   *fyne.Container // the row and what it opens
	Below *fyne.Container // what it opens
	fill  func(*fyne.Container) (sync func())
	sync  func()
}

// Open remembers which folds are open, by what they are, for when they are made
// anew.
type Open map[string]bool

// NewFold gives a fold of a name to be remembered by; fill puts into it what it
// opens, and gives what brings that up to date, nil for nothing.
func NewFold(o Open, key func() string, fill func(*fyne.Container) (sync func())) *Fold {
	f := &Fold{Below: container.NewVBox(), fill: fill}
	f.Row = NewRow(func() {
		o[key()] = !f.open
		f.Turn(!f.open)
	})
	f.Below.Hide()
	f.Box = container.NewVBox(f.Row, f.Below)
	if o[key()] {
		f.Turn(true)
	}
	return f
}

// Turn opens it or closes it, which is not remembered.
func (f *Fold) Turn(open bool) {
	f.open = open
	if open && f.fill != nil {
		f.sync, f.fill = f.fill(f.Below), nil
	}
	f.Row.Refresh()
	f.Sync()
	Seen(f.Below, open)
}

// Sync brings what is open up to date.
func (f *Fold) Sync() {
	if f.open && f.sync != nil {
		f.sync()
	}
}

// Show is Set and Sync.
func (f *Fold) Show(name, value string, faint bool) {
	f.Set(name, value, faint)
	f.Sync()
}
