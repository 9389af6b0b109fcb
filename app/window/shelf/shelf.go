// Package shelf is where the open job is kept: in a job book, with its history, or in
// the window alone. It knows nothing of windows.
package shelf

import (
	"bytes"
	"errors"
	"fmt"
	"sync/atomic"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/document"
	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
)

// Shelf is used from one goroutine.
type Shelf struct {
	doc     *document.Document
	book    *storage.Book // nil for none
	id      storage.ID    // of the open job in a book that is only read
	history *history      // of it; nil where there is no book to write to
	filed   []byte        // the job as it was last saved as a job file
	waiting map[any]waiting
	work    document.Scheduler // what is done in the book is told where that posts
	changed func()
	failed  error // why changes wait, until none does
	office  follower
	open    atomic.Pointer[history] // the history, for any goroutine

	// Told hears how the book stands with its office book, where it has one; nil for
	// nobody.
	Told func(office.Status)
	// Busy tells whether the open job is in the middle of something that what comes from
	// others would disturb; nil for never.
	Busy func() bool
}

// New gives the shelf of a document, with a book or none. changed is called, on the
// scheduler's goroutine of results, when Unsaved may give something else; where the
// scheduler does everything at once, every change is on disk before the call that makes
// it returns.
func New(d *document.Document, b *storage.Book, sc document.Scheduler, changed func()) *Shelf {
	s := &Shelf{doc: d, work: sc}
	if sc.Go != nil {
		s.changed = func() { sc.Result(changed) }
	}
	s.Take(b)
	return s
}

// Book gives the book; nil for none.
func (s *Shelf) Book() *storage.Book { return s.book }

// ID gives the number of the open job in the book; 0 where it is not in it, or not yet.
func (s *Shelf) ID() storage.ID {
	if s.history != nil {
		return s.history.number()
	}
	return s.id
}

// Kept tells whether every change of the open job goes into a book.
func (s *Shelf) Kept() bool { return s.history != nil }

// Take makes a book the one to keep jobs in; nil for none. The job that is open is in
// it once it is opened anew.
func (s *Shelf) Take(b *storage.Book) {
	s.book, s.doc.Kept, s.waiting = b, nil, nil
	if b != nil {
		s.doc.Kept = s.Prices
	}
	s.doc.ForgetPrices()
	set, _ := s.Settings() // who shows the settings says why they do not read
	s.doc.SetFrost(set.Frost)
	s.follow(nil)
}

// lastOpen is where the book remembers the job that is open.
const lastOpen = "open"

// Open opens a job with the history that it has in the book; with id 0 it goes in, and
// where there is no book to write to, its history ends with the window. With an error,
// which tells what of the history does not read, it is open all the same.
func (s *Shelf) Open(j job.Job, id storage.ID) error {
	s.history, s.filed, s.id, s.failed, s.waiting = nil, nil, id, nil, map[any]waiting{}
	if s.book == nil || s.book.ReadOnly() {
		s.doc.Reset(j, nil)
		return nil
	}
	changed := s.changed
	if changed != nil {
		changed = func() {
			s.changed()
			s.moved(s.number())
		}
	}
	q := storage.NewQueue(s.book, changed)
	h, err := newHistory(q, id, j)
	s.history = h
	s.open.Store(h)
	s.doc.Reset(j, h)
	q.Note(func(b *storage.Book) error { return b.Remember(lastOpen, h.number()) }) // for the next start
	return err
}

// Last gives the job of a book to open first: the one that was open last, else the
// first that reads; id is 0 where there is none. An error tells what does not read.
func Last(b *storage.Book) (j job.Job, id storage.ID, err error) {
	if ok, err := b.Recall(lastOpen, &id); ok && err == nil {
		if j, err = b.Get(id); err == nil {
			return j, id, nil
		}
	}
	all, found := b.List()
	for _, s := range all {
		if j, err = b.Get(s.ID); err == nil {
			return j, s.ID, found
		}
		found = errors.Join(found, err)
	}
	return job.Job{}, 0, found
}

// Unsaved tells how many changes are in this window alone; the making of the job is one.
// An error says why the book could not take them: without one they are on their way.
func (s *Shelf) Unsaved() (int, error) {
	if s.history == nil {
		if _, changed := s.doc.CanUndo(); !changed || s.onFile() {
			return 0, nil
		}
		return 1, nil
	}
	n, _, err := s.history.queue.Pending()
	if err != nil || n == 0 {
		s.failed = err // it stands while they are tried again
	}
	switch {
	case s.failed == nil || !s.onFile() || s.waitsBeside():
		return n, s.failed
	case storage.IsKind(s.failed, storage.Displaced): // the book has other jobs too
		return 0, s.failed
	}
	return 0, nil
}

// Looking gives what sees whether the book is still in its place, in any goroutine.
func (s *Shelf) Looking() func() {
	if s.history == nil {
		return func() {}
	}
	return s.history.queue.Look
}

// PuttingBack gives what gives the book its name back, in any goroutine, and then
// stores what waits: under what name the file is kept that took its place, "" for none.
func (s *Shelf) PuttingBack() func() (aside string, err error) {
	b, settle := s.book, s.Settling()
	return func() (string, error) {
		aside, err := b.PutBack()
		if err == nil {
			err = settle()
		}
		return aside, err
	}
}

// onFile tells whether the job as it is was saved as a job file.
func (s *Shelf) onFile() bool { return s.filed != nil && bytes.Equal(s.filed, s.doc.Base().Encode()) }

// Filed notes that the job was saved as a job file with that content.
func (s *Shelf) Filed(data []byte) { s.filed = data }

// Settling tries what waits once more, and gives what waits, in any goroutine, until
// everything is on disk or something cannot be, and tells why.
func (s *Shelf) Settling() func() error {
	if s.history == nil {
		return func() error { return nil }
	}
	q := s.history.queue
	return func() error {
		q.Retry()
		return q.Wait()
	}
}

// Settle is Settling at once.
func (s *Shelf) Settle() error { return s.Settling()() }

// Close closes the book, unless a change is on its way to it that nobody waits for any
// more: a book that is left open is sound.
func (s *Shelf) Close() {
	s.unfollow()
	if s.history != nil {
		if n, _, err := s.history.queue.Pending(); n > 0 && err == nil {
			return
		}
	}
	if s.book != nil {
		_ = s.book.Close() // every edit is on disk already, or cannot be
	}
}

// Sentence gives what was found and what would do.
func Sentence(err error) string {
	var f *storage.Fault
	if errors.As(err, &f) {
		text := f.Text
		if f.Way != "" {
			text += "; " + f.Way
		}
		return text
	}
	return err.Error()
}

// Restore puts a backup in the place of the book, and gives the job to open then, with
// the name under which the book that was there is kept. Where that fails the book is
// as it was, and so is the job; with ErrBookGone it does not open any more, and the
// job is kept in the window alone.
func (s *Shelf) Restore(backup string) (j job.Job, id storage.ID, aside string, err error) {
	path, was := s.book.Path(), s.ID()
	s.unfollow()
	err = s.book.Close()
	aside, restored := storage.Restore(path, backup)
	book, openErr := storage.Open(path, storage.Options{})
	if openErr != nil {
		s.Take(nil)
		return j, 0, "", errors.Join(ErrBookGone, err, restored, openErr, s.Open(s.doc.Base(), 0))
	}
	s.Take(book)
	if restored != nil {
		if j, err := book.Get(was); err == nil {
			return j, was, "", restored
		}
	}
	if j, id, err = Last(book); id == 0 || err != nil {
		j, _ = s.NewJob()
		id = 0
	}
	return j, id, aside, restored
}

// ErrBookGone tells that the book does not open any more.
var ErrBookGone = errors.New("the job is kept in this window only")

// Found tells what was salvaged.
func Found(s storage.Salvaged) string {
	count := func(n int, noun string) string {
		if n != 1 {
			noun += "s"
		}
		return fmt.Sprintf("%d %s", n, noun)
	}
	text := fmt.Sprintf("Found: %s as last saved, with %s and %s of undo history.", count(s.Jobs, "job"), count(s.Revisions, "revision"), count(s.Edits, "edit"))
	if s.FromEdits > 0 {
		text += fmt.Sprintf(" Of %s the last state is damaged: the newest whole one before it was taken.", count(s.FromEdits, "job"))
	}
	if s.Pictures > 0 {
		text += fmt.Sprintf(" %s lost a picture.", count(s.Pictures, "job"))
	}
	if !s.Settings {
		text += " The settings of the book were not among it."
	}
	return text
}
