package form

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
)

// typingPause is how long one who types several lines stops before they are kept: a
// power cut costs what was typed since, not the whole note.
const typingPause = 2 * time.Second

// afterPause calls f on the window's goroutine after a pause, unless stop was called.
var afterPause = func(f func()) (stop func()) {
	t := time.AfterFunc(typingPause, func() { fyne.Do(f) })
	return func() { t.Stop() }
}

// keepLater hands over what is typed once whoever types pauses. The text stays as it
// is, and so does where one types.
func (f *Field) keepLater(string) {
	if f.stop != nil {
		f.stop()
	}
	f.stop = afterPause(f.keep)
}

func (f *Field) keep() {
	was := f.text.Get()
	if !f.focused || strings.TrimSpace(f.Text) == strings.TrimSpace(was) || strings.HasSuffix(f.shown, more) && f.shown != was {
		return
	}
	if err := f.text.Set(f.Text); err != nil {
		f.say(err.Error(), true)
		return
	}
	f.say("", false)
	f.shown = f.get()
	if f.before == nil {
		f.before = &was
	}
}

// leave ends the typing.
func (f *Field) leave() {
	if f.stop != nil {
		f.stop()
	}
	f.before, f.stop = nil, nil
}

// takeBack has the value as it was before it was typed in.
func (f *Field) takeBack() {
	was := f.before
	f.leave()
	if was != nil {
		_ = f.text.Set(*was) // it was the value
	}
}
