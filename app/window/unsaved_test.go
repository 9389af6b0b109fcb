package window

import (
	"os"
	"slices"
	"strings"
	"testing"

	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/storage"
)

// beside is a window whose work runs beside it, on a disk that can be held up; until
// waits for something to happen in it.
func beside(t *testing.T) (w *Window, disk *hands.SlowDisk, until func(func() bool)) {
	t.Helper()
	posted := make(chan func(), 10000)
	disk = hands.NewSlowDisk(t)
	w = open(t, Options{Job: hands.Shop(), Book: disk.Book, Scheduler: document.Scheduler{
		Go: func(f func()) { go f() }, Post: func(f func()) { posted <- f },
	}})
	w.Show()
	until = func(is func() bool) {
		for !is() {
			(<-posted)()
		}
	}
	until(func() bool {
		n, _ := w.shelf.Unsaved()
		_, stale := w.doc.Takeoff()
		return n == 0 && !stale
	})
	return w, disk, until
}

// customer types the customer's name, as a step of the history.
func customer(w *Window, t *testing.T, name string) {
	t.Helper()
	w.side.tab(jobTab)
	hands.On(t, w.side.object).Fill("Customer", name)
}

func isOpen(w *Window) bool { return slices.Contains(w.app.Driver().AllWindows(), w.win) }

// A slow disk keeps nobody from going on; what is not there yet is said until it is.
func TestSlowDisk(t *testing.T) {
	w, disk, until := beside(t)
	status := hands.On(t, w.status.object)
	disk.Hold()
	for i, name := range []string{"A", "AB", "ABC"} {
		customer(w, t, name)
		want := []string{"not yet on disk: 1 change\n", "not yet on disk: 2 changes\n", "not yet on disk: 3 changes\n"}[i]
		status.Reads(want)
	}
	if got := w.doc.Job().Customer; got != "ABC" || w.strip.object.Visible() {
		t.Errorf("the window has %q, and says %q", got, hands.On(t, w.strip.object).Text())
	}
	w.undo()
	status.Reads("not yet on disk: 2 changes")
	disk.Release()
	until(func() bool { return !strings.Contains(status.Text(), "not yet on disk") })
	if got, err := disk.Book.Get(w.shelf.ID()); err != nil || got.Customer != "AB" {
		t.Errorf("the book has %q, %v", got.Customer, err)
	}
}

// Closing waits for the disk, and lets nobody wait who does not want to.
func TestClosingWaits(t *testing.T) {
	w, disk, until := beside(t)
	path := disk.Book.Path()
	disk.Hold()
	customer(w, t, "Last typed")
	w.close()
	if !isOpen(w) {
		t.Fatal("it closed over what is not on disk")
	}
	shown := hands.On(t, w.win.Canvas().Overlays().Top())
	shown.Reads("Saving in the job book")
	shown.Press("Stop")
	until(func() bool { return w.asked != nil })
	shown = hands.On(t, w.win.Canvas().Overlays().Top())
	shown.Reads("Not yet on disk: 1 change.")
	shown.Press("Stay")
	if w.close(); !isOpen(w) {
		t.Fatal("it closed over what is not on disk")
	}
	disk.Release()
	until(func() bool { return !isOpen(w) })
	b, err := storage.Open(path, storage.Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if got, err := b.Get(1); err != nil || got.Customer != "Last typed" {
		t.Errorf("the book has %q, %v", got.Customer, err)
	}
}

// Who goes on without what is on its way need not wait for it either.
func TestClosingWithoutWaiting(t *testing.T) {
	w, disk, until := beside(t)
	disk.Hold()
	customer(w, t, "Never mind")
	w.close()
	hands.On(t, w.win.Canvas().Overlays().Top()).Press("Stop")
	until(func() bool { return w.asked != nil })
	hands.On(t, w.win.Canvas().Overlays().Top()).Press("Go on without them")
	if isOpen(w) {
		t.Error("it is open still")
	}
}

// A change that the book cannot take is told, and stored once it can.
func TestFailedWrite(t *testing.T) {
	w, disk, until := beside(t)
	path := disk.Book.Path()
	if err := os.Rename(path, path+".away"); err != nil {
		t.Fatal(err)
	}
	customer(w, t, "Kept")
	strip := hands.On(t, w.strip.object)
	until(w.strip.object.Visible)
	strip.Reads("Not saved: 1 change.")
	strip.Press("Try again")
	until(func() bool { return w.machine.Notice != "" })
	strip.Reads("Not saved: 1 change.")
	if err := os.Rename(path+".away", path); err != nil {
		t.Fatal(err)
	}
	strip.Press("Try again")
	until(func() bool { return !w.strip.object.Visible() })
	hands.On(t, w.status.object).ReadsNot("not yet on disk")
	if got, err := disk.Book.Get(w.shelf.ID()); err != nil || got.Customer != "Kept" {
		t.Errorf("the book has %q, %v", got.Customer, err)
	}
}
