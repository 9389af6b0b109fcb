package storage

import (
	"fmt"
	"sync"
	"sync/atomic"
	"time"
)

// Queue stores changes in a book in the order in which they are made, in a
// goroutine of its own, so that who makes them waits for no disk. A change is
// acknowledged once Pending no longer counts it: then it is on disk, in the file that
// has the book's name.
//
// A change that is kept and fails stays at the front, and what came after it waits
// behind it, until Retry finds that it can be stored. Other work that fails is told
// and done with; it is counted too until it is done, unless nothing is lost without it.
type Queue struct {
	book    *Book
	changed func()

	mu     sync.Mutex
	free   *sync.Cond // nothing is under way
	work   []*Change
	busy   bool      // the first is under way
	since  time.Time // when the first became that
	err    error     // why the first waits
	place  error     // what Look found
	atOnce bool      // does everything in the caller
}

// Change is a change on its way to the book.
type Change struct {
	do        func(*Book) error
	then      func(error) // nil for a kept change
	minor     bool        // nothing is lost without it
	elsewhere bool        // stored, in a file that lost the book's name meanwhile
	stored    atomic.Bool
}

// Stored tells whether the change is on disk.
func (c *Change) Stored() bool { return c.stored.Load() }

// NewQueue gives the queue of a book. changed is called, in any goroutine, when
// Pending may have changed. With changed nil, each change is stored before the call
// that makes it returns.
func NewQueue(b *Book, changed func()) *Queue {
	q := &Queue{book: b, changed: changed, atOnce: changed == nil}
	if q.atOnce {
		q.changed = func() {}
	}
	q.free = sync.NewCond(&q.mu)
	return q
}

// Book gives the book, to read from.
func (q *Queue) Book() *Book { return q.book }

// Keep has a change stored, however long that takes.
func (q *Queue) Keep(do func(*Book) error) *Change {
	c := &Change{do: do}
	q.add(c)
	return c
}

// Do has work done once all changes before it are stored, and tells how it went, in
// any goroutine. While changes cannot be stored it fails with the reason.
func (q *Queue) Do(do func(*Book) error, then func(error)) {
	q.mu.Lock()
	err := q.err
	q.mu.Unlock()
	if err != nil {
		then(err)
		return
	}
	q.add(&Change{do: do, then: then})
}

// Note has something noted that is no loss if it is not: it is counted nowhere.
func (q *Queue) Note(do func(*Book) error) {
	q.add(&Change{do: do, then: func(error) {}, minor: true})
}

func (q *Queue) add(c *Change) {
	q.mu.Lock()
	if len(q.work) == 0 {
		q.since = time.Now()
	}
	q.work = append(q.work, c)
	q.start()
	q.mu.Unlock()
	q.changed()
}

// Withdraw takes back the last change, and tells whether it could: it is not under
// way, and nothing came after it.
func (q *Queue) Withdraw(c *Change) bool {
	q.mu.Lock()
	n := len(q.work)
	ok := n > 0 && q.work[n-1] == c && !(n == 1 && q.busy) && !c.elsewhere
	if ok {
		if q.work = q.work[:n-1]; len(q.work) == 0 {
			q.err = nil
		}
	}
	q.mu.Unlock()
	q.changed()
	return ok
}

// Pending gives how many changes are not on disk, since when the first of them
// is tried, and why, if they could not be stored. It gives an error without a change
// if the last Look found that the book is not in its place.
func (q *Queue) Pending() (n int, since time.Time, err error) {
	q.mu.Lock()
	defer q.mu.Unlock()
	for _, c := range q.work {
		if !c.minor {
			n++
		}
	}
	if q.err == nil {
		return n, q.since, q.place
	}
	return n, q.since, q.err
}

// Look sees whether the book is still in its place, as between changes.
func (q *Queue) Look() {
	err := q.book.InPlace()
	q.mu.Lock()
	news := (err == nil) != (q.place == nil)
	q.place = err
	q.mu.Unlock()
	if news {
		q.changed()
	}
}

// Retry tries to store what waits.
func (q *Queue) Retry() {
	q.Look()
	q.mu.Lock()
	q.err = nil
	q.start()
	q.mu.Unlock()
	q.changed()
}

// Wait waits until everything is stored, or something cannot be, and gives the
// reason.
func (q *Queue) Wait() error {
	q.mu.Lock()
	defer q.mu.Unlock()
	for q.busy {
		q.free.Wait()
	}
	return q.err
}

// start begins with what waits; the lock is held.
func (q *Queue) start() {
	if q.busy || q.err != nil || len(q.work) == 0 {
		return
	}
	q.busy = true
	if !q.atOnce {
		go q.run()
		return
	}
	q.mu.Unlock()
	q.run()
	q.mu.Lock()
}

// run does one thing after another until there is nothing left or one fails that is
// kept.
func (q *Queue) run() {
	for {
		q.mu.Lock()
		if q.err != nil || len(q.work) == 0 {
			q.busy = false
			q.free.Broadcast()
			q.mu.Unlock()
			return
		}
		c := q.work[0]
		q.mu.Unlock()
		err := c.run(q.book)
		q.mu.Lock()
		var failed []*Change
		if err != nil && c.then == nil {
			q.err = err
			q.work, failed = splitKept(q.work)
		} else {
			c.stored.Store(err == nil)
			q.work, q.since = q.work[1:], time.Now()
		}
		q.mu.Unlock()
		if c.then != nil {
			c.then(err)
		}
		for _, f := range failed {
			f.then(err)
		}
		q.changed()
	}
}

// splitKept separates the kept changes from other work.
func splitKept(work []*Change) (kept, other []*Change) {
	for _, c := range work {
		if c.then == nil {
			kept = append(kept, c)
		} else {
			other = append(other, c)
		}
	}
	return kept, other
}

// run stores the change. A fault of the program itself is an error like others.
func (c *Change) run(b *Book) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = &Fault{Path: b.path, Text: fmt.Sprintf("storing failed (%v)", r), Way: "save the job as a job file, and please report it", Err: fmt.Errorf("%v", r)}
		}
	}()
	if c.elsewhere {
		return b.InPlace()
	}
	err = c.do(b)
	c.elsewhere = IsElsewhere(err)
	return err
}
