package window

import (
	"haunchbook/app/job"
	"haunchbook/storage"
)

// bookHistory keeps the edits of a job in the job book, so that they outlive the
// program.
type bookHistory struct {
	book       *storage.Book
	id         storage.ID
	undo, redo []string // labels, the next at the end
}

func newBookHistory(b *storage.Book, id storage.ID) (*bookHistory, error) {
	h := &bookHistory{book: b, id: id}
	return h, h.read()
}

func (h *bookHistory) read() error {
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

// Edit implements document.History.
func (h *bookHistory) Edit(label string, j job.Job) error {
	if err := h.book.Edit(h.id, label, j); err != nil {
		return err
	}
	h.undo, h.redo = append(h.undo, label), h.redo[:0]
	return nil
}

// Undo implements document.History.
func (h *bookHistory) Undo() (job.Job, string, bool, error) {
	j, label, ok, err := h.book.Undo(h.id)
	if err == nil {
		err = h.read()
	}
	return j, label, ok, err
}

// Redo implements document.History.
func (h *bookHistory) Redo() (job.Job, string, bool, error) {
	j, label, ok, err := h.book.Redo(h.id)
	if err == nil {
		err = h.read()
	}
	return j, label, ok, err
}

// Next implements document.History.
func (h *bookHistory) Next() (undo, redo string) {
	if n := len(h.undo); n > 0 {
		undo = h.undo[n-1]
	}
	if n := len(h.redo); n > 0 {
		redo = h.redo[n-1]
	}
	return undo, redo
}
