package window

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	resources "fyne.io/fyne/v2/storage"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/pages/book"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/assets"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/storage"
)

// display shows a job in the window: job id of the book, or one that the book does
// not have yet.
func (w *Window) display(j job.Job, id storage.ID) {
	w.greeted()
	w.pages.home()
	w.machine.Use(&tool.Select{})
	w.machine.Deselect()
	w.side.turn(tool.Selection)
	w.enter(j, id)
	w.machine.Usual()
	w.machine.Fit()
}

// enter has the job on the shelf.
func (w *Window) enter(j job.Job, id storage.ID) {
	w.opened++
	if w.job = id.String(); id == 0 {
		w.job = fmt.Sprint("new ", w.opened)
	}
	w.sayError(w.shelf.Open(j, id))
}

// take makes a book the window's.
func (w *Window) take(b *storage.Book) {
	w.shelf.Take(b)
	w.pages.forget()
}

// newJob opens a blank sheet. The job that was open stays in the book.
func (w *Window) newJob() {
	w.leave(func() {
		j, err := w.shelf.NewJob()
		w.display(j, 0)
		w.machine.NewEdge.Wall = "2x6"
		w.tell("A blank sheet. Draw with Rectangle (R) or Outline (L).")
		w.sayError(err)
		w.side.tab(editTab)
		w.win.Canvas().Focus(w.plan)
	})
}

// showJobs turns to the job book, ready to search it.
func (w *Window) showJobs() {
	w.pages.turn(bookPage)
	if s := w.pages.list[bookPage].view.(*book.Page).Search(); s != nil {
		w.win.Canvas().Focus(s)
	}
}

// sample opens the sample job of the first run as a job of its own.
func (w *Window) sample() { w.openSample(assets.Demo()) }

// samples are the commands that open a sample job.
func (w *Window) samples() *fyne.Menu {
	m := fyne.NewMenu("Sample jobs")
	for _, s := range assets.Samples() {
		m.Items = append(m.Items, fyne.NewMenuItem(s.Name, func() { w.openSample(s.Data) }))
	}
	return m
}

func (w *Window) openSample(file []byte) {
	j, err := shelf.Sample(file)
	if err != nil {
		w.sayError(err)
		return
	}
	w.leave(func() { w.display(j, 0) })
}

func (w *Window) openFromBook(id storage.ID) {
	w.leave(func() {
		j, err := w.shelf.Book().Get(id)
		if err != nil {
			w.sayError(err)
			return
		}
		w.display(j, id)
		w.tell("Opened " + id.String())
	})
}

// openFile reads a job file into the book.
func (w *Window) openFile() {
	form.OpenFile(w.win, w.sayError, []string{".json"}, w.readFile)
}

func (w *Window) readFile(r fyne.URIReadCloser) {
	defer r.Close()
	j, err := job.Read(r)
	var faults plan.Faults
	if err != nil && !errors.As(err, &faults) {
		w.say(r.URI().Name() + ": " + err.Error())
		return
	}
	w.leave(func() {
		w.display(j, 0)
		w.tell("Opened " + r.URI().Name())
	})
}

// dropped opens a job file that was dropped on the window, takes photographs of the site, or
// draws over a picture.
func (w *Window) dropped(files []fyne.URI) {
	photo := func(f fyne.URI) bool { return slices.Contains(form.Pictures, f.Extension()) }
	if p, ok := w.pages.list[bookPage].view.(*book.Page); ok && w.pages.at == bookPage && p.TakesPictures() && !slices.ContainsFunc(files, func(f fyne.URI) bool { return !photo(f) }) {
		p.Dropped(files, resources.Reader)
		return
	}
	if len(files) != 1 || !strings.EqualFold(files[0].Extension(), ".json") {
		w.side.sketch.Dropped(files)
		return
	}
	w.openURI(files[0])
}

// openNamed opens a job file that was named to a window that runs.
func (w *Window) openNamed(file string) {
	w.win.RequestFocus()
	w.openURI(resources.NewFileURI(file))
}

func (w *Window) openURI(file fyne.URI) {
	r, err := resources.Reader(file)
	if err != nil {
		w.sayError(err)
		return
	}
	w.readFile(r)
}

// saveFile writes the job as a file.
func (w *Window) saveFile() {
	// Desktops tell a job from other JSON by this end of its name.
	form.SaveFile(w.win, w.sayError, form.FileName(w.doc.Job().Name)+".haunchbook.json", func(f fyne.URIWriteCloser) {
		data := w.doc.Base().Encode()
		_, err := f.Write(data)
		if err = errors.Join(err, f.Close()); err != nil {
			w.sayError(err)
			return
		}
		w.shelf.Filed(data)
		w.tell("Saved " + f.URI().Path())
		w.refresh()
	})
}

// close closes the window, once what is being typed is taken and everything is
// on disk or the user goes without.
func (w *Window) close() {
	w.win.Canvas().Unfocus()
	w.leave(func() {
		w.keepSize()
		w.closed = true
		w.shelf.Close()
		w.win.Close()
	})
}
