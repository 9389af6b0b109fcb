package form

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/words"
)

// Entry is a text entry that hands over what was typed on Enter and when it loses
// the focus. What gets the focus is selected whole, so that typing replaces it; Esc
// takes back what was typed and leaves.
type Entry struct {
	widget.Entry
	// Commit takes what was typed; false where it is refused, and stays to be mended.
	Commit func(string) bool
	// Typed is called with the text while it is typed.
	Typed func(string)
	// Back takes back what was typed, and tells whether anything was.
	Back func() bool
	// Done is called after Enter took the value; nil gives the keys back.
	Done func()
	// Down is called with the arrow down; nil leaves it to the text.
	Down func()
	// Full is called where more was typed than it takes, once that is cut off.
	Full func()
	// Held is called when it gets the focus, with true, and when it loses it.
	Held func(bool)

	most    int // letters that it takes
	found   func(string)
	cell    bool // of a table
	search  bool // emptied by Esc before it is left
	focused bool
	fresh   *desktop.MouseEvent // the press that gave it the focus, while it may become a drag
}

// NewEntry gives an entry without a meaning.
func NewEntry() *Entry {
	e := &Entry{most: letters}
	e.ExtendBaseWidget(e)
	e.OnSubmitted = func(s string) {
		if e.Commit != nil && !e.Commit(s) {
			return
		}
		if e.Done != nil {
			e.Done()
		} else {
			HandOn(e, KeyDone)
		}
		if e.focused && !e.MultiLine {
			e.SelectAll()
		}
	}
	e.OnChanged = func(s string) {
		if c, over := cut(s, e.most); over {
			e.SetText(c)
			if e.Full != nil {
				e.Full()
			}
			return
		}
		if e.found != nil {
			e.found(s)
		}
		if e.focused && e.Typed != nil {
			e.Typed(s)
		}
	}
	return e
}

// Letters that an entry takes: of one line, which is drawn as a whole however little of
// it has room, and of several. In several a letter beyond the first alphabets counts as
// four: the toolkit takes long over breaking lines of them.
const (
	letters     = 200
	manyLetters = 2000
)

// cut gives as much of a text as there may be, and tells whether there was more.
func cut(s string, most int) (string, bool) {
	if len(s) <= most {
		return s, false
	}
	n := 0
	for i, r := range s {
		n++
		if most > letters && r > 0x2fff {
			n += 3
		}
		if n > most {
			return s[:i], true
		}
	}
	return s, false
}

// brief gives the beginning of a text that is shown in one line.
func brief(s string) string {
	if c, over := cut(s, letters); over {
		return c + "…"
	}
	return s
}

// NewWords gives an entry of several lines, which wrap: Enter begins another, and
// leaving it hands over the text. It is not selected whole.
func NewWords(rows int) *Entry {
	e := NewEntry()
	e.MultiLine, e.most = true, manyLetters
	e.Wrapping = fyne.TextWrapWord
	e.SetMinRowsVisible(rows)
	return e
}

// TypedShortcut implements fyne.Shortcutable: no more is pasted than it takes, and what
// it has no use for is the window's, as is undoing.
func (e *Entry) TypedShortcut(s fyne.Shortcut) {
	var p *fyne.ShortcutPaste
	switch s := s.(type) {
	case *fyne.ShortcutPaste:
		p = s
	case *fyne.ShortcutCopy, *fyne.ShortcutCut, *fyne.ShortcutSelectAll:
		e.Entry.TypedShortcut(s)
		return
	case *fyne.ShortcutUndo, *fyne.ShortcutRedo:
		handOnShortcut(e, s)
		return
	default:
		e.Entry.TypedShortcut(s)
		handOnShortcut(e, s)
		return
	}
	c, over := cut(p.Clipboard.Content(), e.most)
	e.Entry.TypedShortcut(&fyne.ShortcutPaste{Clipboard: pasted(c)})
	if over && e.Full != nil {
		e.Full()
	}
}

// pasted is a clipboard of a text.
type pasted string

func (p pasted) Content() string   { return string(p) }
func (p pasted) SetContent(string) {}

// Focused tells whether it is being typed in.
func (e *Entry) Focused() bool { return e.focused }

// SelectAll selects the text.
func (e *Entry) SelectAll() { e.TypedShortcut(&fyne.ShortcutSelectAll{}) }

// FocusGained implements fyne.Focusable.
func (e *Entry) FocusGained() {
	e.focused = true
	e.settle()
	e.Entry.FocusGained()
	if !e.MultiLine {
		e.SelectAll()
	}
	reveal(e)
	if e.Held != nil {
		e.Held(true)
	}
}

// FocusLost implements fyne.Focusable.
func (e *Entry) FocusLost() {
	e.focused = false
	e.settle()
	e.Entry.FocusLost()
	if e.Held != nil {
		e.Held(false)
	}
	if e.Commit != nil {
		e.Commit(e.Text)
	}
}

// MouseDown implements desktop.Mouseable: the click that gives the focus selects
// all; the next ones go where they point.
func (e *Entry) MouseDown(m *desktop.MouseEvent) {
	e.fresh = nil
	first := !e.focused && !e.MultiLine && m.Button == desktop.MouseButtonPrimary
	e.Entry.MouseDown(m)
	if first && e.focused {
		e.SelectAll()
		e.fresh = m
	}
}

// Dragged implements fyne.Draggable: a drag selects from where it began.
func (e *Entry) Dragged(d *fyne.DragEvent) {
	if e.fresh != nil {
		e.Entry.MouseDown(e.fresh)
		e.fresh = nil
	}
	e.Entry.Dragged(d)
}

// DoubleTapped implements fyne.DoubleTappable. A length such as 6'-0" is no words to
// choose among.
func (e *Entry) DoubleTapped(p *fyne.PointEvent) {
	if e.MultiLine {
		e.Entry.DoubleTapped(p)
	} else {
		e.SelectAll()
	}
}

// TypedKey implements fyne.Focusable.
func (e *Entry) TypedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name == fyne.KeyEscape && e.search && e.Text != "":
		e.SetText("")
	case k.Name == fyne.KeyEscape && e.Back != nil && e.Back():
		HandOn(e, KeyDone)
		if c := fyne.CurrentApp().Driver().CanvasForObject(e); c != nil && c.Focused() == fyne.Focusable(e) {
			c.Unfocus()
		}
	case k.Name == fyne.KeyDown && e.Down != nil:
		e.Down()
	case !HandOn(e, k.Name):
		e.Entry.TypedKey(k)
	}
}

// AcceptsTab implements fyne.Tabbable: Tab goes on to the next field from one of
// several lines, too.
func (e *Entry) AcceptsTab() bool { return false }

// settle gives the wheel to the page around a field. A field that can move its
// text takes the wheel even where there is nothing to move, so that a page could
// not be turned past its fields: only the field being typed in, or one whose text
// does not fit, may.
func (e *Entry) settle() {
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
func (e *Entry) fits() bool {
	room := e.Size().Width - 2*theme.InnerPadding() - 2*theme.InputBorderSize()
	return fyne.MeasureText(e.Text, theme.TextSize(), e.TextStyle).Width <= room
}

// Resize implements fyne.CanvasObject.
func (e *Entry) Resize(s fyne.Size) {
	e.Entry.Resize(s)
	e.settle()
}

// SetText replaces the text. What was selected of the old one is not: the toolkit would
// let the second letter typed replace the first.
func (e *Entry) SetText(s string) {
	selected := e.SelectedText() != ""
	e.Entry.SetText(s)
	if selected {
		e.Entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	}
	e.settle()
}

// SetPlaceHolder says what is to be typed.
func (e *Entry) SetPlaceHolder(hint string) { e.Entry.SetPlaceHolder(words.Say(hint)) }

// NewSearch gives an entry that finds as one types; Esc empties it, then leaves.
func NewSearch(hint string, found func(string), enter func()) *Entry {
	e := NewEntry()
	e.SetPlaceHolder(hint)
	e.search, e.found, e.Done = true, found, enter
	return e
}
