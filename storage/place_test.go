package storage

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// edited stores an edit whose note says n.
func edited(b *Book, id ID, n int) error {
	j, err := b.Get(id)
	if err != nil {
		return err
	}
	j.Notes = fmt.Sprint(n)
	return b.Edit(id, "Notes", j)
}

// returns fails the test if f does not come back.
func returns(t *testing.T, what string, f func()) {
	t.Helper()
	done := make(chan struct{})
	go func() { defer close(done); f() }()
	select {
	case <-done:
	case <-time.After(30 * time.Second): // hung: no measure of speed
		t.Fatal(what + " does not come back")
	}
}

// A file that is cut short while it is open closes the book for writing: the change
// is not acknowledged, and neither another try, nor a look, nor closing waits for
// the locks of a database that stopped in the middle.
func TestCutShortWhileOpen(t *testing.T) {
	for _, to := range []int64{0, 1, 4096, 3 * 4096, 9 * 4096} {
		t.Run(fmt.Sprint(to), func(t *testing.T) {
			t.Parallel()
			path := newPath(t)
			b := open(t, path)
			id := must(b.Create(shop(1)))(t)
			for n := range 30 {
				must(b.Create(shop(n)))(t)
			}
			if err := os.Truncate(path, to); err != nil {
				t.Fatal(err)
			}
			returns(t, "the book", func() {
				for range 3 {
					if err := b.Edit(id, "Notes", shop(2)); !IsKind(err, Unreadable) || !strings.Contains(err.Error(), "job file") {
						t.Errorf("an edit: %v, want Unreadable", err)
					}
					if _, err := b.Get(id); !IsKind(err, Unreadable) {
						t.Errorf("a look: %v, want Unreadable", err)
					}
					if err := b.Compact(); !IsKind(err, Unreadable) {
						t.Errorf("compacting: %v, want Unreadable", err)
					}
				}
				if _, err := b.Room(); !IsKind(err, Unreadable) {
					t.Errorf("its room: %v", err)
				}
				if _, err := b.Backup("asked"); !IsKind(err, Unreadable) {
					t.Errorf("a backup: %v", err)
				}
				if err := b.Close(); err != nil {
					t.Errorf("closing: %v", err)
				}
			})
			// It is let go of: another one can take its place.
			fresh := newPath(t)
			f := open(t, fresh)
			must(f.Create(shop(3)))(t)
			f.Close()
			if _, err := Restore(path, fresh); err != nil {
				t.Error(err)
			}
			must(open(t, path).List())(t)
		})
	}
}

// A panic of the database at any moment of a change closes the book for writing; it
// is looked at on.
func TestDatabaseThatTrips(t *testing.T) {
	b := open(t, newPath(t))
	id := must(b.Create(shop(1)))(t)
	returns(t, "the book", func() {
		if err := b.update(func(*tx) error { panic("a page is not there") }); !IsKind(err, Unreadable) {
			t.Errorf("%v", err)
		}
		if err := edited(b, id, 1); !IsKind(err, Unreadable) {
			t.Errorf("the next edit: %v", err)
		}
		if got, err := b.Get(id); err != nil || got.Notes != "" {
			t.Errorf("a look: %q, %v", got.Notes, err)
		}
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	})
	if _, err := b.Get(id); !IsKind(err, Missing) {
		t.Errorf("after closing: %v", err)
	}
}

// displacements are what other programs do to the file of an open book.
var displacements = map[string]func(path string) error{
	"deleted":        os.Remove,
	"renamed":        func(path string) error { return os.Rename(path, path+".moved") },
	"folder renamed": func(path string) error { return os.Rename(filepath.Dir(path), filepath.Dir(path)+" moved") },
	"replaced by a copy": func(path string) error {
		data, err := os.ReadFile(path)
		return errors.Join(err, os.Rename(path, path+" (copy of another desk)"), os.WriteFile(path, data, 0o600))
	},
	"replaced by a text": func(path string) error {
		return errors.Join(os.Remove(path), os.WriteFile(path, []byte("hello"), 0o600))
	},
}

// A book that loses its name while it is open acknowledges nothing more and says
// so; put back, it has all that was acknowledged, and goes on.
func TestDisplacedWhileOpen(t *testing.T) {
	for name, displace := range displacements {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			path := filepath.Join(t.TempDir(), "desk", "jobs.book")
			b := open(t, path)
			id := must(b.Create(shop(1)))(t)
			for n := range 5 {
				if err := edited(b, id, n); err != nil {
					t.Fatal(err)
				}
			}
			if err := b.InPlace(); err != nil {
				t.Fatal(err)
			}
			if err := displace(path); err != nil {
				t.Fatal(err)
			}
			if err := b.InPlace(); !IsKind(err, Displaced) {
				t.Errorf("%v, want Displaced", err)
			}
			for range 50 {
				if err := edited(b, id, 99); !IsKind(err, Displaced) || IsElsewhere(err) {
					t.Fatalf("an edit was acknowledged: %v", err)
				}
			}
			there := isThere(path)
			aside, err := b.PutBack()
			if err != nil || (aside != "") != there {
				t.Fatalf("putting it back: %q, %v", aside, err)
			}
			if there && !isThere(aside) {
				t.Errorf("%s is not there", aside)
			}
			if err := edited(b, id, 5); err != nil {
				t.Fatal(err)
			}
			if again, err := b.PutBack(); err != nil || again != "" {
				t.Errorf("once more: %q, %v", again, err)
			}
			if _, err := Open(path, Options{Wait: 10 * time.Millisecond}); !IsKind(err, Busy) {
				t.Errorf("a second window: %v, want Busy", err)
			}
			if err := errors.Join(b.Verify(), b.Close()); err != nil {
				t.Fatal(err)
			}
			b = open(t, path)
			if got := must(b.Get(id))(t).Notes; got != "5" {
				t.Errorf("the job reads %q", got)
			}
			if h := must(b.History(id))(t); len(h.Done) != 6 {
				t.Errorf("%d edits, want 6", len(h.Done))
			}
		})
	}
}

// A book that is displaced between a change and its acknowledgement says that the
// change is stored elsewhere.
func TestDisplacedWhileStoring(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	id := must(b.Create(shop(1)))(t)
	err := b.change(id, func(t *tx, e *entry) error {
		e.Archived = true
		return os.Rename(path, path+".moved")
	})
	if !IsKind(err, Displaced) || !IsElsewhere(err) {
		t.Errorf("%v, want Displaced, and stored elsewhere", err)
	}
	must(b.PutBack())(t)
	if s := must(b.Summary(id))(t); !s.Archived {
		t.Error("the change did not come back")
	}
}

// A book whose place somebody else has taken in earnest is not put back over it.
func TestPutBackLeavesOpenBooks(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	must(b.Create(shop(1)))(t)
	if err := os.Rename(path, path+".moved"); err != nil {
		t.Fatal(err)
	}
	other, err := Open(path, Options{Fresh: true})
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	if _, err := b.PutBack(); !IsKind(err, Busy) {
		t.Errorf("%v, want Busy", err)
	}
	must(other.Create(shop(2)))(t)
}

func TestCopiesBeside(t *testing.T) {
	path := newPath(t)
	dir := filepath.Dir(path)
	b := open(t, path)
	must(b.Create(shop(1)))(t)
	data := must(os.ReadFile(path))(t)
	other, err := Open(filepath.Join(dir, "other.book"), Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	other.Close()
	for name, data := range map[string][]byte{
		"jobs (conflict of the desk 2026-03-02).book": data,
		"jobs.book.before-restore":                    data, // our own
		"jobs-salvaged.book":                          data,
		"notes.txt":                                   []byte("copy of jobs.book"),
	} {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if got := must(b.Copies())(t); len(got) != 1 || !strings.Contains(got[0], "conflict") {
		t.Errorf("found %v", got)
	}
}

func TestSymbolicLinkStaysOne(t *testing.T) {
	dir := t.TempDir()
	file, path := filepath.Join(dir, "data", "real.book"), filepath.Join(dir, "jobs.book")
	if err := os.Mkdir(filepath.Dir(file), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(file, path); err != nil {
		t.Fatal(err)
	}
	b := open(t, path) // made where the link leads
	id := must(b.Create(shop(1)))(t)
	backup := must(b.Backup("asked"))(t)
	if err := errors.Join(b.Compact(), edited(b, id, 7)); err != nil {
		t.Fatal(err)
	}
	link := func() {
		t.Helper()
		if to, err := os.Readlink(path); err != nil || to != file {
			t.Fatalf("the link leads to %q, %v", to, err)
		}
	}
	link()
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
	must(b.PutBack())(t)
	link()
	b.Close()
	if _, err := Restore(path, backup); err != nil {
		t.Fatal(err)
	}
	link()
	if got := must(open(t, path).Get(id))(t).Notes; got != "" {
		t.Errorf("restored, the job reads %q", got)
	}
}

// Opening a damaged book never compacts it: the room that nothing uses may hold what
// Salvage can bring back.
func TestDamagedBookIsNotCompacted(t *testing.T) {
	path, id := loose(t)
	data := must(os.ReadFile(path))(t)
	at := newestRecord(data, inJobs, id)
	data[at+recordHeader+5] ^= 1
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	before := size(t, path)
	b, err := Open(path, Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if after := size(t, path); after != before {
		t.Errorf("the file had %d bytes and has %d", before, after)
	}
	if err := b.Compact(); !IsKind(err, Damaged) {
		t.Errorf("compacting: %v, want Damaged", err)
	}
	if _, err := b.Backup("asked"); !IsKind(err, Damaged) {
		t.Errorf("backing up: %v, want Damaged", err)
	}
	if list := must(Backups(path))(t); len(list) != 0 {
		t.Errorf("backups of a damaged book: %v", list)
	}
}

// newestRecord gives where the newest version of a record starts.
func newestRecord(data []byte, in bucket, id ID) int {
	best, stamp := -1, uint64(0)
	for at := 0; at+recordHeader <= len(data); at++ {
		if string(data[at:at+4]) != recordMagic {
			continue
		}
		if r, _, err := unseal(data[at:]); err == nil && r.in == in && r.key.a == uint64(id) && r.stamp >= stamp {
			best, stamp = at, r.stamp
		}
	}
	return best
}

func TestModes(t *testing.T) {
	path := filepath.Join(t.TempDir(), "made", "jobs.book")
	b := open(t, path)
	must(b.Create(shop(1)))(t)
	backup := must(b.Backup("asked"))(t)
	if err := b.Compact(); err != nil {
		t.Fatal(err)
	}
	b.Close()
	aside := must(Restore(path, backup))(t)
	for name, want := range map[string]os.FileMode{filepath.Dir(path): 0o700, path: 0o600, backup: 0o600, filepath.Dir(backup): 0o700, aside: 0o600} {
		if got := must(os.Stat(name))(t).Mode().Perm(); got != want {
			t.Errorf("%s has mode %o, want %o", name, got, want)
		}
	}
	// One as earlier versions made it is closed to others; another mode was chosen.
	for was, want := range map[os.FileMode]os.FileMode{0o644: 0o600, 0o660: 0o660} {
		if err := errors.Join(os.Chmod(path, was), os.Chmod(filepath.Dir(backup), 0o755)); err != nil {
			t.Fatal(err)
		}
		open(t, path).Close()
		if got := must(os.Stat(path))(t).Mode().Perm(); got != want {
			t.Errorf("a book of mode %o has %o, want %o", was, got, want)
		}
		if got := must(os.Stat(filepath.Dir(backup)))(t).Mode().Perm(); got != 0o700 {
			t.Errorf("the backups' folder has mode %o", got)
		}
	}
}
