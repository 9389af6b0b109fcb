package storage

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync/atomic"
	"time"

	bolt "go.etcd.io/bbolt"

	"haunchbook.example/storage/wholefile"
)

// attach opens the database file. If another one was put under its name while
// this waited for it, as by a restored backup, that is the one to open.
func (b *Book) attach(file string, readOnly bool) error {
	for range 20 {
		current, err := b.attachOnce(file, readOnly)
		if err != nil || current {
			return err
		}
		if err := b.detach(); err != nil {
			return err
		}
	}
	return &Fault{Busy, b.path, "another window keeps replacing this job book", "try again in a moment", nil}
}

// attachOnce opens the database file, once its pages are known to be sound: a
// panic of the database while it opens would leave the file mapped and locked.
// It tells whether the file opened is the one of that name.
func (b *Book) attachOnce(file string, readOnly bool) (current bool, err error) {
	if err := verifyPages(file); err != nil {
		return false, b.unsound(err)
	}
	err = guard(b.path, func() (err error) {
		b.db, b.opened, err = openDatabase(file, &bolt.Options{Timeout: b.o.Wait, ReadOnly: readOnly})
		return err
	})
	if err != nil {
		b.db = nil
		return false, err
	}
	b.readOnly, b.touched = readOnly, touching{}
	return sameFile(b.opened, file), nil
}

// openDatabase opens the database in a file that exists: an empty one must never
// come into being by a slip.
func openDatabase(name string, o *bolt.Options) (db *bolt.DB, f *os.File, err error) {
	o.FreelistType = bolt.FreelistMapType
	o.OpenFile = func(name string, flag int, mode os.FileMode) (*os.File, error) {
		var err error
		f, err = os.OpenFile(name, flag&^os.O_CREATE, mode)
		return f, err
	}
	db, err = bolt.Open(name, wholefile.Mode, o)
	return db, f, err
}

// detach closes the database. One that tripped may have kept its locks, and would
// wait for them: of that the file is closed, which lets others have it.
func (b *Book) detach() error {
	db := b.db
	b.db = nil
	switch {
	case db == nil:
		return nil
	case b.lost.Load() != nil:
		return b.opened.Close()
	}
	return db.Close()
}

// sameFile tells whether name still names the file f.
func sameFile(f *os.File, name string) bool {
	mine, err := f.Stat()
	if err != nil {
		return false
	}
	named, err := os.Stat(name)
	return err == nil && os.SameFile(mine, named)
}

// errTripped is a panic of the database.
var errTripped = errors.New("the database stopped in the middle")

// usable gives why the database is of no use any more, or what would make it trip:
// it reads its pages as memory, where a file that was cut short has none.
func (b *Book) usable(why *atomic.Pointer[Fault]) error {
	if f := why.Load(); f != nil {
		return f
	}
	if b.db == nil {
		return &Fault{Missing, b.path, "the book is closed", "open it again", nil}
	}
	m, err := readMeta(b.opened)
	if err == nil {
		var info os.FileInfo
		if info, err = b.opened.Stat(); err == nil && info.Size() < m.size() {
			err = fmt.Errorf("%d bytes of %d are there", info.Size(), m.size())
		}
	}
	if err != nil {
		return b.give(err, &b.lost, &b.blind)
	}
	return nil
}

// give gives up writing to the database, or reading from it, and says so.
func (b *Book) give(err error, what ...*atomic.Pointer[Fault]) error {
	f := &Fault{Unreadable, b.path, "the file can no longer be read", unreadableWay, err}
	for _, p := range what {
		p.CompareAndSwap(nil, f)
	}
	return f
}

const unreadableWay = "save the job as a job file, then open another book, or salvage what still reads of this one"

// unsound explains what verifyPages found.
func (b *Book) unsound(err error) error {
	switch {
	case errors.Is(err, errNoStart):
		return &Fault{Foreign, b.path, "the file is not a job book, or its start is damaged", wayOut, err}
	case errors.As(err, new(*os.PathError)):
		return err
	}
	return damaged(b.path, "the file is damaged ("+err.Error()+")", err)
}

// check reads what the book says of itself.
func (b *Book) check() error {
	var a about
	err := b.view(func(t *tx) error { return t.getJSON(inMeta, aboutKey, &a) })
	if err != nil {
		return notABook(b.path, err)
	}
	return a.readable(b.path)
}

// notABook explains why the book says nothing of itself.
func notABook(path string, err error) error {
	if IsKind(err, Missing) {
		return &Fault{Foreign, path, "the file is a database, but no job book", "choose another file", err}
	}
	return err
}

// readable gives a Fault if the book is of a form that this program cannot know.
func (a about) readable(path string) error {
	if a.Schema > schema {
		return &Fault{Newer, path, fmt.Sprintf("the book was written by a newer version of this program (form %d; this one reads up to %d)", a.Schema, schema),
			"use the newer version; the book is left untouched", nil}
	}
	return nil
}

// inspect reads what the book in a file that nobody writes says of itself; of one
// that is no sound book it gives why.
func inspect(file string) (about, error) {
	b := &Book{path: file, file: file, o: Options{Wait: 100 * time.Millisecond}}
	var a about
	err := b.attach(file, true)
	if err == nil {
		err = notABook(file, b.view(func(t *tx) error { return t.getJSON(inMeta, aboutKey, &a) }))
	}
	if err := errors.Join(err, b.Close()); err != nil {
		return a, explain(file, err)
	}
	return a, a.readable(file)
}

// create makes an empty book. It appears under its name only when it is whole.
func create(file string, now time.Time) error {
	dir := filepath.Dir(file)
	if err := wholefile.MkdirAll(dir); err != nil {
		return err
	}
	f, err := os.CreateTemp(dir, "."+filepath.Base(file)+creating+"*")
	if err != nil {
		return err
	}
	temp := f.Name()
	defer os.Remove(temp)
	if err := f.Close(); err != nil {
		return err
	}
	db, _, err := openDatabase(temp, &bolt.Options{Timeout: time.Second})
	if err != nil {
		return err
	}
	data, err := json.Marshal(about{Schema: schema, Created: now.UTC(), NextJob: 1})
	if err == nil {
		err = db.Update(func(btx *bolt.Tx) error {
			for in := range bucketNames {
				if _, err := btx.CreateBucketIfNotExists(in.name()); err != nil {
					return err
				}
			}
			return (&tx{Tx: btx, path: file}).put(inMeta, aboutKey, data)
		})
	}
	if err := errors.Join(err, db.Close()); err != nil {
		return err
	}
	if err := place(temp, file); err != nil {
		return err
	}
	return wholefile.SyncDir(dir)
}

// creating is in the hidden name of a new book that is not whole yet.
const creating = "-new-"

// place gives temp the name path unless that is taken: then another window was
// faster, and its book is the one.
func place(temp, path string) error {
	err := os.Link(temp, path)
	if err == nil || errors.Is(err, os.ErrExist) {
		return nil
	}
	return os.Rename(temp, path) // a file system without links
}
