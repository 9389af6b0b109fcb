package shelf

import (
	"haunchbook.example/app/job"
	"haunchbook.example/storage"
)

// history keeps the edits of a job in the job book, so that they outlive the
// program. Edits that the book cannot take, as when the disk is full, wait here
// in their order and are kept as soon as it can.
type history struct {
	book       *storage.Book
	id         storage.ID       // 0 while the job itself waits
	first      job.Job          // the job before its first edit, while it waits
	numbered   func(storage.ID) // told the number that the job gets
	undo, redo []string         // labels of what is in the book, the next at the end

	waiting []waitingEdit
	at      int   // how many of those are done; the rest are undone
	err     error // why they wait
}

type waitingEdit struct {
	label string
	job   job.Job
}

// newHistory gives the history of job id, or with id 0 puts job j into the
// book and tells its number. With an error it can be used: what the book cannot
// take waits.
func newHistory(b *storage.Book, id storage.ID, j job.Job, numbered func(storage.ID)) (*history, error) {
	h := &history{book: b, id: id, first: j, numbered: numbered}
	if id == 0 {
		return h, h.flush()
	}
	return h, h.read()
}

func (h *history) read() error {
	edits, err := h.book.History(h.id)
	h.undo, h.redo = h.undo[:0], h.redo[:0]
	for _, e := range edits.Done {
		h.undo = append(h.undo, e.Label)
	}
	for i := len(edits.Undone) - 1; i >= 0; i-- {
		h.redo = append(h.redo, edits.Undone[i].Label)
	}
	return err
}

// unsaved tells how many edits wait, and why; the making of the job is one.
func (h *history) unsaved() (int, error) {
	n := h.at
	if h.id == 0 {
		n++
	}
	return n, h.err
}

// flush stores what waits and is done.
func (h *history) flush() error {
	if h.id == 0 {
		id, err := h.book.Create(h.first)
		if h.err = err; err != nil {
			return err
		}
		h.id = id
		h.numbered(id)
	}
	for h.at > 0 {
		e := h.waiting[0]
		if h.err = h.book.Edit(h.id, e.label, e.job); h.err != nil {
			return h.err
		}
		h.waiting, h.at = h.waiting[1:], h.at-1
		h.undo, h.redo = append(h.undo, e.label), nil
	}
	h.err = nil
	return nil
}

// Edit implements document.History.
func (h *history) Edit(label string, j job.Job) error {
	h.waiting = append(h.waiting[:h.at:h.at], waitingEdit{label, j})
	h.at++
	h.redo = nil
	return h.flush()
}

// Undo implements document.History.
func (h *history) Undo() (j job.Job, label string, ok bool, err error) {
	switch {
	case h.at > 1:
		j = h.waiting[h.at-2].job
	case h.at == 1 && h.id == 0:
		j = h.first
	case h.at == 1:
		j, err = h.book.Get(h.id)
	case h.id == 0:
		return j, "", false, nil
	default:
		j, label, ok, err = h.book.Undo(h.id)
		if n := len(h.undo); ok && n > 0 {
			h.undo, h.redo = h.undo[:n-1], append(h.redo, label)
		}
		return j, label, ok, err
	}
	if err != nil {
		return j, "", false, err
	}
	h.at--
	if h.at == 0 && h.id != 0 {
		h.err = nil
	}
	return j, h.waiting[h.at].label, true, nil
}

// Redo implements document.History.
func (h *history) Redo() (j job.Job, label string, ok bool, err error) {
	if h.at == 0 && len(h.redo) > 0 {
		j, label, ok, err = h.book.Redo(h.id)
		if n := len(h.redo); ok {
			h.undo, h.redo = append(h.undo, label), h.redo[:n-1]
		}
		return j, label, ok, err
	}
	if h.at == len(h.waiting) {
		return j, "", false, nil
	}
	e := h.waiting[h.at]
	h.at++
	_ = h.flush() // it waits, as it did; see unsaved
	return e.job, e.label, true, nil
}

// Next implements document.History.
func (h *history) Next() (undo, redo string) {
	if h.at > 0 {
		undo = h.waiting[h.at-1].label
	} else if n := len(h.undo); n > 0 {
		undo = h.undo[n-1]
	}
	if n := len(h.redo); h.at == 0 && n > 0 {
		redo = h.redo[n-1]
	} else if h.at < len(h.waiting) {
		redo = h.waiting[h.at].label
	}
	return undo, redo
}
