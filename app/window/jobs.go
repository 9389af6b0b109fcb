package window

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	fynestorage "fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/job"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/storage"
)

// Demo gives the sample job.
func Demo() (job.Job, error) {
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if faults := (plan.Faults)(nil); errors.As(err, &faults) {
		return j, nil
	}
	return j, err
}

// Blank gives a job with an empty plan and a first edge section to draw with.
func Blank(u geometry.Units) job.Job {
	j := job.New()
	j.Name = "New job"
	j.Units = u
	s := plan.Section{Name: "Edge 12", Depth: 12 * geometry.Inch, Bottom: 12 * geometry.Inch, Taper: 6 * geometry.Inch}
	if u == geometry.Millimeters {
		s = plan.Section{Name: "Edge 300", Depth: 300 * geometry.Millimeter, Bottom: 300 * geometry.Millimeter, Taper: 150 * geometry.Millimeter}
		j.Slabs[0].Field = 150 * geometry.Millimeter
	}
	j.Slabs[0].Sections = []plan.Section{s}
	return j
}

// startJob gives a blank sheet as the book's settings have it.
func (w *Window) startJob() job.Job {
	blank := Blank(w.doc.Units())
	if w.book == nil {
		return blank
	}
	s, err := w.book.Settings()
	if err != nil {
		w.say(sentence(err))
	}
	if err != nil || !s.Stored {
		return blank
	}
	j, usual := s.Start, Blank(s.Start.Units)
	j.Name = usual.Name
	if len(j.Slabs) == 0 || len(j.Slabs[0].Sections) == 0 {
		j.Slabs = usual.Slabs
	}
	return j
}

// newJob opens a blank sheet. The job that was open stays in the book.
func (w *Window) newJob() {
	w.leave(func() {
		w.display(w.startJob(), 0)
		w.machine.NewEdge.Wall = "2x6"
		w.tell("A blank sheet. Draw with Rectangle (R) or Outline (L).")
		w.tabs.SelectIndex(0)
		w.win.Canvas().Focus(w.plan)
	})
}

// showJobs turns to the job book, ready to search it.
func (w *Window) showJobs() {
	w.pages.turn(bookView)
	if p := w.pages.list[bookView].view.(*bookPage); p.search != nil {
		w.win.Canvas().Focus(p.search)
	}
}

// sample opens the sample job as a job of its own.
func (w *Window) sample() {
	j, err := Demo()
	if err != nil {
		w.say(err.Error())
		return
	}
	w.leave(func() { w.display(j, 0) })
}

func (w *Window) openFromBook(id storage.ID) {
	w.leave(func() {
		j, err := w.book.Get(id)
		if err != nil {
			w.say(sentence(err))
			return
		}
		w.display(j, id)
		w.tell("Opened " + id.String())
	})
}

// openFile reads a job file into the book.
func (w *Window) openFile() {
	d := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
		if err != nil || r == nil {
			if err != nil {
				w.say(err.Error())
			}
			return
		}
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
	}, w.win)
	d.SetFilter(fynestorage.NewExtensionFileFilter([]string{".json"}))
	d.Resize(fyne.NewSize(760, 520))
	d.Show()
}

// saveFile writes the job as a file.
func (w *Window) saveFile() {
	d := dialog.NewFileSave(func(f fyne.URIWriteCloser, err error) {
		if err != nil || f == nil {
			if err != nil {
				w.say(err.Error())
			}
			return
		}
		data := w.doc.Base().Encode()
		_, err = f.Write(data)
		err = errors.Join(err, f.Close())
		if err != nil {
			w.say(err.Error())
			return
		}
		w.filed = data
		w.tell("Saved " + f.URI().Path())
		w.refresh()
	}, w.win)
	d.SetFileName(fileName(w.doc.Job().Name) + ".json")
	d.Resize(fyne.NewSize(760, 520))
	d.Show()
}

// fileName makes a name that every file system takes.
func fileName(s string) string {
	out := []rune{}
	for _, r := range s {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_':
			out = append(out, r)
		case r == ' ' && len(out) > 0 && out[len(out)-1] != '-':
			out = append(out, '-')
		}
		if len(out) == 60 {
			break
		}
	}
	if len(out) == 0 {
		return "job"
	}
	return string(out)
}

// DefaultBook gives the file of the job book where none is named.
func DefaultBook() (string, error) {
	dir, err := os.UserConfigDir()
	if err != nil {
		return "", err
	}
	return filepath.Join(dir, "haunchbook", "jobs.book"), nil
}

// jobPanel is the form of what is printed on the sheets.
type jobPanel struct {
	w      *Window
	form   *form
	scroll *container.Scroll
}

func newJobPanel(w *Window) *jobPanel {
	p := &jobPanel{w: w, form: newForm()}
	f := p.form
	f.heading("Job")
	for _, fl := range []struct {
		label string
		at    func(*job.Job) *string
	}{
		{"Name", func(j *job.Job) *string { return &j.Name }},
		{"Customer", func(j *job.Job) *string { return &j.Customer }},
		{"Site", func(j *job.Job) *string { return &j.Site }},
		{"Date", func(j *job.Job) *string { return &j.Date }},
		{"Revision", func(j *job.Job) *string { return &j.Revision }},
		{"Notes", func(j *job.Job) *string { return &j.Notes }},
	} {
		f.text(fl.label, func() string { j := w.doc.Job(); return *fl.at(&j) }, func(s string) error {
			j := w.doc.Job()
			*fl.at(&j) = s
			w.doc.Commit("Change "+fl.label, j)
			return nil
		}, nil)
	}
	f.choice("Units", func() []string { return []string{"ft-in", "mm"} }, func() string { return w.doc.Units().String() }, func(string) { w.switchUnits() })
	kept := widget.NewLabel("")
	kept.Wrapping = fyne.TextWrapWord
	f.add(kept, func() {
		text := "This window has no job book to write to: save the job as a job file (Ctrl+S) to keep it."
		if w.history != nil {
			text = "Every change is saved in the job book at once. Save as a job file (Ctrl+S) to mail it or keep it elsewhere."
		}
		set(kept, text)
	})
	p.scroll = container.NewVScroll(container.NewPadded(f.box))
	return p
}

func (p *jobPanel) show() { p.form.sync() }
