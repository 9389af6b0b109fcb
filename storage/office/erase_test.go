package office_test

import (
	"bytes"
	"encoding/base64"
	"os"
	"strings"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// What an owner deletes for good is gone from the office book with all that belongs to it
// and to nothing else, and from others' books but where that would lose something or the
// job is open; nobody brings it back.
func TestDeletedForGood(t *testing.T) {
	s := trial.Shared(t)
	db := s.NewBook(t)
	olga, ed, eve, frank := newPerson(t, s, "olga", db), newPerson(t, s, "ed", db), newPerson(t, s, "eve", db), newPerson(t, s, "frank", db)
	sketched := func(name string, shade uint8) job.Job {
		j := named(name)
		j.Sketch.Image = base64.StdEncoding.EncodeToString(picture(t, shade))
		return j
	}
	j := sketched("to go", 7)
	j.Notes = "Secretword"
	id := ed.create(j)
	ed.create(sketched("to stay", 9))
	both := sketched("to go too", 9)
	ed.create(both)
	if _, err := ed.book.Revise(id, "printed"); err != nil {
		t.Fatal(err)
	}
	ed.bill(id, 1)
	for _, p := range []*person{ed, olga, eve, frank} {
		p.sync()
	}
	if err := ed.conn.Erase(t.Context(), ed.book, id); !storage.IsKind(err, storage.Forbidden) {
		t.Errorf("an estimator deletes it: %v", err)
	}
	fid := frank.numbers()["to go"]
	note := must(frank.book.Get(fid))(t)
	note.Notes = "frank was on it"
	if err := frank.book.Edit(fid, "Note", note); err != nil { // and is offline
		t.Fatal(err)
	}
	for _, name := range []string{"to go", "to go too"} {
		if err := olga.conn.Erase(t.Context(), olga.book, olga.numbers()[name]); err != nil {
			t.Fatal(err)
		}
	}
	for table, want := range map[string]int{"edits": 1, "edit_money": 1, "revisions": 0, "revision_money": 0, "invoices": 0, "pictures": 1, "shown": 1, "erased": 2} {
		if n := s.CountIn(t, db, "SELECT count(*) FROM haunchbook."+table); n != want {
			t.Errorf("%s has %d rows, want %d", table, n, want)
		}
	}
	// ed has it open; eve has not; frank has an edit of it.
	open := true
	o := office.Options{Open: func(i storage.ID) bool { return open && i == id }}
	told := must(ed.conn.Sync(t.Context(), ed.book, o))(t)
	if got := strings.Join(told.Notes, "\n"); told.Erased != 1 || !strings.Contains(got, "J-0001, to go was deleted for good in the office book by olga; it goes from this book once another job is open") {
		t.Errorf("ed: %d deleted, %q", told.Erased, got)
	}
	open = false
	if told := must(ed.conn.Sync(t.Context(), ed.book, o))(t); told.Erased != 1 {
		t.Errorf("ed: %+v", told)
	}
	if r := eve.sync(); r.Erased != 2 || !strings.Contains(strings.Join(r.Notes, "\n"), "it is gone from this book, and from its backups as newer ones take their place") {
		t.Errorf("eve: %+v", r)
	}
	if raw := must(os.ReadFile(eve.book.Path()))(t); bytes.Contains(raw, []byte("Secretword")) {
		t.Error("its bytes are in eve's book")
	}
	for range 2 {
		r := must(frank.conn.Sync(t.Context(), frank.book, office.Options{}))(t)
		if got := strings.Join(r.Notes, "\n"); r.Up != 0 || !strings.Contains(got, "it stays here, since it has edits that were not sent") {
			t.Errorf("frank: %+v", r)
		}
	}
	if n, err := office.Waiting(frank.book); n != 0 || err != nil {
		t.Errorf("%d edits wait for ever, %v", n, err)
	}
	for p, want := range map[*person]int{ed: 1, eve: 1, frank: 2} {
		if n := len(must(p.book.List())(t)); n != want {
			t.Errorf("%s has %d jobs, want %d", p.name, n, want)
		}
		if err := p.book.Verify(); err != nil {
			t.Error(err)
		}
	}
	newer := newPerson(t, s, "eve", db)
	if newer.sync(); len(must(newer.book.List())(t)) != 1 {
		t.Error("it comes to a new book")
	}
}
