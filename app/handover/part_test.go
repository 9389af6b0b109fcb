package handover

import (
	"context"
	"errors"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
)

// A part is computed once, however many ask for it at the same time.
func TestPartOnce(t *testing.T) {
	var p part[int]
	var computed atomic.Int32
	var all sync.WaitGroup
	for range 32 {
		all.Go(func() {
			v, err := p.get(t.Context(), "it", func(context.Context) (int, error) {
				computed.Add(1)
				return 7, nil
			})
			if v != 7 || err != nil {
				t.Errorf("got %d, %v", v, err)
			}
		})
	}
	all.Wait()
	if n := computed.Load(); n != 1 {
		t.Errorf("computed %d times", n)
	}
}

// An error is kept as a value is.
func TestPartKeepsItsError(t *testing.T) {
	var p part[int]
	wrong := errors.New("wrong")
	for _, now := range []error{wrong, nil} {
		if _, err := p.get(t.Context(), "it", func(context.Context) (int, error) { return 0, now }); !errors.Is(err, wrong) {
			t.Fatal(err)
		}
	}
}

// A panic is an error of the part, that says which.
func TestPanicIsAnError(t *testing.T) {
	var p part[int]
	for range 2 {
		_, err := p.get(t.Context(), "the estimate", func(context.Context) (int, error) { panic("no such row") })
		if err == nil || !strings.Contains(err.Error(), "the estimate failed (no such row)") {
			t.Fatal(err)
		}
	}
}

// Whoever waits stops when his own context ends; the one who computes goes on, and
// what he gets is kept.
func TestWaitingEnds(t *testing.T) {
	var p part[int]
	began, on := make(chan bool), make(chan bool)
	done := make(chan int)
	go func() {
		v, _ := p.get(context.Background(), "it", func(context.Context) (int, error) {
			close(began)
			<-on
			return 3, nil
		})
		done <- v
	}()
	<-began
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := p.get(ctx, "it", func(context.Context) (int, error) { t.Error("computed a second time"); return 0, nil }); !errors.Is(err, context.Canceled) {
		t.Errorf("the wait ended with %v", err)
	}
	close(on)
	if v := <-done; v != 3 {
		t.Errorf("got %d", v)
	}
	if v, err := p.get(t.Context(), "it", nil); v != 3 || err != nil {
		t.Errorf("kept %d, %v", v, err)
	}
}

// Whoever stops need not wait for what looks at no context; the next who asks waits for
// that, and has it computed anew.
func TestStoppingIsAtOnce(t *testing.T) {
	var p part[int]
	ctx, cancel := context.WithCancel(t.Context())
	on := make(chan bool)
	if _, err := p.get(ctx, "it", func(context.Context) (int, error) { cancel(); <-on; return 3, nil }); !errors.Is(err, context.Canceled) {
		t.Fatal(err)
	}
	got := make(chan int)
	go func() {
		v, _ := p.get(context.Background(), "it", func(context.Context) (int, error) { return 5, nil })
		got <- v
	}()
	close(on)
	if v := <-got; v != 5 {
		t.Errorf("got %d", v)
	}
}

// What ended with its context is computed anew by the next who asks.
func TestEndedIsComputedAnew(t *testing.T) {
	var p part[int]
	ctx, cancel := context.WithCancel(t.Context())
	if _, err := p.get(ctx, "it", func(ctx context.Context) (int, error) { cancel(); return 0, ctx.Err() }); !errors.Is(err, context.Canceled) {
		t.Fatal(err)
	}
	if v, err := p.get(t.Context(), "it", func(context.Context) (int, error) { return 5, nil }); v != 5 || err != nil {
		t.Errorf("got %d, %v", v, err)
	}
}
