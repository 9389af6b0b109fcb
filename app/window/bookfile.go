package window

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/storage"
)

// filePart is the book as a file: exports, backups, its soundness and its size.
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
	f.heading("As open files")
	f.check("Export with the undo history of every job", func() bool { return p.history }, func(v bool) { p.history = v })
	f.add(container.NewGridWithColumns(2,
		newPageButton(w, "Export the book…", func() {
			o := storage.ExportOptions{History: p.history}
			p.save("jobs.zip", func(out io.Writer) error { return w.book.Export(out, o) })
		}),
		newPageButton(w, "Import…", func() { p.load([]string{".zip", ".ZIP"}, p.importBundle) }),
	), nil)
	f.note("An export is a ZIP archive of plain files: each job with its revisions and what it took, the price lists and the settings. Undo history is left out unless ticked. Import adds the jobs under new numbers.")
	f.heading("Backups")
	f.add(newPageButton(w, "Back up now", func() {
		w.longWork("Backing up the book", func(context.Context) (func(), error) {
			_, err := w.book.Backup("asked")
			return func() {
				p.turn(p.part)
				w.tell("Backed up")
			}, err
		})
	}), nil)
	f.note("A backup is made by itself once a day, when the book is opened. The ten newest are kept, and all of the last two weeks.")
	p.backups(f)
	p.soundness(f)
	return f.box, f.sync
}

// soundness checks the book, and makes it smaller.
func (p *bookPage) soundness(f *pageForm) {
	w := p.w
	if w.book.ReadOnly() {
		return
	}
	f.heading("Soundness and size")
	result := container.NewVBox()
	check := newPageButton(w, "Check every record", func() {
		result.RemoveAll()
		w.longWork("Checking every record of the book", func(context.Context) (func(), error) {
			err := w.book.Verify()
			return func() { p.checkedBook(result, err) }, nil
		})
	})
	room, err := w.book.Room()
	p.say(err)
	compact := newPageButton(w, "Make the file smaller", func() {
		w.longWork("Making the file smaller", func(context.Context) (func(), error) {
			err := w.book.Compact()
			return func() {
				p.turn(p.part)
				w.tell("The file holds no more than what is in use")
			}, err
		})
	})
	f.add(container.NewGridWithColumns(2, check, compact), nil)
	f.note(fmt.Sprintf("The file has %s, of which %s are not in use. A file that is mostly unused is made smaller by itself when it is opened.", kilobytes(room.Size), kilobytes(room.Free)))
	f.add(result, nil)
}

func kilobytes(n int64) string { return thousands(itoa(int((n+1023)/1024))) + " kB" }

// checkedBook tells how the check came out.
func (p *bookPage) checkedBook(box *fyne.Container, err error) {
	w := p.w
	if err == nil {
		box.Add(caption("Every record is as it was written.", false))
		box.Refresh()
		return
	}
	box.Add(grave("! " + capitalized(sentence(err)) + "."))
	box.Add(newPageButton(w, "Salvage what reads into a new book", func() {
		out := storage.SalvagedName(w.book.Path())
		w.longWork("Searching the file for what is whole", func(context.Context) (func(), error) {
			s, err := storage.Salvage(w.book.Path(), out)
			return func() {
				box.RemoveAll()
				box.Add(caption(foundText(s)+" It is in "+out+".", false))
				box.Refresh()
			}, err
		})
	}))
	box.Refresh()
}

func (p *bookPage) importBundle(data []byte) {
	w := p.w
	w.longWork("Importing", func(ctx context.Context) (func(), error) {
		got, err := w.book.ImportBytes(ctx, data)
		return func() {
			w.kept = nil
			p.turn(p.part)
			w.tell("Imported " + plural(len(got.Jobs), "job"))
		}, err
	})
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
		l := figure(fmt.Sprintf("%s · %s · %s", b.Time.Local().Format(minute), b.Note, kilobytes(b.Size)), fyne.TextAlignLeading)
		f.add(container.NewBorder(nil, nil, nil, restore, l), nil)
	}
	if len(list) > 0 {
		f.note("A restored backup takes the place of the book, which is kept beside it under another name.")
	}
}

// restore puts a backup in the place of the book and opens it.
func (p *bookPage) restore(backup string) {
	p.w.leave(func() { p.putInPlace(backup) })
}

func (p *bookPage) putInPlace(backup string) {
	w := p.w
	path := w.book.Path()
	if err := w.book.Close(); err != nil {
		p.say(err)
	}
	aside, err := storage.Restore(path, backup)
	book, openErr := storage.Open(path, storage.Options{})
	if openErr != nil {
		// The job that is open stays on the table, and in memory.
		w.take(nil)
		p.say(w.attach(w.doc.Base(), 0))
		p.say(errors.Join(err, openErr))
		return
	}
	w.take(book)
	p.say(err)
	j, id := w.startJob(), storage.ID(0)
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
