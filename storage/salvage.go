package storage

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"math"
	"os"
	"slices"
	"time"

	"haunchbook.example/app/job"
	"haunchbook.example/app/visit"
)

// Salvaged tells what Salvage found.
type Salvaged struct {
	Jobs      int  // recovered as they were last saved
	FromEdits int  // of these, taken from the undo history, since the job itself was damaged
	Revisions int  // recovered
	Edits     int  // recovered of the undo histories
	Pictures  int  // jobs that come without a picture, which was lost
	Settings  bool // the settings were among what could be read
}

// Salvage writes what can still be read of the damaged book at path into a new
// book at out, which must not exist. It never changes path. Every record names
// itself and carries a checksum, so that the file is searched for sound records
// whatever the state of the database around them. Of a job's undo history comes
// back the unbroken part around its present state.
func Salvage(path, out string) (Salvaged, error) {
	if _, err := os.Lstat(out); err == nil {
		return Salvaged{}, &Fault{Invalid, out, "the file exists", "choose a new name for the salvaged book", nil}
	}
	data, err := readAll(path)
	if err != nil {
		return Salvaged{}, explain(path, err)
	}
	found := carve(data)
	if len(found) == 0 {
		return Salvaged{}, &Fault{Foreign, path, "no record of a job book is in this file", "choose another file, or restore a backup", nil}
	}
	b, err := Open(out, Options{NoBackup: true})
	if err != nil {
		return Salvaged{}, err
	}
	s, err := b.refill(found)
	return s, errors.Join(err, b.Close())
}

// readAll reads a file as far as it reads. A stretch that does not, as on a bad
// sector, comes as zeros.
func readAll(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	data := make([]byte, info.Size())
	return data, readAround(f, data)
}

// stretch is the least that a disk reads or does not read.
const stretch = 4096

// readAround fills data from the start of a file, but for the stretches that do not
// read. With an error, nothing does.
func readAround(f io.ReaderAt, data []byte) error {
	whole, err := f.ReadAt(data, 0)
	if whole == len(data) || err == io.EOF {
		return nil
	}
	read := whole
	for at := whole / stretch * stretch; at < len(data); at += stretch {
		part := data[at:min(at+stretch, len(data))]
		if n, err := f.ReadAt(part, int64(at)); err != nil && err != io.EOF {
			clear(part)
		} else {
			read += n
		}
	}
	if read == 0 {
		return err
	}
	return nil
}

// where is a record's place in the book.
type where struct {
	in bucket
	k  key
}

// maxNumber bounds the numbers of jobs.
const maxNumber = 1 << 53

// carve finds the newest sound version of every record in data.
func carve(data []byte) map[where]record {
	found := map[where]record{}
	for at := 0; ; {
		i := bytes.Index(data[at:], []byte(recordMagic))
		if i < 0 {
			return found
		}
		at += i
		r, n, err := unseal(data[at:])
		if err != nil || r.key.a > maxNumber && slices.Contains(ofJobs, r.in) || r.key.b > maxRevision && r.in == inRevisions {
			at++
			continue
		}
		at += n
		p := where{r.in, r.key}
		if old, ok := found[p]; !ok || r.stamp > old.stamp {
			found[p] = r
		}
	}
}

// refill writes carved records into an empty book.
func (b *Book) refill(found map[where]record) (Salvaged, error) {
	var s Salvaged
	err := b.update(func(t *tx) error {
		s = Salvaged{}
		kept := map[uint64]bool{}
		for id := range jobsIn(found) {
			data, when, fromEdit := newestJob(found, id)
			if data == nil {
				continue
			}
			j, err := readJob(data)
			if err != nil {
				continue // of a newer program, or never a job
			}
			edits, err := t.adopt(found, id, j, data, when)
			if err != nil {
				return err
			}
			s.Edits += edits
			if missingPicture(found, id, picturesOf(data)...) {
				s.Pictures++
			}
			kept[id] = true
			s.Jobs++
			if fromEdit {
				s.FromEdits++
			}
		}
		for p, r := range found {
			var err error
			switch {
			case p.in == inRevisions && kept[p.k.a]:
				var e edit
				if e, err = parseEdit(r.payload); err != nil {
					err = nil // sealed, and yet no revision: of a newer program
					continue
				}
				e.data = withoutMissingPictures(found, p.k.a, e.data)
				s.Revisions++
				err = t.putState(p.in, p.k, e)
			case p.in == inSettings:
				s.Settings = true
				err = t.put(p.in, p.k, r.payload)
			case (p.in == inRecords || p.in == inPictures) && kept[p.k.a], p.in == inPrices, p.in == inNotes:
				err = t.put(p.in, p.k, r.payload)
			case p.in == inOffice && (p.k == officeKey || kept[p.k.a]), p.in == inShared:
				if _, err := t.CreateBucketIfNotExists(p.in.name()); err != nil {
					return err
				}
				err = t.put(p.in, p.k, r.payload)
			}
			if err != nil {
				return err
			}
		}
		return nil
	})
	return s, err
}

// editIn gives an edit that was found, with its job file.
func editIn(found map[where]record, id, seq uint64) (edit, bool) {
	r, ok := found[where{inEdits, key{id, seq}}]
	if !ok {
		return edit{}, false
	}
	e, err := parseEdit(r.payload)
	if err != nil || e.base == 0 {
		return e, err == nil
	}
	b, ok := found[where{inEdits, key{id, e.base}}]
	if !ok || isFolded(b.payload) {
		return e, false
	}
	was, err := parseEdit(b.payload)
	return e, err == nil && e.unfold(was.data) == nil
}

// jobsIn gives the jobs of which anything was found and that were not deleted.
func jobsIn(found map[where]record) map[uint64]bool {
	jobs := map[uint64]bool{}
	for p := range found {
		switch p.in {
		case inJobs, inEdits, inEntries:
			if _, gone := found[where{inGone, key{p.k.a, 0}}]; !gone {
				jobs[p.k.a] = true
			}
		}
	}
	return jobs
}

// newestJob gives the newest job file found of a job.
func newestJob(found map[where]record, id uint64) (data []byte, when time.Time, fromEdit bool) {
	var newest uint64
	for p, e := range found {
		if p.in != inEdits || p.k.a != id {
			continue
		}
		d, ok := editIn(found, id, p.k.b)
		if !ok {
			continue
		}
		if d.Time.After(when) {
			when = d.Time
		}
		if e.stamp > newest {
			data, newest, fromEdit = d.data, e.stamp, true
		}
	}
	// An edit is stored just before the job it made. A far newer edit means that
	// the job's own last record is damaged and an old one was found.
	if r, ok := found[where{inJobs, key{id, 0}}]; ok && r.stamp+1 >= newest {
		data, fromEdit = r.payload, false
	}
	return data, when, fromEdit
}

// adopt puts a job with its old number and what is found of its undo history
// into the book, and gives the number of edits that can be undone or redone.
func (t *tx) adopt(found map[where]record, id uint64, j job.Job, data []byte, when time.Time) (edits int, err error) {
	var e entry
	if r, ok := found[where{inEntries, key{id, 0}}]; !ok || json.Unmarshal(r.payload, &e) != nil {
		e = entry{Summary: Summary{Created: when, Changed: when}}
	}
	e.ID = ID(id)
	run := historyOf(found, id, &e, data)
	data = withoutMissingPictures(found, id, data)
	if len(run) == 0 {
		e.First, e.At, e.Last = 1, 1, 1
		run = []foundEdit{{1, edit{Label: "Salvaged", Time: when, data: data}}}
	} else {
		e.First, e.Last = run[0].seq, run[len(run)-1].seq
	}
	e.describe(j)
	t.about.Jobs++
	t.about.NextJob = max(t.about.NextJob, id+1)
	errs := []error{t.putJSON(inEntries, key{id, 0}, e), t.put(inJobs, key{id, 0}, data)}
	for _, f := range run {
		f.data = withoutMissingPictures(found, id, f.data)
		errs = append(errs, t.putEdit(ID(id), f.seq, e.First, f.edit))
	}
	return len(run) - 1, errors.Join(errs...)
}

// foundEdit is an edit of a job with its number.
type foundEdit struct {
	seq uint64
	edit
}

// historyOf gives the unbroken run of edits around the state data of a job, and
// sets e.At to the edit of that state; none if it is not among them. Edits that
// were dropped linger in the file until something is written over them: they are
// known by a stamp that is not between those of their neighbors.
func historyOf(found map[where]record, id uint64, e *entry, data []byte) []foundEdit {
	at := func(seq uint64) (edit, uint64, bool) {
		r, ok := found[where{inEdits, key{id, seq}}]
		if !ok {
			return edit{}, 0, false
		}
		d, ok := editIn(found, id, seq)
		return d, r.stamp, ok
	}
	lo, hi := e.First, e.Last
	if d, _, ok := at(e.At); !ok || !bytes.Equal(d.data, data) {
		// The entry is lost, or an old one.
		var newest uint64
		lo, hi, e.At = 0, math.MaxUint64, 0
		for p, r := range found {
			if p.in == inEdits && p.k.a == id && r.stamp > newest {
				if d, ok := editIn(found, id, p.k.b); ok && bytes.Equal(d.data, data) {
					newest, e.At = r.stamp, p.k.b
				}
			}
		}
		if newest == 0 {
			return nil
		}
	}
	d, stamp, _ := at(e.At)
	run := []foundEdit{{e.At, d}}
	for seq, next := e.At-1, stamp; seq >= lo && seq > 0; seq-- {
		d, s, ok := at(seq)
		if !ok || s >= next {
			break
		}
		run, next = append(run, foundEdit{seq, d}), s
	}
	slices.Reverse(run)
	for seq, last := e.At+1, stamp; seq <= hi; seq++ {
		d, s, ok := at(seq)
		if !ok || s <= last {
			break
		}
		run, last = append(run, foundEdit{seq, d}), s
	}
	return run
}

// missingPicture tells whether one of the pictures that a state refers to was not found.
func missingPicture(found map[where]record, id uint64, refs ...string) bool {
	return slices.ContainsFunc(refs, func(ref string) bool {
		sum, ok := pictureSum(ref)
		if !ok {
			return false
		}
		_, ok = found[where{inPictures, pictureKey(ID(id), sum)}]
		return !ok
	})
}

// withoutMissingPictures gives a state, without its sketch and the photographs that were not
// found.
func withoutMissingPictures(found map[where]record, id uint64, data []byte) []byte {
	if !missingPicture(found, id, picturesOf(data)...) {
		return data
	}
	j, err := readJob(data)
	if err != nil {
		return data
	}
	if missingPicture(found, id, j.Sketch.Image) {
		j.Sketch = job.Sketch{}
	}
	j.Visit.Photos = slices.DeleteFunc(j.Visit.Photos, func(p visit.Photo) bool { return missingPicture(found, id, p.Image) })
	return j.Encode()
}
