package office_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/account"
	"haunchbook.example/app/actual"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// person is somebody with a book of his own.
type person struct {
	t    testing.TB
	name string
	book *storage.Book
	conn *office.Conn
}

func newPerson(t testing.TB, s *trial.Server, name, db string) *person {
	t.Helper()
	b, err := storage.Open(filepath.Join(t.TempDir(), name+".book"), storage.Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = b.Close() })
	return &person{t, name, b, connect(t, s, name, db)}
}

func (p *person) sync() office.Report {
	p.t.Helper()
	r, err := p.conn.Sync(context.Background(), p.book, office.Options{})
	if err != nil {
		p.t.Fatalf("%s: %v", p.name, err)
	}
	if n, err := office.Waiting(p.book); n != 0 || err != nil {
		p.t.Fatalf("%s: %d edits wait after all, %v", p.name, n, err)
	}
	return r
}

// shop is the sample job, with money in it.
func shop() job.Job {
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		panic(err)
	}
	j.Price.Extras = []estimate.Extra{{Name: "Drain", Amount: decimal.NewFromInt(97531)}}
	j.Account.Contract.Amount = decimal.NewFromInt(97532)
	return j
}

func (p *person) create(j job.Job) storage.ID {
	p.t.Helper()
	return must(p.book.Create(j))(p.t)
}

func must[T any](v T, err error) func(testing.TB) T {
	return func(t testing.TB) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// only gives the one job of a book.
func (p *person) only() (storage.ID, job.Job) {
	p.t.Helper()
	list := must(p.book.List())(p.t)
	if len(list) != 1 {
		p.t.Fatalf("%s has %d jobs", p.name, len(list))
	}
	return list[0].ID, must(p.book.Get(list[0].ID))(p.t)
}

func (p *person) edit(label string, change func(*job.Job)) {
	p.t.Helper()
	id, j := p.only()
	j = j.Clone()
	change(&j)
	if err := p.book.Edit(id, label, j); err != nil {
		p.t.Fatal(err)
	}
}

func open(j job.Job) job.Job { return j.WithMoney(job.NewIn(j.Units)) }

// A job goes up and comes down, whole for who may see prices and without any for who may
// not; his edit leaves them as they are.
func TestThreePeopleOneJob(t *testing.T) {
	s := trial.Shared(t)
	db := s.NewBook(t)
	ed, frank, olga := newPerson(t, s, "ed", db), newPerson(t, s, "frank", db), newPerson(t, s, "olga", db)
	id := ed.create(shop())
	ed.edit("Another customer", func(j *job.Job) { j.Customer = "Other" })
	if err := ed.book.SetState(id, storage.Won); err != nil {
		t.Fatal(err)
	}
	if _, err := ed.book.Revise(id, "printed"); err != nil {
		t.Fatal(err)
	}
	if err := ed.book.SetRecord(id, actual.Record{Trucks: 3, Invoices: []actual.Invoice{{For: "Concrete", Amount: decimal.NewFromInt(97533)}}}); err != nil {
		t.Fatal(err)
	}
	if r := ed.sync(); r.Up != 2 || r.Down != 0 {
		t.Errorf("%+v", r)
	}
	frank.sync()
	fid, fj := frank.only()
	_, ej := ed.only()
	if !fj.Same(open(ej)) {
		t.Errorf("the foreman has\n%s\nwant\n%s", fj.Encode(), open(ej).Encode())
	}
	if sum := must(frank.book.Summary(fid))(t); sum.State != storage.Won {
		t.Errorf("state %v", sum.State)
	}
	if r, ok, err := frank.book.Record(fid); !ok || err != nil || r.Trucks != 3 || len(r.Invoices) != 0 {
		t.Errorf("the foreman's record is %+v, %v", r, err)
	}
	if revs := must(frank.book.Revisions(fid))(t); len(revs) != 1 || revs[0].Note != "printed (ed)" {
		t.Errorf("revisions %+v", revs)
	}
	var export bytes.Buffer
	if err := frank.book.Export(&export, storage.ExportOptions{History: true}); err != nil {
		t.Fatal(err)
	}
	raw := must(readFile(frank.book.Path()))(t)
	for _, secret := range []string{"9753", "Drain"} {
		if bytes.Contains(raw, []byte(secret)) {
			t.Errorf("the foreman's book has %q in it", secret)
		}
	}
	frank.edit("Field thicker", func(j *job.Job) { j.Slabs[0].Field = 8 * geometry.Inch })
	if err := frank.book.SetRecord(fid, actual.Record{Trucks: 4}); err != nil {
		t.Fatal(err)
	}
	frank.sync()
	ed.sync()
	olga.sync()
	want := ej
	want.Slabs[0].Field = 8 * geometry.Inch
	for _, p := range []*person{ed, olga} {
		pid, got := p.only()
		if !got.Same(want) {
			t.Errorf("%s has\n%s", p.name, got.Encode())
		}
		if r, _, _ := p.book.Record(pid); r.Trucks != 4 || len(r.Invoices) != 1 {
			t.Errorf("%s's record is %+v", p.name, r)
		}
		h := must(p.book.History(pid))(t)
		if last := h.Done[len(h.Done)-1]; !strings.Contains(last.Label, "Field thicker (frank)") {
			t.Errorf("%s's last edit is %q", p.name, last.Label)
		}
	}
}

// Two who changed different things have both; two who changed the same have both states as
// revisions, and one job.
func TestMergedOrKeptBeside(t *testing.T) {
	s := trial.Shared(t)
	db := s.NewBook(t)
	ed, eve := newPerson(t, s, "ed", db), newPerson(t, s, "eve", db)
	ed.create(shop())
	ed.sync()
	eve.sync()
	ed.edit("Customer", func(j *job.Job) { j.Customer = "Ed's" })
	eve.edit("Thicker", func(j *job.Job) { j.Slabs[0].Field = 8 * geometry.Inch })
	eve.edit("Site", func(j *job.Job) { j.Site = "Eve's" })
	ed.sync()
	if r := eve.sync(); r.Merged != 1 || len(r.Conflicts) != 0 || r.Up != 2 {
		t.Errorf("%+v", r)
	}
	ed.sync()
	_, a := ed.only()
	eid, b := eve.only()
	if !a.Same(b) || a.Customer != "Ed's" || a.Site != "Eve's" || a.Slabs[0].Field != 8*geometry.Inch {
		t.Errorf("merged to %q %q %v, and %q", a.Customer, a.Site, a.Slabs[0].Field, b.Customer)
	}
	var labels []string
	for _, e := range must(eve.book.History(eid))(t).Done {
		labels = append(labels, e.Label)
	}
	if want := []string{"Thicker", "Site", "Customer (ed)", "Thicker", "Site"}; !slices.Equal(labels, want) {
		t.Errorf("the history is %q", labels)
	}
	ed.edit("Notes", func(j *job.Job) { j.Notes = "Ed says" })
	eve.edit("Notes", func(j *job.Job) { j.Notes = "Eve says" })
	ed.sync()
	r := eve.sync()
	if len(r.Conflicts) != 1 || !slices.Equal(r.Conflicts[0].Clashes, []string{"notes"}) || !slices.Equal(r.Conflicts[0].Who, []string{"ed"}) {
		t.Fatalf("%+v", r)
	}
	ed.sync()
	for _, p := range []*person{ed, eve} {
		pid, j := p.only()
		if j.Notes != "Ed says" {
			t.Errorf("%s has %q", p.name, j.Notes)
		}
		var notes []string
		for _, rev := range must(p.book.Revisions(pid))(t) {
			notes = append(notes, must(p.book.Revision(pid, rev.Number))(t).Notes)
		}
		if !slices.Equal(notes, []string{"Eve says", "Ed says"}) {
			t.Errorf("%s's revisions say %q", p.name, notes)
		}
	}
}

func readFile(name string) ([]byte, error) { return os.ReadFile(name) }

func contains(text, part string) bool { return strings.Contains(text, part) }

func changeOrder(from, to int) account.Change {
	return account.Change{Number: 1, Title: "More", From: from, To: to}
}
