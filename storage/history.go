package storage

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"time"

	"haunchbook.example/app/job"
)

// edit is a job after one edit: a line of JSON, then the job file; or folded.
type edit struct {
	Label string    `json:"label"`
	Time  time.Time `json:"time"`
	data  []byte    // the job file; nil while the edit is folded
	folded
}

// putState stores a state of a job with what is said of it.
func (t *tx) putState(in bucket, k key, e edit) error {
	head, err := json.Marshal(e)
	if err != nil {
		return err
	}
	return t.put(in, k, append(append(head, '\n'), e.data...))
}

// putEdit stores edit seq of a history that starts at first.
func (t *tx) putEdit(id ID, seq, first uint64, e edit) error {
	k := key{uint64(id), seq}
	if base := baseOf(seq, first); base != seq {
		// Without a sound base the edit is stored whole.
		if b, err := t.edit(id, base); err == nil && b.base == 0 {
			if payload, err := fold(base, b.data, e); err == nil && len(payload) < len(e.data) {
				return t.put(inEdits, k, payload)
			}
		}
	}
	return t.putState(inEdits, k, e)
}

// edit gives an edit as it is stored: whole or folded.
func (t *tx) edit(id ID, seq uint64) (edit, error) {
	payload, err := t.get(inEdits, key{uint64(id), seq})
	if err != nil {
		return edit{}, err
	}
	return parseEdit(payload)
}

// getEdit gives an edit with its job file.
func (t *tx) getEdit(id ID, seq uint64) (edit, error) {
	e, err := t.edit(id, seq)
	if err != nil || e.base == 0 {
		return e, err
	}
	b, err := t.edit(id, e.base)
	if err == nil {
		err = e.unfold(b.data)
	}
	if err != nil {
		return e, damaged(t.path, fmt.Sprintf("edit %d of job %v is damaged", seq, id), err)
	}
	return e, nil
}

func parseEdit(payload []byte) (edit, error) {
	if isFolded(payload) {
		return parseFolded(payload)
	}
	var e edit
	head, data, ok := bytes.Cut(payload, []byte("\n"))
	if !ok {
		return e, errRecord
	}
	e.data = data
	return e, json.Unmarshal(head, &e)
}

// Edit stores job j as the outcome of an edit that label describes ("Move
// corner 3"). When it returns nil the edit is on disk. Edits undone before are
// dropped. A job that is the same as before makes no edit.
func (b *Book) Edit(id ID, label string, j job.Job) error {
	return b.change(id, func(t *tx, e *entry) error {
		data, err := t.encode(id, j)
		if err != nil {
			return err
		}
		if old, err := t.get(inJobs, key{uint64(id), 0}); err == nil && bytes.Equal(old, data) {
			return nil
		}
		var errs []error
		stale := false                         // a picture may be left that no state refers to
		for seq := e.Last; seq > e.At; seq-- { // a base goes after what is folded on it
			if t.hasPictures(id) && !stale {
				old, err := t.getEdit(id, seq)
				stale = err == nil && !slices.Equal(picturesOf(old.data), picturesOf(data))
			}
			errs = append(errs, t.delete(inEdits, key{uint64(id), seq}))
		}
		e.At++
		e.Last, e.Changed = e.At, b.o.Now().UTC()
		e.describe(j)
		errs = append(errs, t.putEdit(id, e.At, e.First, edit{Label: label, Time: e.Changed, data: data}), t.put(inJobs, key{uint64(id), 0}, data))
		if stale {
			errs = append(errs, t.dropPictures(id))
		}
		return errors.Join(errs...)
	})
}

// Undo takes the last edit back, on disk too, and gives the job as it is then
// and the label of what was taken back; false if there is nothing to undo.
func (b *Book) Undo(id ID) (j job.Job, label string, ok bool, err error) {
	return b.step(id, func(e *entry) (move int, labeled uint64) {
		if e.At <= e.First {
			return 0, 0
		}
		return -1, e.At
	})
}

// Redo does the edit again that Undo took back last; see Undo.
func (b *Book) Redo(id ID) (j job.Job, label string, ok bool, err error) {
	return b.step(id, func(e *entry) (move int, labeled uint64) {
		if e.At >= e.Last {
			return 0, 0
		}
		return 1, e.At + 1
	})
}

func (b *Book) step(id ID, f func(*entry) (int, uint64)) (j job.Job, label string, ok bool, err error) {
	err = b.change(id, func(t *tx, e *entry) error {
		move, labeled := f(e)
		if move == 0 {
			data, err := t.get(inJobs, key{uint64(id), 0})
			if err != nil {
				return err
			}
			j, err = t.decode(id, data)
			return err
		}
		named, err := t.getEdit(id, labeled)
		if err != nil {
			return err
		}
		e.At += uint64(int64(move))
		outcome, err := t.getEdit(id, e.At)
		if err != nil {
			return err
		}
		if j, err = t.decode(id, outcome.data); err != nil {
			return err
		}
		e.Changed = b.o.Now().UTC()
		e.describe(j)
		label, ok = named.Label, true
		return t.put(inJobs, key{uint64(id), 0}, bytes.Clone(outcome.data))
	})
	return j, label, ok, err
}

// Edits is the undo history of a job.
type Edits struct {
	Done   []Edited // that can be undone, oldest first
	Undone []Edited // that can be redone, next first
}

// Edited is one edit of the history.
type Edited struct {
	Number uint64 // for After; that of the edit before is one less
	Label  string
	Time   time.Time
}

// After gives job id as it was after an edit of its history, undone or not. The number
// before the oldest edit's gives the job that the history starts from.
func (b *Book) After(id ID, number uint64) (j job.Job, err error) {
	err = b.view(func(t *tx) error {
		e, err := t.getEdit(id, number)
		if err == nil {
			j, err = t.decode(id, e.data)
		}
		return err
	})
	return j, err
}

// History gives what can be undone and redone, as for a menu. Of an edit that is damaged
// an error tells, and it stands among the others without its label.
func (b *Book) History(id ID) (Edits, error) {
	var h Edits
	err := b.view(func(t *tx) error {
		h = Edits{}
		var e entry
		if err := t.entry(id, &e); err != nil {
			return err
		}
		var damage error
		err := t.each(inEdits, uint64(id), func(k key, payload []byte, err error) error {
			var d edit
			if err == nil {
				d, err = parseEdit(payload) // what it is called is not folded
			}
			damage = errors.Join(damage, err)
			switch made := (Edited{k.b, d.Label, d.Time}); {
			case k.b <= e.First: // the state that the history starts from
			case k.b <= e.At:
				h.Done = append(h.Done, made)
			default:
				h.Undone = append(h.Undone, made)
			}
			return nil
		})
		return errors.Join(err, damage)
	})
	return h, err
}
