package form

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/words"
)

// Field is an entry for a value, with a line that says what is wrong with what was
// typed or how it is read.
type Field struct {
	*Entry
	Note  *widget.Label
	Box   fyne.CanvasObject // the entry, with the unit of a bare number at its end
	text  bind.Text
	unit  *canvas.Text
	shown string
	bad   bool // what is typed was refused
	said  bool // the note's text is this field's

	before *string // the value before what was typed was first kept; nil while nothing was
	stop   func()  // has what is being typed not be kept
}

// newField gives a field whose note is shown elsewhere.
func newField(t bind.Text, note *widget.Label) *Field {
	f := &Field{Entry: NewEntry(), Note: note, text: t, unit: newUnit()}
	f.Box = container.New(&united{f}, f.Entry, f.unit)
	f.Commit = f.take
	f.Typed = f.read
	f.Full = func() { f.say(fmt.Sprintf("it takes %d letters; the rest is cut off", f.most), true) }
	f.Back = func() bool {
		back := f.Text != f.shown || f.bad || f.before != nil
		f.takeBack()
		f.reset()
		return back
	}
	f.reset()
	return f
}

// take hands over what was typed.
func (f *Field) take(s string) bool {
	f.leave()
	if s == f.shown || s == f.text.Get() || strings.TrimSpace(s) == strings.TrimSpace(f.text.Get()) {
		f.ask()
		return true
	}
	if strings.HasSuffix(f.shown, more) && f.shown != f.text.Get() && strings.Contains(s, more) {
		f.say("the text is longer than this field shows, and is kept as it is; to change it, write all of it anew", true)
		return false
	}
	if err := f.text.Set(s); err != nil {
		f.say(err.Error(), true)
		return false
	}
	f.reset()
	return true
}

// read says how what is being typed would be taken.
func (f *Field) read(s string) {
	f.showUnit()
	if s == f.shown {
		f.ask()
	} else if f.text.Meaning == nil {
		f.say("", false)
	} else if m, err := f.text.Meaning(s); err != nil {
		f.say(err.Error(), true)
	} else {
		f.say("= "+m, false)
	}
}

// reset shows the value as it is.
func (f *Field) reset() {
	if f.shown = f.get(); f.Text != f.shown {
		f.SetText(f.shown)
	}
	f.showUnit()
	f.ask()
}

// get gives the value as far as the field takes it.
func (f *Field) get() string {
	c, over := cut(f.text.Get(), f.most)
	if over {
		r := []rune(c)
		c = string(r[:len(r)-1]) + more
	}
	return c
}

// more stands where a text goes on.
const more = "…"

// ask says what there is to ask about the value as it is. It is no fault.
func (f *Field) ask() {
	question := ""
	if f.text.Ask != nil {
		question = f.text.Ask()
	}
	f.say(question, false)
	if question != "" {
		f.Note.Importance = widget.WarningImportance
		f.Note.Refresh()
	}
}

// Sync shows the present value, unless it is being typed in.
func (f *Field) Sync() {
	if !f.focused && f.get() != f.shown {
		f.reset()
	}
}

// say shows a text below the field; "" takes its own away.
func (f *Field) say(text string, bad bool) {
	was := f.said
	f.said, f.bad = text != "", bad
	if text == "" {
		if was {
			f.Note.Hide()
		}
		return
	}
	f.Note.Importance = widget.MediumImportance
	if bad {
		f.Note.Importance = widget.DangerImportance
		text = "! " + text
	}
	f.Note.SetText(words.Say(text))
	f.Note.Show()
}

// newNote is the line below a field or a row of them; hidden while there is nothing
// to say.
func newNote() *widget.Label {
	l := widget.NewLabel("")
	l.Wrapping = fyne.TextWrapWord
	l.SizeName = theme.SizeNameCaptionText
	l.Hide()
	return l
}
