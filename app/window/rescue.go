package window

import (
	"context"
	"fmt"
	"path/filepath"
	"time"

	"haunchbook.example/app/window/shelf"
	"haunchbook.example/storage"
)

// lookPause is how often it is seen whether the book is still in its place: who edits
// nothing is told, too, before the window is closed over it.
const lookPause = 5 * time.Second

// watch sees from now on whether the book is in its place.
func (w *Window) watch() {
	if w.scheduler.Go == nil {
		return
	}
	time.AfterFunc(lookPause, func() {
		w.scheduler.Result(func() {
			if !w.closed {
				w.scheduler.Do("looking for the job book", func() error { w.shelf.Looking()(); return nil }, func(error) { w.watch() })
			}
		})
	})
}

// warnOfCopies says that there are other versions of the book beside it: two programs
// wrote to one, as where folders are kept in step.
func (w *Window) warnOfCopies() {
	b := w.shelf.Book()
	if b == nil {
		return
	}
	var copies []string
	w.scheduler.Do("looking for copies of the job book", func() (err error) {
		copies, err = b.Copies()
		return err
	}, func(error) { // which files there are is nothing to keep anybody from working
		if len(copies) > 0 {
			w.say(shelf.Beside(copies))
		}
	})
}

// putBack gives the book its name back.
func (w *Window) putBack() {
	if w.saving {
		return
	}
	w.saving = true
	back, aside := w.shelf.PuttingBack(), ""
	w.scheduler.Do("putting the job book back", func() (err error) {
		aside, err = back()
		return err
	}, func(err error) {
		w.saving = false
		switch {
		case err != nil:
			w.sayError(err)
		case aside != "":
			w.tell("The job book is in its place again; the file that had taken it is kept as " + filepath.Base(aside))
		default:
			w.tell("The job book is in its place again")
		}
		w.refresh()
	})
}

// salvage brings what still reads of the book into a new one, and opens that, with the
// job as it is in the window.
func (w *Window) salvage() {
	path := w.shelf.Book().Path()
	out := storage.SalvagedName(path)
	w.stoppable("Searching the file for what is whole", func(ctx context.Context) (func(), error) {
		found, err := storage.Salvage(path, out)
		if err == nil {
			err = ctx.Err()
		}
		if err != nil {
			return nil, err
		}
		book, err := storage.Open(out, storage.Options{})
		return func() { w.adopt(book, shelf.Found(found)) }, err
	})
}

// adopt makes a salvaged book the window's. The job that is open goes on in it.
func (w *Window) adopt(book *storage.Book, found string) {
	j, id := w.doc.Base(), w.shelf.ID()
	if was, err := book.Get(id); err != nil {
		id = 0
	} else if !was.Same(j) {
		if err := book.Edit(id, "As it was in the window", j); err != nil {
			w.sayError(err)
			id = 0
		}
	}
	w.shelf.Close()
	w.take(book)
	w.display(j, id)
	w.tell(fmt.Sprintf("Go on in %s. %s", filepath.Base(book.Path()), found))
}
