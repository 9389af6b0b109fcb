package office_test

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// The test binary stands in for a program that edits and syncs until it is killed.
const untilKilled = "OFFICE_BOOK_UNTIL_KILLED"

func TestMain(m *testing.M) {
	if book := os.Getenv(untilKilled); book != "" {
		fmt.Fprintln(os.Stderr, editUntilKilled(book, os.Getenv("OFFICE_BOOK_URL")))
		os.Exit(1)
	}
	trial.Main(m)
}

// editUntilKilled makes numbered edits in a book's only job and says each once it is
// stored, and brings the book together with the office book after every few.
func editUntilKilled(path, url string) error {
	ctx := context.Background()
	b, err := storage.Open(path, storage.Options{NoBackup: true, Wait: 10 * time.Second})
	if err != nil {
		return err
	}
	a, err := office.ParseAddress(url)
	if err != nil {
		return err
	}
	c, err := office.Connect(ctx, a, nil)
	if err != nil {
		return err
	}
	list, err := b.List()
	if err != nil {
		return err
	}
	for n := 0; ; n++ {
		j, err := b.Get(list[0].ID)
		if err != nil {
			return err
		}
		last, _ := strconv.Atoi(field(j.Site, a.User()))
		j.Site = withField(j.Site, a.User(), strconv.Itoa(last+1))
		if err := b.Edit(list[0].ID, "Edit", j); err != nil {
			return err
		}
		fmt.Println(last + 1)
		if n%3 == 2 {
			if _, err := c.Sync(ctx, b, office.Options{}); err != nil {
				return err
			}
		}
	}
}

// A text of fields, "ed=4 eve=7", of which everybody writes his own.
func field(text, name string) string {
	for _, f := range strings.Fields(text) {
		if v, ok := strings.CutPrefix(f, name+"="); ok {
			return v
		}
	}
	return ""
}

func withField(text, name, value string) string {
	list := slices.DeleteFunc(strings.Fields(text), func(f string) bool { return strings.HasPrefix(f, name+"=") })
	list = append(list, name+"="+value)
	slices.Sort(list)
	return strings.Join(list, " ")
}

// close ends somebody's program in order.
func (p *person) close() {
	p.t.Helper()
	if err := errors.Join(p.conn.Close(), p.book.Close()); err != nil {
		p.t.Fatal(err)
	}
}

// Killed at any instant, a program has lost no edit that it was told is stored, and none
// is in the office book twice.
func TestKilledClients(t *testing.T) {
	t.Parallel()
	s := trial.Shared(t)
	db := s.NewBook(t)
	ed := newPerson(t, s, "ed", db)
	ed.create(shop())
	ed.sync()
	random := rand.New(rand.NewPCG(3, 14))
	path := filepath.Join(t.TempDir(), "eve.book")
	eve := func() *person {
		b, err := storage.Open(path, storage.Options{NoBackup: true})
		if err != nil {
			t.Fatal(err)
		}
		return &person{t: t, name: "eve", book: b, conn: connect(t, s, "eve", db)}
	}
	p := eve()
	p.sync()
	p.close()
	n, last, told := tries(t, 12), 0, 0
	for i := range n {
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), untilKilled+"="+path, "OFFICE_BOOK_URL="+s.URL("eve", db))
		var complaint bytes.Buffer
		cmd.Stderr = &complaint
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		lines := bufio.NewScanner(out)
		acknowledged, stop := 0, random.IntN(12)
		for lines.Scan() {
			acknowledged, _ = strconv.Atoi(lines.Text())
			told++
			if stop--; stop < 0 { // and then some time into what comes next
				time.AfterFunc(time.Duration(random.IntN(9000))*time.Microsecond, func() { _ = cmd.Process.Kill() })
				stop = 1 << 30
			}
		}
		_ = cmd.Wait()
		if complaint.Len() > 0 {
			t.Fatalf("try %d: %s", i, &complaint)
		}
		p := eve()
		p.sync()
		_, j := p.only()
		if got, _ := strconv.Atoi(field(j.Site, "eve")); got < max(acknowledged, last) || got > acknowledged+1 && acknowledged > 0 {
			t.Fatalf("try %d: the book has edit %d, and %d was told", i, got, acknowledged)
		} else {
			last = got
		}
		p.close()
	}
	ed.sync()
	_, j := ed.only()
	if got := field(j.Site, "eve"); got != strconv.Itoa(last) {
		t.Errorf("the other has edit %s of %d", got, last)
	}
	if twice := s.CountIn(t, db, `SELECT count(*) FROM (SELECT open FROM haunchbook.edits GROUP BY open HAVING count(*) > 1) AS twice`); twice != 0 {
		t.Errorf("%d edits are there twice", twice)
	}
	t.Logf("%d programs killed, %d edits told", n, told)
}
