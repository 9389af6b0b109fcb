package office_test

import (
	"context"
	"errors"
	"fmt"
	"iter"
	"math/rand/v2"
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
	open, money := office.Packed(shop().Encode())
	for from := 1; from <= jobs; from += 2_000 {
		to := min(jobs, from+1_999)
		err := pgx.BeginFunc(context.Background(), c, func(tx pgx.Tx) error {
			var errs []error
			for sql, args := range filling(from, to, open, money) {
				_, err := tx.Exec(context.Background(), sql, args...)
				errs = append(errs, err)
			}
			return errors.Join(errs...)
		})
		if err != nil {
			b.Fatal(err)
		}
	}
	return db
}

// filling gives the SQL that puts jobs with numbers between two into an office book.
func filling(from, to int, open, money []byte) iter.Seq2[string, []any] {
	return func(yield func(string, []any) bool) {
		_ = yield(`INSERT INTO haunchbook.jobs (id, made) SELECT lpad(to_hex(n), 32, '0'), now() FROM generate_series($1::int, $2::int) n`, []any{from, to}) &&
			yield(`INSERT INTO haunchbook.edits (id, job, version, device, label, open, state, archived, form)
				SELECT 'f' || lpad(to_hex(n), 31, '0'), lpad(to_hex(n), 32, '0'), 1, repeat('d', 32), 'New job', $3, 'won', false, $4::int FROM generate_series($1::int, $2::int) n`, []any{from, to, open, job.Version}) &&
			yield(`INSERT INTO haunchbook.edit_money (job, version, label, money) SELECT lpad(to_hex(n), 32, '0'), 1, 'New job', $3 FROM generate_series($1::int, $2::int) n`, []any{from, to, money})
	}
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
	s := trial.Own(b, "-c", "max_connections="+strconv.Itoa(2*people+20))
	begun := time.Now()
	db := filled(b, s, jobs)
	tell(b, time.Since(begun).Seconds(), "s/filling")
	ed, eve := newPerson(b, s, "ed", db), newPerson(b, s, "eve", db)
	begun = time.Now()
	ed.sync()
	tell(b, time.Since(begun).Seconds(), "s/opening")
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
	tell(b, share(up, 50), "ms/edit-there")
	tell(b, share(down, 50), "ms/edit-at-other")

	eve = paced(b, s, db, people, eve)

	// A week: everyone edits jobs of his own, as fast as it goes.
	each := 5 * 30 // edits of a person
	var mu sync.Mutex
	var took []time.Duration
	begun = time.Now()
	everyone(b, s, db, people, func(p int, c *office.Conn) error {
		was := shop().Encode()
		for n := range each {
			is := edited(n + 1)
			at := time.Now()
			if err := c.Push(context.Background(), nameOf(2*people+p), int64(n)+1, was, is); err != nil {
				return err
			}
			mu.Lock()
			took = append(took, time.Since(at))
			mu.Unlock()
			was = is
		}
		return nil
	})
	tell(b, float64(people*each)/time.Since(begun).Seconds(), "edits/s")
	tell(b, share(took, 50), "ms/edit-of-many")
	tell(b, share(took, 95), "ms/edit-of-many-95%")
	begun = time.Now()
	r := eve.sync()
	tell(b, time.Since(begun).Seconds(), "s/week")
	if r.Down != people*each {
		b.Errorf("%d edits came of %d", r.Down, people*each)
	}
	begun = time.Now()
	eve.sync()
	tell(b, ms(time.Since(begun)), "ms/nothing-new")
}

// nameOf names a job of filled.
func nameOf(n int) string { return fmt.Sprintf("%032x", n+1) }

// everyone has so many people work at once, each on a connection of his own, while as many
// others hear what changes.
func everyone(b *testing.B, s *trial.Server, db string, people int, work func(p int, c *office.Conn) error) {
	b.Helper()
	var all, ears sync.WaitGroup
	ctx, stop := context.WithCancel(context.Background())
	for p := range people {
		ears.Go(func() {
			ear, err := pgx.Connect(ctx, s.URL("ed", db))
			if err != nil {
				b.Error(err)
				return
			}
			defer ear.Close(context.Background())
			for _, err = ear.Exec(ctx, `LISTEN haunchbook`); err == nil; _, err = ear.WaitForNotification(ctx) {
			}
			if ctx.Err() == nil {
				b.Error(err)
			}
		})
		all.Go(func() {
			c, err := office.Connect(ctx, s.Address(b, "ed", db), nil)
			if err != nil {
				b.Error(err)
				return
			}
			defer c.Close()
			if err := work(p, c); err != nil {
				b.Error(err)
			}
		})
	}
	all.Wait()
	stop()
	ears.Wait()
	if b.Failed() {
		b.FailNow()
	}
}

// paced has everyone make three edits in half a minute, as people do on a busy day, and
// measures how long each takes until the office book has it, and until a program has it in
// its book that follows.
func paced(b *testing.B, s *trial.Server, db string, people int, eve *person) *person {
	b.Helper()
	const each, over = 3, 30 * time.Second
	var mu sync.Mutex
	var there, other []time.Duration
	sent := map[string][]time.Time{}
	count := 0
	f := office.Follow(eve.book, s.Address(b, "eve", db), nil, office.Options{}, func(st office.Status) {
		if st.Err != nil {
			b.Error(st.Err)
		}
		mu.Lock()
		defer mu.Unlock()
		count += st.Report.Down
		for _, id := range st.Report.Jobs {
			j, err := eve.book.Standing(id, "", true)
			if err != nil {
				b.Error(err)
				continue
			}
			for _, at := range sent[j.Shared.Job] {
				other = append(other, time.Since(at))
			}
			delete(sent, j.Shared.Job)
		}
	})
	everyone(b, s, db, people, func(p int, c *office.Conn) error {
		was := shop().Encode()
		random := rand.New(rand.NewPCG(uint64(p), 7))
		for n := range each {
			time.Sleep(time.Duration(random.Int64N(int64(2 * over / each))))
			is := edited(n + 1)
			name := nameOf(people + p) // others than were edited before
			at := time.Now()
			mu.Lock()
			sent[name] = append(sent[name], at)
			mu.Unlock()
			if err := c.Push(context.Background(), name, int64(n)+1, was, is); err != nil {
				return err
			}
			mu.Lock()
			there = append(there, time.Since(at))
			mu.Unlock()
			was = is
		}
		return nil
	})
	for range 600 {
		mu.Lock()
		n := count
		mu.Unlock()
		if n == people*each {
			break
		}
		time.Sleep(100 * time.Millisecond)
	}
	f.Stop()
	if count != people*each {
		b.Errorf("%d edits came of %d", count, people*each)
	}
	tell(b, share(there, 50), "ms/paced-edit-there")
	tell(b, share(there, 95), "ms/paced-edit-there-95%")
	tell(b, share(other, 50), "ms/paced-edit-at-other")
	tell(b, share(other, 95), "ms/paced-edit-at-other-95%")
	return eve
}

// tell reports a figure, and prints it at once: the whole takes long.
func tell(b *testing.B, n float64, unit string) {
	b.ReportMetric(n, unit)
	fmt.Fprintf(os.Stderr, "%s: %.4g %s\n", time.Now().Format(time.TimeOnly), n, unit)
}

func ms(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }

// share gives in milliseconds what so many of a hundred do not go over.
func share(d []time.Duration, percent int) float64 {
	slices.Sort(d)
	return ms(d[(len(d)-1)*percent/100])
}
