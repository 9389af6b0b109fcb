package storage

import (
	"bufio"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"
)

// TestMain lets the test binary stand in for a window that edits a job until it
// is killed.
func TestMain(m *testing.M) {
	if path := os.Getenv("JOB_BOOK_EDIT_UNTIL_KILLED"); path != "" {
		fmt.Fprintln(os.Stderr, editUntilKilled(path))
		os.Exit(1)
	}
	if path := os.Getenv("JOB_BOOK_OPEN"); path != "" {
		os.Exit(openedOr(Open(path, Options{})))
	}
	if path := os.Getenv("JOB_BOOK_RESTORE"); path != "" {
		_, err := Restore(path, os.Getenv("JOB_BOOK_BACKUP"))
		os.Exit(openedOr(&Book{}, err))
	}
	// Nothing here measures or trusts a disk: a folder in memory waits for none.
	if info, err := os.Stat("/dev/shm"); err == nil && info.IsDir() && os.Getenv("TMPDIR") == "" {
		_ = os.Setenv("TMPDIR", "/dev/shm")
	}
	os.Exit(m.Run())
}

// filling is text of some length that packs badly, so that a disk is soon full.
func filling(n int) string {
	random := rand.New(rand.NewPCG(uint64(n), 8))
	b := make([]byte, 100+random.IntN(1500))
	for i := range b {
		b[i] = 'a' + byte(random.IntN(26))
	}
	return string(b)
}

// editUntilKilled makes numbered edits and acknowledges each, once it is stored.
func editUntilKilled(path string) error {
	b, err := Open(path, Options{NoBackup: true, Wait: 10 * time.Second})
	if err != nil {
		return err
	}
	list, err := b.List()
	if err != nil {
		return err
	}
	id := list[0].ID // of the first job made
	for _, s := range list {
		id = min(id, s.ID)
	}
	j, err := b.Get(id)
	if err != nil {
		return err
	}
	n, _ := strconv.Atoi(j.Notes)
	fill := os.Getenv("JOB_BOOK_FILE_LIMIT") != ""
	for {
		n++
		j.Notes = strconv.Itoa(n)
		if fill {
			j.Site = filling(n)
		}
		j.Slabs[0].Outline[0].At.X++
		if err := b.Edit(id, "Edit "+j.Notes, j); err != nil {
			return err
		}
		fmt.Println(n)
		switch {
		case n%13 == 0:
			if _, err := b.Create(shop(n)); err != nil {
				return err
			}
		case n%29 == 0:
			if _, err := b.Revise(id, "printed"); err != nil {
				return err
			}
		case n%17 == 0:
			// Undone and done again: the same state, by other paths.
			if _, _, _, err := b.Undo(id); err != nil {
				return err
			}
			if _, _, _, err := b.Redo(id); err != nil {
				return err
			}
		case n%11 == 0:
			if err := b.Compact(); err != nil {
				return err
			}
		}
	}
}

func openedOr(b *Book, err error) int {
	if err == nil {
		err = b.Close()
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return 0
}

// killWithin runs this test binary with an environment and kills it within some
// time, unless it is done before.
func killWithin(t *testing.T, wait time.Duration, env ...string) {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), env...)
	var complaint strings.Builder
	cmd.Stderr = &complaint
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	timer := time.AfterFunc(wait, func() { _ = cmd.Process.Kill() })
	err := cmd.Wait()
	timer.Stop()
	if complaint.Len() > 0 {
		t.Fatalf("%v: %s", err, complaint.String())
	}
}

// Killed while a book is brought to a new form, or while a backup is put in its
// place, there is a whole book under its name: the old one or the new.
func TestKilledWhileMigratingOrRestoring(t *testing.T) {
	path, id := oldBook(t)
	old := must(os.ReadFile(path))(t)
	random := rand.New(rand.NewPCG(6, 7))
	check := func() string {
		t.Helper()
		b, err := Open(path, Options{NoBackup: true})
		if err != nil {
			t.Fatal(err)
		}
		defer b.Close()
		j := must(b.Get(id))(t)
		if err := b.Verify(); err != nil || j.Sketch.Image != sketch(1).Image {
			t.Fatalf("%v; a picture of %d characters", err, len(j.Sketch.Image))
		}
		if h := must(b.History(id))(t); len(h.Done) < 2 {
			t.Fatalf("the history is %+v", h)
		}
		return j.Notes
	}
	n := tries(15)
	for range n {
		if err := os.WriteFile(path, old, 0o644); err != nil {
			t.Fatal(err)
		}
		killWithin(t, time.Duration(random.IntN(40_000))*time.Microsecond, "JOB_BOOK_OPEN="+path)
		if got := check(); got != "two" {
			t.Fatalf("the job reads %q", got)
		}
	}
	backup := path + ".other"
	if err := os.WriteFile(backup, old, 0o644); err != nil {
		t.Fatal(err)
	}
	for n := range n {
		b, err := Open(path, Options{NoBackup: true})
		if err != nil {
			t.Fatal(err)
		}
		j := must(b.Get(id))(t)
		j.Notes = fmt.Sprint("on ", n)
		if err := errors.Join(b.Edit(id, "Notes", j), b.Close()); err != nil {
			t.Fatal(err)
		}
		killWithin(t, time.Duration(random.IntN(40_000))*time.Microsecond, "JOB_BOOK_RESTORE="+path, "JOB_BOOK_BACKUP="+backup)
		if got := check(); got != j.Notes && got != "two" {
			t.Fatalf("the job reads %q, want that of the book or of the backup", got)
		}
	}
	t.Logf("kills while migrating and restoring: %d tries, %d failures", 2*n, failures(t))
}

// tries is how often a test cuts, kills or damages; HAUNCHBOOK_TRIES sets another
// number than the small one.
func tries(small int) int {
	if n, err := strconv.Atoi(os.Getenv("HAUNCHBOOK_TRIES")); err == nil {
		return n
	}
	return small
}

// failures is 1 if the test failed; it stops at the first.
func failures(t *testing.T) int {
	if t.Failed() {
		return 1
	}
	return 0
}

func TestKilledAtAnyInstantLosesNothing(t *testing.T) {
	t.Parallel()
	path := newPath(t)
	b := open(t, path)
	id := must(b.Create(shop(0)))(t)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	random := rand.New(rand.NewPCG(1, 2))
	acknowledged := 0
	n := tries(25)
	for range n {
		wait := time.Duration(random.IntN(30_000)) * time.Microsecond
		acknowledged = max(acknowledged, killAfter(t, path, wait))

		b, err := Open(path, Options{NoBackup: true})
		if err != nil {
			t.Fatalf("after %d edits the book does not open: %v", acknowledged, err)
		}
		must(b.List())(t)
		j := must(b.Get(id))(t)
		got, _ := strconv.Atoi(j.Notes)
		// Killed between an undo and its redo, the book is one edit back, as the
		// last command said; redo brings it.
		if got == acknowledged-1 {
			if r, _, ok, err := b.Redo(id); ok && err == nil {
				got, _ = strconv.Atoi(r.Notes)
			}
		}
		if got != acknowledged && got != acknowledged+1 {
			t.Fatalf("edit %d was acknowledged, the book holds %d", acknowledged, got)
		}
		acknowledged = got
		must(b.History(id))(t)
		must(b.Revisions(id))(t)
		if err := b.Verify(); err != nil {
			t.Fatal(err)
		}
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
		if _, err := os.Stat(path + compacting); !errors.Is(err, os.ErrNotExist) {
			t.Fatalf("what a killed compaction left is still there: %v", err)
		}
	}
	if acknowledged < n {
		t.Errorf("only %d edits in %d runs: the test hardly tested", acknowledged, n)
	}
	t.Logf("kills: %d tries, %d failures, %d edits", n, failures(t), acknowledged)
}

// killAfter starts an editing process, kills it some time after its first
// acknowledged edit, and gives the last edit it acknowledged.
func killAfter(t *testing.T, path string, wait time.Duration) int {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), "JOB_BOOK_EDIT_UNTIL_KILLED="+path)
	var complaint strings.Builder
	cmd.Stderr = &complaint
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewReader(out)
	last := 0
	read := func() bool {
		line, err := lines.ReadString('\n')
		if n, convErr := strconv.Atoi(strings.TrimSpace(line)); err == nil && convErr == nil {
			last = n
		}
		return err == nil
	}
	if !read() {
		_ = cmd.Wait()
		t.Fatalf("the editing process stopped: %s", complaint.String())
	}
	time.AfterFunc(wait, func() { _ = cmd.Process.Kill() })
	for read() {
	}
	if err := cmd.Wait(); err == nil {
		t.Fatal("the editing process ended by itself")
	}
	return last
}

// TestSecondProcess opens a book that another process is writing to.
func TestSecondProcess(t *testing.T) {
	t.Parallel()
	path := newPath(t)
	b := open(t, path)
	id := must(b.Create(shop(0)))(t)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), "JOB_BOOK_EDIT_UNTIL_KILLED="+path)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewReader(out)
	next := func() int {
		line, err := lines.ReadString('\n')
		if err != nil {
			t.Fatal(err)
		}
		n, _ := strconv.Atoi(strings.TrimSpace(line))
		return n
	}
	for range 5 {
		acknowledged := next()
		if _, err := Open(path, Options{Wait: time.Millisecond}); !IsKind(err, Busy) {
			t.Errorf("a second process to write: %v, want Busy", err)
		}
		r, err := Open(path, Options{Wait: time.Millisecond, ReadOnly: true})
		if err != nil {
			t.Fatal(err)
		}
		j := must(r.Get(id))(t)
		if got, _ := strconv.Atoi(j.Notes); got < acknowledged-1 { // one less within an undo
			t.Errorf("it reads edit %d, %d was acknowledged", got, acknowledged)
		}
		if err := r.Verify(); err != nil {
			t.Error(err)
		}
		r.Close()
	}
	_ = cmd.Process.Kill()
	_ = cmd.Wait()
}
