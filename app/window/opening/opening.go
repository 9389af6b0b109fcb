// Package opening is the way into a job book, and the window that says why one does
// not open and offers the ways out.
package opening

import (
	"errors"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/field"
	"haunchbook.example/app/guard"
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/storage"
)

// Start says what to open.
type Start struct {
	Book string   // file of the job book; "" for the usual one, "none" for no book
	Job  *job.Job // opened as a job of its own; nil for the one that was open last
	Err  error    // why what was asked for does not open, to be said in the window
	Log  string   // file of what the toolkit and faults of the program report; "" for none
	// Ready is given what opens another job file, once the window is there; nil for nobody.
	Ready func(open func(file string))
	// Synchronous does everything at once in the window's goroutine.
	Synchronous bool
}

// Found is what there is to open a window on.
type Found struct {
	Book    *storage.Book // nil for none
	Job     job.Job
	ID      storage.ID // of Job in Book; 0 where it is not in it yet
	Welcome bool       // nothing was there yet: say how to begin
	Err     error      // what does not read of it
}

// Opening is under way until a window is entered.
type Opening struct {
	app       fyne.App
	start     Start
	scheduler document.Scheduler
	enter     func(Found) error
	win       fyne.Window // nil while nothing is wrong
	body      *fyne.Container
	partly    bool  // what reads of a damaged book will do
	wait      *byte // the wait that is on; another one, or nil, ends it
}

// New gives an opening that has not begun; enter opens the window on what is found.
func New(a fyne.App, s Start, sc document.Scheduler, enter func(Found) error) *Opening {
	return &Opening{app: a, start: s, scheduler: sc, enter: enter}
}

// Begin opens the job book, and the window on it or one that says why not.
func (o *Opening) Begin() error {
	if o.start.Book == "none" {
		return o.found(nil)
	}
	if o.start.Book == "" {
		path, err := storage.UsualPath()
		if err != nil {
			return err
		}
		o.start.Book = path
	}
	if path, err := filepath.Abs(o.start.Book); err == nil {
		o.start.Book = path
	}
	o.open(o.start.Book)
	return nil
}

// found enters the window on a book, or without one for nil.
func (o *Opening) found(book *storage.Book) error {
	f := o.pick(book)
	if storage.IsKind(f.Err, storage.Damaged) && !o.partly {
		_ = book.Close() // nothing was changed
		return f.Err
	}
	if err := o.enter(f); err != nil {
		return err
	}
	if book != nil {
		o.scheduler.Do("reading the list of jobs", func() error {
			_, err := book.List() // a long list is read before it is asked for; who asks is told of faults
			if o.scheduler.Go != nil {
				keepBackedUp(book)
			}
			return err
		}, func(error) {})
	}
	if o.win != nil {
		o.win.Close()
	}
	return nil
}

// backupLook is how often it is seen whether the daily backup is due.
const backupLook = time.Hour

// keepBackedUp makes the daily backups for as long as the book is open. One that
// fails, say for want of room, keeps nobody from working; the next look tries
// again.
func keepBackedUp(book *storage.Book) {
	if book.ReadOnly() || !book.IsOpen() {
		return
	}
	_ = guard.Try("the backup", func() error {
		_, err := book.BackupIfDue()
		return err
	})
	time.AfterFunc(backupLook, func() { keepBackedUp(book) })
}

// pick chooses the job to start with: the one asked for, or the one that was open
// last, or the sample. With an error there is a job all the same.
func (o *Opening) pick(book *storage.Book) Found {
	f := Found{Book: book}
	if o.start.Job != nil {
		f.Job = *o.start.Job
		return f
	}
	if book != nil {
		if f.Job, f.ID, f.Err = shelf.Last(book); f.ID != 0 {
			f.Err = errors.Join(o.start.Err, f.Err)
			return f
		}
	}
	f.Welcome = f.Err == nil
	demo, err := shelf.Demo()
	f.Job, f.Err = demo, errors.Join(o.start.Err, f.Err, err)
	return f
}

// show says why the book does not open, and what would do.
func (o *Opening) show(err error) {
	if o.win == nil {
		o.win = o.app.NewWindow("Haunchbook: the job book")
		o.body = container.NewStack()
		o.win.SetContent(o.body)
		o.win.Resize(fyne.NewSize(720, 560))
		o.win.CenterOnScreen()
		defer o.win.Show()
	}
	o.wait = nil
	var f *storage.Fault
	if !errors.As(err, &f) {
		f = &storage.Fault{Path: o.start.Book, Text: err.Error(), Err: err}
	}
	os := []fyne.CanvasObject{form.Title(headline(f.Kind)), form.Path(o.start.Book)}
	if text := field.Upper(f.Text); text != headline(f.Kind) {
		os = append(os, form.Wrapped(text+"."))
	}
	o.set(append(os, o.choices(f)...)...)
}

func (o *Opening) set(os ...fyne.CanvasObject) {
	form.Refill(o.body, container.NewVScroll(container.NewPadded(container.NewPadded(container.NewVBox(os...)))))
}

// told shows what went wrong, if anything did.
func (o *Opening) told(err error) {
	if err != nil {
		o.show(err)
	}
}

func (o *Opening) quit() {
	o.wait = nil
	o.win.Close()
}

func (o *Opening) again() { o.open(o.start.Book) }

// open opens a book to write to.
func (o *Opening) open(path string) {
	o.start.Book = path
	o.enterBook(o.options())
}

// options leave the daily backup until the window is up; see keepBackedUp.
func (o *Opening) options() storage.Options {
	return storage.Options{NoBackup: o.scheduler.Go != nil, Partly: o.partly}
}

func (o *Opening) enterBook(opt storage.Options) {
	book, err := storage.Open(o.start.Book, opt)
	if err == nil {
		err = o.found(book)
	}
	o.told(err)
}
