// Package guard keeps a fault of the program itself from ending more than what it is
// in: a panic becomes an error that says what failed, and one in a goroutine comes back
// to who started it.
package guard

import (
	"context"
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"
	"sync/atomic"
)

// Try runs f. A panic in it becomes an error that names what failed: "the takeoff".
func Try(what string, f func() error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			if h := heard.Load(); h != nil {
				(*h)(what, r, debug.Stack())
			}
			err = fmt.Errorf("%s failed (%v); undo the last step, and please report it with the job file", what, r)
		}
	}()
	if p := planted.Load(); p != nil {
		(*p)(what)
	}
	return f()
}

var heard atomic.Pointer[func(what string, fault any, stack []byte)]

// Hear has f told of each panic that Try takes from now on, with what failed and where in
// the program, until still is called: for a log. It may be called by several goroutines at
// once.
func Hear(f func(what string, fault any, stack []byte)) (still func()) {
	heard.Store(&f)
	return func() { heard.Store(nil) }
}

// Get is Try for what has a value.
func Get[T any](what string, f func() (T, error)) (v T, err error) {
	err = Try(what, func() error {
		v, err = f()
		return err
	})
	return v, err
}

// Beside is Get for what may take long: where the context ends first it gives the error
// of that at once, and f, whose own looks at the context may be far apart, goes on
// unheeded until the next of them.
func Beside[T any](ctx context.Context, what string, f func() (T, error)) (T, error) {
	if ctx.Done() == nil {
		return Get(what, f)
	}
	type result struct {
		v   T
		err error
	}
	done := make(chan result, 1)
	go func() {
		v, err := Get(what, f)
		done <- result{v, err}
	}()
	select {
	case r := <-done:
		return r.v, r.err
	case <-ctx.Done():
		var none T
		return none, ctx.Err()
	}
}

// Group is goroutines that are waited for. The zero Group has none.
type Group struct {
	all    sync.WaitGroup
	failed atomic.Pointer[any]
}

// Go runs f beside the caller.
func (g *Group) Go(f func()) {
	g.all.Go(func() {
		defer func() {
			if r := recover(); r != nil {
				g.failed.CompareAndSwap(nil, &r)
			}
		}()
		f()
	})
}

// Wait waits until all are done. The first panic in one is then the caller's.
func (g *Group) Wait() {
	g.all.Wait()
	if r := g.failed.Swap(nil); r != nil {
		panic(*r)
	}
}

// Each runs all of some work, as many at once as there are processors, begun in order. The
// first panic in one is the caller's, once all are done.
func Each(all ...func()) {
	if len(all) == 1 {
		all[0]()
		return
	}
	var g Group
	turns := make(chan struct{}, runtime.GOMAXPROCS(0))
	for _, f := range all {
		turns <- struct{}{}
		g.Go(func() {
			defer func() { <-turns }()
			f()
		})
	}
	g.Wait()
}
