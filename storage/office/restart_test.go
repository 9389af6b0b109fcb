package office_test

import (
	"context"
	"math/rand/v2"
	"strconv"
	"testing"
	"time"

	"haunchbook.example/app/job"
	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// A server that is killed, or ends in order as for an update, at any instant of a sync has
// kept every edit that it took, none of them twice; who was cut off is told that it is not
// there, and goes on when it is again.
func TestKilledServer(t *testing.T) {
	t.Parallel()
	s := trial.Own(t, "-c", "fsync=off")
	db := s.NewBook(t)
	ed, eve := newPerson(t, s, "ed", db), newPerson(t, s, "eve", db)
	ed.create(shop())
	ed.sync()
	eve.sync()
	random := rand.New(rand.NewPCG(2, 71))
	n, cut, written, taken := tries(t, 12), 0, 0, 0
	for i := range n {
		stop := time.Duration(random.IntN(60_000)) * time.Microsecond
		done := make(chan struct{})
		go func() {
			defer close(done)
			time.Sleep(stop)
			if i%4 == 3 {
				s.Stop()
			} else {
				s.Kill()
			}
		}()
		var err error
		for err == nil {
			written++
			ed.edit("Write", func(j *job.Job) { j.Site = strconv.Itoa(written) })
			if _, err = ed.conn.Sync(context.Background(), ed.book, office.Options{}); err == nil {
				taken = written
			}
		}
		cut++
		if !storage.IsKind(err, storage.Offline) {
			t.Fatalf("try %d: a server that ends is told as %v", i, err)
		}
		<-done
		if err := s.Start(); err != nil {
			t.Fatal(err)
		}
		ed.again(s, db)
		eve.again(s, db)
		eve.sync()
		if _, j := eve.only(); number(j.Site) < taken {
			t.Fatalf("try %d: the other has %s, and %d was taken", i, j.Site, taken)
		}
		ed.sync()
		taken = written
	}
	eve.sync()
	if _, j := eve.only(); number(j.Site) != written {
		t.Errorf("the other has %s of %d", j.Site, written)
	}
	if twice := s.CountIn(t, db, `SELECT count(*) FROM (SELECT open FROM haunchbook.edits GROUP BY open HAVING count(*) > 1) AS twice`); twice != 0 {
		t.Errorf("%d edits are there twice", twice)
	}
	if got := s.CountIn(t, db, `SELECT count(*) FROM haunchbook.edits`); got != written+1 {
		t.Errorf("%d edits are there of %d", got, written+1)
	}
	t.Logf("%d times the server ended in a sync, %d edits", cut, written)
}

func number(text string) int {
	n, _ := strconv.Atoi(text)
	return n
}
