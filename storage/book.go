package storage

import (
	"errors"
	"os"
	"sync"
	"sync/atomic"
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
	// Fresh makes a new book where there is none but its backups are there; without
	// it that is a Fault of kind Missing, since the book was lost.
	Fresh bool
	// Wait is how long to wait for another window that has the book open, before
	// giving a Fault of kind Busy; 0 is a second.
	Wait time.Duration
	// Keep says which automatic backups are kept; zero is DefaultKeep.
	Keep Keep
	// Partly opens a book of which the last change may be damaged, as it was before
	// that; without it that is a Fault of kind Damaged.
	Partly bool
	// NoBackup leaves out the daily backup on opening; see Book.BackupIfDue.
	NoBackup bool
	// Now gives the time; nil is time.Now.
	Now func() time.Time
}

// Book is an open job book. Its methods may be called from several goroutines.
type Book struct {
	path     string       // as it was named
	file     string       // the file itself: where path leads through symbolic links
	write    sync.Mutex   // held by what changes the book
	swap     sync.RWMutex // held to write by what puts another file in place of db
	db       *bolt.DB
	opened   *os.File // the file of db
	pictures pictureCache
	listed   listCache
	touched  touching
	o        Options
	readOnly bool
	asOf     time.Time // of a snapshot, else zero
	snapshot string    // file to remove on Close
	closed   bool

	// Why nothing more is written to, or even read from, the database: it stopped
	// in the middle of something and may have kept its locks.
	lost, blind atomic.Pointer[Fault]
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
	file, mode, err := wholefile.Target(path)
	if err != nil {
		return nil, explain(path, err)
	}
	b := &Book{path: path, file: file, o: o}
	if o.ReadOnly {
		return b.openToRead()
	}
	if !isThere(file) {
		if err := b.mayBegin(); err != nil {
			return nil, err
		}
		if err := create(file, o.Now()); err != nil && !isThere(file) { // else another window was faster
			return nil, explain(path, err)
		}
	}
	if err := b.attach(b.file, false); err != nil {
		return nil, explain(path, err)
	}
	if err := b.prepare(); err != nil {
		return nil, errors.Join(explain(path, err), b.Close())
	}
	if mode == modeBefore {
		_ = os.Chmod(file, wholefile.Mode) // others need not read of customers
	}
	return b, nil
}

func isThere(file string) bool {
	_, err := os.Stat(file)
	return !errors.Is(err, os.ErrNotExist)
}

// modeBefore is the mode that books of earlier versions were made with.
const modeBefore = 0o644

// prepare brings an attached book up to date and backs it up if that is due.
func (b *Book) prepare() error {
	if err := b.check(); err != nil {
		return err
	}
	if m, err := readMeta(b.opened); err == nil && m.single && !b.o.Partly {
		// A power cut leaves both whole: neither is longer than a disk writes at once.
		return damaged(b.path, "one of the two starts of the file is damaged: the last change may be missing", nil)
	}
	if err := b.migrate(); err != nil {
		return err
	}
	b.removeLeftovers()
	// A backup or a compaction that fails, say for want of room, must not keep
	// anyone from working; the next opening tries again.
	if !b.o.NoBackup {
		_, _ = b.BackupIfDue()
	}
	_ = b.compactIfDue()
	return nil
}

// Close closes the book, once those who read and write are done. Everything is on
// disk already.
func (b *Book) Close() error {
	b.write.Lock()
	defer b.write.Unlock()
	b.swap.Lock()
	defer b.swap.Unlock()
	err := b.detach()
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

// Path gives the file of the book, as it was named.
func (b *Book) Path() string { return b.path }

// ReadOnly tells whether the book was opened to read only.
func (b *Book) ReadOnly() bool { return b.readOnly }

// AsOf gives the moment whose state a read-only book shows while another window
// has it open; zero if it shows the book itself.
func (b *Book) AsOf() time.Time { return b.asOf }

func (b *Book) view(f func(*tx) error) error {
	b.swap.RLock()
	defer b.swap.RUnlock()
	if err := b.usable(&b.blind); err != nil {
		return err
	}
	began := false
	err := guard(b.path, func() error {
		return b.db.View(func(btx *bolt.Tx) error {
			began = true
			return f(b.tx(btx))
		})
	})
	if errors.Is(err, errTripped) && !began {
		b.give(err, &b.lost, &b.blind)
	}
	return explain(b.path, err)
}

func (b *Book) tx(btx *bolt.Tx) *tx { return &tx{Tx: btx, path: b.path, pictures: &b.pictures} }

// update runs f in a transaction that is on disk, in the file that has the book's
// name, when it returns nil, and without effect otherwise. An error that is
// errElsewhere has had its effect, in a file that meanwhile lost the name.
func (b *Book) update(f func(*tx) error) error {
	if b.readOnly {
		return explain(b.path, errReadOnly)
	}
	b.write.Lock()
	defer b.write.Unlock()
	b.swap.RLock()
	defer b.swap.RUnlock()
	if err := b.usable(&b.lost); err != nil {
		return err
	}
	if err := b.inPlace(nil); err != nil {
		return err
	}
	changed := map[ID]uint64{}
	err := guard(b.path, func() error {
		return b.db.Update(func(btx *bolt.Tx) error {
			t := b.tx(btx)
			t.changed = changed
			if err := t.getJSON(inMeta, aboutKey, &t.about); err != nil {
				return err
			}
			if err := f(t); err != nil {
				return err
			}
			return t.putJSON(inMeta, aboutKey, t.about)
		})
	})
	switch {
	case err == nil:
		b.touched.add(changed)
		return b.inPlace(errElsewhere)
	case errors.Is(err, errTripped):
		return b.give(err, &b.lost)
	}
	return explain(b.path, err)
}

var errReadOnly = &Fault{Kind: ReadOnly, Text: "the book is open to read only", Way: "close the other window and open the book again"}

// Verify reads every record and gives a Fault for the first that is not as it
// was written.
func (b *Book) Verify() error {
	if _, err := b.List(); err != nil {
		return err
	}
	return b.view(func(t *tx) error {
		return t.eachOf(func(in bucket, k key, err error) error {
			if err == nil && in == inEdits {
				_, err = t.getEdit(ID(k.a), k.b)
			}
			return err
		})
	})
}
