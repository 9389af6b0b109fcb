package guard_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync/atomic"
	"testing"

	"haunchbook.example/app/guard"
)

func Example() {
	err := guard.Try("the takeoff", func() error {
		var none []int
		_ = none[len(none)]
		return nil
	})
	fmt.Println(err)
	// Output: the takeoff failed (runtime error: index out of range [0] with length 0); undo the last step, and please report it with the job file
}

func TestGet(t *testing.T) {
	no := errors.New("no")
	if v, err := guard.Get("it", func() (int, error) { return 3, no }); v != 3 || !errors.Is(err, no) {
		t.Errorf("%d, %v", v, err)
	}
	if _, err := guard.Get("it", func() (int, error) { panic("on purpose") }); err == nil || !strings.Contains(err.Error(), "it failed (on purpose)") {
		t.Errorf("a panic is told as %v", err)
	}
}

// Who stops waits no longer, though what is under way looks at nothing.
func TestBeside(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	on, ended := make(chan bool), make(chan bool)
	if _, err := guard.Beside(ctx, "it", func() (int, error) {
		defer close(ended)
		cancel()
		<-on
		return 3, nil
	}); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped, it gives %v", err)
	}
	close(on)
	<-ended
	for _, ctx := range []context.Context{t.Context(), context.Background()} {
		if v, err := guard.Beside(ctx, "it", func() (int, error) { return 3, nil }); v != 3 || err != nil {
			t.Errorf("%d, %v", v, err)
		}
		if _, err := guard.Beside(ctx, "it", func() (int, error) { panic("on purpose") }); err == nil || !strings.Contains(err.Error(), "it failed (on purpose)") {
			t.Errorf("a panic is told as %v", err)
		}
	}
}

// All run; a panic in one is that of who waits, once, and the others are done.
func TestGroup(t *testing.T) {
	var g guard.Group
	var ran atomic.Int32
	for i := range 20 {
		g.Go(func() {
			ran.Add(1)
			if i == 7 {
				panic("the seventh")
			}
		})
	}
	wait := func() error { g.Wait(); return nil }
	if err := guard.Try("it", wait); err == nil || !strings.Contains(err.Error(), "the seventh") {
		t.Errorf("a panic is told as %v", err)
	}
	if err := guard.Try("it", wait); err != nil || ran.Load() != 20 {
		t.Errorf("%d of 20 ran; waited again: %v", ran.Load(), err)
	}
}

// What is planted is found wherever something is tried, until it is uprooted.
func TestPlant(t *testing.T) {
	var names []string
	uproot := guard.Plant(func(what string) { names = append(names, what); panic("planted") })
	try := func() error { return guard.Try("it", func() error { return nil }) }
	if err := try(); err == nil || !strings.Contains(err.Error(), "it failed (planted)") || len(names) != 1 || names[0] != "it" {
		t.Errorf("%v, %v", err, names)
	}
	uproot()
	if err := try(); err != nil {
		t.Errorf("uprooted, and it fails: %v", err)
	}
}
