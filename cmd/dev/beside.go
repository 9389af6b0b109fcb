package main

import (
	"bytes"
	"io"
	"runtime"
	"sync"
	"time"
)

// done is a step that was run.
type done struct {
	step step
	took time.Duration
	err  error
}

// expand puts in the place of steps that have parts those, and leaves out what there is
// nothing to do for. A dry run says what is left, and leaves nothing.
func (r *runner) expand(steps []step) ([]step, error) {
	var out []step
	for _, s := range steps {
		switch {
		case s.ready != nil && !s.ready(r.root):
		case s.parts != nil && !r.dry:
			parts, err := s.parts(r)
			if err != nil {
				return nil, err
			}
			out = append(out, parts...)
		case r.dry:
			r.say("%s: %s", s.name, s.describe())
		default:
			out = append(out, s)
		}
	}
	return out, nil
}

// runBeside runs steps as many at once as there are processors, begun in order, and beside
// them as many of those that mostly wait. What several say stands in whole lines, and the
// name of each at its start and its end.
func (r *runner) runBeside(steps []step) []done {
	all := make([]done, len(steps))
	if len(steps) == 1 {
		r.say("== %s: %s", steps[0].name, steps[0].describe())
		began := time.Now()
		err := r.runStep(steps[0])
		return []done{{steps[0], time.Since(began), err}}
	}
	var mu sync.Mutex
	run := func(i int) {
		s := steps[i]
		out, errs := &lines{mu: &mu, to: r.stdout}, &lines{mu: &mu, to: r.stderr}
		own := *r
		own.stdout, own.stderr, own.of = out, errs, s.name
		own.say("== %s: %s", s.name, s.describe())
		began := time.Now()
		err := own.runStep(s)
		all[i] = done{s, time.Since(began), err}
		out.end()
		errs.end()
		how := "done"
		if err != nil {
			how = err.Error()
		}
		own.say("-- %s: %s after %.1f s", s.name, how, all[i].took.Seconds())
	}
	var wait sync.WaitGroup
	for _, waits := range []bool{true, false} {
		turns := make(chan struct{}, runtime.GOMAXPROCS(0))
		wait.Go(func() {
			for i, s := range steps {
				if s.waits != waits {
					continue
				}
				turns <- struct{}{}
				wait.Go(func() {
					run(i)
					<-turns
				})
			}
		})
	}
	wait.Wait()
	return all
}

// lines passes on whole lines, so that those of several that write beside each other stay
// apart.
type lines struct {
	mu   *sync.Mutex // of all of them
	to   io.Writer
	own  sync.Mutex
	rest []byte
}

// Write implements io.Writer.
func (l *lines) Write(b []byte) (int, error) {
	l.own.Lock()
	defer l.own.Unlock()
	l.rest = append(l.rest, b...)
	end := bytes.LastIndexByte(l.rest, '\n') + 1
	if end == 0 {
		return len(b), nil
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	_, err := l.to.Write(l.rest[:end])
	l.rest = append([]byte(nil), l.rest[end:]...)
	return len(b), err
}

// end passes on a last line without an end.
func (l *lines) end() {
	if len(l.rest) > 0 {
		_, _ = l.Write([]byte("\n"))
	}
}
