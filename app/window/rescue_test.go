package window

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"haunchbook.example/app/window/hands"
	"haunchbook.example/storage"
)

// kept gives the customer of the first job in the book at a path.
func kept(t *testing.T, path string) string {
	t.Helper()
	b, err := storage.Open(path, storage.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	j, err := b.Get(1)
	if err != nil {
		t.Fatal(err)
	}
	return j.Customer
}

// A book that another program deletes or replaces is said to be gone, though nothing is
// edited; the window is not closed over it unasked, and it is put back with what came
// after.
func TestBookIsPutBack(t *testing.T) {
	for name, do := range map[string]func(path string) error{
		"deleted":  os.Remove,
		"replaced": func(path string) error { return os.Rename(path+".other", path) },
	} {
		t.Run(name, func(t *testing.T) {
			w, disk, until := beside(t)
			path := disk.Book.Path()
			if err := os.WriteFile(path+".other", []byte("older"), 0o600); err != nil {
				t.Fatal(err)
			}
			customer(w, t, "Before")
			until(func() bool { n, _ := w.shelf.Unsaved(); return n == 0 })
			if err := do(path); err != nil {
				t.Fatal(err)
			}
			w.shelf.Looking()()
			strip := hands.On(t, w.strip.object)
			until(w.strip.object.Visible)
			strip.Reads("job book", "Put it back", "Save as a job file…")
			strip.ReadsNot("Not saved", "Salvage", "Another book…")
			w.close()
			if !isOpen(w) {
				t.Fatal("it closed over a book that is gone")
			}
			until(func() bool { return w.asked != nil })
			hands.On(t, w.win.Canvas().Overlays().Top()).Press("Stay")
			customer(w, t, "After")
			until(func() bool { return strings.Contains(strip.Text(), "Not saved: 1 change.") })
			strip.Press("Put it back")
			until(func() bool { return !w.strip.object.Visible() && w.machine.Info != "" })
			if got := kept(t, path); got != "After" {
				t.Errorf("the book that was put back has %q", got)
			}
			if name == "replaced" && !strings.Contains(w.machine.Info, filepath.Base(path)+".replaced") {
				t.Errorf("it says %q", w.machine.Info)
			}
		})
	}
}

// A book that reads no more hangs nothing: the window goes on in memory, and what still
// reads is salvaged into a book that has the job as it is in the window.
func TestBookThatReadsNoMore(t *testing.T) {
	w, disk, until := beside(t)
	path, old := disk.Book.Path(), w.shelf.Book()
	customer(w, t, "Before")
	until(func() bool { n, _ := w.shelf.Unsaved(); return n == 0 })
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(path)
	if err == nil {
		err = os.Truncate(path, info.Size()/2)
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"After", "After that"} {
		customer(w, t, name)
	}
	strip := hands.On(t, w.strip.object)
	until(w.strip.object.Visible)
	strip.Reads("Not saved: 2 changes.", "can no longer be read", "Salvage what reads", "Another book…", "Save as a job file…")
	strip.ReadsNot("Try again", "Put it back")
	if w.undo(); w.doc.Job().Customer != "After" {
		t.Errorf("undone there is %q", w.doc.Job().Customer)
	}
	w.redo()
	// The disk that lost the half of it, found the records again.
	if err := os.WriteFile(path, whole, 0o600); err != nil {
		t.Fatal(err)
	}
	strip.Press("Salvage what reads")
	until(func() bool { return w.shelf.Book() != old })
	until(func() bool { return !w.strip.object.Visible() })
	salvaged := w.shelf.Book().Path()
	if !strings.Contains(salvaged, "-salvaged") || !strings.Contains(w.machine.Info, filepath.Base(salvaged)) {
		t.Errorf("it goes on in %s and says %q", salvaged, w.machine.Info)
	}
	customer(w, t, "Later")
	until(func() bool { n, err := w.shelf.Unsaved(); return n == 0 && err == nil })
	w.close()
	if got := kept(t, salvaged); got != "Later" {
		t.Errorf("the salvaged book has %q", got)
	}
}

// Another version of the book beside it is told when the window opens.
func TestCopiesAreTold(t *testing.T) {
	book := hands.Book(t)
	data, err := os.ReadFile(book.Path())
	if err == nil {
		err = os.WriteFile(filepath.Join(filepath.Dir(book.Path()), "jobs (second device).book"), data, 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
	w := open(t, Options{Job: hands.Shop(), Book: book})
	w.Show()
	if !strings.Contains(w.machine.Notice, "other versions of it: jobs (second device).book") {
		t.Errorf("it says %q", w.machine.Notice)
	}
}
