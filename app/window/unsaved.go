package window

import (
	"bytes"
	"errors"
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/storage"
)

// unsavedStrip stands above everything else while what is done in the window is
// not, or not yet, in a job book: it says so, and offers what would do.
type unsavedStrip struct {
	w                 *Window
	back              *canvas.Rectangle
	text              *widget.Label
	retry, file, book *widget.Button
	object            *fyne.Container
	trying            bool
}

func newUnsavedStrip(w *Window) *unsavedStrip {
	s := &unsavedStrip{w: w, back: canvas.NewRectangle(shade(theme.ColorNameHeaderBackground)), text: widget.NewLabel("")}
	s.text.Wrapping = fyne.TextWrapWord
	s.retry = widget.NewButton("Try again", w.tryAgain)
	s.file = widget.NewButton("Save as a job file…", w.saveFile)
	s.book = widget.NewButton("", w.chooseBook)
	buttons := container.NewHBox(s.retry, s.book, s.file)
	s.object = container.NewStack(s.back, container.NewBorder(nil, divider(), nil, container.NewCenter(buttons), s.text))
	s.object.Hide()
	return s
}

// show brings the strip up to date.
func (s *unsavedStrip) show() {
	w := s.w
	text, grave := "", false
	n, err := w.unsaved()
	switch {
	case err != nil:
		text, grave = fmt.Sprintf("! Not saved: %s. %s.", plural(n, "change"), capitalized(sentence(err))), true
		able(s.retry, true)
	case w.book != nil && w.book.ReadOnly():
		text = "Open to read only"
		if at := w.book.AsOf(); !at.IsZero() {
			text += ", as the book was at " + at.Local().Format(minute) + ": another window has it"
		}
		text += ". What you change stays in this window and is not saved in the book."
	case n > 0:
		text, grave = "! No job book: what you change is kept in this window only, until you save it as a job file or open a book.", true
	}
	if text == "" {
		if s.object.Visible() {
			s.object.Hide()
			w.win.Content().Refresh()
		}
		return
	}
	importance := widget.WarningImportance
	if grave {
		importance = widget.DangerImportance
	}
	s.back.FillColor = shade(theme.ColorNameHeaderBackground)
	if s.text.Importance != importance {
		s.text.Importance = importance
		s.text.Refresh()
	}
	set(s.text, text)
	seen(s.retry, err != nil)
	seen(s.book, err == nil)
	label := "Open a job book…"
	if w.book != nil {
		label = "Open it for writing"
	}
	if s.book.Text != label {
		s.book.SetText(label)
	}
	if !s.object.Visible() {
		s.object.Show()
		w.win.Content().Refresh()
	}
	if err != nil {
		s.tryLater()
	}
}

func seen(o fyne.CanvasObject, on bool) {
	if on != o.Visible() {
		if on {
			o.Show()
		} else {
			o.Hide()
		}
	}
}

// sentence gives what was found and what would do.
func sentence(err error) string {
	var f *storage.Fault
	if errors.As(err, &f) {
		s := f.Text
		if f.Way != "" {
			s += "; " + f.Way
		}
		return s
	}
	return err.Error()
}

// retryPause is how long edits wait before the book is tried again by itself.
const retryPause = 5 * time.Second

func (s *unsavedStrip) tryLater() {
	if s.trying || s.w.scheduler.Go == nil {
		return
	}
	s.trying = true
	time.AfterFunc(retryPause, func() {
		s.w.scheduler.Result(func() {
			s.trying = false
			if n, err := s.w.unsaved(); n > 0 && err != nil {
				s.w.tryAgain()
			}
		})
	})
}

// unsaved tells how many changes are in this window alone. An error says why the
// book could not take them.
func (w *Window) unsaved() (int, error) {
	if w.history != nil {
		n, err := w.history.unsaved()
		if n > 0 && err != nil && w.onFile() {
			return 0, nil
		}
		return n, err
	}
	if _, changed := w.doc.CanUndo(); !changed || w.onFile() {
		return 0, nil
	}
	return 1, nil
}

// onFile tells whether the job as it is was saved as a job file.
func (w *Window) onFile() bool { return w.filed != nil && bytes.Equal(w.filed, w.doc.Base().Encode()) }

// tryAgain stores what waits.
func (w *Window) tryAgain() {
	if w.history == nil {
		return
	}
	if err := w.history.flush(); err != nil {
		w.say(sentence(err))
	} else {
		w.tell("Saved in the job book")
	}
	w.refresh()
}

// leave does something that lets go of the job that is open. Where that would
// lose changes, it asks first.
func (w *Window) leave(then func()) {
	w.doc.Cancel()
	if w.history != nil {
		_ = w.history.flush() // what cannot be stored is asked about
	}
	n, err := w.unsaved()
	if n == 0 {
		then()
		return
	}
	text := "What you changed is not in a job book: it is in this window only."
	if err != nil {
		text = fmt.Sprintf("%s could not be saved: %s.", capitalized(plural(n, "change")), sentence(err))
	}
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	var d *dialog.CustomDialog
	button := func(name string, f func()) *widget.Button {
		return widget.NewButton(name, func() {
			d.Hide()
			f()
		})
	}
	save := button("Save as a job file…", w.saveFile)
	save.Importance = widget.HighImportance
	drop := button("Go on without them", then)
	drop.Importance = widget.DangerImportance
	d = dialog.NewCustomWithoutButtons("Changes that are not saved", container.NewVBox(
		container.NewStack(strut(460, 10), l),
		container.NewHBox(layout.NewSpacer(), button("Stay", func() {}), drop, save),
	), w.win)
	w.asked = d
	d.Show()
}

// chooseBook opens a job book for a window that has none to write to: the book it
// reads, or one that the user names.
func (w *Window) chooseBook() {
	if w.book != nil {
		w.writeBook(w.book.Path())
		return
	}
	d := dialog.NewFileOpen(func(f fyne.URIReadCloser, err error) {
		if err != nil || f == nil {
			if err != nil {
				w.say(err.Error())
			}
			return
		}
		path := f.URI().Path()
		_ = f.Close()
		w.writeBook(path)
	}, w.win)
	d.Resize(fyne.NewSize(760, 520))
	d.Show()
}

// writeBook opens a book to write to. A job that was changed here goes into it as
// a job of its own; one that was not is shown as it is there.
func (w *Window) writeBook(path string) {
	book, err := storage.Open(path, storage.Options{})
	if err != nil {
		w.say(sentence(err))
		return
	}
	n, _ := w.unsaved()
	same := w.book != nil && w.book.Path() == path
	if w.book != nil {
		_ = w.book.Close() // it was read only
	}
	w.take(book)
	id := storage.ID(0)
	j := w.doc.Base()
	if same && n == 0 && w.id != 0 {
		if got, err := book.Get(w.id); err == nil {
			j, id = got, w.id
		}
	} else if same && j.Name != "" {
		j.Name += " (changed while read only)"
	}
	w.display(j, id)
	w.tell("Open for writing: every change is saved at once")
}
