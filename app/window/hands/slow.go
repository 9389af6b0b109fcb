package hands

import (
	"path/filepath"
	"sync"
	"testing"
	"time"

	"haunchbook.example/storage"
)

// SlowDisk is a book whose writing can be held up.
type SlowDisk struct {
	Book *storage.Book
	held sync.RWMutex
	is   bool
}

// NewSlowDisk gives an empty book on a disk that is not held up.
func NewSlowDisk(t testing.TB) *SlowDisk {
	t.Helper()
	d := &SlowDisk{}
	b, err := storage.Open(filepath.Join(t.TempDir(), "jobs.book"), storage.Options{NoBackup: true, Now: func() time.Time {
		d.held.RLock() // within the transaction of each edit
		defer d.held.RUnlock()
		return time.Now()
	}})
	if err != nil {
		t.Fatal(err)
	}
	d.Book = b
	t.Cleanup(func() {
		if d.is {
			d.Release()
		}
		_ = b.Close()
	})
	return d
}

// Hold has every edit from now on wait.
func (d *SlowDisk) Hold() { d.held.Lock(); d.is = true }

// Release lets them go on.
func (d *SlowDisk) Release() { d.is = false; d.held.Unlock() }
