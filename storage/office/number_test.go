package office_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"haunchbook.example/app/account"
	"haunchbook.example/app/job"
	"haunchbook.example/storage"
	"haunchbook.example/storage/office/trial"
)

// named is the sample under another name.
func named(name string) job.Job {
	j := shop()
	j.Name = name
	return j
}

// numbers gives the numbers of a person's jobs by their names.
func (p *person) numbers() map[string]storage.ID {
	out := map[string]storage.ID{}
	for _, s := range must(p.book.List())(p.t) {
		out[s.Name] = s.ID
	}
	return out
}

// A job has one number in all books, but where two were made apart under one: that is told
// to both.
func TestNumbersOfJobs(t *testing.T) {
	s := trial.Shared(t)
	db := s.NewBook(t)
	ed, eve, olga := newPerson(t, s, "ed", db), newPerson(t, s, "eve", db), newPerson(t, s, "olga", db)
	ed.create(named("first"))
	ed.create(named("second"))
	ed.sync()
	eve.sync()
	eve.create(named("third"))
	eve.sync()
	ed.sync()
	for _, p := range []*person{ed, eve} {
		if got := p.numbers(); got["first"] != 1 || got["second"] != 2 || got["third"] != 3 {
			t.Errorf("%s has %v", p.name, got)
		}
	}
	ed.create(named("ed's fourth")) // both are offline
	eve.create(named("eve's fourth"))
	ed.sync()
	told := strings.Join(eve.sync().Notes, "\n")
	if got := eve.numbers(); got["eve's fourth"] != 4 || got["ed's fourth"] != 5 || !strings.Contains(told, "J-0005 is J-0004 in the office book, since another job had its number") || !strings.Contains(told, "J-0004 is J-0005 in the office book") {
		t.Errorf("eve has %v, and is told %q", got, told)
	}
	if r := ed.sync(); len(r.Notes) != 0 {
		t.Errorf("ed is told %q", r.Notes)
	}
	olga.sync()
	if e, o := ed.numbers(), olga.numbers(); e["eve's fourth"] != 5 || o["eve's fourth"] != 5 || o["ed's fourth"] != 4 || o["third"] != 3 {
		t.Errorf("ed has %v, olga has %v", e, o)
	}
	if n := ed.create(named("sixth")); n != 6 {
		t.Errorf("the next has the number %v", n)
	}
}

// A book with jobs of its own that joins has the office's under their numbers, but for those
// whose number it has itself: these go behind all others.
func TestNumbersOfABookThatJoins(t *testing.T) {
	s := trial.Shared(t)
	db := s.NewBook(t)
	ed, eve := newPerson(t, s, "ed", db), newPerson(t, s, "eve", db)
	for _, name := range []string{"a", "b", "c", "d", "e"} {
		ed.create(named(name))
	}
	eve.create(named("x"))
	eve.create(named("y"))
	ed.sync()
	eve.sync()
	ed.sync()
	if got, want := eve.numbers(), (map[string]storage.ID{"x": 1, "y": 2, "a": 6, "b": 7, "c": 3, "d": 4, "e": 5}); !maps.Equal(got, want) {
		t.Errorf("eve has %v, want %v", got, want)
	}
	if got, want := ed.numbers(), (map[string]storage.ID{"a": 1, "b": 2, "c": 3, "d": 4, "e": 5, "x": 6, "y": 7}); !maps.Equal(got, want) {
		t.Errorf("ed has %v, want %v", got, want)
	}
}

// invoice adds an invoice to a job under the book's next number.
func (p *person) invoice(id storage.ID) int {
	p.t.Helper()
	j := must(p.book.Get(id))(p.t).Clone()
	n := must(p.book.InvoiceNumber(j.Account))(p.t)
	p.bill(id, n)
	return n
}

func (p *person) bill(id storage.ID, n int) {
	p.t.Helper()
	j := must(p.book.Get(id))(p.t).Clone()
	j.Account.Invoices = append(j.Account.Invoices, account.Invoice{Number: n})
	if err := p.book.Edit(id, "Add an invoice", j); err != nil {
		p.t.Fatal(err)
	}
}

// Numbers of invoices are given once among all, also to who is offline for some; one who
// writes alone has them one after the other. What is there twice all the same is told to
// everyone who may see it, until it is mended.
func TestNumbersOfInvoices(t *testing.T) {
	s := trial.Shared(t)
	db := s.NewBook(t)
	ed, eve, frank := newPerson(t, s, "ed", db), newPerson(t, s, "eve", db), newPerson(t, s, "frank", db)
	id := ed.create(named("ed's"))
	first := ed.invoice(id) // before there was an office book
	ed.sync()
	var got []int
	for range 5 {
		got = append(got, ed.invoice(id))
		ed.sync()
	}
	if first != 1 || !slices.Equal(got, []int{2, 3, 4, 5, 6}) {
		t.Errorf("alone they are %d, %v", first, got)
	}
	eve.sync()
	all := append([]int{first}, got...)
	eid := eve.create(named("eve's"))
	for range 3 { // both are offline
		all = append(all, ed.invoice(id), eve.invoice(eid))
	}
	slices.Sort(all)
	if len(slices.Compact(slices.Clone(all))) != len(all) {
		t.Errorf("one is given twice: %v", all)
	}
	for range 2 {
		for _, p := range []*person{ed, eve} {
			if r := p.sync(); len(r.Notes) != 0 {
				t.Errorf("%s is told %q", p.name, r.Notes)
			}
		}
	}
	eve.bill(eid, all[2]) // typed
	want := "invoice 3 is there twice: of "
	if r := eve.sync(); len(r.Notes) != 1 || !strings.HasPrefix(r.Notes[0], want) || !strings.Contains(r.Notes[0], "J-0001, ed's") || !strings.Contains(r.Notes[0], "J-0002, eve's") {
		t.Errorf("eve is told %q", r.Notes)
	}
	if r := ed.sync(); len(r.Notes) != 1 || !strings.HasPrefix(r.Notes[0], want) {
		t.Errorf("ed is told %q", r.Notes)
	}
	if r := frank.sync(); len(r.Notes) != 0 {
		t.Errorf("a foreman is told %q", r.Notes)
	}
	j := must(eve.book.Get(eid))(t).Clone()
	j.Account.Invoices[len(j.Account.Invoices)-1].Number = must(eve.book.InvoiceNumber(j.Account))(t)
	if err := eve.book.Edit(eid, "Another number", j); err != nil {
		t.Fatal(err)
	}
	if r := eve.sync(); len(r.Notes) != 0 {
		t.Errorf("eve is told %q after it is mended", r.Notes)
	}
}
