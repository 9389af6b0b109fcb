package book

import (
	"context"
	"errors"
	"fmt"
	"haunchbook.example/app/estimate"
	"io"
	"path/filepath"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/field"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/app/window/words"
	"haunchbook.example/storage"
)

// filePart is the book as a file: exports, backups, its soundness and its size.
func (p *Page) filePart() (fyne.CanvasObject, func()) {
	f := form.New(p)
	f.Title("The book")
	where := "File: " + p.book.Path()
	if p.book.ReadOnly() {
		where += " – open to read only"
		if at := p.book.AsOf(); !at.IsZero() {
			where += ", as it was at " + at.Local().Format(minute)
		}
	}
	f.Explain(where)
	if copies, err := p.book.Copies(); err == nil && len(copies) > 0 {
		f.Add(form.Grave("! "+shelf.Beside(copies)+"."), nil)
	}
	p.shared(f)
	f.Heading("As open files")
	p.withHistory(f, "Export with the undo history of every job")
	f.Add(container.NewGridWithColumns(2, append([]fyne.CanvasObject{
		form.Do("Export the book…", func() {
			o := storage.ExportOptions{History: p.history}
			p.save("jobs.zip", func(out io.Writer) error { return p.book.Export(out, o) })
		}),
		form.Do("Accounts as CSV…", func() { p.save("accounts.csv", p.accountsToFile) }),
		form.Do("Import…", func() { p.load([]string{".zip", ".ZIP"}, p.importBundle) }),
	}, p.mayJoin()...)...), nil)
	f.Explain("An export is a ZIP archive of plain files: each job with its revisions and what it took, the price lists and the settings. Undo history is left out unless ticked. Import adds the jobs under new numbers.")
	p.ahead(f)
	f.Heading("Backups")
	f.Add(form.Do("Back up now", func() {
		settle := p.shelf.Settling()
		p.Stoppable("Backing up the book", func(context.Context) (func(), error) {
			err := settle()
			if err == nil {
				_, err = p.book.Backup("asked")
			}
			return func() { p.again("Backed up") }, err
		})
	}), nil)
	f.Explain("A backup is made by itself once a day, and read back. The ten newest are kept, and all of the last two weeks.")
	list, err := storage.Backups(p.book.Path())
	p.say(err)
	p.backups(f, list)
	p.secondPlace(f)
	if !p.book.ReadOnly() {
		p.soundness(f)
	}
	return f.Box, f.Sync
}

// soundness checks the book, and makes it smaller.
func (p *Page) soundness(f *form.Form) {
	f.Heading("Soundness and size")
	result := container.NewVBox()
	check := form.Do("Check every record", func() {
		form.Refill(result)
		p.Stoppable("Checking every record of the book", func(context.Context) (func(), error) {
			err := p.book.Verify()
			return func() { p.checked(result, err) }, nil
		})
	})
	compact := form.Do("Make the file smaller", func() {
		p.Stoppable("Making the file smaller", func(context.Context) (func(), error) {
			err := p.book.Compact()
			return func() { p.again("The file holds no more than what is in use") }, err
		})
	})
	f.Add(container.NewGridWithColumns(2, check, compact), nil)
	room, err := p.book.Room()
	p.say(err)
	f.Explain(fmt.Sprintf("The file has %s, of which %s are not in use. A file that is mostly unused is made smaller by itself when it is opened.", kilobytes(room.Size), kilobytes(room.Free)))
	f.Add(result, nil)
}

func kilobytes(n int64) string {
	return estimate.Thousands(strconv.FormatInt((n+1023)/1024, 10)) + " kB"
}

// checked tells how the check came out.
func (p *Page) checked(box *fyne.Container, err error) {
	if err == nil {
		form.Refill(box, form.Caption("Every record is as it was written."))
		return
	}
	form.Refill(box, form.Grave("! "+field.Upper(shelf.Sentence(err))+"."), form.Do("Salvage what reads into a new book", func() {
		out := storage.SalvagedName(p.book.Path())
		p.Stoppable("Searching the file for what is whole", func(context.Context) (func(), error) {
			s, err := storage.Salvage(p.book.Path(), out)
			return func() { form.Refill(box, form.Caption(shelf.Found(s)+" It is in "+out+".")) }, err
		})
	}))
}

func (p *Page) importBundle(data []byte) {
	p.Stoppable("Importing", func(ctx context.Context) (func(), error) {
		got, err := p.book.ImportBytes(ctx, data)
		return func() {
			p.ForgetPrices()
			p.again("Imported " + words.Plural(len(got.Jobs), "job"))
		}, err
	})
}

// secondPlace is where backups are kept a second time.
func (p *Page) secondPlace(f *form.Form) {
	f.Heading("Backups in a second place")
	dir, err := p.book.SecondPlace()
	p.say(err)
	if !p.book.ReadOnly() {
		choose := form.Do("Choose a folder…", func() {
			form.OpenFolder(p.Window(), p.say, "Keep backups here too", dir, p.keepIn)
		})
		none := form.Do("No second place", func() { p.keepIn("") })
		if dir == "" {
			none.Disable()
		}
		f.Add(container.NewGridWithColumns(2, choose, none), nil)
	}
	if dir == "" {
		f.Explain("None chosen. A folder on another disk outlives the one that the book is on.")
		return
	}
	f.Explain("Folder: " + dir)
	list, err := p.book.SecondBackups()
	if err != nil {
		f.Add(form.Grave("! "+field.Upper(shelf.Sentence(err))+"."), nil)
		return
	}
	p.backups(f, list)
}

// keepIn keeps backups in a second folder from now on; "" for none.
func (p *Page) keepIn(dir string) {
	settle := p.shelf.Settling()
	told := "Backups are kept beside the book alone; those in the second place stay"
	if dir != "" {
		told = "Backups are kept in " + dir + " too"
	}
	p.Stoppable("Backing up the book", func(context.Context) (func(), error) {
		err := settle()
		if err == nil {
			err = p.book.SetSecondPlace(dir)
		}
		if err == nil && dir != "" {
			_, err = p.book.Backup("second place")
		}
		return func() { p.again(told) }, err
	})
}

// backups lists backups, each to be restored after asking once more.
func (p *Page) backups(f *form.Form, list []storage.BackupFile) {
	if len(list) == 0 {
		f.Explain("None yet.")
		return
	}
	for i, b := range list {
		if i == 12 {
			f.Explain(fmt.Sprintf("… and %d older, in %s", len(list)-i, filepath.Dir(b.Path)))
			break
		}
		restore := form.NewTwice("Restore…", "Put it in place of the book", func() { p.restore(b.Path) })
		l := form.Figure(fmt.Sprintf("%s · %s · %s · %s", b.Time.Local().Format(minute), words.Age(b.Time, p.Now()), b.Note, kilobytes(b.Size)), fyne.TextAlignLeading)
		f.Add(container.NewBorder(nil, nil, nil, restore, l), nil)
	}
	f.Explain("A restored backup takes the place of the book, which is kept beside it under another name.")
}

// restore puts a backup in the place of the book and opens it.
func (p *Page) restore(backup string) {
	p.Leave(func() {
		j, id, aside, err := p.shelf.Restore(backup)
		if errors.Is(err, shelf.ErrBookGone) { // the job that is open stays on the table, and in memory
			p.say(err)
			return
		}
		p.Display(j, id)
		if err != nil {
			p.say(err)
			return
		}
		p.Tell("Restored. The book that was there is kept as " + filepath.Base(aside))
	})
}
