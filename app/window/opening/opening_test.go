package opening

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"

	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/storage"
)

// way is an opening, and what it found.
type way struct {
	*Opening
	hands.Hands // for the window that says why not
	t           *testing.T
	found       *Found
}

// begin begins as the program does.
func begin(t *testing.T, path string) *way {
	t.Helper()
	w := &way{t: t}
	w.Opening = New(test.NewTempApp(t), Start{Book: path, Synchronous: true}, document.Scheduler{}, func(f Found) error {
		w.found = &f
		return nil
	})
	if err := w.Begin(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(w.close)
	w.look()
	return w
}

func (w *way) look() {
	if w.body != nil {
		w.Hands = hands.On(w.t, w.body)
	}
}

func (w *way) close() {
	if w.found != nil && w.found.Book != nil {
		_ = w.found.Book.Close()
	}
}

// finds wants a window on a job.
func (w *way) finds(name string) *Found {
	w.t.Helper()
	if w.found == nil {
		w.t.Fatalf("no window was opened; it says:\n%s", w.Text())
	}
	if w.found.Job.Name != name {
		w.t.Fatalf("the window shows %q, want %q", w.found.Job.Name, name)
	}
	return w.found
}

// newBook makes a book with one job of the given name.
func newBook(t *testing.T, name string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "jobs.book")
	b, err := storage.Open(path, storage.Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	j := hands.Demo(t)
	j.Name = name
	if _, err := b.Create(j); err != nil {
		t.Fatal(err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

func contents(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func TestBusyBook(t *testing.T) {
	path := newBook(t, "Shop")
	first, err := storage.Open(path, storage.Options{})
	if err != nil {
		t.Fatal(err)
	}
	o := begin(t, path)
	if o.found != nil {
		t.Fatal("a second window opened to write")
	}
	o.Reads("Another window has this job book open", path)

	// To read only: marked, edits stay in the window.
	o.Press("Open it to read only")
	w := o.finds("Shop")
	if !w.Book.ReadOnly() || w.ID != 1 {
		t.Errorf("job %v, read only %v", w.ID, w.Book.ReadOnly())
	}
	_ = first.Close()
}

func TestWaitForABusyBook(t *testing.T) {
	path := newBook(t, "Shop")
	first, err := storage.Open(path, storage.Options{})
	if err != nil {
		t.Fatal(err)
	}
	o := begin(t, path)
	go func() {
		time.Sleep(1200 * time.Millisecond) // several tries of the wait
		first.Close()
	}()
	o.Press("Wait for it")
	w := o.finds("Shop")
	if w.Book.ReadOnly() {
		t.Error("it waited and opened to read only")
	}
}

func TestDamagedBook(t *testing.T) {
	path := newBook(t, "Shop")
	sound := contents(t, path)
	// The kind of page is wrong everywhere: the structure is gone, the records are
	// there.
	bad := bytes.Clone(sound)
	for at := 2 * 4096; at < len(bad); at += 4096 {
		bad[at+8] ^= 0x77
	}
	damage := func() {
		t.Helper()
		if err := os.WriteFile(path, bad, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	damage()
	o := begin(t, path)
	o.Reads("The job book is damaged", "left as it is")
	o.Press("Salvage what reads")
	o.Reads("Salvaged", "1 job as last saved")
	if !bytes.Equal(contents(t, path), bad) {
		t.Error("salvaging changed the damaged book")
	}
	o.Press("Open the salvaged book")
	w := o.finds("Shop")
	if got := w.Book.Path(); got == path || !strings.Contains(got, "salvaged") {
		t.Errorf("it works on %s", got)
	}
	if !bytes.Equal(contents(t, path), bad) {
		t.Error("the damaged book was changed")
	}

	// A salvaged book in the place of the damaged one, which is kept.
	o = begin(t, path)
	o.Press("Salvage what reads")
	o.Press("Put it in the place")
	w = o.finds("Shop")
	if w.Book.Path() != path {
		t.Errorf("it works on %s", w.Book.Path())
	}
	if err := w.Book.Close(); err != nil {
		t.Fatal(err)
	}
	aside, _ := filepath.Glob(path + ".before-restore*")
	if len(aside) != 1 || !bytes.Equal(contents(t, aside[0]), bad) {
		t.Errorf("the damaged book is not kept as it was: %v", aside)
	}

	// A backup.
	damage()
	o = begin(t, path)
	o.Press("Restore ")
	if o.found == nil {
		t.Fatalf("restoring did not open a window:\n%s", o.Text())
	}
}

// A book whose list reads and whose job does not is not written to before the
// user says so.
func TestBookWithADamagedJob(t *testing.T) {
	path := newBook(t, "Shop, with a name that can be found")
	data := contents(t, path)
	for {
		i := bytes.LastIndex(data, []byte(`"name": "Shop, with`))
		if i < 0 {
			break
		}
		data[i+9] = 'X' // in the job's record; that of the list spells it otherwise
	}
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	o := begin(t, path)
	if o.found != nil {
		t.Fatal("it opened a window as if nothing were wrong")
	}
	o.Reads("The job book is damaged")
	if !bytes.Equal(contents(t, path), data) {
		t.Error("the damaged book was changed")
	}
	o.Press("Salvage what reads")
	o.Press("Open the salvaged book")
	o.finds("Shop, with a name that can be found")
}

// A book that is gone while its backups are there opens no window as on the first
// day: it says so, and brings a backup or begins anew.
func TestLostBook(t *testing.T) {
	path := newBook(t, "Shop")
	b, err := storage.Open(path, storage.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := b.Backup("asked"); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(b.Close(), os.Remove(path)); err != nil {
		t.Fatal(err)
	}
	o := begin(t, path)
	if _, err := os.Lstat(path); o.found != nil || err == nil {
		t.Fatal("a new book was begun without a word")
	}
	o.Reads("The job book is gone", "its backups are", path)
	o.Press("Restore")
	o.finds("Shop")
	_ = o.found.Book.Close()
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	o = begin(t, path)
	o.Press("Begin a new book")
	if o.found == nil || o.found.ID != 0 || !o.found.Welcome {
		t.Errorf("no new book was begun: %s", o.Text())
	}
}

func TestForeignFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "list.book")
	if err := os.WriteFile(path, []byte("Lumber list\n2x12 x 16  9\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	o := begin(t, path)
	o.Reads("not a job book")
	o.Press("Salvage what reads")
	o.Reads("No record of a job book") // and the choices again
	o.Press("Work without a book")
	if w := o.finds(hands.Demo(t).Name); w.Book != nil {
		t.Errorf("it has the book %s", w.Book.Path())
	}
}

// newerForm makes a book say that it has form 9: the records that say so are
// sealed anew, as the storage room documents them.
func newerForm(t *testing.T, path string) {
	t.Helper()
	data := contents(t, path)
	for at := 0; ; {
		i := bytes.Index(data[at:], []byte("HBr1"))
		if i < 0 {
			break
		}
		at += i
		r := data[at:]
		if n := int(binary.BigEndian.Uint32(r[8:])); r[4] == 1 && len(r) >= 40+n {
			r = r[:40+n]
			if j := bytes.Index(r, []byte(`"schema":`)); j > 0 {
				r[j+len(`"schema":`)] = '9'
				table := crc32.MakeTable(crc32.Castagnoli)
				binary.BigEndian.PutUint32(r[12:], crc32.Update(crc32.Update(0, table, r[:12]), table, r[16:]))
			}
		}
		at++
	}
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
}

func TestNewerBook(t *testing.T) {
	path := newBook(t, "Shop")
	newerForm(t, path)
	before := contents(t, path)
	o := begin(t, path)
	o.Reads("newer version", "form 9")
	other := newBook(t, "Another book's job")
	o.open(other) // as Another book… does
	o.finds("Another book's job")
	if !bytes.Equal(contents(t, path), before) {
		t.Error("the newer book was changed")
	}
}

func TestReadOnlyFolder(t *testing.T) {
	path := newBook(t, "Shop")
	dir := filepath.Dir(path)
	for name, mode := range map[string]os.FileMode{filepath.Dir(dir): 0o755, dir: 0o555, path: 0o444} {
		if err := os.Chmod(name, mode); err != nil {
			t.Fatal(err)
		}
	}
	t.Cleanup(func() { _ = os.Chmod(dir, 0o755) })
	hands.AsNobody(t, func() {
		o := begin(t, path)
		o.Reads("may not be written", path)
		o.Press("Open it to read only")
		if w := o.finds("Shop"); !w.Book.ReadOnly() || !w.Book.AsOf().IsZero() {
			t.Error("it blames another window")
		}
	})
	hands.AsNobody(t, func() {
		o := begin(t, filepath.Join(dir, "new.book"))
		o.Reads("may not be written")
		o.Press("Work without a book")
		o.finds(hands.Demo(t).Name)
	})
}

func TestWaitCanBeStopped(t *testing.T) {
	path := newBook(t, "Shop")
	first, err := storage.Open(path, storage.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer first.Close()
	o := begin(t, path)
	// A scheduler that keeps the tries back.
	var tries []func()
	o.scheduler.Go = func(f func()) { tries = append(tries, f) }
	o.scheduler.Post = func(f func()) { f() }
	o.Press("Wait for it")
	tries[0]()
	if len(tries) != 2 {
		t.Fatalf("%d tries, want another", len(tries))
	}
	o.Press("Stop waiting")
	o.Reads("Another window has this job book open")
	_ = first.Close()
	tries[1]()
	if o.found != nil || len(tries) != 2 {
		t.Error("it goes on waiting")
	}
}

// With no book, or a job by name, there is nothing to open but that.
func TestOtherStarts(t *testing.T) {
	o := begin(t, "none")
	if f := o.finds(hands.Demo(t).Name); f.Book != nil || !f.Welcome {
		t.Errorf("found %+v", f)
	}
	j := hands.Shop()
	j.Name = "From a file"
	path := newBook(t, "Shop")
	w := &way{t: t}
	w.Opening = New(test.NewTempApp(t), Start{Book: path, Job: &j, Synchronous: true}, document.Scheduler{}, func(f Found) error {
		w.found = &f
		return nil
	})
	if err := w.Begin(); err != nil {
		t.Fatal(err)
	}
	defer w.close()
	if f := w.finds("From a file"); f.ID != 0 || f.Welcome {
		t.Errorf("found %+v", f)
	}
}

// Each kind of fault has a headline, and ways out of it.
func TestEveryFault(t *testing.T) {
	o := begin(t, newBook(t, "Shop"))
	for _, k := range []storage.Kind{storage.Busy, storage.Damaged, storage.Foreign, storage.Newer, storage.Denied, storage.Full, storage.Lost, 99} {
		o.show(&storage.Fault{Kind: k, Text: "found something"})
		o.look()
		o.Reads(headline(k), "Found something.", "Another book…", "Work without a book")
	}
	o.show(errors.New("out of order"))
	o.Reads("The job book cannot be opened", "Out of order.")
	o.Press("Try again")
	o.finds("Shop")
	o.show(errors.New("out of order"))
	o.Press("Quit")
}
