package window

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// newBook makes a book with one job of the given name.
func newBook(t *testing.T, name string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "jobs.book")
	b, err := storage.Open(path, storage.Options{})
	if err != nil {
		t.Fatal(err)
	}
	j := demoJob(t)
	j.Name = name
	if _, err := b.Create(j); err != nil {
		t.Fatal(err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

// begin begins as the program does.
func begin(t *testing.T, path string) *opening {
	t.Helper()
	o := &opening{app: test.NewTempApp(t), start: Start{Book: path, Synchronous: true}}
	o.open(path)
	t.Cleanup(func() {
		if o.window != nil && o.window.book != nil {
			_ = o.window.book.Close()
		}
	})
	return o
}

// press taps the button whose text starts so.
func press(t *testing.T, in fyne.CanvasObject, name string) {
	t.Helper()
	var found fyne.Tappable
	every(in, func(o fyne.CanvasObject) {
		if b, ok := o.(fyne.Tappable); ok && o.Visible() && strings.HasPrefix(textOf(o), name) {
			found = b
		}
	})
	if found == nil {
		t.Fatalf("no button %q in:\n%s", name, texts(in))
	}
	test.Tap(found)
}

// every visits what is in an object, through what scrolls too.
func every(o fyne.CanvasObject, visit func(fyne.CanvasObject)) {
	visit(o)
	switch o := o.(type) {
	case *fyne.Container:
		for _, ch := range o.Objects {
			every(ch, visit)
		}
	case *container.Scroll:
		every(o.Content, visit)
	}
}

// textOf gives the text of any of our kinds of button.
func textOf(o fyne.CanvasObject) string {
	if v := reflect.Indirect(reflect.ValueOf(o)); v.Kind() == reflect.Struct {
		if f := v.FieldByName("Text"); f.IsValid() && f.Kind() == reflect.String {
			return f.String()
		}
	}
	return ""
}

func wantWindow(t *testing.T, o *opening, name string) *Window {
	t.Helper()
	if o.window == nil {
		t.Fatalf("no window was opened; it says:\n%s", texts(o.body))
	}
	if got := o.window.doc.Job().Name; got != name {
		t.Fatalf("the window shows %q, want %q", got, name)
	}
	return o.window
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
	if o.window != nil {
		t.Fatal("a second window opened to write")
	}
	wantText(t, o.body, "Another window has this job book open", path)

	// To read only: marked, edits stay in the window.
	press(t, o.body, "Open it to read only")
	w := wantWindow(t, o, "Shop")
	wantText(t, w.strip.object, "read only", "another window has it", "not saved in the book")
	j := w.doc.Job()
	j.Name = "Changed while read only"
	w.doc.Commit("Name", j)
	if got, err := first.Get(1); err != nil || got.Name != "Shop" {
		t.Errorf("the book of the other window has %q, %v", got.Name, err)
	}
	if n, _ := w.unsaved(); n == 0 {
		t.Error("the change is not known to be unsaved")
	}
	// It goes on to write when the other window is closed; the change goes along as
	// a job of its own.
	w.chooseBook()
	wantText(t, w.strip.object, "read only")
	if err := first.Close(); err != nil {
		t.Fatal(err)
	}
	w.chooseBook()
	if w.strip.object.Visible() || w.book.ReadOnly() {
		t.Errorf("still not open to write: %s", texts(w.strip.object))
	}
	all, err := w.book.List()
	if err != nil || len(all) != 2 {
		t.Fatalf("%d jobs, %v; want the one in the book and the changed one", len(all), err)
	}
	if got, err := w.book.Get(1); err != nil || got.Name != "Shop" {
		t.Errorf("the job in the book is now %q, %v", got.Name, err)
	}
	if got, err := w.book.Get(w.id); err != nil || !strings.HasPrefix(got.Name, "Changed while read only") {
		t.Errorf("the changed job is %q, %v", got.Name, err)
	}
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
	press(t, o.body, "Wait for it")
	w := wantWindow(t, o, "Shop")
	if w.book.ReadOnly() {
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
	wantText(t, o.body, "The job book is damaged", "left as it is")
	press(t, o.body, "Salvage what reads")
	wantText(t, o.body, "Salvaged", "1 job as last saved")
	if !bytes.Equal(contents(t, path), bad) {
		t.Error("salvaging changed the damaged book")
	}
	press(t, o.body, "Open the salvaged book")
	w := wantWindow(t, o, "Shop")
	if got := w.book.Path(); got == path || !strings.Contains(got, "salvaged") {
		t.Errorf("it works on %s", got)
	}
	if !bytes.Equal(contents(t, path), bad) {
		t.Error("the damaged book was changed")
	}

	// A salvaged book in the place of the damaged one, which is kept.
	o = begin(t, path)
	press(t, o.body, "Salvage what reads")
	press(t, o.body, "Put it in the place")
	w = wantWindow(t, o, "Shop")
	if w.book.Path() != path {
		t.Errorf("it works on %s", w.book.Path())
	}
	if err := w.book.Close(); err != nil {
		t.Fatal(err)
	}
	aside, _ := filepath.Glob(path + ".before-restore*")
	if len(aside) != 1 || !bytes.Equal(contents(t, aside[0]), bad) {
		t.Errorf("the damaged book is not kept as it was: %v", aside)
	}

	// A backup.
	damage()
	o = begin(t, path)
	press(t, o.body, "Restore ")
	if o.window == nil {
		t.Fatalf("restoring did not open a window:\n%s", texts(o.body))
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
	if o.window != nil {
		t.Fatal("it opened a window as if nothing were wrong")
	}
	wantText(t, o.body, "The job book is damaged")
	if !bytes.Equal(contents(t, path), data) {
		t.Error("the damaged book was changed")
	}
	press(t, o.body, "Salvage what reads")
	press(t, o.body, "Open the salvaged book")
	wantWindow(t, o, "Shop, with a name that can be found")
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
	if o.window != nil || exists(path) {
		t.Fatal("a new book was begun without a word")
	}
	wantText(t, o.body, "The job book is gone", "its backups are", path)
	press(t, o.body, "Restore")
	wantWindow(t, o, "Shop")
	_ = o.window.book.Close()
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	o = begin(t, path)
	press(t, o.body, "Begin a new book")
	if o.window == nil || !o.window.doc.Blank() && o.window.doc.Job().Name == "Shop" {
		t.Errorf("no new book was begun: %s", texts(o.body))
	}
}

func TestForeignFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "list.book")
	if err := os.WriteFile(path, []byte("Lumber list\n2x12 x 16  9\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	o := begin(t, path)
	wantText(t, o.body, "not a job book")
	press(t, o.body, "Salvage what reads")
	wantText(t, o.body, "No record of a job book") // and the choices again
	press(t, o.body, "Work without a book")
	w := wantWindow(t, o, demoJob(t).Name)
	if w.strip.object.Visible() {
		t.Error("nothing was changed yet, and it warns")
	}
	j := w.doc.Job()
	j.Name = "In memory"
	w.doc.Commit("Name", j)
	wantText(t, w.strip.object, "No job book", "this window only")
	// A book is opened later, and the job goes into it.
	later := filepath.Join(t.TempDir(), "later.book")
	w.writeBook(later)
	if w.strip.object.Visible() {
		t.Errorf("with a book it still says %s", texts(w.strip.object))
	}
	if got, err := w.book.Get(w.id); err != nil || got.Name != "In memory" {
		t.Errorf("the job did not go into the book: %q, %v", got.Name, err)
	}
	_ = w.book.Close()
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
	wantText(t, o.body, "newer version", "form 9")
	other := newBook(t, "Another book's job")
	o.open(other) // as Another book… does
	wantWindow(t, o, "Another book's job")
	if !bytes.Equal(contents(t, path), before) {
		t.Error("the newer book was changed")
	}
}

// asNobody runs f without root's rights over files.
func asNobody(t *testing.T, f func()) {
	t.Helper()
	if os.Geteuid() != 0 {
		f()
		return
	}
	if runtime.GOOS != "linux" {
		t.Skip("as root nothing is denied")
	}
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	const nobody = 65534
	setfsuid(nobody)
	defer setfsuid(0)
	f()
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
	asNobody(t, func() {
		o := begin(t, path)
		wantText(t, o.body, "may not be written", path)
		press(t, o.body, "Open it to read only")
		w := wantWindow(t, o, "Shop")
		wantText(t, w.strip.object, "read only", "not saved in the book")
		if strings.Contains(texts(w.strip.object), "another window") {
			t.Error("it blames another window")
		}
	})
	asNobody(t, func() {
		o := begin(t, filepath.Join(dir, "new.book"))
		wantText(t, o.body, "may not be written")
		press(t, o.body, "Work without a book")
		wantWindow(t, o, demoJob(t).Name)
	})
}

// The disk fills up while the window is open: it says so at once, goes on in
// memory, and saves everything in order as soon as there is room.
func TestDiskFillsUp(t *testing.T) {
	dir := t.TempDir()
	if err := mountSmall(t, dir, 512<<10); err != nil {
		t.Skipf("mounting a small disk needs root: %v", err)
	}
	path := filepath.Join(dir, "jobs.book")
	o := begin(t, path)
	w := o.window
	if w == nil {
		t.Fatalf("it says %s", texts(o.body))
	}
	sawdust := filepath.Join(dir, "sawdust")
	fill(t, sawdust)
	edits := 0
	note := func() {
		edits++
		j := w.doc.Job()
		j.Notes = strings.Repeat("x", edits)
		j.Slabs[0].Outline[0].At.X -= geometry.Sixteenth
		w.doc.Commit("Edit", j)
	}
	for n := 0; n < 500; n++ {
		note()
		if got, _ := w.unsaved(); got > 0 {
			break
		}
	}
	if n, err := w.unsaved(); n != 1 || !storage.IsKind(err, storage.Full) {
		t.Fatalf("after %d edits on a full disk: %d unsaved, %v", edits, n, err)
	}
	note()
	note()
	wantText(t, w.strip.object, "Not saved: 3 changes", "The disk is full")
	// Undo and redo go on.
	w.undo()
	if got := len(w.doc.Job().Notes); got != edits-1 {
		t.Errorf("undo on a full disk gives edit %d, want %d", got, edits-1)
	}
	w.redo()
	// Closing asks.
	w.close()
	if w.asked == nil {
		t.Fatal("it closed over what is not saved")
	}
	// So does another job.
	w.asked = nil
	w.newJob()
	if w.asked == nil || len(w.doc.Job().Notes) != edits {
		t.Error("a new job took the place of what is not saved")
	}
	if err := os.Remove(sawdust); err != nil {
		t.Fatal(err)
	}
	press(t, w.strip.object, "Try again")
	if n, err := w.unsaved(); n != 0 || err != nil || w.strip.object.Visible() {
		t.Fatalf("with room again: %d unsaved, %v", n, err)
	}
	if err := w.book.Close(); err != nil {
		t.Fatal(err)
	}
	b, err := storage.Open(path, storage.Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if got, err := b.Get(w.id); err != nil || len(got.Notes) != edits {
		t.Errorf("the book has edit %d of %d, %v", len(got.Notes), edits, err)
	}
	if h, err := b.History(w.id); err != nil || len(h.Done) != edits {
		t.Errorf("%d of %d edits can be undone, %v", len(h.Done), edits, err)
	}
	w.book = nil
}

func fill(t *testing.T, path string) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	for err == nil {
		_, err = f.Write(make([]byte, 4096))
	}
	_ = f.Close()
}

// A new job on a full disk waits as a whole.
func TestNewJobWaits(t *testing.T) {
	dir := t.TempDir()
	if err := mountSmall(t, dir, 256<<10); err != nil {
		t.Skipf("mounting a small disk needs root: %v", err)
	}
	b, err := storage.Open(filepath.Join(dir, "jobs.book"), storage.Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	sawdust := filepath.Join(dir, "sawdust")
	fill(t, sawdust)
	j := demoJob(t)
	j.Notes = ""
	h, err := newBookHistory(b, 0, j, func(storage.ID) {})
	for n := 0; err == nil && n < 100; n++ { // what room the file has left
		h, err = newBookHistory(b, 0, j, func(storage.ID) {})
	}
	if !storage.IsKind(err, storage.Full) {
		t.Fatal(err)
	}
	before, _ := b.List()
	j.Notes = "one"
	if err := h.Edit("Write one", j); !storage.IsKind(err, storage.Full) {
		t.Fatal(err)
	}
	j.Notes = "two"
	_ = h.Edit("Write two", j)
	if n, _ := h.unsaved(); n != 3 {
		t.Errorf("%d wait, want the job and two edits", n)
	}
	for _, want := range []string{"one", ""} {
		if got, _, ok, err := h.Undo(); !ok || err != nil || got.Notes != want {
			t.Errorf("undone to %q, %v, %v; want %q", got.Notes, ok, err, want)
		}
	}
	if _, _, ok, _ := h.Undo(); ok {
		t.Error("undone beyond the start")
	}
	if got, label, ok, _ := h.Redo(); !ok || got.Notes != "one" || label != "Write one" {
		t.Errorf("done again: %q %q %v", got.Notes, label, ok)
	}
	if undo, redo := h.Next(); undo != "Write one" || redo != "Write two" {
		t.Errorf("next %q, %q", undo, redo)
	}
	if err := os.Remove(sawdust); err != nil {
		t.Fatal(err)
	}
	if err := h.flush(); err != nil {
		t.Fatal(err)
	}
	if n, err := h.unsaved(); n != 0 || err != nil {
		t.Errorf("%d wait, %v", n, err)
	}
	if got, label, ok, err := h.Redo(); !ok || err != nil || got.Notes != "two" || label != "Write two" {
		t.Errorf("done again from memory: %q %q %v %v", got.Notes, label, ok, err)
	}
	if after, _ := b.List(); len(after) != len(before)+1 {
		t.Errorf("%d jobs, there were %d", len(after), len(before))
	}
	if got, err := b.Get(h.id); err != nil || got.Notes != "two" {
		t.Errorf("the book has %q, %v", got.Notes, err)
	}
	_ = b.Close()
}

// What was open last is open again, whatever was changed last.
func TestOpensWhatWasOpen(t *testing.T) {
	path := newBook(t, "First")
	o := begin(t, path)
	w := wantWindow(t, o, "First")
	j := demoJob(t)
	j.Name = "Second"
	second, err := w.book.Create(j)
	if err != nil {
		t.Fatal(err)
	}
	if err := w.book.Close(); err != nil {
		t.Fatal(err)
	}
	o = begin(t, path)
	w = wantWindow(t, o, "First")
	w.openFromBook(second)
	_ = w.book.Close()
	wantWindow(t, begin(t, path), "Second")
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
	press(t, o.body, "Wait for it")
	tries[0]()
	if len(tries) != 2 {
		t.Fatalf("%d tries, want another", len(tries))
	}
	press(t, o.body, "Stop waiting")
	wantText(t, o.body, "Another window has this job book open")
	_ = first.Close()
	tries[1]()
	if o.window != nil || len(tries) != 2 {
		t.Error("it goes on waiting")
	}
}

// A revision of another job comes back in that job, and can be undone there.
func TestBringBackARevisionOfAnotherJob(t *testing.T) {
	w := withBook(t)
	other := demoJob(t)
	other.Name = "Other"
	id, err := w.book.Create(other)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := w.book.Revise(id, "before"); err != nil {
		t.Fatal(err)
	}
	now := other
	now.Notes = "later"
	if err := w.book.Edit(id, "Notes", now); err != nil {
		t.Fatal(err)
	}
	first, before := w.id, w.doc.Base()
	was, err := w.book.Revision(id, 1)
	if err != nil {
		t.Fatal(err)
	}
	w.pages.turn(bookView)
	bookViewOf(w).bringBack(id, "1", was)
	if got, err := w.book.Get(id); err != nil || w.id != id || got.Notes != other.Notes {
		t.Errorf("job %v is open and reads %q, %v", w.id, got.Notes, err)
	}
	w.undo()
	if got, err := w.book.Get(id); err != nil || got.Notes != "later" {
		t.Errorf("undone it reads %q, %v", got.Notes, err)
	}
	if got, err := w.book.Get(first); err != nil || !bytes.Equal(got.Encode(), before.Encode()) {
		t.Errorf("the job that was open was changed: %v", err)
	}
}

// A backup that is damaged leaves the book as it is, and the window goes on.
func TestRestoreThatFails(t *testing.T) {
	w := withBook(t)
	w.pages.turn(bookView)
	bad := filepath.Join(t.TempDir(), "bad.book")
	if err := os.WriteFile(bad, []byte("no book"), 0o644); err != nil {
		t.Fatal(err)
	}
	bookViewOf(w).restore(bad)
	if !strings.Contains(w.machine.Notice, "not a job book") {
		t.Errorf("it says %q", w.machine.Notice)
	}
	j := w.doc.Job()
	j.Notes = "on"
	w.doc.Commit("Notes", j)
	if got, err := w.book.Get(w.id); err != nil || got.Notes != "on" {
		t.Errorf("work after it is not saved: %q, %v", got.Notes, err)
	}
	_ = w.book.Close()
}

// From anywhere to another job with the keys alone.
func TestFindAJobWithTheKeys(t *testing.T) {
	w := withBook(t)
	w.Show()
	for _, name := range []string{"Barn floor", "Garage slab"} {
		j := demoJob(t)
		j.Name = name
		if _, err := w.book.Create(j); err != nil {
			t.Fatal(err)
		}
	}
	w.showJobs()
	w.typed("garage<Return>")
	if got := w.doc.Job().Name; got != "Garage slab" || w.pages.at != planView {
		t.Errorf("%q is open, on page %d", got, w.pages.at)
	}
	w.showJobs()
	p := bookViewOf(w)
	if len(p.listed) != 1 {
		t.Errorf("the search is kept: %d jobs are listed, want the one found", len(p.listed))
	}
	p.search.SetText("")
	w.typed("<Down>")
	if w.win.Canvas().Focused() != fyne.Focusable(p.list) {
		t.Errorf("the arrow down goes to %T", w.win.Canvas().Focused())
	}
}

// What is being typed when the window closes is taken.
func TestClosingTakesWhatIsBeingTyped(t *testing.T) {
	path := newBook(t, "Shop")
	w := wantWindow(t, begin(t, path), "Shop")
	w.tabs.SelectIndex(3)
	e := labeledEntry(t, w.job.form.box, "Customer")
	w.win.Canvas().Focus(e)
	e.SetText("Typed and not entered")
	w.close()
	if w.asked != nil {
		t.Fatal("it asks about changes that can be saved")
	}
	b, err := storage.Open(path, storage.Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if got, err := b.Get(1); err != nil || got.Customer != "Typed and not entered" {
		t.Errorf("the book has %q, %v", got.Customer, err)
	}
}
