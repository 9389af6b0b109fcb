package opening

import (
	"fmt"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/app/window/words"
	"haunchbook.example/storage"
	"haunchbook.example/storage/wholefile"
)

const minute = "2006-01-02 15:04"

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

// choice is a button with what it does beside it.
func choice(name, about string, f func()) fyne.CanvasObject {
	return form.Labeled(container.NewVBox(form.Do(name, f).Leading()), form.Wrapped(about))
}

func aside(text string) fyne.CanvasObject {
	l := form.Wrapped(text)
	l.TextStyle.Italic = true
	return l
}

// choices are the ways out of a fault, the likeliest first.
func (o *Opening) choices(f *storage.Fault) []fyne.CanvasObject {
	look := choice("Open it to read only", "As it is at this moment. What you change stays in that window; it can be saved as a job file.", func() {
		o.enterBook(storage.Options{ReadOnly: true})
	})
	again := choice("Try again", "Once that is mended.", o.again)
	var list []fyne.CanvasObject
	switch f.Kind {
	case storage.Busy:
		list = append(list, look, choice("Wait for it", "It opens here as soon as the other window is closed.", o.waitFor))
	case storage.Damaged, storage.Foreign:
		list = append(list, aside("The file is left as it is until you choose."))
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
			choice("A backup elsewhere…", "A backup that is kept in another folder or on another disk.", func() { o.choose(o.restore) }),
			choice("Begin a new book", "An empty book in the place of the one that is gone. The backups stay.", o.begin), again)
	case storage.Newer:
		list = append(list, aside("It is left as it is. Open it with the newer version of this program."))
	case storage.Denied:
		list = append(list, look, again)
	case storage.Full:
		list = append(list, aside("What was saved before is safe. Free some space, then try again."), again, look)
	default:
		list = append(list, again)
	}
	return append(list,
		choice("Another book…", "A job book in another file.", func() { o.choose(o.open) }),
		choice("A new book…", "An empty job book, in a folder that you choose.", o.fresh),
		choice("Work without a book", "The job is kept in the window only; save it as a job file, or open a book later.", func() { o.told(o.found(nil)) }),
		choice("Quit", "Nothing is changed.", o.quit),
	)
}

// reads tells whether the book opens, though not all of it is sound.
func (o *Opening) reads() bool {
	b, err := storage.Open(o.start.Book, storage.Options{ReadOnly: true})
	if err == nil {
		err = b.Close()
	}
	return err == nil
}

// waitStep is how long one try of a wait takes.
const waitStep = 500 * time.Millisecond

// waitFor opens the book as soon as the other window lets go of it.
func (o *Opening) waitFor() {
	mine := new(byte)
	o.wait = mine
	bar := widget.NewProgressBarInfinite()
	o.set(form.Title("Waiting for the job book"), form.Path(o.start.Book), form.Wrapped("Close the other window; then it opens here."), bar,
		choice("Stop waiting", "Back to the choices.", func() {
			bar.Stop()
			o.again()
		}))
	var try func()
	try = func() {
		opt := o.options()
		opt.Wait = waitStep
		var book *storage.Book
		o.scheduler.Do("opening the job book", func() (err error) {
			book, err = storage.Open(o.start.Book, opt)
			return err
		}, func(err error) {
			switch {
			case o.wait != mine: // stopped meanwhile
				if book != nil {
					_ = book.Close() // nothing was changed
				}
			case storage.IsKind(err, storage.Busy):
				try()
			case err != nil:
				o.show(err)
			default:
				bar.Stop()
				o.wait = nil
				o.told(o.found(book))
			}
		})
	}
	try()
}

// shownBackups is how many backups are offered at once.
const shownBackups = 6

// backups offers the backups of the book.
func (o *Opening) backups() (list []fyne.CanvasObject) {
	files, err := storage.Backups(o.start.Book)
	if err != nil {
		list = append(list, form.Grave("! The backups cannot be listed: "+shelf.Sentence(err)))
	}
	for i, f := range files {
		if i == shownBackups {
			list = append(list, form.Caption(fmt.Sprintf("… and %d older, in %s", len(files)-i, filepath.Dir(f.Path))))
			break
		}
		about := fmt.Sprintf("%s, %s, %d kB. What is there of the book is kept beside it under another name.", words.Age(f.Time, time.Now()), f.Note, (f.Size+1023)/1024)
		list = append(list, choice("Restore "+f.Time.Local().Format(minute), about, func() { o.restore(f.Path) }))
	}
	return list
}

// restore puts another file in the place of the book, and opens that.
func (o *Opening) restore(from string) {
	if _, err := storage.Restore(o.start.Book, from); err != nil {
		o.show(err)
		return
	}
	o.again()
}

// salvage brings what still reads into a new book and offers to open that.
func (o *Opening) salvage() {
	out := storage.SalvagedName(o.start.Book)
	bar := widget.NewProgressBarInfinite()
	o.set(form.Title("Searching the file for what is whole"), form.Path(o.start.Book), bar)
	var s storage.Salvaged
	o.scheduler.Do("salvaging", func() (err error) {
		s, err = storage.Salvage(o.start.Book, out)
		return err
	}, func(err error) {
		bar.Stop()
		if err != nil {
			o.show(err)
			return
		}
		o.set(
			form.Title("Salvaged"), form.Path(out), form.Wrapped(shelf.Found(s)),
			choice("Open the salvaged book", "It is a book of its own; the damaged one stays as it is.", func() { o.open(out) }),
			choice("Put it in the place", "The salvaged book takes the name of the damaged one, which is kept beside it under another name.", func() { o.restore(out) }),
			choice("Back", "To the other choices.", o.again),
		)
	})
}

// begin makes a new book where one is gone.
func (o *Opening) begin() {
	opt := o.options()
	opt.Fresh = true
	o.enterBook(opt)
}

// choose asks for a file.
func (o *Opening) choose(then func(path string)) {
	form.OpenFile(o.win, o.told, nil, func(f fyne.URIReadCloser) {
		_ = f.Close() // only its name is wanted
		then(f.URI().Path())
	})
}

// fresh makes a book in a folder that the user chooses.
func (o *Opening) fresh() {
	form.OpenFolder(o.win, o.told, "Make it here", "", func(folder string) {
		o.open(wholefile.FreeName(filepath.Join(folder, "jobs"), ".book"))
	})
}
