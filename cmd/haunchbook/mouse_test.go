package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/storage"
)

// TestMouseAndKeys drives the real window on a virtual display with real mouse
// and keys: a new job, a slab drawn and a door placed in it, undo and redo, every page, the
// job saved as a file, the sheets printed, the window closed, and the job found
// in the book. HAUNCHBOOK_E2E names the program, built with
//
//	go build -o out/haunchbook ./cmd/haunchbook
//
// It needs Xvfb, openbox, xdotool, wmctrl and xwininfo.
func TestMouseAndKeys(t *testing.T) {
	t.Parallel() // each has a display of its own
	program := underTest(t)
	home := t.TempDir()
	d := newDesk(t, home, 1400, 1000)
	book := filepath.Join(home, "jobs.book")
	w := d.open(program, "-book", book)

	w.key("ctrl+n")
	w.titled("New job")
	w.key("r")
	w.click(300, 650)
	w.move(600, 400)
	w.typed("24' x 20'")
	w.key("Return")

	// The first corner is where the mouse clicked, on the grid: the lower edge
	// runs right from there.
	w.key("d")
	w.move(420, 650)
	w.click(420, 650)
	w.key("Escape")
	w.key("ctrl+z")
	w.key("ctrl+z")
	w.key("ctrl+y")
	w.key("ctrl+y")

	plan := w.look()
	for _, page := range []string{"ctrl+2", "ctrl+3", "ctrl+4", "ctrl+5"} {
		w.key(page)
		w.until(page+" turns to another page", func() bool { return !w.look().same(plan) })
	}
	w.key("ctrl+1")
	for _, over := range []string{"F1", "ctrl+k", "F10"} { // what stands over the window is left by Esc
		before := w.look()
		w.key(over)
		w.until(over+" opens something", func() bool { return !w.look().same(before) })
		w.key("Escape")
		w.until("Esc leaves what "+over+" opened", func() bool { return w.look().same(before) })
	}

	saved := w.save(home, "drawn.json")
	if n := len(saved.Slabs[0].Outline); n != 4 {
		t.Fatalf("the drawn outline has %d corners, want 4", n)
	}
	lo, hi := saved.Slabs[0].Outline.Corners().Bounds()
	if size, want := hi.Sub(lo), (geometry.Point{X: 24 * geometry.Foot, Y: 20 * geometry.Foot}); size != want {
		t.Errorf("the slab is %s by %s, want 24' by 20'", size.X.Text(0), size.Y.Text(0))
	}
	doors := 0
	for _, e := range saved.Slabs[0].Outline {
		doors += len(e.Doors)
	}
	if doors != 1 {
		t.Errorf("%d doors, want the one that was placed", doors)
	}
	w.print(home, 1280, map[string]string{"layout.pdf": "%PDF-", "materials.xlsx": "PK"})
	w.close()

	if got := inBook(t, book, saved.Name); !bytes.Equal(got.Encode(), saved.Encode()) {
		t.Errorf("the job in the book is not the one that was saved")
	}
}

// TestKeysAlone draws a slab with a door in the real window without a mouse: the
// menu opened and walked by keys, the outline by a list of legs.
func TestKeysAlone(t *testing.T) {
	t.Parallel()
	program := underTest(t)
	home := t.TempDir()
	d := newDesk(t, home, 1044, 760)
	book := filepath.Join(home, "jobs.book")
	w := d.open(program, "-book", book)
	w.sized(1024, 700)

	w.key("F10", "Down", "Right", "Return") // the first entry of the first menu
	w.titled("New job")
	w.key("alt+4", "ctrl+a")
	w.typed("Drawn by keys")
	w.key("Return")
	w.titled("Drawn by keys")

	w.key("ctrl+l")
	w.typed("24' right, 30' up, 24' left, back to start")
	w.key("Tab", "Tab", "Return") // past Back to Draw it
	w.key("Escape", "d", "Right")
	w.typed("9' at 4'")
	w.key("Return")
	w.key("F6", "Tab", "Right", "Escape") // the kind of the door: the next one
	w.close()

	got := inBook(t, book, "Drawn by keys").Slabs[0].Outline
	if len(got) != 4 || got.Length(0) != 24*geometry.Foot || got.Length(1) != 30*geometry.Foot {
		t.Fatalf("the outline is %v", got.Corners())
	}
	var doors []plan.Door // on whichever edge the pointer lies nearest
	for _, e := range got {
		doors = append(doors, e.Doors...)
	}
	if want := (plan.Door{Kind: plan.Walk, From: 4 * geometry.Foot, Width: 9 * geometry.Foot}); len(doors) != 1 || doors[0] != want {
		t.Errorf("the doors are %+v, want %+v", doors, want)
	}
}

// inBook gives the job of a name from a job book.
func inBook(t *testing.T, path, name string) job.Job {
	t.Helper()
	b, err := storage.Open(path, storage.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	all, err := b.List()
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range all {
		if e.Name == name {
			j, err := b.Get(e.ID)
			if err != nil {
				t.Fatal(err)
			}
			return j
		}
	}
	t.Fatalf("none of the %d jobs in the book is called %s", len(all), name)
	return job.Job{}
}

// underTest gives the program to drive.
func underTest(t *testing.T) string {
	t.Helper()
	program := os.Getenv("HAUNCHBOOK_E2E")
	if program == "" {
		t.Skip("HAUNCHBOOK_E2E names no program; go run ./cmd/dev test does")
	}
	if !filepath.IsAbs(program) {
		program = filepath.Join("..", "..", program)
	}
	return program
}
