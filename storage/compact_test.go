package storage

import (
	"errors"
	"os"
	"strings"
	"testing"
	"time"
)

// loose is a book of one job in a file that is mostly unused.
func loose(t *testing.T) (path string, id ID) {
	t.Helper()
	path = newPath(t)
	b, err := Open(path, Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	j := shop(1)
	id = must(b.Create(j))(t)
	var drop []ID
	for n := range 40 {
		big := shop(n)
		big.Sketch = sketchOf(n, 100_000)
		drop = append(drop, must(b.Create(big))(t))
	}
	for _, d := range drop {
		if err := b.Delete(d); err != nil {
			t.Fatal(err)
		}
	}
	j.Notes = "last"
	if err := errors.Join(b.Edit(id, "Notes", j), b.Close()); err != nil {
		t.Fatal(err)
	}
	return path, id
}

func size(t *testing.T, path string) int64 {
	t.Helper()
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	return info.Size()
}

func TestCompactsAtTheStart(t *testing.T) {
	t.Parallel()
	path, id := loose(t)
	before := size(t, path)
	b, err := Open(path, Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if after := size(t, path); after*4 > before || before < 1<<20 {
		t.Errorf("the file had %d bytes and has %d", before, after)
	}
	// The book goes on in the new file, and that is locked as the old one was.
	j := must(b.Get(id))(t)
	if j.Notes != "last" {
		t.Errorf("the job reads %q", j.Notes)
	}
	j.Notes = "after"
	if err := b.Edit(id, "Notes", j); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(path, Options{Wait: 10 * time.Millisecond}); !IsKind(err, Busy) {
		t.Errorf("a second window: %v, want Busy", err)
	}
	if err := errors.Join(b.Verify(), b.Close()); err != nil {
		t.Fatal(err)
	}
	again, err := Open(path, Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	if got := must(again.Get(id))(t); got.Notes != "after" {
		t.Errorf("after opening again the job reads %q", got.Notes)
	}
}

// A window that waits for a book gets the one that has its name in the end.
func TestWaitingWindowGetsTheCurrentFile(t *testing.T) {
	t.Parallel()
	path, id := loose(t)
	b, err := Open(path, Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	type result struct {
		b   *Book
		err error
	}
	done := make(chan result)
	go func() {
		w, err := Open(path, Options{NoBackup: true, Wait: 20 * time.Second})
		done <- result{w, err}
	}()
	time.Sleep(150 * time.Millisecond) // it waits by now, for the file that is the book now
	j := must(b.Get(id))(t)
	if err := b.Compact(); err != nil {
		t.Fatal(err)
	}
	j.Notes = "in the new file"
	if err := errors.Join(b.Edit(id, "Notes", j), b.Close()); err != nil {
		t.Fatal(err)
	}
	r := <-done
	if r.err != nil {
		t.Fatal(r.err)
	}
	defer r.b.Close()
	if got := must(r.b.Get(id))(t); got.Notes != "in the new file" {
		t.Errorf("the window that waited reads %q", got.Notes)
	}
}

func TestCompactIsForTheOneThatWrites(t *testing.T) {
	t.Parallel()
	path, _ := loose(t)
	before := size(t, path)
	b, err := Open(path, Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if err := b.Compact(); !IsKind(err, ReadOnly) || size(t, path) != before {
		t.Errorf("a book to read only: %v, %d bytes of %d", err, size(t, path), before)
	}
}

func TestCompactionThatFailsLeavesTheBook(t *testing.T) {
	t.Parallel()
	path, id := loose(t)
	// A folder stands where the new file should be written.
	if err := os.MkdirAll(path+compacting+"/in the way", 0o755); err != nil {
		t.Fatal(err)
	}
	b, err := Open(path, Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if err := b.Compact(); err == nil || !strings.Contains(err.Error(), path) {
		t.Errorf("compacting without a place to write: %v", err)
	}
	j := must(b.Get(id))(t)
	j.Notes = "goes on"
	if err := errors.Join(b.Edit(id, "Notes", j), b.Verify()); err != nil {
		t.Error(err)
	}
}

// Work in other goroutines goes on while the file is exchanged.
func TestCompactWhileOthersReadAndWrite(t *testing.T) {
	t.Parallel()
	b := open(t, newPath(t))
	id := must(b.Create(shop(1)))(t)
	stop, done := make(chan struct{}), make(chan error, 2)
	work := func(f func() error) {
		for {
			select {
			case <-stop:
				done <- nil
				return
			default:
			}
			if err := f(); err != nil {
				done <- err
				return
			}
		}
	}
	j := shop(1)
	go work(func() error { j.Slabs[0].Outline[0].At.X++; return b.Edit(id, "Move", j) })
	go work(func() error { _, err := b.History(id); return err })
	for range 20 {
		if err := b.Compact(); err != nil {
			t.Error(err)
		}
	}
	close(stop)
	if err := errors.Join(<-done, <-done, b.Verify()); err != nil {
		t.Error(err)
	}
}
