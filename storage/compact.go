package storage

import (
	"errors"
	"os"
	"path/filepath"

	bolt "go.etcd.io/bbolt"

	"haunchbook.example/storage/wholefile"
)

// A book never shrinks by itself: what is deleted leaves room for what comes.
// Compacting writes what is in use to a new file, which then takes the book's
// name in one step, so that at every instant there is a whole book under it. Both
// files are locked while that happens, and a window that waits for the old one
// sees that it is no longer the book; see Book.attach.

// compacting is added to the name of a book for the file in the making.
const compacting = ".compacting"

// Room is how much of a book's file is in use.
type Room struct {
	Size int64 // bytes of the file's pages
	Free int64 // of these, bytes that nothing uses
}

// Wasteful tells whether compacting is worth its while: most of the file is
// unused, and the file is not small.
func (r Room) Wasteful() bool { return r.Size >= 1<<20 && 2*r.Free > r.Size }

// Room gives how much of the file is in use.
func (b *Book) Room() (Room, error) {
	b.swap.RLock()
	defer b.swap.RUnlock()
	return b.room()
}

func (b *Book) room() (Room, error) {
	if b.readOnly {
		return Room{}, errReadOnly
	}
	var r Room
	err := guard(b.path, func() error {
		// The counts of free pages are brought up to date by a transaction that
		// writes, or could.
		t, err := b.db.Begin(true)
		if err != nil {
			return err
		}
		r.Size = t.Size()
		if err := t.Rollback(); err != nil {
			return err
		}
		s := b.db.Stats()
		r.Free = int64(s.FreePageN+s.PendingPageN) * int64(b.db.Info().PageSize)
		return nil
	})
	return r, explain(b.path, err)
}

func (b *Book) compactIfDue() error {
	r, err := b.Room()
	if err != nil || !r.Wasteful() {
		return err
	}
	return b.Compact()
}

// Compact rewrites the book without the room that nothing uses. When it fails
// the book is as it was.
func (b *Book) Compact() error {
	if b.readOnly {
		return explain(b.path, errReadOnly)
	}
	b.swap.Lock()
	defer b.swap.Unlock()
	temp := b.path + compacting
	db, err := b.copyInUse(temp)
	if err != nil {
		return explain(b.path, errors.Join(err, removeIfThere(temp)))
	}
	old := b.db
	if err := os.Rename(temp, b.path); err != nil {
		return explain(b.path, errors.Join(b.exchangeClosed(db, temp), removeIfThere(temp)))
	}
	b.db = db
	return explain(b.path, errors.Join(wholefile.SyncDir(filepath.Dir(b.path)), old.Close()))
}

// copyInUse writes what is in use to a new database, on disk, sound and locked.
func (b *Book) copyInUse(temp string) (*bolt.DB, error) {
	if err := removeIfThere(temp); err != nil {
		return nil, err
	}
	db, err := bolt.Open(temp, wholefile.Mode, &bolt.Options{Timeout: b.o.Wait, FreelistType: bolt.FreelistMapType, NoSync: true})
	if err != nil {
		return nil, err
	}
	err = guard(b.path, func() error { return bolt.Compact(db, b.db, 64<<20) })
	if err == nil {
		err = db.Sync()
	}
	if err == nil {
		err = verifyPages(temp)
	}
	if err != nil {
		return nil, errors.Join(err, db.Close())
	}
	db.NoSync = false
	return db, nil
}

// exchangeClosed puts the file in the book's place on systems that rename no open
// file. Should another window get in between, it has a whole book.
func (b *Book) exchangeClosed(db *bolt.DB, temp string) error {
	if err := errors.Join(db.Close(), b.db.Close()); err != nil {
		return err
	}
	b.db = nil
	err := os.Rename(temp, b.path)
	return errors.Join(err, b.attach(b.path, false))
}

func removeIfThere(name string) error {
	if err := os.Remove(name); !errors.Is(err, os.ErrNotExist) {
		return err
	}
	return nil
}
