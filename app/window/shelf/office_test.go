package shelf_test

import (
	"path/filepath"
	"strings"
	"testing"
	"time"

	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// desk is a window's work without a window: what is to be done there waits until the test
// does it.
type desk struct {
	t    *testing.T
	doc  *document.Document
	s    *shelf.Shelf
	told chan func()
	last office.Status
}

func newDesk(t *testing.T, name string) *desk {
	t.Helper()
	b, err := storage.Open(filepath.Join(t.TempDir(), name+".book"), storage.Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	d := &desk{t: t, doc: document.New(hands.Shop(), nil, document.Scheduler{}), told: make(chan func(), 1000)}
	d.s = shelf.New(d.doc, b, document.Scheduler{Go: func(f func()) { go f() }, Post: func(f func()) { d.told <- f }}, func() {})
	d.s.Told = func(st office.Status) { d.last = st }
	t.Cleanup(d.s.Close)
	return d
}

// until works until something is so.
func (d *desk) until(what string, is func() bool) {
	d.t.Helper()
	late := time.After(2 * time.Minute) // far longer than it takes: only the end hangs on it
	for !is() {
		select {
		case f := <-d.told:
			f()
		case <-late:
			d.t.Fatalf("never %s; the status is %+v", what, d.last)
		}
	}
}

func (d *desk) join(address string) {
	d.t.Helper()
	done := false
	d.s.JoinOffice(address, "", false, func(err error) {
		if err != nil {
			d.t.Fatal(err)
		}
		done = true
	})
	d.until("joined", func() bool { return done })
	d.until("up to date", func() bool { return d.last.Online && d.last.Waiting == 0 })
}

// Two windows on one office book: what one edits the other shows, with its history, but
// not in the middle of a drag; each learns that the other is there.
func TestTwoWindowsOneOffice(t *testing.T) {
	server := trial.Own(t, "-c", "fsync=off")
	db := server.NewBook(t)
	ed, frank := newDesk(t, "ed"), newDesk(t, "frank")
	if err := ed.s.Open(hands.Shop(), 0); err != nil {
		t.Fatal(err)
	}
	ed.join(server.URL("ed", db))
	frank.join(server.URL("frank", db))
	list, err := frank.s.Book().List()
	if err != nil || len(list) != 1 {
		t.Fatalf("frank has %v, %v", list, err)
	}
	j, err := frank.s.Book().Get(list[0].ID)
	if err == nil {
		err = frank.s.Open(j, list[0].ID)
	}
	if err != nil {
		t.Fatal(err)
	}
	ed.until("with frank", func() bool { return len(ed.last.Others) == 1 && ed.last.Others[0] == "frank" })

	say := func(d *desk, text string) {
		j := d.doc.Base()
		j.Notes = text
		d.doc.Commit("Notes", j)
	}
	say(ed, "from ed")
	frank.until("shown", func() bool { return frank.doc.Job().Notes == "from ed" })
	if undo, ok := frank.doc.CanUndo(); !ok || undo != "Notes (ed)" {
		t.Errorf("frank can undo %q", undo)
	}
	moved := frank.doc.Base()
	moved.Site = "being dragged"
	frank.doc.Preview(moved)
	say(ed, "during the drag")
	ed.until("sent", func() bool { return ed.last.Online && ed.last.Waiting == 0 && ed.last.Report.Up > 0 })
	for range 5 {
		(<-frank.told)()
	}
	if !frank.doc.Previewing() || frank.doc.Base().Notes != "from ed" {
		t.Errorf("what came broke the drag: %q", frank.doc.Base().Notes)
	}
	dragged := frank.doc.Job()
	frank.doc.Commit("Site", dragged)
	together := func(d *desk) func() bool {
		return func() bool {
			j := d.doc.Job()
			return j.Notes == "during the drag" && j.Site == "being dragged"
		}
	}
	frank.until("both", together(frank))
	ed.until("both", together(ed))

	if err := frank.s.LeaveOffice(); err != nil {
		t.Fatal(err)
	}
	if _, _, ok := frank.s.Office(); ok {
		t.Error("frank is still in it")
	}
	say(frank, "alone")
	ed.until("without frank", func() bool { return len(ed.last.Others) == 0 })
	if got := ed.doc.Job(); got.Notes != "during the drag" {
		t.Errorf("ed has %q", got.Notes)
	}
}

// What an owner deletes for everyone in his window goes from another's, but for the job
// that is open there, which goes once another is.
func TestDeletedForEveryone(t *testing.T) {
	server := trial.Own(t, "-c", "fsync=off")
	db := server.NewBook(t)
	olga, ed := newDesk(t, "olga"), newDesk(t, "ed")
	if err := olga.s.Open(hands.Shop(), 0); err != nil {
		t.Fatal(err)
	}
	olga.join(server.URL("olga", db))
	ed.join(server.URL("ed", db))
	first := func(d *desk) storage.ID {
		t.Helper()
		list, err := d.s.Book().List()
		if err != nil || len(list) == 0 {
			t.Fatalf("%v, %v", list, err)
		}
		storage.Sort(list, storage.ByNumber)
		return list[0].ID
	}
	id := first(ed)
	j, err := ed.s.Book().Get(id)
	if err == nil {
		err = ed.s.Open(j, id)
	}
	if err != nil {
		t.Fatal(err)
	}
	if err := ed.s.ErasingForAll(id)(t.Context()); !storage.IsKind(err, storage.Forbidden) {
		t.Errorf("an estimator deletes it: %v", err)
	}
	if err := olga.s.ErasingForAll(first(olga))(t.Context()); err != nil {
		t.Fatal(err)
	}
	ed.until("told", func() bool {
		return len(ed.last.Report.Notes) > 0 && strings.Contains(ed.last.Report.Notes[0], "once another job is open")
	})
	if first(ed) != id {
		t.Error("the open job is gone")
	}
	if err := ed.s.Open(hands.Shop(), 0); err != nil {
		t.Fatal(err)
	}
	ed.until("gone", func() bool { return first(ed) != id })
}
