package storage

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// damagedBook is a book of a few jobs as a file, with what it holds.
func damagedBook(t *testing.T) (sound []byte, want map[ID]string) {
	t.Helper()
	path := newPath(t)
	b := open(t, path)
	want = map[ID]string{}
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
	return must(os.ReadFile(path))(t), want
}

// salvages brings back what is whole in a damaged file, and gives how many jobs. At
// most lost of them may be gone.
func salvages(t *testing.T, sound []byte, bad, what string, want map[ID]string, lost int) int {
	t.Helper()
	damaged := must(os.ReadFile(bad))(t)
	out := bad + ".out"
	s, err := Salvage(bad, out)
	if err != nil {
		t.Fatalf("%s: salvage: %v", what, err)
	}
	if s.Jobs < len(want)-lost {
		t.Errorf("%s: salvaged %d of %d jobs", what, s.Jobs, len(want))
	}
	after, err := Open(out, Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	for id, text := range want {
		j, err := after.Get(id)
		if err == nil && string(j.Encode()) != text && s.FromEdits == 0 && stands(damaged, sound, text) {
			t.Errorf("%s: salvaged %v is not as it was saved", what, id)
		}
	}
	if err := errors.Join(after.Verify(), after.Close(), os.Remove(out)); err != nil {
		t.Error(err)
	}
	return s.Jobs
}

// stands tells whether what was saved is in a damaged file with what stood before it, its
// checksum: where it is not, nothing tells that an older state was not the last.
func stands(damaged, sound []byte, text string) bool {
	const before = 64
	for at := 0; ; at++ {
		k := bytes.Index(sound[at:], []byte(text))
		if k < 0 {
			return false
		}
		if at += k; bytes.Contains(damaged, sound[max(0, at-before):at+len(text)]) {
			return true
		}
	}
}

// TestFlippedBytes damages one byte of each page in turn. What reads after that
// must be what was written, the rest must be reported, nothing may panic, and
// Salvage must bring back every job of which a sound copy is left.
func TestFlippedBytes(t *testing.T) {
	if testing.Short() {
		t.Skip("goes through much, one after the other: run without -short")
	}
	t.Parallel()
	sound, want := damagedBook(t)
	random := rand.New(rand.NewPCG(3, 4))
	bad := filepath.Join(t.TempDir(), "bad.book")
	reported, salvaged := 0, 0
	for page := 0; page*4096 < len(sound); page++ {
		for try := range 2 {
			data := bytes.Clone(sound)
			at := page * 4096
			if try == 0 {
				at += random.IntN(32) // where the structure is
			} else {
				at += random.IntN(4096)
			}
			data[at] ^= 1 << random.IntN(8)
			if err := os.WriteFile(bad, data, 0o600); err != nil {
				t.Fatal(err)
			}
			if faulty := readsTrueOrSaysSo(t, bad, want); faulty {
				reported++
			}
			if try == 0 {
				salvaged += salvages(t, sound, bad, fmt.Sprint("byte ", at), want, 1)
			}
		}
	}
	if reported == 0 {
		t.Error("no damage was ever reported")
	}
	t.Logf("flipped bytes: %d tries, %d failures; reported %d times, %d jobs salvaged", len(sound)/4096*2, failures(t), reported, salvaged)
}

// TestDamage does worse to a book than flipping a byte: the same must hold.
func TestDamage(t *testing.T) {
	if testing.Short() {
		t.Skip("goes through much, one after the other: run without -short")
	}
	t.Parallel()
	sound, want := damagedBook(t)
	random := rand.New(rand.NewPCG(13, 14))
	page := func(d []byte) []byte { at := random.IntN(len(d)/4096) * 4096; return d[at : at+4096] }
	kinds := []struct {
		name string
		do   func(d []byte) []byte
	}{
		{"bytes", func(d []byte) []byte {
			for range 1 + random.IntN(40) {
				d[random.IntN(len(d))] = byte(random.IntN(256))
			}
			return d
		}},
		{"a sector of zeros", func(d []byte) []byte { p := page(d); clear(p[random.IntN(8)*512:][:512]); return d }},
		{"a page of zeros", func(d []byte) []byte { clear(page(d)); return d }},
		{"a page of another", func(d []byte) []byte { copy(page(d), page(d)); return d }},
		{"a page of noise", func(d []byte) []byte {
			p := page(d)
			for i := range p {
				p[i] = byte(random.IntN(256))
			}
			return d
		}},
		{"cut off", func(d []byte) []byte { return d[:random.IntN(len(d))] }},
		{"moved on", func(d []byte) []byte {
			at := random.IntN(len(d))
			return append(append(bytes.Clone(d[:at]), make([]byte, 1+random.IntN(600))...), d[at:]...)
		}},
		{"a hole", func(d []byte) []byte {
			at := random.IntN(len(d))
			return append(bytes.Clone(d[:at]), d[min(len(d), at+1+random.IntN(9000)):]...)
		}},
	}
	bad := filepath.Join(t.TempDir(), "bad.book")
	n, reported, salvaged := tries(48), 0, 0
	for try := range n {
		k := kinds[try%len(kinds)]
		if err := os.WriteFile(bad, k.do(bytes.Clone(sound)), 0o600); err != nil {
			t.Fatal(err)
		}
		if readsTrueOrSaysSo(t, bad, want) {
			reported++
		}
		if t.Failed() {
			t.Fatalf("try %d: %s", try, k.name)
		}
		if info := must(os.Stat(bad))(t); info.Size() > int64(len(sound)/2) {
			if jobs, err := carved(bad); err == nil && jobs > 0 {
				salvaged += salvages(t, sound, bad, k.name, want, len(want)-jobs)
			}
		}
	}
	t.Logf("damage: %d tries, %d failures; reported %d times, %d jobs salvaged", n, failures(t), reported, salvaged)
}

// carved gives how many jobs a search finds in a file with a state of theirs.
func carved(path string) (n int, err error) {
	data, err := readAll(path)
	found := carve(data)
	for id := range jobsIn(found) {
		if state, _, _ := newestJob(found, id); state != nil {
			n++
		}
	}
	return n, err
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
