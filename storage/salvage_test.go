package storage

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haunchbook.example/geometry"
)

// spoil flips a byte in every stored copy of a record.
func spoil(t *testing.T, path string, in bucket, k key) {
	t.Helper()
	data := must(os.ReadFile(path))(t)
	n := 0
	for at := 0; ; {
		i := bytes.Index(data[at:], []byte(recordMagic))
		if i < 0 {
			break
		}
		at += i
		if r, size, err := unseal(data[at:]); err == nil && r.in == in && r.key == k {
			data[at+size-1] ^= 1
			n++
		}
		at++
	}
	if n == 0 {
		t.Fatalf("no record %v %v in the file", in, k)
	}
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
}

func salvaged(t *testing.T, path string) (*Book, Salvaged) {
	t.Helper()
	out := filepath.Join(t.TempDir(), "out.book")
	s, err := Salvage(path, out)
	if err != nil {
		t.Fatal(err)
	}
	return open(t, out), s
}

func TestSalvageTakesADamagedJobFromItsEdits(t *testing.T) {
	b, id := full(t)
	path := b.Path()
	want := must(b.Get(id))(t)
	b.Close()
	spoil(t, path, inJobs, key{uint64(id), 0})
	b = open(t, path)
	if _, err := b.Get(id); !IsKind(err, Damaged) {
		t.Fatalf("the spoilt job: %v, want Damaged", err)
	}
	if err := b.Verify(); !IsKind(err, Damaged) {
		t.Errorf("verify: %v, want Damaged", err)
	}
	b.Close()
	c, s := salvaged(t, path)
	if s.Jobs != 2 || s.FromEdits != 1 || s.Revisions != 1 || !s.Settings {
		t.Errorf("salvaged %+v", s)
	}
	if got := must(c.Get(id))(t); string(got.Encode()) != string(want.Encode()) {
		t.Error("the job is not as it was last saved")
	}
	if sum := must(c.Summary(id))(t); sum.State != Poured {
		t.Errorf("its state is %v", sum.State)
	}
	if r, ok, err := c.Record(id); !ok || err != nil || r.Poured == "" {
		t.Errorf("its record is %+v, %v, %v", r, ok, err)
	}
	if p := must(c.Prices(geometry.FeetInches))(t); p.Name != "Our prices, spring" {
		t.Errorf("the prices are %q", p.Name)
	}
	if next := must(c.Create(shop(5)))(t); next <= id {
		t.Errorf("the next job is numbered %v", next)
	}
	if err := c.Verify(); err != nil {
		t.Error(err)
	}
}

func TestSalvageLetsDeletedJobsRest(t *testing.T) {
	b, id := full(t)
	if err := b.Delete(id); err != nil {
		t.Fatal(err)
	}
	b.Close()
	c, s := salvaged(t, b.Path())
	if _, err := c.Get(id); s.Jobs != 1 || !IsKind(err, Missing) {
		t.Errorf("salvaged %+v; the deleted job: %v", s, err)
	}
}

func TestSalvageWithoutAStart(t *testing.T) {
	b, id := full(t)
	path := b.Path()
	b.Close()
	data := must(os.ReadFile(path))(t)
	copy(data, make([]byte, 3*4096))
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(path, Options{}); !IsKind(err, Foreign) || !strings.Contains(err.Error(), "salvage") {
		t.Errorf("it opens as %v, want Foreign and a way out", err)
	}
	c, s := salvaged(t, path)
	must(c.Get(id))(t)
	if s.Jobs != 2 {
		t.Errorf("salvaged %+v", s)
	}
	if !bytes.Equal(must(os.ReadFile(path))(t), data) {
		t.Error("the damaged book was changed")
	}
}

func TestSalvageRefuses(t *testing.T) {
	dir := t.TempDir()
	text := filepath.Join(dir, "list.txt")
	if err := os.WriteFile(text, []byte("Lumber list, HBr1 and all"), 0o644); err != nil {
		t.Fatal(err)
	}
	for want, err := range map[Kind]error{
		Foreign: second(Salvage(text, filepath.Join(dir, "out"))), Invalid: second(Salvage(text, text)), Missing: second(Salvage(filepath.Join(dir, "none"), filepath.Join(dir, "out"))),
	} {
		if !IsKind(err, want) {
			t.Errorf("%v, want kind %d", err, want)
		}
	}
	if _, err := os.Stat(filepath.Join(dir, "out")); !errors.Is(err, os.ErrNotExist) {
		t.Error("a book was made from nothing")
	}
}

// The undo history comes back with the job, as it stood; edits that were dropped
// before and linger in the file do not.
func TestSalvageBringsTheHistory(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	j := shop(1)
	id := must(b.Create(j))(t)
	write := func(notes string) {
		t.Helper()
		j.Notes = notes
		if err := b.Edit(id, "Write "+notes, j); err != nil {
			t.Fatal(err)
		}
	}
	for _, n := range []string{"a", "b", "dropped c", "dropped d"} {
		write(n)
	}
	for range 2 {
		if _, _, _, err := b.Undo(id); err != nil {
			t.Fatal(err)
		}
	}
	write("e")
	write("f")
	if _, _, _, err := b.Undo(id); err != nil {
		t.Fatal(err)
	}
	want := must(b.History(id))(t)
	if len(want.Done) != 3 || len(want.Undone) != 1 {
		t.Fatalf("the history is %+v", want)
	}
	b.Close()
	sound := must(os.ReadFile(path))(t)
	c, s := salvaged(t, path)
	if diff := cmp.Diff(want, must(c.History(id))(t)); diff != "" || s.Edits != 4 {
		t.Errorf("salvaged %+v: %s", s, diff)
	}
	if r, _, ok, err := c.Redo(id); !ok || err != nil || r.Notes != "f" {
		t.Errorf("redo: %q, %v, %v", r.Notes, ok, err)
	}

	// Without its entry, the job is found among its edits.
	spoil(t, path, inEntries, key{uint64(id), 0})
	c, s = salvaged(t, path)
	if got := must(c.Get(id))(t); got.Notes != "e" || s.Edits < 3 {
		t.Errorf("without its entry: %q, %+v", got.Notes, s)
	}
	if h := must(c.History(id))(t); len(h.Done) < 1 || h.Done[len(h.Done)-1].Label != "Write e" {
		t.Errorf("without its entry the history is %+v", h)
	}

	// A gap in the history: what is around the present state.
	if err := os.WriteFile(path, sound, 0o644); err != nil {
		t.Fatal(err)
	}
	spoil(t, path, inEdits, key{uint64(id), 2})
	c, _ = salvaged(t, path)
	if h := must(c.History(id))(t); len(h.Done) != 1 || len(h.Undone) != 1 {
		t.Errorf("with a gap the history is %+v", h)
	}
	if err := c.Verify(); err != nil {
		t.Error(err)
	}
}

// badSectors reads, but for some of its stretches.
type badSectors struct {
	data []byte
	bad  map[int]bool
}

func (b badSectors) ReadAt(p []byte, off int64) (int, error) {
	for at := int(off); at < int(off)+len(p); at++ {
		if b.bad[at/stretch] {
			return copy(p, b.data[off:max(int(off), at/stretch*stretch)]), syscall.EIO
		}
	}
	n := copy(p, b.data[off:])
	if n < len(p) {
		return n, io.EOF
	}
	return n, nil
}

// A bad sector loses what is on it, and nothing behind it.
func TestSalvageReadsAroundBadSectors(t *testing.T) {
	data := make([]byte, 10*stretch+100)
	for i := range data {
		data[i] = byte(1 + i%200)
	}
	got := make([]byte, len(data))
	if err := readAround(badSectors{data, map[int]bool{0: true, 3: true, 4: true}}, got); err != nil {
		t.Fatal(err)
	}
	for i := range data {
		want := data[i]
		if p := i / stretch; p == 0 || p == 3 || p == 4 {
			want = 0
		}
		if got[i] != want {
			t.Fatalf("byte %d reads %d, want %d", i, got[i], want)
		}
	}
	all := map[int]bool{}
	for i := range 11 {
		all[i] = true
	}
	if err := readAround(badSectors{data, all}, got); !errors.Is(err, syscall.EIO) {
		t.Errorf("nothing reads: %v", err)
	}
}

// Numbers of revisions that a file brings are bounded, so that the next one has a
// number.
func TestRevisionNumbersAreBounded(t *testing.T) {
	b := open(t, newPath(t))
	id := must(b.Create(shop(1)))(t)
	for _, n := range []int{3, 1 << 40} {
		err := b.update(func(t *tx) error { return t.putRevision(id, n, edit{Label: "from elsewhere", data: shop(1).Encode()}) })
		if err != nil {
			t.Fatal(err)
		}
	}
	if n := must(b.Revise(id, "printed"))(t); n != 4 {
		t.Errorf("the next revision is %d, want 4", n)
	}
	if err := b.update(func(t *tx) error { return t.putRevision(id, maxRevision, edit{data: shop(1).Encode()}) }); err != nil {
		t.Fatal(err)
	}
	if _, err := b.Revise(id, "printed"); !IsKind(err, Invalid) {
		t.Errorf("beyond the last: %v", err)
	}
}
