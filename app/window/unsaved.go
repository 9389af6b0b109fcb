package window

import (
	"context"
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

	"haunchbook.example/app/field"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/look"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/app/window/words"
	"haunchbook.example/storage"
)

// unsavedStrip stands above everything else while what is done in the window is
// not, or not yet, in a job book: it says so, and offers what would do.
type unsavedStrip struct {
	w                 *Window
	back              *canvas.Rectangle
	text              *widget.Label
	retry, file, book *form.Button
	putBack, salvage  *form.Button
	object            *fyne.Container
	trying            bool
}

func newUnsavedStrip(w *Window) *unsavedStrip {
	s := &unsavedStrip{w: w, back: canvas.NewRectangle(nil), text: form.Wrapped("")}
	s.retry = form.Do("Try again", w.tryAgain)
	s.file = form.Do("Save as a job file…", w.saveFile)
	s.book = form.Do("", w.chooseBook)
	s.putBack = form.Do("Put it back", w.putBack).Strong()
	s.salvage = form.Do("Salvage what reads", w.salvage).Strong()
	buttons := container.NewHBox(s.putBack, s.salvage, s.retry, s.book, s.file)
	s.object = container.NewStack(s.back, container.NewBorder(nil, form.Rule(), nil, container.NewCenter(buttons), s.text))
	s.object.Hide()
	return s
}

// show brings the strip up to date.
func (s *unsavedStrip) show() {
	text, grave := "", false
	n, err := s.w.shelf.Unsaved()
	b := s.w.shelf.Book()
	switch {
	case err != nil:
		text, grave = field.Upper(shelf.Sentence(err))+".", true
		if n > 0 {
			text = "Not saved: " + words.Plural(n, "change") + ". " + text
		}
		text = "! " + text
	case b != nil && b.ReadOnly():
		text = "Open to read only"
		if at := b.AsOf(); !at.IsZero() {
			text += ", as the book was at " + at.Local().Format("2006-01-02 15:04") + ": another window has it"
		}
		text += ". What you change stays in this window and is not saved in the book."
	case n > 0 && !s.w.shelf.Kept():
		text, grave = "! No job book: what you change is kept in this window only, until you save it as a job file or open a book.", true
	}
	shown := s.object.Visible()
	form.Seen(s.object, text != "")
	if s.object.Visible() != shown {
		s.w.win.Content().Refresh()
	}
	if text == "" {
		return
	}
	s.back.FillColor = look.Shade(theme.ColorNameHeaderBackground)
	importance := widget.WarningImportance
	if grave {
		importance = widget.DangerImportance
	}
	form.Weigh(s.text, text, importance)
	lost := storage.IsKind(err, storage.Unreadable)
	form.Seen(s.putBack, storage.IsKind(err, storage.Displaced))
	form.Seen(s.salvage, lost)
	form.Seen(s.retry, err != nil && !lost)
	form.Seen(s.book, err == nil || lost)
	label := "Open a job book…"
	switch {
	case lost:
		label = "Another book…"
	case b != nil:
		label = "Open it for writing"
	}
	s.book.SetText(label)
	if err != nil {
		s.tryLater()
	}
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
			if _, err := s.w.shelf.Unsaved(); err != nil {
				s.w.tryAgain()
			}
		})
	})
}

// tryAgain stores what waits.
func (w *Window) tryAgain() {
	if w.saving {
		return
	}
	w.saving = true
	w.scheduler.Do("saving", w.shelf.Settling(), func(err error) {
		w.saving = false
		if err != nil {
			w.sayError(err)
		} else {
			w.tell("Saved in the job book")
		}
		w.refresh()
	})
}

// kept shows what is not yet on disk, and the book's page what has come there.
func (w *Window) kept() {
	n, err := w.shelf.Unsaved()
	w.status.unsaved(n, w.shelf.Kept())
	w.strip.show()
	if n == 0 && err == nil && w.pages.at == bookPage {
		w.refresh()
	}
}

// leave does something that lets go of the job that is open, once its changes are on
// disk. Where that would lose changes, it asks first.
func (w *Window) leave(then func()) {
	w.doc.Cancel()
	if n, err := w.shelf.Unsaved(); n == 0 && err == nil || !w.shelf.Kept() {
		w.letGo(then)
		return
	}
	settle := w.shelf.Settling()
	w.whenDone("Saving in the job book", func(ctx context.Context) error {
		done := make(chan error, 1)
		go func() { done <- settle() }()
		select {
		case err := <-done:
			return err
		case <-ctx.Done(): // the disk is too slow for who waits
			return ctx.Err()
		}
	}, func(error) { w.letGo(then) }) // what is not stored is asked about
}

// letGo does something that lets go of what is not stored, if there is such, once the
// user says so.
func (w *Window) letGo(then func()) {
	n, err := w.shelf.Unsaved()
	if n == 0 && err == nil {
		then()
		return
	}
	text := "What you changed is not in a job book: it is in this window only."
	switch {
	case n == 0:
		text = field.Upper(shelf.Sentence(err)) + "."
	case err != nil:
		text = fmt.Sprintf("%s could not be saved: %s.", field.Upper(words.Plural(n, "change")), shelf.Sentence(err))
	case w.shelf.Kept():
		text = fmt.Sprintf("Not yet on disk: %s.", words.Plural(n, "change"))
	}
	var d *dialog.CustomDialog
	button := func(name string, i widget.Importance, f func()) *form.Button {
		b := form.Do(name, func() {
			d.Hide()
			f()
		})
		b.Importance = i
		return b
	}
	d = dialog.NewCustomWithoutButtons(words.Say("Changes that are not saved"), container.NewVBox(
		container.NewStack(form.Strut(460, 10), form.Wrapped(text)),
		container.NewHBox(layout.NewSpacer(),
			button("Stay", widget.MediumImportance, func() {}),
			button("Go on without them", widget.DangerImportance, then),
			button("Save as a job file…", widget.HighImportance, w.saveFile)),
	), w.win)
	w.asked = d
	d.Show()
}

// chooseBook opens a job book for a window that has none to write to: the book it
// reads, or one that the user names.
func (w *Window) chooseBook() {
	if b := w.shelf.Book(); b != nil && b.ReadOnly() {
		w.writeBook(b.Path())
		return
	}
	form.OpenFile(w.win, w.sayError, nil, func(f fyne.URIReadCloser) {
		_ = f.Close() // only its name is wanted
		w.writeBook(f.URI().Path())
	})
}

// writeBook opens a book to write to. A job that was changed here goes into it as
// a job of its own; one that was not is shown as it is there.
func (w *Window) writeBook(path string) {
	book, err := storage.Open(path, storage.Options{})
	if err != nil {
		w.sayError(err)
		return
	}
	n, _ := w.shelf.Unsaved()
	was, id := w.shelf.Book(), w.shelf.ID()
	same := was != nil && was.Path() == path
	w.shelf.Close() // nothing was to be written to it
	w.take(book)
	j, into := w.doc.Base(), storage.ID(0)
	if same && n == 0 && id != 0 {
		if got, err := book.Get(id); err == nil {
			j, into = got, id
		}
	} else if same && j.Name != "" {
		j.Name += " (changed while read only)"
	}
	w.display(j, into)
	w.tell("Open for writing: every change is saved at once")
}

// stoppable does work beside the window, under a dialog that says so and stops it.
// What work gives runs on the window's goroutine, if there was no error.
func (w *Window) stoppable(what string, work func(context.Context) (done func(), err error)) {
	var done func()
	w.whenDone(what, func(ctx context.Context) (err error) {
		done, err = work(ctx)
		return err
	}, func(err error) {
		switch {
		case errors.Is(err, context.Canceled):
			w.say("Stopped: " + what)
		case err != nil:
			w.sayError(err)
		case done != nil:
			done()
		}
	})
}

// whenDone does work beside the window, under a dialog that says so and stops it, and
// then something on the window's goroutine. Of work that was stopped the error is that
// of the context.
func (w *Window) whenDone(what string, work func(context.Context) error, then func(error)) {
	ctx, cancel := context.WithCancel(context.Background())
	bar := widget.NewProgressBarInfinite()
	stop := form.NewButton("Stop", theme.CancelIcon(), cancel)
	d := dialog.NewCustomWithoutButtons(words.Say(what), container.NewVBox(container.NewStack(form.Strut(360, 10), bar), container.NewCenter(stop)), w.win)
	if w.scheduler.Go != nil {
		d.Show()
	}
	w.scheduler.Do(what, func() error { return work(ctx) }, func(err error) {
		bar.Stop()
		d.Hide()
		if err != nil && ctx.Err() != nil {
			err = ctx.Err()
		}
		cancel()
		then(err)
	})
}
