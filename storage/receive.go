package storage

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"strings"
	"time"

	side "haunchbook.example/app/guard"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
)

// Receipt is what comes to a job from the office book.
type Receipt struct {
	ID      ID   // 0 for a job that is new here
	Mark    Mark // as it was when the receipt was made out
	Created time.Time
	Number  uint64 // that a new job has there, to be the same here if no other has it
	Beyond  uint64 // the highest number there: a job that cannot have its own has one after it
	Edits   []Step // go on the history, after what the job is now
	Now     Kept   // the job then
	// Revisions have the numbers that they have there. Those here that the office has not
	// go behind them.
	Revisions []Step
	Own       []Step   // revisions of this book's own to keep besides, without numbers
	Pictures  [][]byte // files that the states refer to
	Shared    Shared
}

// Receive takes what comes from the office book, all of it or, with an error, nothing. It
// gives the number of each job, 0 for one that was changed or deleted here since its
// receipt was made out, of which nothing is taken.
func (b *Book) Receive(list []Receipt) ([]ID, error) {
	jobs, err := readJobs(list)
	if err != nil {
		return nil, err
	}
	var ids []ID
	err = b.update(func(t *tx) error {
		ids = make([]ID, len(list))
		for i, r := range list {
			id, err := t.receive(r, jobs[i], b.o.Now())
			if err != nil {
				return err
			}
			ids[i] = id
		}
		return nil
	})
	return ids, err
}

// readJobs reads the jobs as they are then, several at once, before the book is written to.
func readJobs(list []Receipt) ([]job.Job, error) {
	jobs, errs, reads := make([]job.Job, len(list)), make([]error, len(list)), make([]func(), len(list))
	for i := range list {
		reads[i] = func() { jobs[i], errs[i] = readJob(list[i].Now.Data) }
	}
	side.Each(reads...)
	return jobs, errors.Join(errs...)
}

func (t *tx) receive(r Receipt, j job.Job, now time.Time) (ID, error) {
	id := r.ID
	if id == 0 {
		id = t.numbered(r.Number, r.Beyond)
		t.about.Jobs++
	} else if !t.has(inEntries, key{uint64(id), 0}) || t.mark(id) != r.Mark {
		return 0, nil
	}
	e := entry{Summary: Summary{ID: id, Created: r.Created.UTC(), Changed: now.UTC()}, First: 1}
	if r.ID != 0 {
		if err := t.entry(id, &e); err != nil {
			return 0, err
		}
	}
	for _, file := range r.Pictures {
		sum := sha256.Sum256(file)
		if err := t.put(inPictures, pictureKey(id, sum[:]), file); err != nil {
			return 0, err
		}
	}
	if err := t.receiveEdits(&e, r); err != nil {
		return 0, err
	}
	if err := t.receiveRevisions(id, r, now); err != nil {
		return 0, err
	}
	e.describe(j)
	e.State, e.Archived = r.Now.State, r.Now.Archived
	errs := []error{t.put(inJobs, key{uint64(id), 0}, r.Now.Data), t.putJSON(inEntries, key{uint64(id), 0}, e), t.invoiced(j.Account)}
	if r.Now.Record != nil {
		errs = append(errs, t.put(inRecords, key{uint64(id), 0}, r.Now.Record))
	}
	r.Shared.Seq = r.seqOf(e)
	errs = append(errs, t.setShared(id, r.Shared))
	return id, errors.Join(errs...)
}

// farNumber is how far from the next number another may lie: a number from elsewhere may be
// any.
const farNumber = 100_000

// numbered gives a new job a number: the one that it has elsewhere, where no job of this
// book has it or had it, else one after all that there are elsewhere, so that it takes none
// of theirs.
func (t *tx) numbered(elsewhere, beyond uint64) ID {
	n, most := elsewhere, t.about.NextJob+farNumber
	if n == 0 || n > most || t.has(inEntries, key{n, 0}) || t.has(inGone, key{n, 0}) {
		n = max(t.about.NextJob, min(beyond, most)+1)
	}
	t.about.NextJob = max(t.about.NextJob, n+1)
	return ID(n)
}

// receiveEdits puts the edits on the history. What was undone before is dropped.
func (t *tx) receiveEdits(e *entry, r Receipt) error {
	if len(r.Edits) == 0 {
		return nil
	}
	for seq := e.Last; seq > e.At; seq-- {
		if err := t.delete(inEdits, key{uint64(e.ID), seq}); err != nil {
			return err
		}
	}
	for _, s := range r.Edits {
		e.At++
		if err := t.putEdit(e.ID, e.At, e.First, edit{Label: s.Label, Time: s.Time.UTC(), data: s.Data}); err != nil {
			return err
		}
		e.Changed = s.Time.UTC()
	}
	e.Last = e.At
	return nil
}

// seqOf gives the edit whose outcome is the base, by its place among those that came: what
// came of it after that is this book's own.
func (r Receipt) seqOf(e entry) uint64 {
	for i := len(r.Edits) - 1; i >= 0; i-- {
		if bytes.Equal(r.Edits[i].Data, r.Shared.Base.Data) {
			return e.At - uint64(len(r.Edits)-1-i)
		}
	}
	if len(r.Edits) == 0 && r.Shared.Seq == 0 {
		return e.At
	}
	return r.Shared.Seq
}

func (t *tx) receiveRevisions(id ID, r Receipt, now time.Time) error {
	var own []edit
	if len(r.Revisions) > 0 {
		first := int(r.Revisions[0].Number)
		for n := t.lastRevision(id); n >= first; n-- {
			payload, err := t.get(inRevisions, key{uint64(id), uint64(n)})
			if IsKind(err, Missing) {
				continue
			}
			e, err := parseEdit(bytes.Clone(payload))
			if err != nil {
				return err
			}
			own = append([]edit{e}, own...)
			if err := t.delete(inRevisions, key{uint64(id), uint64(n)}); err != nil {
				return err
			}
		}
	}
	for _, s := range r.Revisions {
		if s.Number < 1 || s.Number > maxRevision {
			return &Fault{Kind: Invalid, Path: t.path, Text: fmt.Sprintf("the office book has a revision %d of job %v", s.Number, id), Way: "numbers go from 1 to a million"}
		}
		if err := t.putRevision(id, int(s.Number), edit{Label: s.Label, Time: s.Time.UTC(), data: s.Data}); err != nil {
			return err
		}
	}
	for _, s := range r.Own {
		own = append(own, edit{Label: s.Label, Time: now.UTC(), data: s.Data})
	}
	for _, e := range own {
		if err := t.putRevision(id, t.lastRevision(id)+1, e); err != nil {
			return err
		}
	}
	return nil
}

// PictureOf gives the file of a picture that a job refers to; false if it is not here.
func (b *Book) PictureOf(id ID, hash string) (file []byte, ok bool, err error) {
	sum, isRef := pictureSum(pictureMark + hash)
	if !isRef {
		return nil, false, nil
	}
	err = b.view(func(t *tx) error {
		data, err := t.get(inPictures, pictureKey(id, sum))
		file = bytes.Clone(data)
		return err
	})
	if got := sha256.Sum256(file); err == nil && !bytes.Equal(got[:], sum) {
		return nil, false, nil
	}
	return file, err == nil, ignore(err, Missing)
}

// PictureHashes gives the hashes of the pictures that a kept job file refers to, in
// hexadecimal.
func PictureHashes(data []byte) (hashes []string) {
	for _, ref := range picturesOf(data) {
		hashes = append(hashes, strings.TrimPrefix(ref, pictureMark))
	}
	return hashes
}

// ReceivePrices takes price lists from the office book: own ones that it has not go behind
// them, so that the last that was stored there or here is the current one.
func (b *Book) ReceivePrices(u geometry.Units, there int, list []PriceVersion) error {
	return b.update(func(t *tx) error {
		var own []storedPrices
		last := there
		err := t.each(inPrices, uint64(u)+1, func(k key, _ []byte, err error) error {
			if err != nil || int(k.b) <= there {
				return err
			}
			var s storedPrices
			last = int(k.b)
			own = append(own, s)
			return t.getJSON(inPrices, k, &own[len(own)-1])
		})
		if err != nil {
			return err
		}
		for n := there + 1; n <= last; n++ {
			if err := t.delete(inPrices, pricesKey(u, n)); err != nil {
				return err
			}
		}
		all := make([]storedPrices, 0, len(list)+len(own))
		for _, v := range list {
			if err := v.List.Validate(); err != nil || v.List.Units != u {
				return &Fault{Kind: Invalid, Path: t.path, Text: fmt.Sprintf("a price list of the office book does not hold: %v", err), Err: err}
			}
			all = append(all, storedPrices{v.Stored, v.List})
		}
		for i, s := range append(all, own...) {
			if err := t.putJSON(inPrices, pricesKey(u, there+1+i), s); err != nil {
				return err
			}
		}
		return t.listsThere(u, there+len(list))
	})
}

// SetListsThere notes how many of the price lists here are in the office book.
func (b *Book) SetListsThere(u geometry.Units, n int) error {
	return b.update(func(t *tx) error { return t.listsThere(u, n) })
}

func (t *tx) listsThere(u geometry.Units, n int) error {
	var o Office
	if err := t.getJSON(inOffice, officeKey, &o); err != nil {
		return err
	}
	if o.Lists == nil {
		o.Lists = map[geometry.Units]int{}
	}
	o.Lists[u] = n
	return t.putOffice(o)
}

// SetSettingsThere notes the version of the settings in the office book, and what they are
// there; nil for as they were.
func (b *Book) SetSettingsThere(both *Settings, version int64) error {
	var data []byte
	if both != nil {
		var err error
		if data, err = both.MarshalJSON(); err != nil {
			return err
		}
	}
	return b.changeOffice(func(o *Office) {
		o.SettingsVersion = version
		if both != nil {
			o.Settings = data
		}
	})
}

// ReceiveSettings takes settings as they are after what came from the office book, and what
// both have now with its version.
func (b *Book) ReceiveSettings(now, both Settings, version int64) error {
	data, err := both.MarshalJSON()
	if err != nil {
		return err
	}
	if err := now.Check(); err != nil {
		return err
	}
	return b.update(func(t *tx) error {
		var o Office
		if err := t.getJSON(inOffice, officeKey, &o); err != nil {
			return err
		}
		o.Settings, o.SettingsVersion = data, version
		return errors.Join(t.putOffice(o), t.putJSON(inSettings, key{}, now))
	})
}
