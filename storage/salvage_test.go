package storage

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"haunchbook/geometry"
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
