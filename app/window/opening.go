package window

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/document"
	"haunchbook.example/storage"
	"haunchbook.example/storage/wholefile"
)

// Start says what to open.
type Start struct {
	Book string   // file of the job book; "" for the usual one, "none" for no book
	Job  *job.Job // opened as a job of its own; nil for the one that was open last
	// Synchronous does everything at once in the window's goroutine.
	Synchronous bool
}

// Begin opens the job book and a window on it. Where the book cannot be opened it
// opens a window that says why, and offers the ways out.
func Begin(a fyne.App, s Start) error {
	o := &opening{app: a, start: s, scheduler: document.Scheduler{Go: func(f func()) { go f() }, Post: fyne.Do}}
	if s.Synchronous {
		o.scheduler = document.Scheduler{}
	}
	if s.Book == "none" {
		return o.enter(nil)
	}
	if o.start.Book == "" {
		path, err := DefaultBook()
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

// opening is the way into a book that does not open just like that.
type opening struct {
	app       fyne.App
	start     Start
	scheduler document.Scheduler
	win       fyne.Window // nil while nothing is wrong
	body      *fyne.Container
	partly    bool      // what reads of a damaged book will do
	window    *Window   // once it is open
	wait      *struct{} // the wait that is on; another one, or nil, ends it
}

// enter opens the window on a book, or without one for nil.
func (o *opening) enter(book *storage.Book) error {
	opt := Options{Book: book, Synchronous: o.start.Synchronous}
	err := o.pick(&opt)
	if storage.IsKind(err, storage.Damaged) && !o.partly {
		_ = book.Close() // nothing was changed
		return err
	}
	w, newErr := New(o.app, opt)
	if newErr != nil {
		return newErr
	}
	if err != nil {
		w.say(sentence(err))
	}
	o.window = w
	w.Show()
	if book != nil {
		o.scheduler.Work(func() {
			_, _ = book.List() // a long list is read before it is asked for; who asks is told of faults
			if o.scheduler.Go != nil {
				keepBackedUp(book)
			}
		})
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
	_, _ = book.BackupIfDue()
	time.AfterFunc(backupLook, func() { keepBackedUp(book) })
}

// pick chooses the job to start with: the one asked for, or the one that was open
// last, or the sample. With an error there is a job all the same.
func (o *opening) pick(opt *Options) error {
	if o.start.Job != nil {
		opt.Job = *o.start.Job
		return nil
	}
	var found error
	if b := opt.Book; b != nil {
		var id storage.ID
		if ok, err := b.Recall(openJob, &id); ok && err == nil {
			if opt.Job, err = b.Get(id); err == nil {
				opt.ID = id
				return nil
			}
		}
		all, err := b.List()
		found = err
		for _, s := range all {
			if opt.Job, err = b.Get(s.ID); err == nil {
				opt.ID = s.ID
				return found
			}
			found = errors.Join(found, err)
		}
	}
	opt.Welcome = found == nil
	demo, err := Demo()
	opt.Job = demo
	return errors.Join(found, err)
}

// show says why the book does not open, and what would do.
func (o *opening) show(err error) {
	if o.win == nil {
		l := look{choice: Appearance(o.app.Preferences().IntWithFallback("appearance", int(System)))}
		o.app.Settings().SetTheme(l)
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
	box := container.NewVBox(title(headline(f.Kind)), wrapped(o.start.Book, fyne.TextStyle{Monospace: true}))
	if text := capitalized(f.Text); text != headline(f.Kind) {
		box.Add(wrapped(text+".", fyne.TextStyle{}))
	}
	for _, c := range o.choices(f) {
		box.Add(c)
	}
	o.set(box)
}

func (o *opening) set(content fyne.CanvasObject) {
	o.body.Objects = []fyne.CanvasObject{container.NewVScroll(container.NewPadded(container.NewPadded(content)))}
	o.body.Refresh()
}

func headline(k storage.Kind) string {
	switch k {
	case storage.Busy:
		return "Another window has this job book open"
	case storage.Damaged:
		return "The job book is damaged"
	case storage.Foreign:
		return "This is not a job book"
	case storage.Newer:
		return "The job book is of a newer version"
	case storage.Denied:
		return "The job book may not be written"
	case storage.Full:
		return "The disk is full"
	case storage.Lost:
		return "The job book is gone"
	}
	return "The job book cannot be opened"
}

func wrapped(text string, style fyne.TextStyle) *widget.Label {
	l := widget.NewLabelWithStyle(text, fyne.TextAlignLeading, style)
	l.Wrapping = fyne.TextWrapBreak
	if !style.Monospace {
		l.Wrapping = fyne.TextWrapWord
	}
	return l
}

func capitalized(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// choice is a button with what it does beside it.
func choice(name, about string, f func()) fyne.CanvasObject {
	b := widget.NewButton(name, f)
	b.Alignment = widget.ButtonAlignLeading
	l := widget.NewLabel(about)
	l.Wrapping = fyne.TextWrapWord
	return container.New(&labeled{}, container.NewVBox(b), l)
}

// choices are the ways out of a fault, the likeliest first.
func (o *opening) choices(f *storage.Fault) []fyne.CanvasObject {
	look := choice("Open it to read only", "As it is at this moment. What you change stays in that window; it can be saved as a job file.", o.read)
	again := choice("Try again", "Once that is mended.", o.again)
	var list []fyne.CanvasObject
	switch f.Kind {
	case storage.Busy:
		list = append(list, look, choice("Wait for it", "It opens here as soon as the other window is closed.", o.waitFor))
	case storage.Damaged, storage.Foreign:
		list = append(list, wrapped("The file is left as it is until you choose.", fyne.TextStyle{Italic: true}))
		list = append(list, o.backups()...)
		list = append(list, choice("Salvage what reads", "Every job, revision and price list that is still whole goes into a new book beside this one.", o.salvage))
		if f.Kind == storage.Damaged && o.reads() {
			list = append(list, choice("Open what reads", "Only some of its records are damaged. The rest can be worked on; what you change goes into this file.", func() {
				o.partly = true
				o.again()
			}))
		}
	case storage.Lost:
		list = append(list, o.backups()...)
		list = append(list,
			choice("A backup elsewhere…", "A backup that is kept in another folder or on another disk.", o.elsewhere),
			choice("Begin a new book", "An empty book in the place of the one that is gone. The backups stay.", o.begin), again)
	case storage.Newer:
		list = append(list, wrapped("It is left as it is. Open it with the newer version of this program.", fyne.TextStyle{Italic: true}))
	case storage.Denied:
		list = append(list, look, again)
	case storage.Full:
		list = append(list, wrapped("What was saved before is safe. Free some space, then try again.", fyne.TextStyle{Italic: true}), again, look)
	default:
		list = append(list, again)
	}
	return append(list,
		choice("Another book…", "A job book in another file.", o.other),
		choice("A new book…", "An empty job book, in a folder that you choose.", o.fresh),
		choice("Work without a book", "The job is kept in the window only; save it as a job file, or open a book later.", func() { o.told(o.enter(nil)) }),
		choice("Quit", "Nothing is changed.", o.quit),
	)
}

// reads tells whether the book opens, though not all of it is sound.
func (o *opening) reads() bool {
	b, err := storage.Open(o.start.Book, storage.Options{ReadOnly: true})
	if err == nil {
		err = b.Close()
	}
	return err == nil
}

func (o *opening) told(err error) {
	if err != nil {
		o.show(err)
	}
}

func (o *opening) quit() {
	o.wait = nil
	o.win.Close()
}

func (o *opening) again() { o.open(o.start.Book) }

// open opens a book to write to.
func (o *opening) open(path string) {
	o.start.Book = path
	book, err := storage.Open(path, o.options())
	if err == nil {
		err = o.enter(book)
	}
	o.told(err)
}

// options leave the daily backup until the window is up; see keepBackedUp.
func (o *opening) options() storage.Options {
	return storage.Options{NoBackup: o.scheduler.Go != nil, Partly: o.partly}
}

// begin makes a new book where one is gone.
func (o *opening) begin() {
	opt := o.options()
	opt.Fresh = true
	book, err := storage.Open(o.start.Book, opt)
	if err == nil {
		err = o.enter(book)
	}
	o.told(err)
}

func (o *opening) read() {
	book, err := storage.Open(o.start.Book, storage.Options{ReadOnly: true})
	if err == nil {
		err = o.enter(book)
	}
	o.told(err)
}

// waitStep is how long one try of a wait takes.
const waitStep = 500 * time.Millisecond

// waitFor opens the book as soon as the other window lets go of it.
func (o *opening) waitFor() {
	mine := &struct{}{}
	o.wait = mine
	bar := widget.NewProgressBarInfinite()
	o.set(container.NewVBox(
		title("Waiting for the job book"), wrapped(o.start.Book, fyne.TextStyle{Monospace: true}),
		wrapped("Close the other window; then it opens here.", fyne.TextStyle{}), bar,
		choice("Stop waiting", "Back to the choices.", func() {
			bar.Stop()
			o.again()
		}),
	))
	var try func()
	try = func() {
		opt := o.options()
		opt.Wait = waitStep
		book, err := storage.Open(o.start.Book, opt)
		o.scheduler.Result(func() {
			switch {
			case o.wait != mine: // stopped meanwhile
				if book != nil {
					_ = book.Close() // nothing was changed
				}
			case storage.IsKind(err, storage.Busy):
				o.scheduler.Work(try)
			case err != nil:
				o.show(err)
			default:
				bar.Stop()
				o.wait = nil
				o.told(o.enter(book))
			}
		})
	}
	o.scheduler.Work(try)
}

// shownBackups is how many backups are offered at once.
const shownBackups = 6

// backups offers the backups of the book.
func (o *opening) backups() []fyne.CanvasObject {
	files, err := storage.Backups(o.start.Book)
	var list []fyne.CanvasObject
	if err != nil {
		list = append(list, grave("! The backups cannot be listed: "+sentence(err)))
	}
	for i, f := range files {
		if i == shownBackups {
			list = append(list, caption(fmt.Sprintf("… and %d older, in %s", len(files)-i, filepath.Dir(f.Path)), false))
			break
		}
		about := fmt.Sprintf("%s, %d kB. The damaged book is kept beside it under another name.", f.Note, (f.Size+1023)/1024)
		list = append(list, choice("Restore "+f.Time.Local().Format(minute), about, func() { o.restore(f.Path) }))
	}
	return list
}

func (o *opening) restore(backup string) {
	if _, err := storage.Restore(o.start.Book, backup); err != nil {
		o.show(err)
		return
	}
	o.again()
}

// salvage brings what still reads into a new book and offers to open that.
func (o *opening) salvage() {
	out := storage.SalvagedName(o.start.Book)
	bar := widget.NewProgressBarInfinite()
	o.set(container.NewVBox(title("Searching the file for what is whole"), wrapped(o.start.Book, fyne.TextStyle{Monospace: true}), bar))
	o.scheduler.Work(func() {
		s, err := storage.Salvage(o.start.Book, out)
		o.scheduler.Result(func() {
			bar.Stop()
			if err != nil {
				o.show(err)
				return
			}
			o.set(container.NewVBox(
				title("Salvaged"), wrapped(out, fyne.TextStyle{Monospace: true}), wrapped(foundText(s), fyne.TextStyle{}),
				choice("Open the salvaged book", "It is a book of its own; the damaged one stays as it is.", func() { o.open(out) }),
				choice("Put it in the place", "The salvaged book takes the name of the damaged one, which is kept beside it under another name.", func() {
					if _, err := storage.Restore(o.start.Book, out); err != nil {
						o.show(err)
						return
					}
					o.again()
				}),
				choice("Back", "To the other choices.", o.again),
			))
		})
	})
}

// foundText tells what was salvaged.
func foundText(s storage.Salvaged) string {
	text := fmt.Sprintf("Found: %s as last saved, with %s and %s of undo history.", plural(s.Jobs, "job"), plural(s.Revisions, "revision"), plural(s.Edits, "edit"))
	if s.FromEdits > 0 {
		text += fmt.Sprintf(" Of %s the last state is damaged: the newest whole one before it was taken.", plural(s.FromEdits, "job"))
	}
	if s.Pictures > 0 {
		text += fmt.Sprintf(" %s lost the sketch.", capitalized(plural(s.Pictures, "job")))
	}
	if !s.Settings {
		text += " The settings of the book were not among it."
	}
	return text
}

// other opens a book that the user chooses.
func (o *opening) other() { o.choose(o.open) }

// elsewhere restores a backup that the user chooses.
func (o *opening) elsewhere() { o.choose(o.restore) }

// choose asks for a file.
func (o *opening) choose(then func(path string)) {
	d := dialog.NewFileOpen(func(f fyne.URIReadCloser, err error) {
		if err != nil || f == nil {
			o.told(err)
			return
		}
		_ = f.Close() // only its name is wanted
		then(f.URI().Path())
	}, o.win)
	d.Resize(fyne.NewSize(700, 520))
	d.Show()
}

// fresh makes a book in a folder that the user chooses.
func (o *opening) fresh() {
	d := dialog.NewFolderOpen(func(u fyne.ListableURI, err error) {
		if err != nil || u == nil {
			o.told(err)
			return
		}
		o.open(wholefile.FreeName(filepath.Join(u.Path(), "jobs"), ".book"))
	}, o.win)
	d.SetConfirmText("Make it here")
	d.Resize(fyne.NewSize(700, 520))
	d.Show()
}
