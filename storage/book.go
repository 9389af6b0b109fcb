package storage

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"time"

	bolt "go.etcd.io/bbolt"

	"haunchbook.example/storage/wholefile"
)

// schema is the version of the book that this program writes.
const schema = 2

// Options say how a book is opened. The zero Options are usual.
type Options struct {
	// ReadOnly opens the book to look at. If another window has it open, the
	// book as it stands at this moment is shown; see Book.AsOf.
	ReadOnly bool
	// Wait is how long to wait for another window that has the book open, before
	// giving a Fault of kind Busy; 0 is a second.
	Wait time.Duration
	// Keep says which automatic backups are kept; zero is DefaultKeep.
	Keep Keep
	// NoBackup leaves out the daily backup on opening; see Book.BackupIfDue.
	NoBackup bool
	// Now gives the time; nil is time.Now.
	Now func() time.Time
}

// Book is an open job book. Its methods may be called from several goroutines.
type Book struct {
	path     string
	swap     sync.RWMutex // held to write by what puts another file in place of db
	db       *bolt.DB
	pictures pictureCache
	listed   listCache
	o        Options
	readOnly bool
	asOf     time.Time // of a snapshot, else zero
	snapshot string    // file to remove on Close
	closed   bool
}

// about is what the book says of itself.
type about struct {
	Schema  int       `json:"schema"`
	Created time.Time `json:"created"`
	Jobs    int       `json:"jobs"` // entries in the list, so that a lost page shows
	Stamp   uint64    `json:"stamp"`
	NextJob uint64    `json:"nextJob"`
}

var aboutKey = key{}

// Open opens the job book at path and creates it, with its folder, if there is
// none. A book that another window has open, that is damaged or newer than this
// program, or that cannot be written, gives a *Fault and is left as it was.
func Open(path string, o Options) (*Book, error) {
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Wait == 0 {
		o.Wait = time.Second
	}
	if o.Keep == (Keep{}) {
		o.Keep = DefaultKeep
	}
	if o.ReadOnly {
		return openToRead(path, o)
	}
	if _, err := os.Stat(path); errors.Is(err, os.ErrNotExist) {
		if err := create(path, o.Now()); err != nil {
			return nil, explain(path, err)
		}
	}
	b := &Book{path: path, o: o}
	if err := b.attach(path, false); err != nil {
		return nil, explain(path, err)
	}
	if err := b.prepare(); err != nil {
		return nil, errors.Join(explain(path, err), b.Close())
	}
	return b, nil
}

// prepare brings an attached book up to date and backs it up if that is due.
func (b *Book) prepare() error {
	if err := b.check(); err != nil {
		return err
	}
	if err := b.migrate(); err != nil {
		return err
	}
	// What is left of a compaction that was killed: nobody else compacts a book
	// that this process has open.
	_ = os.Remove(b.path + compacting)
	// A backup or a compaction that fails, say for want of room, must not keep
	// anyone from working; the next opening tries again.
	if !b.o.NoBackup {
		_, _ = b.BackupIfDue()
	}
	_ = b.compactIfDue()
	return nil
}

// attach opens the database file. If another one was put under its name while
// this waited for it, as by a restored backup, that is the one to open.
func (b *Book) attach(file string, readOnly bool) error {
	for range 20 {
		current, err := b.attachOnce(file, readOnly)
		if err != nil || current {
			return err
		}
		if err := b.db.Close(); err != nil {
			return err
		}
		b.db = nil
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
	var opened *os.File
	err = guard(b.path, func() (err error) {
		b.db, err = bolt.Open(file, wholefile.Mode, &bolt.Options{
			Timeout: b.o.Wait, ReadOnly: readOnly, FreelistType: bolt.FreelistMapType,
			OpenFile: func(name string, flag int, mode os.FileMode) (*os.File, error) {
				// The file exists: an empty one must never come into being by a slip.
				var err error
				opened, err = os.OpenFile(name, flag&^os.O_CREATE, mode)
				return opened, err
			},
		})
		return err
	})
	if err != nil {
		b.db = nil
		return false, err
	}
	b.readOnly = readOnly
	return sameFile(opened, file), nil
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
	if err := b.view(func(t *tx) error { return t.getJSON(inMeta, aboutKey, &a) }); err != nil {
		if IsKind(err, Missing) {
			return &Fault{Foreign, b.path, "the file is a database, but no job book", "choose another file", err}
		}
		return err
	}
	if a.Schema > schema {
		return &Fault{Newer, b.path, fmt.Sprintf("the book was written by a newer version of this program (form %d; this one reads up to %d)", a.Schema, schema),
			"use the newer version; the book is left untouched", nil}
	}
	return nil
}

// create makes an empty book. It appears under its name only when it is whole.
func create(path string, now time.Time) error {
	dir := filepath.Dir(path)
	if err := os.MkdirAll(dir, wholefile.DirMode); err != nil {
		return err
	}
	f, err := os.CreateTemp(dir, ".new-*")
	if err != nil {
		return err
	}
	temp := f.Name()
	defer os.Remove(temp)
	if err := f.Close(); err != nil {
		return err
	}
	db, err := bolt.Open(temp, wholefile.Mode, &bolt.Options{Timeout: time.Second})
	if err != nil {
		return err
	}
	err = db.Update(func(btx *bolt.Tx) error {
		for in := range bucketNames {
			if _, err := btx.CreateBucketIfNotExists(in.name()); err != nil {
				return err
			}
		}
		t := &tx{Tx: btx, path: path, pictures: &pictureCache{}}
		return t.putJSON(inMeta, aboutKey, about{Schema: schema, Created: now.UTC(), NextJob: 1})
	})
	if err := errors.Join(err, db.Close()); err != nil {
		return err
	}
	if err := os.Chmod(temp, wholefile.Mode); err != nil {
		return err
	}
	if err := place(temp, path); err != nil {
		return err
	}
	return wholefile.SyncDir(dir)
}

// place gives temp the name path unless that is taken: then another window was
// faster, and its book is the one.
func place(temp, path string) error {
	err := os.Link(temp, path)
	if err == nil || errors.Is(err, os.ErrExist) {
		return nil
	}
	return os.Rename(temp, path) // a file system without links
}

// Close closes the book, once those who read and write are done. Everything is on
// disk already.
func (b *Book) Close() error {
	b.swap.Lock()
	defer b.swap.Unlock()
	var err error
	if b.db != nil {
		err = b.db.Close()
	}
	if b.snapshot != "" {
		err = errors.Join(err, removeIfThere(b.snapshot))
	}
	b.closed = true
	return explain(b.path, err)
}

// IsOpen tells whether the book was not closed yet.
func (b *Book) IsOpen() bool {
	b.swap.RLock()
	defer b.swap.RUnlock()
	return !b.closed
}

// Path gives the file of the book.
func (b *Book) Path() string { return b.path }

// ReadOnly tells whether the book was opened to read only.
func (b *Book) ReadOnly() bool { return b.readOnly }

// AsOf gives the moment whose state a read-only book shows while another window
// has it open; zero if it shows the book itself.
func (b *Book) AsOf() time.Time { return b.asOf }

func (b *Book) view(f func(*tx) error) error {
	b.swap.RLock()
	defer b.swap.RUnlock()
	return explain(b.path, guard(b.path, func() error {
		return b.db.View(func(btx *bolt.Tx) error { return f(b.tx(btx)) })
	}))
}

func (b *Book) tx(btx *bolt.Tx) *tx { return &tx{Tx: btx, path: b.path, pictures: &b.pictures} }

// update runs f in a transaction that is on disk when it returns nil, and
// without effect otherwise.
func (b *Book) update(f func(*tx) error) error {
	if b.readOnly {
		return explain(b.path, errReadOnly)
	}
	b.swap.RLock()
	defer b.swap.RUnlock()
	return explain(b.path, guard(b.path, func() error {
		return b.db.Update(func(btx *bolt.Tx) error {
			t := b.tx(btx)
			if err := t.getJSON(inMeta, aboutKey, &t.about); err != nil {
				return err
			}
			if err := f(t); err != nil {
				return err
			}
			return t.putJSON(inMeta, aboutKey, t.about)
		})
	}))
}

var errReadOnly = &Fault{Kind: ReadOnly, Text: "the book is open to read only", Way: "close the other window and open the book again"}

// tx is a transaction that speaks in records.
type tx struct {
	*bolt.Tx
	path     string
	about    about // of an update
	pictures *pictureCache
}

// get gives a payload; a Fault of kind Missing if there is no such record. The
// payload is valid within the transaction.
func (t *tx) get(in bucket, k key) ([]byte, error) {
	bk := t.Bucket(in.name())
	if bk == nil {
		return nil, &Fault{Kind: Missing, Path: t.path, Text: "no " + bucketNames[in] + " in this book"}
	}
	v := bk.Get(k.bytes())
	if v == nil {
		return nil, &Fault{Kind: Missing, Path: t.path, Text: fmt.Sprintf("nothing stored under %s %d.%d", bucketNames[in], k.a, k.b)}
	}
	return t.open(in, k, v)
}

// has tells whether there is a record, sound or not.
func (t *tx) has(in bucket, k key) bool {
	bk := t.Bucket(in.name())
	return bk != nil && bk.Get(k.bytes()) != nil
}

// open unseals a value and sees that it is the one asked for.
func (t *tx) open(in bucket, k key, v []byte) ([]byte, error) {
	r, n, err := unseal(v)
	if err == nil && (n != len(v) || r.in != in || r.key != k) {
		err = errRecord
	}
	if err != nil {
		return nil, damaged(t.path, fmt.Sprintf("the record %s %d.%d is damaged", bucketNames[in], k.a, k.b), err)
	}
	return r.payload, nil
}

func (t *tx) put(in bucket, k key, payload []byte) error {
	if len(payload) > maxPayload {
		return &Fault{Kind: Invalid, Path: t.path, Text: fmt.Sprintf("a record of %d MB", len(payload)>>20), Way: "64 MB is the most"}
	}
	t.about.Stamp++
	packed := (in == inEdits || in == inRevisions) && !isFolded(payload)
	r := record{in: in, packed: packed, stamp: t.about.Stamp, key: k, payload: payload}
	return t.Bucket(in.name()).Put(k.bytes(), r.seal())
}

func (t *tx) delete(in bucket, k key) error { return t.Bucket(in.name()).Delete(k.bytes()) }

func (t *tx) getJSON(in bucket, k key, v any) error {
	data, err := t.get(in, k)
	if err != nil {
		return err
	}
	if err := json.Unmarshal(data, v); err != nil {
		return damaged(t.path, fmt.Sprintf("the record %s %d.%d does not read", bucketNames[in], k.a, k.b), err)
	}
	return nil
}

func (t *tx) putJSON(in bucket, k key, v any) error {
	data, err := json.Marshal(v)
	if err != nil {
		return err
	}
	return t.put(in, k, data)
}

// each visits the records of a bucket whose key starts with a, or all for 0, in
// order of their keys. A damaged record is passed with an error.
func (t *tx) each(in bucket, a uint64, visit func(k key, payload []byte, err error) error) error {
	bk := t.Bucket(in.name())
	if bk == nil {
		return nil
	}
	c := bk.Cursor()
	for kb, v := c.Seek((key{a, 0}).bytes()); kb != nil; kb, v = c.Next() {
		k, ok := keyOf(kb)
		if !ok {
			if err := visit(key{}, nil, damaged(t.path, "a key in "+bucketNames[in]+" is damaged", errRecord)); err != nil {
				return err
			}
			continue
		}
		if a != 0 && k.a != a {
			return nil
		}
		payload, err := t.open(in, k, v)
		if err := visit(k, payload, err); err != nil {
			return err
		}
	}
	return nil
}

// deleteAll removes the records of a bucket whose key starts with a.
func (t *tx) deleteAll(in bucket, a uint64) error {
	var keys []key
	err := t.each(in, a, func(k key, _ []byte, _ error) error {
		keys = append(keys, k)
		return nil
	})
	for _, k := range keys {
		err = errors.Join(err, t.delete(in, k))
	}
	return err
}

// Verify reads every record and gives a Fault for the first that is not as it
// was written.
func (b *Book) Verify() error {
	if _, err := b.List(); err != nil {
		return err
	}
	return b.view(func(t *tx) error {
		for in := inMeta; in <= lastBucket; in++ {
			err := t.each(in, 0, func(k key, _ []byte, err error) error {
				if err == nil && in == inEdits {
					_, err = t.getEdit(ID(k.a), k.b)
				}
				return err
			})
			if err != nil {
				return err
			}
		}
		return nil
	})
}
