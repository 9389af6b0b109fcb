package office_test

import (
	"context"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// raw is a connection that goes round the program.
func raw(t *testing.T, s *trial.Server, user, db string) *pgx.Conn {
	t.Helper()
	c := must(pgx.Connect(t.Context(), s.URL(user, db)))(t)
	t.Cleanup(func() { _ = c.Close(context.Background()) })
	return c
}

// putEdit adds an edit to the only job, as anybody with a part may.
func putEdit(t *testing.T, c *pgx.Conn, id, open string, record []byte, form int) {
	t.Helper()
	_, err := c.Exec(t.Context(), `INSERT INTO haunchbook.edits (id, job, version, device, label, open, state, archived, record, form)
		SELECT $1, id, head + 1, repeat('e', 32), 'x', $2, 'won', false, $3, $4::int FROM haunchbook.jobs`, id, []byte(open), record, form)
	if err != nil {
		t.Fatal(err)
	}
}

// What a client writes that is not this program, within what its role may, harms nobody:
// what does not read is said and passed over, also where it unpacks to far more than it is;
// money that a foreman writes is nobody's; and the next who edits goes on.
func TestMalice(t *testing.T) {
	if testing.Short() {
		t.Skip("unpacks much, one after the other: run without -short")
	}
	s := trial.Shared(t)
	money, _ := office.Packed(shop().Encode())
	for name, c := range map[string]struct {
		open, record string
		says         string
	}{
		"no job":                {open: "\x00garbage", says: "does not read"},
		"nothing":               {open: "", says: "does not read"},
		"another thing":         {open: office.Pack([]byte(`[1, 2, 3]`)), says: "does not read"},
		"endless":               {open: office.Pack(make([]byte, 80<<20)), says: "larger than 64 MB"},
		"deep":                  {open: office.Pack([]byte(strings.Repeat("[", 1<<20))), says: "does not read"},
		"a record of no kind":   {open: string(money), record: `{"trucks": "many"}`, says: "does not read"},
		"a record with costs":   {open: string(money), record: `{"trucks": 5, "invoices": [{"for": "Concrete", "amount": "1"}]}`},
		"a job with its prices": {open: office.Pack(shop().Encode())},
	} {
		t.Run(name, func(t *testing.T) {
			db := s.NewBook(t)
			ed, frank, eve := newPerson(t, s, "ed", db), newPerson(t, s, "frank", db), newPerson(t, s, "eve", db)
			ed.create(shop())
			ed.sync()
			frank.sync()
			_, was := ed.only()
			var record []byte
			if c.record != "" {
				record = []byte(c.record)
			}
			putEdit(t, raw(t, s, "frank", db), strings.Repeat("f", 32), c.open, record, job.Version)
			ed.edit("Site", func(j *job.Job) { j.Site = "after it" })
			told := strings.Join(append(ed.sync().Notes, eve.sync().Notes...), "\n")
			if c.says == "" && told != "" || !strings.Contains(told, c.says) {
				t.Errorf("it is told as %q", told)
			}
			frank.sync()
			for _, p := range []*person{ed, eve, frank} {
				_, j := p.only()
				if p == frank {
					was = open(was)
				}
				if j.Site != "after it" || string(j.Money()) != string(was.Money()) {
					t.Errorf("%s has %q, and the money\n%s\nwant\n%s", p.name, j.Site, j.Money(), was.Money())
				}
			}
			frank.edit("Note", func(j *job.Job) { j.Notes = "goes on" })
			frank.sync()
			ed.sync()
			eve.sync()
			if id, j := ed.only(); j.Notes != "goes on" {
				t.Errorf("%q", j.Notes)
			} else if r, _, err := ed.book.Record(id); err != nil || len(r.Invoices) > 0 {
				t.Errorf("a foreman's costs are in the record: %+v, %v", r, err)
			}
		})
	}
}

// Many large edits come in parts that fit into memory.
func TestLargeEdits(t *testing.T) {
	if testing.Short() {
		t.Skip("packs much, one after the other: run without -short")
	}
	s := trial.Shared(t)
	db := s.NewBook(t)
	ed := newPerson(t, s, "ed", db)
	j := shop()
	random := rand.New(rand.NewPCG(5, 5))
	for range 12 {
		j.Notes = bulk(random, 3<<20)
		ed.create(j)
	}
	ed.sync()
	eve := newPerson(t, s, "eve", db)
	most := 0
	last := 0
	r, err := eve.conn.Sync(t.Context(), eve.book, office.Options{Told: func(down, _ int) { most, last = max(most, down-last), down }})
	if err != nil || r.Down != 12 || most > 10 {
		t.Errorf("%d edits came, %d at once, %v", r.Down, most, err)
	}
}

// An older program stops where a newer one wrote what it does not know: it says so, has
// and keeps what it had, and goes on once it is brought up to date.
func TestOlderProgram(t *testing.T) {
	s := trial.Shared(t)
	db := s.NewBook(t)
	ed, frank := newPerson(t, s, "ed", db), newPerson(t, s, "frank", db)
	ed.create(shop())
	ed.sync()
	frank.sync()
	frank.edit("Note", func(j *job.Job) { j.Notes = "frank's" })
	_, was := ed.only()
	was.Site = "ed's"
	newer, _ := office.Packed(was.Encode())
	putEdit(t, raw(t, s, "ed", db), strings.Repeat("f", 32), string(newer), nil, job.Version+1)
	for range 2 {
		_, err := frank.conn.Sync(t.Context(), frank.book, office.Options{})
		if !storage.IsKind(err, storage.Newer) || !contains(err.Error(), "ed works with a newer version of this program") || !contains(err.Error(), "update this program; your own book goes on as it is") {
			t.Fatalf("a newer form of jobs is told as %v", err)
		}
	}
	if _, j := frank.only(); j.Notes != "frank's" || j.Site == "ed's" {
		t.Errorf("frank has %q, %q", j.Notes, j.Site)
	}
	if n, err := office.Waiting(frank.book); n != 1 || err != nil {
		t.Errorf("%d edits wait, %v", n, err)
	}
	s.Exec(t, "boss", db, "UPDATE haunchbook.edits SET form = form - 1 WHERE label = 'x'") // as if frank's program knew it
	if r := frank.sync(); r.Merged != 1 {
		t.Errorf("%+v", r)
	}
	ed.sync()
	for _, p := range []*person{ed, frank} {
		if _, j := p.only(); j.Notes != "frank's" || j.Site != "ed's" {
			t.Errorf("%s has %q, %q", p.name, j.Notes, j.Site)
		}
	}
}

// Clocks that differ by years change nothing but the times that are shown: the order is
// that of versions.
func TestClocksThatDiffer(t *testing.T) {
	s := trial.Shared(t)
	db := s.NewBook(t)
	year := 365 * 24 * time.Hour
	off := map[string]time.Duration{"ed": 7 * year, "eve": -9 * year, "frank": 0}
	var all []*person
	for _, name := range []string{"ed", "eve", "frank"} {
		p := newPerson(t, s, name, db)
		path := p.book.Path()
		if err := p.book.Close(); err != nil {
			t.Fatal(err)
		}
		p.book = must(storage.Open(path, storage.Options{NoBackup: true, Now: func() time.Time { return time.Now().Add(off[name]) }}))(t)
		p.conn.Skew = off[name]
		t.Cleanup(func() { _ = p.book.Close() })
		all = append(all, p)
	}
	ed, eve, frank := all[0], all[1], all[2]
	id := ed.create(shop())
	if _, err := ed.book.Revise(id, "ed's"); err != nil {
		t.Fatal(err)
	}
	told := ed.sync().Notes
	if len(told) != 1 || !strings.Contains(told[0], "this machine's clock is 7 years ahead of the office book's") {
		t.Errorf("%q", told)
	}
	if told := eve.sync().Notes; len(told) != 1 || !strings.Contains(told[0], "9 years behind") {
		t.Errorf("%q", told)
	}
	frank.sync()
	for n, want := range []string{"first", "second", "third"} {
		for i, p := range []*person{ed, eve, frank} {
			p.edit("Write", func(j *job.Job) {
				switch i {
				case 0:
					j.Customer = want
				case 1:
					j.Site = want
				default:
					j.Slabs[0].Field += geometry.Length(n+1) * geometry.Inch
				}
			})
		}
		for range 2 {
			for _, p := range all {
				p.sync()
			}
		}
		eid, _ := eve.only()
		if _, err := eve.book.Revise(eid, want); err != nil {
			t.Fatal(err)
		}
	}
	for range 2 {
		for _, p := range all {
			p.sync()
		}
	}
	_, want := ed.only()
	for _, p := range all {
		pid, j := p.only()
		if j.Customer != "third" || j.Site != "third" || j.Slabs[0].Field != want.Slabs[0].Field {
			t.Errorf("%s has %q, %q, %v", p.name, j.Customer, j.Site, j.Slabs[0].Field)
		}
		if revs := must(p.book.Revisions(pid))(t); len(revs) != 4 {
			t.Errorf("%s has %d revisions", p.name, len(revs))
		}
		if err := p.book.Verify(); err != nil {
			t.Error(err)
		}
	}
}
