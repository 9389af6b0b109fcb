package storage

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"time"

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
	if b.readOnly {
		return Room{}, errReadOnly
	}
	b.write.Lock()
	defer b.write.Unlock()
	b.swap.RLock()
	defer b.swap.RUnlock()
	if err := b.usable(&b.lost); err != nil {
		return Room{}, err
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
	if errors.Is(err, errTripped) {
		return Room{}, b.give(err, &b.lost)
	}
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
// the book is as it was; so is a damaged one, of which unused room may hold what
// can still be salvaged.
func (b *Book) Compact() error {
	if b.readOnly {
		return explain(b.path, errReadOnly)
	}
	if err := b.Verify(); err != nil {
		return err
	}
	b.write.Lock()
	defer b.write.Unlock()
	if err := b.usable(&b.lost); err != nil {
		return err
	}
	if err := b.inPlace(nil); err != nil {
		return err
	}
	return b.renew(b.copyInUse)
}

// renew puts a copy of the database in its place, under its name. Nothing is
// written meanwhile; others go on reading until the last moment.
func (b *Book) renew(copy func(temp string) error) error {
	temp := b.file + compacting
	err := removeIfThere(temp)
	if err == nil {
		err = guard(b.path, func() error { return copy(temp) })
	}
	if err == nil {
		err = verifyPages(temp)
	}
	var db *bolt.DB
	var opened *os.File
	if err == nil {
		db, opened, err = openDatabase(temp, &bolt.Options{Timeout: b.o.Wait})
	}
	if err != nil {
		return explain(b.path, errors.Join(err, removeIfThere(temp)))
	}
	b.swap.Lock()
	defer b.swap.Unlock()
	if err := os.Rename(temp, b.file); err != nil {
		return explain(b.path, errors.Join(b.exchangeClosed(db, temp), removeIfThere(temp)))
	}
	err = errors.Join(wholefile.SyncDir(filepath.Dir(b.file)), b.detach())
	b.db, b.opened = db, opened
	return explain(b.path, err)
}

// copyInUse writes what is in use to a new database, on disk.
func (b *Book) copyInUse(temp string) error { return copyInUse(b.db, temp, b.o.Wait) }

func copyInUse(from *bolt.DB, temp string, wait time.Duration) error {
	db, err := bolt.Open(temp, wholefile.Mode, &bolt.Options{Timeout: wait, FreelistType: bolt.FreelistMapType, NoSync: true})
	if err != nil {
		return err
	}
	err = bolt.Compact(db, from, 64<<20)
	if err == nil {
		err = db.Sync()
	}
	return errors.Join(err, db.Close())
}

// exchangeClosed puts the file in the book's place on systems that rename no open
// file. Should another window get in between, it has a whole book.
func (b *Book) exchangeClosed(db *bolt.DB, temp string) error {
	if err := errors.Join(db.Close(), b.detach()); err != nil {
		return err
	}
	err := os.Rename(temp, b.file)
	return errors.Join(err, b.attach(b.file, false))
}

func removeIfThere(name string) error {
	if err := os.Remove(name); !errors.Is(err, os.ErrNotExist) {
		return err
	}
	return nil
}

// removeLeftovers removes what killed processes left on the way to this book and
// its backups. Nobody else is on such a way while this process has the book open.
func (b *Book) removeLeftovers() {
	dir, base := filepath.Split(b.file)
	_ = removeIfThere(b.file + compacting)
	_ = removeIfThere(b.file + restoringBefore)
	removeAll(dir, func(name string) bool {
		return strings.HasPrefix(name, "."+base+"-") && (strings.HasPrefix(name, "."+base+creating) || strings.Contains(name, ".writing"))
	})
	for _, dir := range b.backupDirs() {
		removeAll(dir, func(name string) bool {
			return strings.HasPrefix(name, ".") && strings.Contains(name, ".writing")
		})
		if info, err := os.Stat(dir); err == nil && info.Mode().Perm() == 0o755 {
			_ = os.Chmod(dir, wholefile.DirMode) // as earlier versions made it
		}
	}
}

// restoringBefore is at the end of what a killed restore of an earlier version left.
const restoringBefore = ".restoring"

// removeAll removes the files of a folder whose names are given up.
func removeAll(dir string, given func(name string) bool) {
	files, _ := os.ReadDir(filepath.Clean(dir))
	for _, f := range files {
		if given(f.Name()) {
			_ = os.Remove(filepath.Join(dir, f.Name())) // in nobody's way; the next opening tries again
		}
	}
}
