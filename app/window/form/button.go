package form

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/look"
	"haunchbook.example/app/window/words"
)

// Button is a button that Enter presses too, and that Esc leaves.
type Button struct {
	widget.Button
	held bool // it has the keys
}

// NewButton gives a button; its icon may be nil and its text "".
func NewButton(text string, icon fyne.Resource, tap func()) *Button {
	b := &Button{}
	b.Text, b.Icon, b.OnTapped = brief(words.Say(text)), icon, tap
	b.ExtendBaseWidget(b)
	return b
}

// Do is a button of a name alone.
func Do(text string, tap func()) *Button { return NewButton(text, nil, tap) }

// Strong makes the button the one that is meant to be pressed.
func (b *Button) Strong() *Button { b.Importance = widget.HighImportance; return b }

// Faint makes it step back.
func (b *Button) Faint() *Button { b.Importance = widget.LowImportance; return b }

// Leading starts its text at the left, as of a row of a list.
func (b *Button) Leading() *Button { b.Alignment = widget.ButtonAlignLeading; return b }

// NewRemove gives a bin at the end of a row.
func NewRemove(tap func()) *Button { return NewButton("", theme.DeleteIcon(), tap).Faint() }

// SetText shows another text.
func (b *Button) SetText(text string) {
	if text = brief(words.Say(text)); b.Text != text {
		b.Button.SetText(text)
	}
}

// NewTwice gives a button that asks once more before it acts, by what it says then.
func NewTwice(text, sure string, tap func()) *Button {
	var b *Button
	asked := false
	b = Do(text, func() {
		if !asked {
			asked = true
			b.Importance = widget.DangerImportance
			b.SetText(sure)
			return
		}
		tap()
	})
	return b
}

// CreateRenderer implements fyne.Widget. The toolkit darkens a button that has the
// keys; ours has a ring.
func (b *Button) CreateRenderer() fyne.WidgetRenderer {
	return newRimmed(b.Button.CreateRenderer(), func() color.Color { return ring(b.held) })
}

// FocusGained implements fyne.Focusable.
func (b *Button) FocusGained() {
	b.held = true
	b.Refresh()
	reveal(b)
}

// FocusLost implements fyne.Focusable.
func (b *Button) FocusLost() {
	b.held = false
	b.Refresh()
}

// TypedKey implements fyne.Focusable.
func (b *Button) TypedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter:
		if !b.Disabled() && b.OnTapped != nil {
			b.OnTapped()
		}
	case !HandOn(b, k.Name):
		b.Button.TypedKey(k)
	}
}

// Able lets a thing be used, or not.
func Able(o fyne.Disableable, on bool) {
	switch {
	case on && o.Disabled():
		o.Enable()
	case !on && !o.Disabled():
		o.Disable()
	}
}

// Select is a drop-down list that Esc leaves. Choosing from it gives the keys back;
// the arrow keys step through it.
type Select struct {
	widget.Select
	options  []string // in English, as they are chosen
	held     bool     // it has the keys
	stepping bool
	quiet    bool // what is shown is being brought up to date
}

// NewSelect gives a list of options, the first chosen; chosen is called when another
// is.
func NewSelect(options []string, chosen func(string)) *Select {
	s := &Select{options: options}
	s.Options = words.Each(options)
	if len(options) > 0 {
		s.Selected = s.Options[0]
	}
	s.OnChanged = func(v string) {
		if s.quiet {
			return
		}
		if i := slices.Index(s.Options, v); i >= 0 && chosen != nil {
			chosen(s.options[i])
		}
		if !s.stepping {
			HandOn(s, KeyDone)
		}
	}
	s.ExtendBaseWidget(s)
	return s
}

// ShowOptions shows options and which of them is chosen, of which nobody is told.
func (s *Select) ShowOptions(options []string, chosen string) {
	s.quiet = true
	s.options, s.Options = options, words.Each(options)
	if chosen = words.Say(chosen); s.Selected != chosen {
		s.SetSelected(chosen)
	}
	s.quiet = false
}

// CreateRenderer implements fyne.Widget. It has the frame of a field.
func (s *Select) CreateRenderer() fyne.WidgetRenderer {
	return newRimmed(s.Select.CreateRenderer(), func() color.Color {
		if s.held {
			return look.Shade(theme.ColorNamePrimary) // as a field that has the keys
		}
		return look.Shade(theme.ColorNameInputBorder)
	})
}

// FocusGained implements fyne.Focusable.
func (s *Select) FocusGained() {
	s.held = true
	s.Refresh()
	reveal(s)
}

// FocusLost implements fyne.Focusable.
func (s *Select) FocusLost() {
	s.held = false
	s.Refresh()
}

// TypedKey implements fyne.Focusable.
func (s *Select) TypedKey(k *fyne.KeyEvent) {
	if HandOn(s, k.Name) {
		return
	}
	s.stepping = k.Name == fyne.KeyLeft || k.Name == fyne.KeyRight
	s.Select.TypedKey(k)
	s.stepping = false
}

// Check is a tick box that Esc leaves.
type Check struct{ widget.Check }

// NewCheck gives a tick box.
func NewCheck(text string, changed func(bool)) *Check {
	c := &Check{}
	c.Text, c.OnChanged = words.Say(text), changed
	c.ExtendBaseWidget(c)
	return c
}

// FocusGained implements fyne.Focusable.
func (c *Check) FocusGained() {
	c.Check.FocusGained()
	reveal(c)
}

// TypedKey implements fyne.Focusable.
func (c *Check) TypedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter:
		c.TypedRune(' ')
	case !HandOn(c, k.Name):
		c.Check.TypedKey(k)
	}
}

// newChoice gives a list that is bound to a value, and what brings it up to date.
func newChoice(d Desk, options func() []string, get func() string, set func(string) error) (s *Select, show func()) {
	s = NewSelect(nil, func(v string) {
		if v != get() {
			tell(d, set(v))
		}
	})
	show = func() { s.ShowOptions(options(), get()) }
	show()
	return s, show
}

// NewBoundCheck gives a tick box that is bound to a value, and what brings it up to
// date.
func NewBoundCheck(d Desk, label string, get func() bool, set func(bool) error) (o fyne.CanvasObject, show func()) {
	c := NewCheck(label, func(v bool) {
		if v != get() {
			tell(d, set(v))
		}
	})
	c.Checked = get()
	return c, func() {
		if g := get(); c.Checked != g {
			c.SetChecked(g)
		}
	}
}
