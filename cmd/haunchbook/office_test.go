package main

import (
	"bytes"
	"fmt"
	"image"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"haunchbook.example/app/job"
	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// seat is somebody at his window, with a book of his own that follows the office book.
type seat struct {
	*program
	name, path string
}

// newSeat opens a window for somebody, on a display of his own.
func newSeat(t *testing.T, s *trial.Server, db, name string) *seat {
	t.Helper()
	home := t.TempDir()
	p := &seat{name: name, path: filepath.Join(home, "jobs.book")}
	b, err := storage.Open(p.path, storage.Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	c, err := office.Connect(t.Context(), s.Address(t, name, db), nil)
	if err == nil {
		err = c.Join(b)
		_ = c.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	p.program = newDesk(t, home, 1300, 920).open(underTest(t), "-book", p.path)
	p.sized(1280, 860)
	return p
}

// looked gives what the book holds now, while the window has it open: the job of a name, its
// revisions, and how many edits wait to be sent.
func (p *seat) looked(name string) (j job.Job, notes []string, waiting int, ok bool) {
	p.t.Helper()
	b, err := storage.Open(p.path, storage.Options{ReadOnly: true, NoBackup: true, Wait: 20 * time.Millisecond}) // the window has it
	if err != nil {
		p.t.Fatal(err)
	}
	defer b.Close()
	list, err := b.List()
	if err != nil {
		p.t.Fatal(err)
	}
	i := slices.IndexFunc(list, func(s storage.Summary) bool { return s.Name == name })
	if i < 0 {
		return j, nil, 0, false
	}
	if j, err = b.Get(list[i].ID); err != nil {
		p.t.Fatal(err)
	}
	revisions, err := b.Revisions(list[i].ID)
	if err != nil {
		p.t.Fatal(err)
	}
	for _, r := range revisions {
		was, err := b.Revision(list[i].ID, r.Number)
		if err != nil {
			p.t.Fatal(err)
		}
		notes = append(notes, was.Customer)
	}
	waiting, err = office.Waiting(b)
	if err != nil {
		p.t.Fatal(err)
	}
	return j, notes, waiting, true
}

// has waits until the job in somebody's book is so, and tells how long that took.
func (p *seat) has(what string, is func(j job.Job, revisions []string, waiting int) bool) {
	p.t.Helper()
	begun := time.Now()
	p.until(fmt.Sprintf("%s: %s", p.name, what), func() bool {
		j, revisions, waiting, ok := p.looked(shared)
		return ok && is(j, revisions, waiting)
	})
	p.t.Logf("%s: %s, after %.1f s", p.name, what, time.Since(begun).Seconds())
}

// shared is the name of the job that both work on.
const shared = "Shared pour"

// TestTwoWindowsOneOfficeBook has two people work on one job with real mouse and keys, each
// in a window of his own: what one draws the other sees; each is told that the other is on
// it; what both change while the server is away is put together or, in the same place, kept
// beside each other, and one of the two is brought back.
func TestTwoWindowsOneOfficeBook(t *testing.T) {
	t.Parallel()
	underTest(t)
	s := trial.Own(t, "-c", "fsync=off")
	db := s.NewBook(t)
	ed, eve := newSeat(t, s, db, "ed"), newSeat(t, s, db, "eve")

	ed.key("ctrl+n")
	ed.titled("New job")
	ed.key("r")
	ed.click(300, 650)
	ed.move(600, 400)
	ed.typed("24' x 20'")
	ed.key("Return")
	ed.key("alt+4", "ctrl+a")
	ed.typed(shared)
	ed.key("Return")
	ed.titled(shared)
	eve.has("the job that ed drew", func(j job.Job, _ []string, _ int) bool { return len(j.Slabs[0].Outline) == 4 })

	// Each is told who else is on it: the page says so while it is true, and no longer.
	ed.key("ctrl+5")
	ed.click(897, 62) // The book
	ed.rest()
	alone := ed.told()
	opens := func() {
		t.Helper()
		eve.key("ctrl+o", "ctrl+a")
		eve.typed(shared)
		eve.key("Return")
		eve.titled(shared)
	}
	opens()
	ed.until("ed is told that eve is on the job", func() bool { return !bytes.Equal(ed.told(), alone) })
	ed.picture("two-1-ed-with-eve")
	eve.rest()
	eve.picture("two-2-eve-with-ed")
	eve.key("ctrl+n")
	ed.until("ed is told that eve is gone", func() bool { return bytes.Equal(ed.told(), alone) })
	opens()
	ed.until("ed is told that eve is back", func() bool { return !bytes.Equal(ed.told(), alone) })

	// What one draws, the other sees, without a hand on his window.
	ed.key("ctrl+1")
	eve.rest()
	before := eve.look()
	ed.key("d", "Right")
	ed.typed("9' at 4'")
	ed.key("Return", "Escape")
	eve.has("the door that ed drew", func(j job.Job, _ []string, _ int) bool { return doors(j) == 1 })
	eve.until("eve sees it", func() bool { return !eve.look().same(before) })
	eve.rest()
	eve.picture("two-3-eve-sees-the-door")

	// Each changes another thing while the server is away: both have both.
	s.Stop()
	ed.typedInto(customer, "Ed's")
	eve.typedInto(site, "Eve's lot")
	ed.has("his edit waits", func(j job.Job, _ []string, waiting int) bool { return j.Customer == "Ed's" && waiting == 1 })
	eve.has("hers waits", func(j job.Job, _ []string, waiting int) bool { return j.Site == "Eve's lot" && waiting == 1 })
	ed.picture("two-4-ed-offline")
	if err := s.Start(); err != nil {
		t.Fatal(err)
	}
	for _, p := range []*seat{ed, eve} {
		p.has("both edits", func(j job.Job, _ []string, waiting int) bool {
			return j.Customer == "Ed's" && j.Site == "Eve's lot" && doors(j) == 1 && waiting == 0
		})
	}

	// Both change the same: both are kept, and one is brought back.
	s.Stop()
	ed.typedInto(customer, "This")
	eve.typedInto(customer, "That")
	ed.has("his edit waits", func(j job.Job, _ []string, waiting int) bool { return j.Customer == "This" && waiting == 1 })
	eve.has("hers waits", func(j job.Job, _ []string, waiting int) bool { return j.Customer == "That" && waiting == 1 })
	if err := s.Start(); err != nil {
		t.Fatal(err)
	}
	for _, p := range []*seat{ed, eve} {
		p.has("both states are kept", func(_ job.Job, revisions []string, waiting int) bool {
			return slices.Contains(revisions, "This") && slices.Contains(revisions, "That") && waiting == 0
		})
	}
	now, _, _, _ := eve.looked(shared)
	chooser, other := eve, "That" // who came second has the other's state now
	if now.Customer == "That" {
		chooser, other = ed, "This"
	}
	chooser.rest()
	chooser.picture("two-5-kept-beside")
	chooser.key("ctrl+5")
	chooser.click(470, 62) // Revisions
	chooser.rest()
	chooser.click(940, 170) // From: the newest revision is the other's state,
	chooser.picture("two-6-choose")
	chooser.click(940, 267) // and the one before it one's own
	chooser.rest()
	chooser.picture("two-7-compared")
	chooser.click(780, 238) // Bring the "from" state back
	for _, p := range []*seat{ed, eve} {
		p.has("the one that was chosen", func(j job.Job, _ []string, waiting int) bool { return j.Customer == other && waiting == 0 })
	}
	eve.close()

	// An owner deletes it: it is gone in every book, from ed's once he opens another job.
	olga := newSeat(t, s, db, "olga")
	olga.until("olga has the job", func() bool { _, _, _, ok := olga.looked(shared); return ok })
	olga.key("ctrl+o", "ctrl+a")
	olga.typed(shared)
	olga.rest()
	olga.click(200, 202) // which chooses it, and does not open it
	olga.click(412, 62)  // Job
	olga.rest()
	for range 2 { // the second time is asked for
		olga.click(780, 407) // Delete for everyone…
		olga.rest()
	}
	olga.picture("two-8-olga-deletes")
	gone := func(p *seat) {
		t.Helper()
		p.until(p.name+" has it no more", func() bool { _, _, _, ok := p.looked(shared); return !ok })
	}
	gone(olga)
	ed.rest()
	ed.picture("two-9-told")
	ed.key("ctrl+n") // it stays as long as it is open
	gone(ed)
	olga.close()
	ed.close()
}

// told gives the pixels of what the page The book says of the office book.
func (p *seat) told() []byte {
	p.t.Helper()
	return p.look().part(image.Rect(400, 150, 1160, 320)).Pix
}

// doors counts those of a job's first slab.
func doors(j job.Job) (n int) {
	for _, e := range j.Slabs[0].Outline {
		n += len(e.Doors)
	}
	return n
}

// Fields of the job, as many steps after its name.
const (
	customer = 1
	site     = 2
)

// typedInto types into a field of the job, beside the plan.
func (p *seat) typedInto(field int, text string) {
	p.t.Helper()
	p.key("ctrl+1", "alt+4")
	for range field {
		p.key("Tab")
	}
	p.key("ctrl+a")
	p.typed(text)
	p.key("Return")
}
