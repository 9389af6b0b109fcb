package window

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook/app/job"
	"haunchbook/geometry"
	"haunchbook/geometry/plan"
	"haunchbook/storage"
)

// filePart is the book as a file: backups, exports, and its settings.
func (p *bookPage) filePart() (fyne.CanvasObject, func()) {
	w := p.w
	f := newPageForm(w)
	f.add(title("The book"), nil)
	where := "File: " + w.book.Path()
	if w.book.ReadOnly() {
		where += " – open to read only"
		if at := w.book.AsOf(); !at.IsZero() {
			where += ", as it was at " + at.Local().Format(minute)
		}
	}
	f.note(where)
	f.add(container.NewGridWithColumns(3,
		newPageButton(w, "Export the book…", func() {
			o := storage.ExportOptions{History: p.history}
			p.save("jobs.zip", func(out io.Writer) error { return w.book.Export(out, o) })
		}),
		newPageButton(w, "Import…", func() { p.load(".zip", p.importBundle) }),
		newPageButton(w, "Back up now", func() {
			if _, err := w.book.Backup("asked"); err != nil {
				p.say(err)
				return
			}
			p.turn(p.part)
			w.tell("Backed up")
		}),
	), nil)
	f.check("Export with the undo history of every job", func() bool { return p.history }, func(v bool) { p.history = v })
	f.note("Without the tick, undo history is left out. An export is a ZIP archive of plain files; import adds its jobs under new numbers. A backup is made by itself once a day.")
	f.heading("Backups")
	p.backups(f)
	p.settings(f)
	return f.box, f.sync
}

func (p *bookPage) importBundle(data []byte) error {
	got, err := p.w.book.ImportBytes(data)
	if err != nil {
		return err
	}
	p.turn(p.part)
	p.w.kept = nil
	p.w.tell(fmt.Sprintf("Imported %s", plural(len(got.Jobs), "job")))
	return nil
}

// backups lists the backups, each to be restored after asking once more.
func (p *bookPage) backups(f *pageForm) {
	w := p.w
	list, err := storage.Backups(w.book.Path())
	p.say(err)
	if len(list) == 0 {
		f.note("None yet.")
	}
	for i, b := range list {
		if i == 12 {
			f.note(fmt.Sprintf("… and %d older, in %s", len(list)-i, filepath.Dir(b.Path)))
			break
		}
		var restore *pageButton
		restore = newPageButton(w, "Restore…", func() {
			if restore.Text == "Restore…" {
				restore.SetText("Put it in place of the book")
				restore.Importance = widget.DangerImportance
				restore.Refresh()
				return
			}
			p.restore(b.Path)
		})
		l := figure(fmt.Sprintf("%s · %s · %d kB", b.Time.Local().Format(minute), b.Note, (b.Size+1023)/1024), fyne.TextAlignLeading)
		f.add(container.NewBorder(nil, nil, nil, restore, l), nil)
	}
	if len(list) > 0 {
		f.note("A restored backup takes the place of the book, which is kept beside it under another name.")
	}
}

// restore puts a backup in the place of the book and opens it.
func (p *bookPage) restore(backup string) {
	w := p.w
	path := w.book.Path()
	w.doc.Cancel()
	if err := w.book.Close(); err != nil {
		p.say(err)
	}
	aside, err := storage.Restore(path, backup)
	book, openErr := storage.Open(path, storage.Options{})
	if openErr != nil {
		// The job that is open stays on the table, and in memory.
		w.book, w.id = nil, 0
		w.doc.Reset(w.doc.Base(), nil)
		p.say(errors.Join(err, openErr))
		return
	}
	w.take(book)
	p.say(err)
	j, id := Blank(w.doc.Units()), storage.ID(0)
	if all, err := book.List(); err == nil && len(all) > 0 {
		if got, err := book.Get(all[0].ID); err == nil {
			j, id = got, all[0].ID
		}
	}
	if err != nil { // the book is as it was
		if got, getErr := book.Get(w.id); getErr == nil {
			j, id = got, w.id
		}
	}
	w.display(j, id)
	if err == nil {
		w.tell("Restored. The book that was there is kept as " + filepath.Base(aside))
	} else {
		p.say(err)
	}
}

// settings are what the book's sheets are headed with, and what new jobs start
// as.
func (p *bookPage) settings(f *pageForm) {
	w := p.w
	f.heading("Settings of the book")
	get := func() storage.Settings {
		s, err := w.book.Settings()
		p.say(err)
		return s
	}
	change := func(set func(*storage.Settings)) error {
		s, err := w.book.Settings()
		if err != nil {
			return err
		}
		set(&s)
		return w.book.SetSettings(s)
	}
	f.text("Company", func() string { return get().Company.Name }, func(v string) error {
		return change(func(s *storage.Settings) { s.Company.Name = strings.TrimSpace(v) })
	})
	f.text("Address, phone, licence", func() string { return strings.Join(get().Company.Lines, "; ") }, func(v string) error {
		var lines []string
		for _, l := range strings.Split(v, ";") {
			if l = strings.TrimSpace(l); l != "" {
				lines = append(lines, l)
			}
		}
		return change(func(s *storage.Settings) { s.Company.Lines = lines })
	})
	f.note("With semicolons between the lines.")
	f.text("Frost depth", func() string {
		if s := get(); s.Frost > 0 {
			return lengthText(s.Frost, w.doc.Units())
		}
		return ""
	}, func(v string) error {
		l := geometry.Length(0)
		if strings.TrimSpace(v) != "" {
			var err error
			if l, err = geometry.ParseLength(v, w.doc.Units()); err != nil {
				return err
			}
		}
		return change(func(s *storage.Settings) { s.Frost = l })
	})
	f.add(newPageButton(w, "New jobs start with this job's specification, pour and percentages", func() {
		if err := change(func(s *storage.Settings) { s.Start = startOf(w.doc.Base()) }); err != nil {
			p.say(err)
			return
		}
		w.tell("New jobs start as this one does: without its plan, its customer and its own prices")
	}), nil)
}

// startOf gives what of a job is usual for others: everything but what is its
// own.
func startOf(j job.Job) job.Job {
	s := job.New()
	s.Units, s.Spec, s.Pour, s.Price = j.Units, j.Spec, j.Pour, j.Price
	s.Slabs = []plan.Plan{{Field: j.Slabs[0].Field, Sections: slices.Clone(j.Slabs[0].Sections)}}
	s.Pour.Stations, s.Pour.Weather = nil, nil
	s.Price.Extras, s.Price.Options = nil, nil
	s.Price.Prices = job.New().Price.Prices
	return s
}
