package document

import (
	"context"

	"haunchbook.example/app/guard"
)

// Scheduler says where work runs. The zero Scheduler runs everything at once in
// the caller, as tests want it.
type Scheduler struct {
	Go   func(func()) // runs work beside the window
	Post func(func()) // runs a result on the window's goroutine
}

// Do runs work beside the window, and then, on the window's goroutine, done with its
// error; a fault of the program itself is one that names what failed. One in done is
// told to done as well.
func (s Scheduler) Do(what string, work func() error, done func(error)) {
	run := func() {
		err := guard.Try(what, work)
		s.Result(func() {
			if err := guard.Try(ShowingOf+what, func() error { done(err); return nil }); err != nil {
				done(err)
			}
		})
	}
	if s.Go == nil {
		run()
	} else {
		s.Go(run)
	}
}

// ShowingOf begins the name of what done does: "showing what came of the takeoff".
const ShowingOf = "showing what came of "

// Result runs f on the window's goroutine.
func (s Scheduler) Result(f func()) {
	if s.Post == nil {
		f()
	} else {
		s.Post(f)
	}
}

// Latest runs work beside the window, one piece at a time: what is under way is told to
// stop once other work is asked for, and of what is asked for meanwhile only the last is
// done.
type Latest struct {
	Scheduler
	running bool
	stop    context.CancelFunc // of what runs
	next    func()
}

// Running tells whether work is under way.
func (l *Latest) Running() bool { return l.running }

// Run does work and then, on the window's goroutine, done with its error, unless
// other work was asked for meanwhile.
func (l *Latest) Run(what string, work func(context.Context) error, done func(error)) {
	if l.running {
		l.stop()
		l.next = func() { l.Run(what, work, done) }
		return
	}
	ctx, stop := context.WithCancel(context.Background())
	l.running, l.stop = true, stop
	l.Do(what, func() error { return work(ctx) }, func(err error) {
		stop()
		l.running = false
		if next := l.next; next != nil {
			l.next = nil
			next()
			return
		}
		done(err)
	})
}
