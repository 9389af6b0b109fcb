package shelf_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/storage"
)

// slow is a shelf whose book is written beside it, to a disk that can be held up.
func slow(t *testing.T) (*document.Document, *shelf.Shelf, *hands.SlowDisk) {
	t.Helper()
	disk := hands.NewSlowDisk(t)
	j := hands.Shop()
	d := document.New(j, nil, document.Scheduler{})
	s := shelf.New(d, disk.Book, document.Scheduler{Go: func(f func()) { go f() }}, func() {})
	if err := s.Open(j, 0); err != nil {
		t.Fatal(err)
	}
	settle(t, s)
	return d, s, disk
}

func settle(t *testing.T, s *shelf.Shelf) {
	t.Helper()
	if err := s.Settle(); err != nil {
		t.Fatal(err)
	}
	if n, err := s.Unsaved(); n != 0 || err != nil {
		t.Fatalf("%d wait, %v", n, err)
	}
}

// Who edits waits for no disk, and neither does who undoes: all of it is counted until
// it is there.
func TestEditsWaitForNoDisk(t *testing.T) {
	d, s, disk := slow(t)
	disk.Hold()
	for _, text := range []string{"one", "two", "three"} {
		note(d, text)
	}
	if n, err := s.Unsaved(); n != 3 || err != nil {
		t.Errorf("%d wait, %v", n, err)
	}
	if got, err := disk.Book.Get(s.ID()); err != nil || got.Notes != "" {
		t.Errorf("the book has %q already, %v", got.Notes, err)
	}
	d.Undo() // never comes to the book
	if n, err := s.Unsaved(); n != 2 || err != nil || d.Job().Notes != "two" {
		t.Errorf("%d wait, %v; undone to %q", n, err, d.Job().Notes)
	}
	disk.Release()
	settle(t, s)
	if got, err := disk.Book.Get(s.ID()); err != nil || got.Notes != "two" {
		t.Errorf("the book has %q, %v", got.Notes, err)
	}
	if _, ok := d.Redo(); !ok || d.Job().Notes != "three" {
		t.Errorf("done again to %q", d.Job().Notes)
	}
	settle(t, s)
	if h, err := disk.Book.History(s.ID()); err != nil || len(h.Done) != 3 {
		t.Errorf("%d edits, %v", len(h.Done), err)
	}
}

// A change that cannot be stored waits, with those after it, and is told until it is
// stored.
func TestFailedWriteIsToldAndRetried(t *testing.T) {
	d, s, disk := slow(t)
	path := disk.Book.Path()
	if err := os.Rename(path, path+".away"); err != nil {
		t.Fatal(err)
	}
	note(d, "one")
	for _, want := range []int{1, 2} {
		if err := s.Settle(); !storage.IsKind(err, storage.Displaced) {
			t.Errorf("it is told as %v", err)
		}
		if n, err := s.Unsaved(); n != want || !storage.IsKind(err, storage.Displaced) {
			t.Errorf("%d wait, %v; want %d", n, err, want)
		}
		note(d, "two")
	}
	if d.Undo(); d.Job().Notes != "two" && d.Job().Notes != "one" {
		t.Errorf("undone to %q", d.Job().Notes)
	}
	if err := os.Rename(path+".away", path); err != nil {
		t.Fatal(err)
	}
	settle(t, s)
	if got, err := disk.Book.Get(s.ID()); err != nil || got.Notes != d.Job().Notes {
		t.Errorf("the book has %q, %v; the window %q", got.Notes, err, d.Job().Notes)
	}
}

// Whatever is edited, undone and done again, and however slow the disk is meanwhile: the
// window shows what a history in memory would, and the book has the same at the end.
func TestAnyWayThroughTheHistory(t *testing.T) {
	for seed := range uint64(4) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			r := rand.New(rand.NewPCG(seed, 1))
			d, s, disk := slow(t)
			memory := document.NewMemory(d.Job())
			want, held := d.Job(), false
			for i := range 100 {
				switch n := r.IntN(10); {
				case n < 4:
					note(d, fmt.Sprint(i))
					want = d.Job()
					memory.Edit("Notes", want)
				case n < 8:
					told, move := memory.Undo, d.Undo
					if n > 5 {
						told, move = memory.Redo, d.Redo
					}
					if j, _, ok, _ := told(); ok {
						want = j
					}
					move()
				case held:
					disk.Release()
					held = false
				case n == 8:
					disk.Hold()
					held = true
				default: // the program is begun anew, and what was undone is dropped by an edit
					settle(t, s)
					j, id, err := shelf.Last(disk.Book)
					if err != nil || id != s.ID() {
						t.Fatal(id, err)
					}
					if err := s.Open(j, id); err != nil {
						t.Fatal(err)
					}
					note(d, fmt.Sprint("begun anew ", i))
					want = d.Job()
					memory.Edit("Notes", want)
				}
				if !d.Job().Same(want) {
					t.Fatalf("after step %d it reads %q, want %q", i, d.Job().Notes, want.Notes)
				}
			}
			if held {
				disk.Release()
			}
			settle(t, s)
			if j, err := disk.Book.Get(s.ID()); err != nil || !j.Same(want) {
				t.Errorf("the book has %q, %v; want %q", j.Notes, err, want.Notes)
			}
			for ok := true; ok; {
				var j job.Job
				j, _, ok, _ = memory.Undo()
				if _, booked := d.Undo(); booked != ok || ok && !d.Job().Same(j) {
					t.Fatalf("undone to %q, want %q", d.Job().Notes, j.Notes)
				}
			}
		})
	}
}
