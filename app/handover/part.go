package handover

import (
	"context"
	"sync"
	"sync/atomic"

	"haunchbook.example/app/guard"
)

// part is something that is computed when it is first asked for, and once. One
// caller computes; others wait for it, each as long as its context allows. What was
// not finished, since its context ended, is computed anew by whoever asks next; the one
// whose context ends does not wait for what is under way.
type part[T any] struct {
	done atomic.Pointer[result[T]]
	once sync.Once
	turn chan struct{} // held by the one who computes
}

type result[T any] struct {
	value T
	err   error
}

// get gives the part. A panic of what computes it is an error of the part; what
// names it in that error.
func (p *part[T]) get(ctx context.Context, what string, compute func(context.Context) (T, error)) (T, error) {
	var none T
	if r := p.done.Load(); r != nil {
		return r.value, r.err
	}
	p.once.Do(func() { p.turn = make(chan struct{}, 1) })
	select {
	case p.turn <- struct{}{}:
	case <-ctx.Done():
		return none, ctx.Err()
	}
	return guard.Beside(ctx, what, func() (T, error) {
		defer func() { <-p.turn }()
		if r := p.done.Load(); r != nil {
			return r.value, r.err
		}
		if ctx.Err() != nil {
			return none, ctx.Err()
		}
		v, err := guard.Get(what, func() (T, error) { return compute(ctx) })
		if ctx.Err() != nil {
			return none, ctx.Err()
		}
		p.done.Store(&result[T]{v, err})
		return v, err
	})
}
