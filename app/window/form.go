package window

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/geometry"
)

// form is a column of fields that follow the job: sync shows the present values
// in every field that is not being typed in.
type form struct {
	box   *fyne.Container
	syncs []func()
}

func newForm() *form { return &form{box: container.NewVBox()} }

func (f *form) add(o fyne.CanvasObject, sync func()) {
	f.box.Add(o)
	if sync != nil {
		f.syncs = append(f.syncs, sync)
	}
}

func (f *form) sync() {
	for _, s := range f.syncs {
		s()
	}
}

// heading starts a group of fields.
func (f *form) heading(text string) {
	l := widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	f.add(l, nil)
}

// note adds a line of explanation.
func (f *form) note(text string) { f.add(explanation(text), nil) }

// explanation is a paragraph that steps back behind the fields.
func explanation(text string) *widget.RichText {
	r := widget.NewRichText(&widget.TextSegment{Text: text, Style: widget.RichTextStyle{ColorName: theme.ColorNamePlaceHolder, SizeName: theme.SizeNameText}})
	r.Wrapping = fyne.TextWrapWord
	return r
}

// entry is a text entry that hands over what was typed on Enter and when it
// loses the focus, and takes it back on Esc.
type entry struct {
	widget.Entry
	focused bool
	commit  func(string)
	typed   func(string)
	back    func()
}

func newEntry() *entry {
	e := &entry{}
	e.ExtendBaseWidget(e)
	e.OnSubmitted = func(s string) {
		if e.commit != nil {
			e.commit(s)
		}
	}
	e.OnChanged = func(s string) {
		if e.focused && e.typed != nil {
			e.typed(s)
		}
	}
	return e
}

// FocusGained implements fyne.Focusable.
func (e *entry) FocusGained() {
	e.focused = true
	e.settle()
	e.Entry.FocusGained()
	reveal(e)
}

// FocusLost implements fyne.Focusable.
func (e *entry) FocusLost() {
	e.focused = false
	e.settle()
	e.Entry.FocusLost()
	if e.commit != nil {
		e.commit(e.Text)
	}
}

// TypedKey implements fyne.Focusable.
func (e *entry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		was := e.Text
		if e.back != nil {
			e.back()
		}
		// With nothing to take back, Esc leaves the field.
		if e.Text == was {
			handOn(e, k)
		}
		return
	}
	if !handOn(e, k) {
		e.Entry.TypedKey(k)
	}
}

// AcceptsTab implements fyne.Tabbable: Tab goes on to the next field from one of
// several lines, too.
func (e *entry) AcceptsTab() bool { return false }

// keyButton is a button that Enter presses too, and that Esc leaves.
type keyButton struct {
	widget.Button
	esc func() // nil to leave it as a field is left
}

func newButton(text string, tap func()) *keyButton { return newIconButton(text, nil, tap) }

func newIconButton(text string, icon fyne.Resource, tap func()) *keyButton {
	b := &keyButton{}
	b.Text, b.Icon, b.OnTapped = text, icon, tap
	b.ExtendBaseWidget(b)
	return b
}

// FocusGained implements fyne.Focusable.
func (b *keyButton) FocusGained() {
	b.Button.FocusGained()
	reveal(b)
}

// TypedKey implements fyne.Focusable.
func (b *keyButton) TypedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name == fyne.KeyEscape && b.esc != nil:
		b.esc()
	case k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter:
		if !b.Disabled() && b.OnTapped != nil {
			b.OnTapped()
		}
	case !handOn(b, k):
		b.Button.TypedKey(k)
	}
}

// keySelect is a drop-down list that Esc leaves.
type keySelect struct {
	widget.Select
	esc func() // nil to leave it as a field is left
}

func newSelect(options []string) *keySelect {
	s := &keySelect{}
	s.Options = options
	s.ExtendBaseWidget(s)
	return s
}

// FocusGained implements fyne.Focusable.
func (s *keySelect) FocusGained() {
	s.Select.FocusGained()
	reveal(s)
}

// TypedKey implements fyne.Focusable.
func (s *keySelect) TypedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name == fyne.KeyEscape && s.esc != nil:
		s.esc()
	case !handOn(s, k):
		s.Select.TypedKey(k)
	}
}

// keyCheck is a tick box that Esc leaves.
type keyCheck struct {
	widget.Check
	esc func() // nil to leave it as a field is left
}

func newCheck(text string, changed func(bool)) *keyCheck {
	c := &keyCheck{}
	c.Text, c.OnChanged = text, changed
	c.ExtendBaseWidget(c)
	return c
}

// FocusGained implements fyne.Focusable.
func (c *keyCheck) FocusGained() {
	c.Check.FocusGained()
	reveal(c)
}

// TypedKey implements fyne.Focusable.
func (c *keyCheck) TypedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name == fyne.KeyEscape && c.esc != nil:
		c.esc()
	case k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter:
		c.TypedRune(' ')
	case !handOn(c, k):
		c.Check.TypedKey(k)
	}
}

// field is a labeled entry with its error, or the meaning of what is being
// typed, beside it.
type inputField struct {
	entry *entry
	note  *widget.Label
	row   fyne.CanvasObject
}

// text adds a field for a value that get gives as text and set takes as text;
// meaning, if not nil, says how text would be read.
func (f *form) text(label string, get func() string, set func(string) error, meaning func(string) (string, error)) *inputField {
	e := newEntry()
	note := widget.NewLabel("")
	note.Wrapping = fyne.TextWrapWord
	note.SizeName = theme.SizeNameCaptionText
	note.Hide()
	fl := &inputField{entry: e, note: note}
	say := func(text string, bad bool) {
		if text == "" {
			note.Hide()
			return
		}
		note.Importance = widget.MediumImportance
		if bad {
			note.Importance = widget.DangerImportance
			text = "! " + text
		}
		note.SetText(text)
		note.Show()
	}
	shown := ""
	show := func() {
		shown = get()
		if e.Text != shown {
			e.SetText(shown)
		}
	}
	e.commit = func(s string) {
		if s == shown || strings.TrimSpace(s) == strings.TrimSpace(get()) {
			say("", false)
			return
		}
		if err := set(s); err != nil {
			say(err.Error(), true)
			return
		}
		say("", false)
		show()
	}
	e.typed = func(s string) {
		if meaning == nil || s == shown {
			say("", false)
			return
		}
		m, err := meaning(s)
		if err != nil {
			say(err.Error(), true)
			return
		}
		say("= "+m, false)
	}
	e.back = func() {
		show()
		say("", false)
	}
	show()
	l := widget.NewLabel(label)
	l.Truncation = fyne.TextTruncateEllipsis
	fl.row = container.NewVBox(container.New(&labeled{}, l, e), note)
	f.add(fl.row, func() {
		if !e.focused {
			if g := get(); g != shown {
				show()
				say("", false)
			}
		}
	})
	return fl
}

// length adds a field for a length.
func (f *form) length(label string, units func() geometry.Units, get func() geometry.Length, set func(geometry.Length) error) *inputField {
	return f.text(label,
		func() string { return lengthText(get(), units()) },
		func(s string) error {
			l, err := geometry.ParseLength(s, units().Foot())
			if err != nil {
				return err
			}
			return set(l)
		},
		func(s string) (string, error) {
			l, err := geometry.ParseLength(s, units().Foot())
			return lengthText(l, units()), err
		})
}

// lengthText prints a length so that nothing is hidden by rounding.
func lengthText(l geometry.Length, u geometry.Units) string {
	if u == geometry.FeetInches && l.Round(geometry.Sixteenth) == l || u == geometry.Millimeters && l%geometry.Millimeter == 0 {
		return l.Text(u)
	}
	return l.Exact(u)
}

// choice adds a drop-down list.
func (f *form) choice(label string, options func() []string, get func() string, set func(string)) *keySelect {
	s := newSelect(options())
	quiet := true
	s.OnChanged = func(v string) {
		if !quiet && v != get() {
			set(v)
		}
	}
	show := func() {
		quiet = true
		s.Options = options()
		if g := get(); s.Selected != g {
			s.SetSelected(g)
		}
		quiet = false
	}
	show()
	l := widget.NewLabel(label)
	l.Truncation = fyne.TextTruncateEllipsis
	f.add(container.New(&labeled{}, l, s), show)
	return s
}

// check adds a tick box.
func (f *form) check(label string, get func() bool, set func(bool)) *keyCheck {
	c := newCheck(label, nil)
	c.Checked = get()
	c.OnChanged = func(v bool) {
		if v != get() {
			set(v)
		}
	}
	f.add(c, func() {
		if g := get(); c.Checked != g {
			c.SetChecked(g)
		}
	})
	return c
}

// buttons adds a row of buttons.
func (f *form) buttons(bs ...fyne.CanvasObject) {
	f.add(container.New(layout.NewGridLayoutWithColumns(len(bs)), bs...), nil)
}

// labeled lays out a label and what it labels: two fifths to three.
type labeled struct{}

func (labeled) Layout(os []fyne.CanvasObject, s fyne.Size) {
	w := s.Width * 0.44
	h := os[0].MinSize().Height
	os[0].Resize(fyne.NewSize(w, h))
	os[0].Move(fyne.NewPos(0, (s.Height-h)/2))
	os[1].Resize(fyne.NewSize(s.Width-w, s.Height))
	os[1].Move(fyne.NewPos(w, 0))
}

func (labeled) MinSize(os []fyne.CanvasObject) fyne.Size {
	a, b := os[0].MinSize(), os[1].MinSize()
	return fyne.NewSize(max(b.Width/0.56, 160), max(a.Height, b.Height))
}

// rule is a thin line between groups.
func divider() fyne.CanvasObject { return widget.NewSeparator() }

// strut keeps a thing at least so wide and high.
func strut(w, h float32) fyne.CanvasObject {
	r := canvas.NewRectangle(color.Transparent)
	r.SetMinSize(fyne.NewSize(w, h))
	return r
}
