package takeoff_test

import (
	"context"
	"errors"
	"sync/atomic"
	"testing"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// looks is a context that ends when it has been looked at so many times.
type looks struct {
	context.Context
	left atomic.Int64
}

func (l *looks) Err() error {
	if l.left.Add(-1) < 0 {
		return context.Canceled
	}
	return nil
}

// Whenever the work is stopped it ends with the context's error at the next look, and the
// looks lie between all its parts: on two slabs, at least two dozen. After it no more is
// begun, on either slab.
func TestStops(t *testing.T) {
	slabs := []plan.Plan{rectangle(24*foot, 20*foot, "Edge"), moved(rectangle(24*foot, 20*foot, "Edge"), 60*foot, 0)}
	n := 0
	for ; ; n++ {
		ctx := &looks{Context: t.Context()}
		ctx.left.Store(int64(n))
		_, err := takeoff.Of(ctx, slabs, takeoff.Default(), geometry.FeetInches)
		if err == nil {
			break
		}
		if more := -1 - ctx.left.Load(); !errors.Is(err, context.Canceled) || more > 10 {
			t.Fatalf("after %d looks: %v, %d more", n, err, more)
		}
	}
	if n < 24 {
		t.Errorf("only %d looks", n)
	}
}
