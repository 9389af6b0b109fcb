package storage

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// ID numbers a job within its book. It never changes and is never used again.
type ID uint64

// String gives the number as it is shown: "J-0042".
func (id ID) String() string { return fmt.Sprintf("J-%04d", uint64(id)) }

// State is how far a job has come.
type State uint8

const (
	Draft State = iota
	Bid
	Won
	Poured
	Closed
)

// States lists the states in order.
var States = []State{Draft, Bid, Won, Poured, Closed}

var stateNames = [...]string{"draft", "bid", "won", "poured", "closed"}

// String gives the name: "draft", "bid", "won", "poured" or "closed".
func (s State) String() string {
	if int(s) >= len(stateNames) {
		return "state " + strconv.Itoa(int(s))
	}
	return stateNames[s]
}

// MarshalText gives the name that String gives.
func (s State) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText reads the name that String gives.
func (s *State) UnmarshalText(text []byte) error {
	i := slices.Index(stateNames[:], string(text))
	if i < 0 {
		return errors.New("write " + strings.Join(stateNames[:], ", "))
	}
	*s = State(i)
	return nil
}

// entry is a job's record in the list: what is shown, and where its undo
// history stands.
type entry struct {
	Summary
	First uint64 `json:"first"` // oldest edit kept
	At    uint64 `json:"at"`    // the edit whose outcome the job is
	Last  uint64 `json:"last"`  // newest edit; beyond At they can be redone
}

// describe takes what the list shows from the job.
func (e *entry) describe(j job.Job) {
	e.Name, e.Customer, e.Site, e.Date, e.Revision = j.Name, j.Customer, j.Site, j.Date, j.Revision
	e.Thumbnail = nil
	widest := geometry.Length(0)
	for _, s := range j.Slabs {
		r := s.Outline.Corners()
		if len(r) < 3 {
			continue
		}
		if lo, hi := r.Bounds(); e.Thumbnail == nil || hi.X-lo.X+hi.Y-lo.Y > widest {
			e.Thumbnail, widest = thumbnail(r), hi.X-lo.X+hi.Y-lo.Y
		}
	}
}

// Summary gives the list's line of one job.
func (b *Book) Summary(id ID) (Summary, error) {
	var e entry
	err := b.view(func(t *tx) error { return t.entry(id, &e) })
	return e.Summary, err
}

// Create adds a job and gives its number.
func (b *Book) Create(j job.Job) (ID, error) {
	var id ID
	err := b.update(func(t *tx) error {
		var err error
		id, err = t.create(j, b.o.Now(), "New job")
		return err
	})
	return id, err
}

func (t *tx) create(j job.Job, now time.Time, label string) (ID, error) {
	id := ID(t.about.NextJob)
	t.about.NextJob++
	t.about.Jobs++
	now = now.UTC()
	e := entry{Summary: Summary{ID: id, Created: now, Changed: now}, First: 1, At: 1, Last: 1}
	e.describe(j)
	data, err := t.encode(id, j)
	return id, errors.Join(
		err,
		t.putJSON(inEntries, key{uint64(id), 0}, e),
		t.put(inJobs, key{uint64(id), 0}, data),
		t.putEdit(id, 1, 1, edit{Label: label, Time: now, data: data}),
		t.invoiced(j.Account),
	)
}

// Get gives a job as it is now. A plan with faults, as while it is drawn, is no
// error; see job.Job.Validate.
func (b *Book) Get(id ID) (job.Job, error) {
	var j job.Job
	err := b.view(func(t *tx) error {
		data, err := t.get(inJobs, key{uint64(id), 0})
		if err != nil {
			return t.noJob(id, err)
		}
		j, err = t.decode(id, data)
		return err
	})
	return j, err
}

// readJob reads a stored job. It was encoded by this program or checked on
// import; only its plan may be at fault.
func readJob(data []byte) (job.Job, error) {
	j, err := job.Read(bytes.NewReader(data))
	var faults plan.Faults
	if errors.As(err, &faults) {
		err = nil
	}
	return j, err
}

// noJob names the job that is not there.
func (t *tx) noJob(id ID, err error) error {
	if IsKind(err, Missing) {
		return &Fault{Kind: Missing, Path: t.path, Text: "there is no job " + id.String(), Way: "look it up in the list", Err: err}
	}
	return err
}

func (t *tx) entry(id ID, e *entry) error {
	return t.noJob(id, t.getJSON(inEntries, key{uint64(id), 0}, e))
}

// change edits a job's entry.
func (b *Book) change(id ID, f func(t *tx, e *entry) error) error {
	return b.update(func(t *tx) error {
		var e entry
		if err := t.entry(id, &e); err != nil {
			return err
		}
		if err := f(t, &e); err != nil {
			return err
		}
		return t.putJSON(inEntries, key{uint64(id), 0}, e)
	})
}

// SetState says how far the job has come.
func (b *Book) SetState(id ID, s State) error {
	return b.change(id, func(t *tx, e *entry) error {
		e.State, e.Changed = s, b.o.Now().UTC()
		return nil
	})
}

// Archive takes the job out of the everyday list, or puts it back.
func (b *Book) Archive(id ID, archived bool) error {
	return b.change(id, func(t *tx, e *entry) error {
		e.Archived = archived
		return nil
	})
}

// Copy makes a new job, in draft, that starts as a copy of job id. The prices that
// a bid keeps stay with it, and so do its records: the copy is priced with today's.
func (b *Book) Copy(id ID) (ID, error) {
	var copied ID
	err := b.update(func(t *tx) error {
		data, err := t.get(inJobs, key{uint64(id), 0})
		if err != nil {
			return t.noJob(id, err)
		}
		j, err := t.decode(id, data)
		if err != nil {
			return err
		}
		var e entry
		if err := t.entry(id, &e); err != nil {
			return err
		}
		if e.State != Draft {
			j.Price.Prices = job.New().Price.Prices
		}
		j = j.Fresh()
		j.Name, j.Revision = strings.TrimSpace(j.Name+" (copy)"), ""
		copied, err = t.create(j, b.o.Now(), "Copy of "+id.String())
		return err
	})
	return copied, err
}

// Delete removes a job with its history, revisions and records. Its bytes stay in the
// backups made before, and in the file until something is written over them; see
// Erase.
func (b *Book) Delete(id ID) error {
	return b.update(func(t *tx) error {
		var e entry
		if err := t.entry(id, &e); err != nil {
			return err
		}
		t.about.Jobs--
		return t.remove(id)
	})
}

// remove takes all records of a job out of the book.
func (t *tx) remove(id ID) error {
	errs := []error{t.put(inGone, key{uint64(id), 0}, nil), t.forgetShared(id)} // so that Salvage lets it rest
	for _, in := range ofJobs {
		errs = append(errs, t.deleteAll(in, uint64(id)))
	}
	t.pictures.forget()
	return errors.Join(errs...)
}

// Bid makes a bid of the job as it is: it keeps the prices of the book with the
// job, unless the job has its own, sets the job aside as a revision, and marks it
// as bid. It gives the job as it is then.
func (b *Book) Bid(id ID) (job.Job, error) {
	j, err := b.Get(id)
	if err != nil {
		return j, err
	}
	if len(j.Price.Prices.Items) == 0 {
		if j.Price.Prices, err = b.Prices(j.Units); err != nil {
			return j, err
		}
		if err := b.Edit(id, "Keep the prices of the bid", j); err != nil {
			return j, err
		}
	}
	if _, err := b.Revise(id, "bid"); err != nil {
		return j, err
	}
	return j, b.SetState(id, Bid)
}
