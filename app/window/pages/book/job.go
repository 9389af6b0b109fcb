package book

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/words"
	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
	"haunchbook.example/storage/wholefile"
)

const minute = "2006-01-02 15:04"

// jobPart is what can be done with the chosen job.
func (p *Page) jobPart() (fyne.CanvasObject, func()) {
	s, ok := p.summary()
	if !ok {
		return form.Caption("Choose a job from the list."), nil
	}
	f := form.New(p)
	about := form.Wrapped("")
	f.Title(s.Name)
	f.Add(about, func() { form.Set(about, p.about()) })
	f.Add(container.NewGridWithColumns(2,
		form.Do("Open it on the plan", p.open),
		form.Do("Copy it as a start for another", func() {
			var id storage.ID
			p.do(func(b *storage.Book) (err error) {
				id, err = b.Copy(s.ID)
				return err
			}, func() {
				p.chosen = id
				p.again("Copied as " + id.String() + ": open it to go on")
			})
		}),
		p.opening(officeName),
	), nil)
	var names []string
	for _, st := range storage.States {
		names = append(names, st.String())
	}
	bind.OneOf(f, "State", names, storage.States, func() storage.State { s, _ := p.summary(); return s.State }, func(st storage.State) error { return p.setState(s.ID, st) })
	f.Check("Archived: out of the everyday list", func() bool { s, _ := p.summary(); return s.Archived }, func(v bool) error {
		p.do(func(b *storage.Book) error { return b.Archive(s.ID, v) }, func() {})
		return nil
	})
	f.Explain("In the state bid, a job keeps the prices it was bid with, whatever the lists say later.")
	p.withHistory(f, "Export with the undo history")
	f.Add(container.NewGridWithColumns(2,
		form.Do("Export this job…", func() {
			o := storage.ExportOptions{History: p.history}
			p.save(form.FileName(s.Name)+".zip", func(out io.Writer) error { return p.book.ExportJob(out, s.ID, o) })
		}),
		form.NewTwice("Delete…", "Delete it for good", f.Act(func() error { return p.remove(s, false) })),
	), nil)
	if all := p.eraser(f); all != nil {
		f.Buttons(all...)
		for _, line := range office.ErasePlan() {
			f.Explain(line)
		}
	}
	f.Explain("An export holds the job with its revisions and what it took, as plain files in a ZIP archive. Its undo history is left out unless ticked.")
	return f.Box, f.Sync
}

// about says how far the chosen job is.
func (p *Page) about() string {
	s, _ := p.summary()
	text := fmt.Sprintf("%s, begun %s, last changed %s", s.ID, s.Created.Local().Format(minute), s.Changed.Local().Format(minute))
	if n := p.shelf.NumberThere(s.ID); n != s.ID {
		text += ", in the office book " + n.String()
	}
	if s.Revision != "" {
		text += ", revision mark " + s.Revision
	}
	if s.Archived {
		text += ". Archived"
	}
	return text + "."
}

func (p *Page) withHistory(f *form.Form, label string) {
	f.Check(label, func() bool { return p.history }, func(v bool) error { p.history = v; return nil })
}

// setState says how far a job has come. One that becomes a bid keeps its prices
// and is set aside as a revision.
func (p *Page) setState(id storage.ID, st storage.State) error {
	do := func(b *storage.Book) error { return b.SetState(id, st) }
	switch {
	case st != storage.Bid:
	case id != p.shelf.ID() || !p.shelf.Kept():
		do = func(b *storage.Book) error {
			_, err := b.Bid(id)
			return err
		}
	default:
		if err := p.OwnPrices("Keep the prices of the bid"); err != nil {
			return err
		}
		do = func(b *storage.Book) error {
			_, err := b.Revise(id, "bid")
			if err == nil {
				err = b.SetState(id, st)
			}
			return err
		}
	}
	p.do(do, func() {})
	return nil
}

// do has something done in the book, shows what came of it, and goes on unless it
// failed.
func (p *Page) do(do func(*storage.Book) error, then func()) {
	p.shelf.Do(do, func(err error) {
		p.Update()
		p.say(err)
		if err == nil {
			then()
		}
	})
}

// remove deletes a job that is not open; all for everyone.
func (p *Page) remove(s storage.Summary, all bool) error {
	if s.ID == p.shelf.ID() {
		return fmt.Errorf("this job is open: open another first")
	}
	p.erase(s, all)
	return nil
}

// erase deletes a job for good, and says what it cannot reach.
func (p *Page) erase(s storage.Summary, all bool) {
	text := "Deleted %s from the book and %s; what was exported or printed is not touched"
	if _, _, has := p.shelf.Office(); all {
		text = "Deleted %s for everyone, and from this book and %s; what was exported or printed is not touched"
	} else if has {
		text = "Deleted %s from this book and %s; the office book and others' books have it still"
	}
	settle, everywhere := p.shelf.Settling(), p.shelf.ErasingForAll(s.ID)
	p.Stoppable("Deleting "+s.ID.String()+" from the book and its backups", func(ctx context.Context) (func(), error) {
		if err := settle(); err != nil {
			return nil, err
		}
		if all {
			if err := everywhere(ctx); err != nil {
				return nil, err
			}
		}
		done, err := p.book.Erase(ctx, s.ID)
		return func() {
			p.chosen = p.shelf.ID()
			p.again(fmt.Sprintf(text, s.ID, words.Plural(done.Files, "backup")))
			if len(done.Left) > 0 {
				p.Say(fmt.Sprintf("%s is deleted, but may still be in %s: %s", s.ID, words.Plural(len(done.Left), "file"), errors.Join(done.Left...)))
			}
		}, err
	})
}

// save asks for a file and writes it, whole or not at all.
func (p *Page) save(name string, write func(io.Writer) error) {
	form.SaveFile(p.Window(), p.say, name, func(f fyne.URIWriteCloser) {
		path := f.URI().Path()
		_ = f.Close() // it is written under its name when it is whole
		p.saveAs(path, write)
	})
}

func (p *Page) saveAs(path string, write func(io.Writer) error) {
	settle := p.shelf.Settling()
	p.Stoppable("Writing "+filepath.Base(path), func(ctx context.Context) (func(), error) {
		var b bytes.Buffer
		err := settle()
		if err == nil {
			err = write(stoppable{&b, ctx})
		}
		if err == nil {
			err = wholefile.Write(path, wholefile.Bytes(b.Bytes()))
		}
		return func() { p.Tell("Saved " + path) }, err
	})
}

// stoppable writes until the context ends.
type stoppable struct {
	io.Writer
	ctx context.Context
}

func (s stoppable) Write(b []byte) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	return s.Writer.Write(b)
}

// load asks for a file and reads it.
func (p *Page) load(ends []string, read func([]byte)) {
	form.OpenFile(p.Window(), p.say, ends, func(f fyne.URIReadCloser) {
		defer f.Close()
		data, err := io.ReadAll(io.LimitReader(f, maxLoad+1))
		if err == nil && len(data) > maxLoad {
			err = fmt.Errorf("%s has more than %d MB", f.URI().Name(), maxLoad>>20)
		}
		if err != nil {
			p.say(err)
			return
		}
		read(data)
	})
}

// maxLoad bounds what is read into memory.
const maxLoad = 1 << 30
