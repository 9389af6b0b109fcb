package storage

import (
	"errors"
	"fmt"
	"os"
	"slices"
	"sync"
	"testing"
)

// waits is a change that waits until it is let go.
func waits(q *Queue) (begun, letGo chan struct{}) {
	begun, letGo = make(chan struct{}), make(chan struct{})
	q.Keep(func(*Book) error {
		close(begun)
		<-letGo
		return nil
	})
	return begun, letGo
}

func pending(t *testing.T, q *Queue, want int, kind Kind) {
	t.Helper()
	if n, _, err := q.Pending(); n != want || (err == nil) != (kind == 0) || kind != 0 && !IsKind(err, kind) {
		t.Errorf("%d changes wait, %v; want %d, kind %d", n, err, want, kind)
	}
}

// Who makes changes waits for no disk; what is counted is what is not stored, and
// the order is that of the changes.
func TestQueueWaitsForNoDisk(t *testing.T) {
	var told sync.Mutex
	times := 0
	q := NewQueue(open(t, newPath(t)), func() { told.Lock(); times++; told.Unlock() })
	begun, letGo := waits(q)
	var order []int
	for n := range 10 {
		if n%3 == 2 {
			q.Do(func(*Book) error { order = append(order, n); return nil }, func(error) {})
			q.Note(func(*Book) error { return nil })
			continue
		}
		q.Keep(func(*Book) error { order = append(order, n); return nil })
	}
	<-begun
	pending(t, q, 11, 0)
	close(letGo)
	if err := q.Wait(); err != nil {
		t.Fatal(err)
	}
	pending(t, q, 0, 0)
	if !slices.Equal(order, []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}) {
		t.Errorf("stored in the order %v", order)
	}
	told.Lock()
	defer told.Unlock()
	if times < 2 {
		t.Errorf("told %d times", times)
	}
}

// A kept change that fails waits with all behind it, other work is told at once, and
// both go on once it can.
func TestQueueKeepsWhatFails(t *testing.T) {
	for _, atOnce := range []bool{false, true} {
		t.Run(fmt.Sprint(atOnce), func(t *testing.T) {
			changed := func() {}
			if atOnce {
				changed = nil
			}
			b := open(t, newPath(t))
			id := must(b.Create(shop(0)))(t)
			q := NewQueue(b, changed)
			full := true
			fails := func(n int) func(*Book) error {
				return func(b *Book) error {
					if full {
						return &Fault{Kind: Full, Text: "the disk is full"}
					}
					return edited(b, id, n)
				}
			}
			first := q.Keep(fails(1))
			q.Keep(fails(2))
			_ = q.Wait()
			pending(t, q, 2, Full)
			var got error
			q.Do(func(*Book) error { t.Error("it was done"); return nil }, func(err error) { got = err })
			if !IsKind(got, Full) || first.Stored() {
				t.Errorf("other work: %v", got)
			}
			q.Retry()
			_ = q.Wait()
			pending(t, q, 2, Full)
			full = false
			q.Retry()
			if err := q.Wait(); err != nil || !first.Stored() {
				t.Fatal(err)
			}
			pending(t, q, 0, 0)
			if j := must(b.Get(id))(t); j.Notes != "2" {
				t.Errorf("the job reads %q", j.Notes)
			}
		})
	}
}

func TestQueueWithdraw(t *testing.T) {
	q := NewQueue(open(t, newPath(t)), func() {})
	begun, letGo := waits(q)
	<-begun
	done := []int{}
	add := func(n int) *Change { return q.Keep(func(*Book) error { done = append(done, n); return nil }) }
	one, two := add(1), add(2)
	if q.Withdraw(one) {
		t.Error("a change before another was taken back")
	}
	if !q.Withdraw(two) || q.Withdraw(two) {
		t.Error("the last change is taken back once")
	}
	pending(t, q, 2, 0)
	close(letGo)
	if err := q.Wait(); err != nil || !slices.Equal(done, []int{1}) {
		t.Errorf("%v, %v", done, err)
	}
	if q.Withdraw(one) {
		t.Error("a stored change was taken back")
	}
}

// A change that is stored in a file which loses the name meanwhile is not counted as
// on disk until the book is put back, and not made twice.
func TestQueueAndADisplacedBook(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	id := must(b.Create(shop(0)))(t)
	q := NewQueue(b, nil)
	times := 0
	q.Keep(func(b *Book) error {
		return b.change(id, func(t *tx, e *entry) error {
			times++
			e.Name += "!"
			return os.Rename(path, path+".moved")
		})
	})
	pending(t, q, 1, Displaced)
	q.Retry()
	pending(t, q, 1, Displaced)
	must(b.PutBack())(t)
	q.Retry()
	pending(t, q, 0, 0)
	if s := must(b.Summary(id))(t); times != 1 || s.Name != "Shop addition 0!" {
		t.Errorf("made %d times: %q", times, s.Name)
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	pending(t, q, 0, 0)
	q.Look()
	pending(t, q, 0, Displaced)
	must(b.PutBack())(t)
	q.Look()
	pending(t, q, 0, 0)
}

// A fault of the program itself is told, and the change waits.
func TestQueuePanic(t *testing.T) {
	q := NewQueue(open(t, newPath(t)), func() {})
	q.Keep(func(*Book) error { panic(errors.New("no such edge")) })
	if err := q.Wait(); err == nil {
		t.Error("nothing is said")
	}
	if n, _, err := q.Pending(); n != 1 || err == nil {
		t.Errorf("%d wait, %v", n, err)
	}
}
