package office_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"sync"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// sized gives a number that the environment sets.
func sized(name string, usual int) int {
	if n, err := strconv.Atoi(os.Getenv(name)); err == nil {
		return n
	}
	return usual
}

// filled makes an office book with so many jobs, each with one edit.
func filled(b *testing.B, s *trial.Server, jobs int) string {
	b.Helper()
	db := s.NewBook(b)
	c, err := pgx.Connect(context.Background(), s.URL("boss", db))
	if err != nil {
		b.Fatal(err)
	}
	defer c.Close(context.Background())
	for from := 1; from <= jobs; from += 2_000 {
		open, money := office.Packed(shop().Encode())
		to := min(jobs, from+1_999)
		for _, sql := range []string{
			`INSERT INTO haunchbook.jobs (id, made) SELECT lpad(to_hex(n), 32, '0'), now() FROM generate_series($1::int, $2::int) n`,
			`INSERT INTO haunchbook.edits (id, job, version, device, label, open, state, archived, form) SELECT 'f' || lpad(to_hex(n), 31, '0'), lpad(to_hex(n), 32, '0'), 1, repeat('d', 32), 'New job', $3, 'won', false, $4::int FROM generate_series($1::int, $2::int) n`,
		} {
			args := []any{from, to}
			if len(sql) > 170 {
				args = append(args, open, job.Version)
			}
			if _, err := c.Exec(context.Background(), sql, args...); err != nil {
				b.Fatal(err)
			}
		}
		tx, err := c.Begin(context.Background())
		if err != nil {
			b.Fatal(err)
		}
		for _, sql := range []string{`ALTER TABLE haunchbook.edit_money DISABLE TRIGGER USER`} {
			if _, err := tx.Exec(context.Background(), sql); err != nil {
				b.Fatal(err)
			}
		}
		if _, err := tx.Exec(context.Background(), `INSERT INTO haunchbook.edit_money (job, version, label, money) SELECT lpad(to_hex(n), 32, '0'), 1, 'New job', $3 FROM generate_series($1::int, $2::int) n`, from, to, money); err != nil {
			b.Fatal(err)
		}
		if _, err := tx.Exec(context.Background(), `ALTER TABLE haunchbook.edit_money ENABLE TRIGGER USER`); err != nil {
			b.Fatal(err)
		}
		if err := tx.Commit(context.Background()); err != nil {
			b.Fatal(err)
		}
	}
	return db
}

// edited gives the sample after a number of edits.
func edited(n int) []byte {
	j := shop()
	j.Slabs[0] = j.Slabs[0].Clone()
	j.Slabs[0].Outline[1].At.X += geometry.Length(n) * geometry.Inch / 16
	return j.Encode()
}

// BenchmarkOffice measures, on a server that syncs its disk, an office book with many jobs
// (HAUNCHBOOK_JOBS), edited by many people at once (HAUNCHBOOK_PEOPLE): opening it in a
// book that has nothing, an edit until the office book has it, until another has it, and
// catching up after a week of everyone's edits.
func BenchmarkOffice(b *testing.B) {
	jobs, people := sized("HAUNCHBOOK_JOBS", 500), sized("HAUNCHBOOK_PEOPLE", 20)
	s := trial.Own(b)
	db := filled(b, s, jobs)
	ed, eve := newPerson(b, s, "ed", db), newPerson(b, s, "eve", db)
	begun := time.Now()
	ed.sync()
	b.ReportMetric(time.Since(begun).Seconds(), "s/opening")
	path := filepath.Join(b.TempDir(), "eve.book")
	if _, err := ed.book.Backup("copy"); err != nil {
		b.Fatal(err)
	}
	list, err := storage.Backups(ed.book.Path())
	if err != nil {
		b.Fatal(err)
	}
	data, err := os.ReadFile(list[0].Path)
	if err == nil {
		err = os.WriteFile(path, data, 0o600)
	}
	if err == nil {
		_ = eve.book.Close()
		eve.book, err = storage.Open(path, storage.Options{NoBackup: true})
	}
	if err != nil {
		b.Fatal(err)
	}
	eve.sync()

	ids := must(ed.book.List())(b)
	var up, down []time.Duration
	for i := range 30 {
		id := ids[i%len(ids)].ID
		j := must(ed.book.Get(id))(b)
		j.Customer = fmt.Sprint("Customer ", i)
		begun := time.Now()
		if err := ed.book.Edit(id, "Customer", j); err != nil {
			b.Fatal(err)
		}
		ed.sync()
		up = append(up, time.Since(begun))
		eve.sync()
		down = append(down, time.Since(begun))
	}
	b.ReportMetric(median(up), "ms/edit-there")
	b.ReportMetric(median(down), "ms/edit-at-other")

	// A week: everyone edits jobs of his own, as fast as it goes.
	each := 5 * 30 // edits of a person
	var all sync.WaitGroup
	var mu sync.Mutex
	var took []time.Duration
	begun = time.Now()
	for p := range people {
		all.Go(func() {
			c, err := office.Connect(context.Background(), s.Address(b, "ed", db), nil)
			if err != nil {
				b.Error(err)
				return
			}
			defer c.Close()
			name := fmt.Sprintf("%032x", p+1) // others than were edited before
			was := shop().Encode()
			for n := range each {
				is := edited(n + 1)
				at := time.Now()
				if err := c.Push(context.Background(), name, int64(n)+1, was, is); err != nil {
					b.Error(err)
					return
				}
				mu.Lock()
				took = append(took, time.Since(at))
				mu.Unlock()
				was = is
			}
		})
	}
	all.Wait()
	if b.Failed() {
		return
	}
	b.ReportMetric(float64(people*each)/time.Since(begun).Seconds(), "edits/s")
	b.ReportMetric(median(took), "ms/edit-of-many")
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)*95/100].Microseconds())/1000, "ms/edit-of-many-95%")
	begun = time.Now()
	r := eve.sync()
	b.ReportMetric(time.Since(begun).Seconds(), "s/week")
	if r.Down != people*each {
		b.Errorf("%d edits came of %d", r.Down, people*each)
	}
	begun = time.Now()
	eve.sync()
	b.ReportMetric(float64(time.Since(begun).Microseconds())/1000, "ms/nothing-new")
}

func median(d []time.Duration) float64 {
	slices.Sort(d)
	return float64(d[len(d)/2].Microseconds()) / 1000
}
