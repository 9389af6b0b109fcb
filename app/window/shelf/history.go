package shelf

import (
	"slices"
	"sync/atomic"

	"haunchbook.example/app/job"
	"haunchbook.example/storage"
)

// history has the edits of a job kept in the job book, so that they outlive the
// program. They go there by a queue, beside the window: what is undone before it is
// there is taken back, and what was edited earlier is read when it is wanted.
type history struct {
	queue *storage.Queue
	id    atomic.Uint64 // of the job; 0 until the book has it
	steps []step        // what can be undone, then what can be redone
	at    int           // how many of them are done
	start state         // before the first
}

// step is an edit and the job after it.
type step struct {
	label string
	state
	made  *storage.Change // that keeps it; nil if the book had it before
	moved *storage.Change // that undoes or redoes it, since; nil for none
	gone  bool            // the edit itself was taken back
}

// state is a job of the history.
type state struct {
	number uint64   // in the book
	job    *job.Job // nil while it is there alone
}

// newHistory gives the history of job j, which has that number in the queue's book, or
// with id 0 goes there. With an error, which tells what of it does not read, it can be
// used.
func newHistory(q *storage.Queue, id storage.ID, j job.Job) (*history, error) {
	h := &history{queue: q}
	h.id.Store(uint64(id))
	if id == 0 {
		h.start.job = &j
		q.Keep(func(b *storage.Book) error {
			id, err := b.Create(j)
			if err == nil {
				h.id.Store(uint64(id))
			}
			return err
		})
		return h, nil
	}
	edits, err := q.Book().History(id)
	h.at = len(edits.Done)
	for _, e := range slices.Concat(edits.Done, edits.Undone) {
		label := e.Label
		if label == "" {
			label = "an edit that does not read"
		}
		h.steps = append(h.steps, step{label: label, state: state{number: e.Number}})
	}
	if len(h.steps) > 0 {
		h.start.number = h.steps[0].number - 1
	}
	h.state(h.at).job = &j
	return h, err
}

// number gives the job's number in the book; 0 until it has one.
func (h *history) number() storage.ID { return storage.ID(h.id.Load()) }

// state gives the state after n edits.
func (h *history) state(n int) *state {
	if n == 0 {
		return &h.start
	}
	return &h.steps[n-1].state
}

// read gives the job after n edits.
func (h *history) read(n int) (job.Job, error) {
	s := h.state(n)
	if s.job == nil {
		j, err := h.queue.Book().After(h.number(), s.number)
		if err != nil {
			return j, err
		}
		s.job = &j
	}
	return *s.job, nil
}

func (h *history) keep(do func(*storage.Book, storage.ID) error) *storage.Change {
	return h.queue.Keep(func(b *storage.Book) error { return do(b, h.number()) })
}

func (h *history) keepEdit(label string, j job.Job) *storage.Change {
	return h.keep(func(b *storage.Book, id storage.ID) error { return b.Edit(id, label, j) })
}

// Edit implements document.History.
func (h *history) Edit(label string, j job.Job) {
	h.steps = append(h.steps[:h.at:h.at], step{label: label, state: state{job: &j}, made: h.keepEdit(label, j)})
	h.at++
}

// Undo implements document.History.
func (h *history) Undo() (j job.Job, label string, ok bool, err error) {
	if h.at == 0 {
		return j, "", false, nil
	}
	if j, err = h.read(h.at - 1); err != nil {
		return j, "", false, err
	}
	h.at--
	s := &h.steps[h.at]
	switch {
	case h.back(&s.moved): // it is undone in the book still
	case s.moved == nil && h.back(&s.made):
		s.gone = true
	default:
		s.moved = h.keep(func(b *storage.Book, id storage.ID) error {
			_, _, _, err := b.Undo(id)
			return err
		})
	}
	return j, s.label, true, nil
}

// Redo implements document.History.
func (h *history) Redo() (j job.Job, label string, ok bool, err error) {
	if h.at == len(h.steps) {
		return j, "", false, nil
	}
	if j, err = h.read(h.at + 1); err != nil {
		return j, "", false, err
	}
	s := &h.steps[h.at]
	h.at++
	switch {
	case h.back(&s.moved): // it is done in the book still
	case s.gone:
		s.made, s.gone = h.keepEdit(s.label, j), false
	default:
		s.moved = h.keep(func(b *storage.Book, id storage.ID) error {
			_, _, _, err := b.Redo(id)
			return err
		})
	}
	return j, s.label, true, nil
}

// back takes a change back that is on its way, if it still can be.
func (h *history) back(c **storage.Change) bool {
	if *c == nil || !h.queue.Withdraw(*c) {
		return false
	}
	*c = nil
	return true
}

// Next implements document.History.
func (h *history) Next() (undo, redo string) {
	if h.at > 0 {
		undo = h.steps[h.at-1].label
	}
	if h.at < len(h.steps) {
		redo = h.steps[h.at].label
	}
	return undo, redo
}
