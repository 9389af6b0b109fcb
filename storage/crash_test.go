package storage

import (
	"bufio"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
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
	for range 15 {
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
	for n := range 15 {
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
}

// kills is how often the test kills; HAUNCHBOOK_KILLS sets another number.
func kills() int {
	if n, err := strconv.Atoi(os.Getenv("HAUNCHBOOK_KILLS")); err == nil {
		return n
	}
	return 25
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
	for range kills() {
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
	if acknowledged < kills() {
		t.Errorf("only %d edits in %d runs: the test hardly tested", acknowledged, kills())
	}
	t.Logf("%d kills, %d edits", kills(), acknowledged)
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

// TestFullDisk fills small disks of several sizes, so that writes are cut short at
// different places of a commit.
func TestFullDisk(t *testing.T) {
	for _, pages := range []int{45, 46, 47, 50, 53, 61, 128, 256} {
		t.Run(fmt.Sprint(pages), func(t *testing.T) {
			t.Parallel()
			fullDisk(t, pages)
		})
	}
}

func fullDisk(t *testing.T, pages int) {
	dir := t.TempDir()
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", fmt.Sprintf("size=%dk", pages*4), "none", dir).CombinedOutput(); err != nil {
		t.Skipf("mounting a small disk needs root: %v: %s", err, out)
	}
	defer func() {
		if out, err := exec.Command("umount", dir).CombinedOutput(); err != nil {
			t.Errorf("%v: %s", err, out)
		}
	}()
	path := filepath.Join(dir, "jobs.book")
	b, err := Open(path, Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	j := shop(0)
	id := must(b.Create(j))(t)
	saved := 0
	for n := 1; n < 5000; n++ {
		j.Notes, j.Site = strconv.Itoa(n), filling(n)
		if err = b.Edit(id, "Edit", j); err != nil {
			break
		}
		saved = n
	}
	if !IsKind(err, Full) {
		t.Fatalf("after %d edits: %v, want Full", saved, err)
	}
	if !strings.Contains(err.Error(), "disk is full") {
		t.Errorf("the message does not say so: %v", err)
	}
	check := func(b *Book) {
		t.Helper()
		if got := must(b.Get(id))(t); got.Notes != strconv.Itoa(saved) {
			t.Errorf("the book holds edit %s, want the last saved, %d", got.Notes, saved)
		}
	}
	check(b)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	if b, err = Open(path, Options{}); err != nil {
		t.Fatalf("on a full disk the book does not open: %v", err)
	}
	check(b)
	b.Close()

	// No stub of a new book is left where none could be made.
	fillDisk(t, dir)
	if _, err := Open(filepath.Join(dir, "new.book"), Options{}); !IsKind(err, Full) {
		t.Errorf("a new book on a full disk: %v, want Full", err)
	}
	files, _ := os.ReadDir(dir)
	for _, f := range files {
		if strings.HasPrefix(f.Name(), "new") || strings.HasPrefix(f.Name(), ".new") {
			t.Errorf("%s is left", f.Name())
		}
	}
}

func fillDisk(t *testing.T, dir string) {
	t.Helper()
	f, err := os.Create(filepath.Join(dir, "sawdust"))
	if err != nil {
		return // not even room for a name
	}
	for err == nil {
		_, err = f.Write(make([]byte, 4096))
	}
	_ = f.Close()
}

// TestFlippedBytes damages one byte of each page in turn. What reads after that
// must be what was written, the rest must be reported, nothing may panic, and
// Salvage must bring back every job of which a sound copy is left.
func TestFlippedBytes(t *testing.T) {
	t.Parallel()
	path := newPath(t)
	b := open(t, path)
	want := map[ID]string{}
	for n := range 5 {
		j := shop(n)
		id := must(b.Create(j))(t)
		j.Notes = strings.Repeat("note ", n*400)
		if err := b.Edit(id, "Notes", j); err != nil {
			t.Fatal(err)
		}
		want[id] = string(j.Encode())
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	sound := must(os.ReadFile(path))(t)
	random := rand.New(rand.NewPCG(3, 4))
	dir := t.TempDir()
	reported, salvaged := 0, 0
	for page := 0; page*4096 < len(sound); page++ {
		for try := range 2 {
			data := append([]byte(nil), sound...)
			at := page * 4096
			if try == 0 {
				at += random.IntN(32) // where the structure is
			} else {
				at += random.IntN(4096)
			}
			data[at] ^= 1 << random.IntN(8)
			bad := filepath.Join(dir, "bad.book")
			if err := os.WriteFile(bad, data, 0o644); err != nil {
				t.Fatal(err)
			}
			if faulty := readsTrueOrSaysSo(t, bad, want); faulty {
				reported++
			}
			if try > 0 {
				continue
			}
			out := filepath.Join(dir, "out.book")
			s, err := Salvage(bad, out)
			if err != nil {
				t.Fatalf("byte %d: salvage: %v", at, err)
			}
			if s.Jobs < len(want)-1 {
				t.Errorf("byte %d: salvaged %d of %d jobs", at, s.Jobs, len(want))
			}
			salvaged += s.Jobs
			after, err := Open(out, Options{NoBackup: true})
			if err != nil {
				t.Fatal(err)
			}
			for id, text := range want {
				j, err := after.Get(id)
				if err == nil && string(j.Encode()) != text && s.FromEdits == 0 {
					t.Errorf("byte %d: salvaged %v is not as it was saved", at, id)
				}
			}
			if err := errors.Join(after.Verify(), after.Close(), os.Remove(out)); err != nil {
				t.Error(err)
			}
		}
	}
	if reported == 0 {
		t.Error("no damage was ever reported")
	}
	t.Logf("%d pages, damage reported %d times, %d jobs salvaged", len(sound)/4096, reported, salvaged)
}

// readsTrueOrSaysSo reads a damaged book and tells whether damage was reported.
func readsTrueOrSaysSo(t *testing.T, path string, want map[ID]string) (reported bool) {
	t.Helper()
	b, err := Open(path, Options{NoBackup: true})
	if err != nil {
		if !IsKind(err, Damaged) && !IsKind(err, Foreign) {
			t.Errorf("%v: want Damaged or Foreign", err)
		}
		return true
	}
	defer b.Close()
	list, err := b.List()
	if err != nil {
		reported = true
	} else if len(list) != len(want) {
		t.Errorf("%d jobs listed of %d without a word", len(list), len(want))
	}
	for id, text := range want {
		j, err := b.Get(id)
		if err != nil {
			reported = true
		} else if string(j.Encode()) != text {
			t.Errorf("%v reads wrongly without a word", id)
		}
		if _, err := b.History(id); err != nil {
			reported = true
		}
	}
	return reported
}

func TestCutShort(t *testing.T) {
	t.Parallel()
	path := newPath(t)
	b := open(t, path)
	for n := range 60 {
		must(b.Create(shop(n)))(t)
	}
	b.Close()
	sound := must(os.ReadFile(path))(t)
	for size := 0; size < len(sound); size += 1000 + len(sound)/60 {
		if err := os.WriteFile(path, sound[:size], 0o644); err != nil {
			t.Fatal(err)
		}
		if b, err := Open(path, Options{NoBackup: true}); err == nil {
			// Unused pages at the end may be missing without harm.
			if err := b.Verify(); err != nil {
				t.Errorf("cut to %d bytes it opens, and then: %v", size, err)
			}
			b.Close()
		} else if !IsKind(err, Damaged) && !IsKind(err, Foreign) {
			t.Errorf("cut to %d bytes: %v", size, err)
		}
	}
}

// FuzzOpen opens books with arbitrary damage.
func FuzzOpen(f *testing.F) {
	path := newPath(f)
	b := open(f, path)
	must(b.Create(shop(1)))(f)
	b.Close()
	sound, err := os.ReadFile(path)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(uint32(8), []byte{1, 2, 3})
	f.Add(uint32(4096*3+8), []byte{0xff, 0xff})
	f.Fuzz(func(t *testing.T, at uint32, change []byte) {
		data := append([]byte(nil), sound...)
		copy(data[int(at)%len(data):], change)
		bad := filepath.Join(t.TempDir(), "bad.book")
		if err := os.WriteFile(bad, data, 0o644); err != nil {
			t.Fatal(err)
		}
		if b, err := Open(bad, Options{NoBackup: true}); err == nil {
			_, _ = b.List()
			_ = b.Verify()
			_, _ = b.Create(shop(2))
			b.Close()
		}
		_, _ = Salvage(bad, bad+".out")
	})
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
