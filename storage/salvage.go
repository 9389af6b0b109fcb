package storage

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os"
	"time"

	"haunchbook/app/job"
)

// Salvaged tells what Salvage found.
type Salvaged struct {
	Jobs      int  // recovered as they were last saved
	FromEdits int  // of these, taken from the undo history, since the job itself was damaged
	Revisions int  // recovered
	Settings  bool // the settings were among what could be read
}

// Salvage writes what can still be read of the damaged book at path into a new
// book at out, which must not exist. It never changes path. Every record names
// itself and carries a checksum, so that the file is searched for sound records
// whatever the state of the database around them. Undo history starts afresh.
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

// readAll reads a file as far as it reads.
func readAll(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(f)
	if len(data) > 0 {
		err = nil // a bad sector: what came before it
	}
	return data, err
}

// where is a record's place in the book.
type where struct {
	in bucket
	k  key
}

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
		if err != nil {
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
			if err := t.adopt(found, id, j, data, when); err != nil {
				return err
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
				s.Revisions++
				err = t.put(p.in, p.k, r.payload)
			case p.in == inSettings:
				s.Settings = true
				err = t.put(p.in, p.k, r.payload)
			case p.in == inRecords && kept[p.k.a], p.in == inPrices, p.in == inNotes:
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
		d, err := parseEdit(e.payload)
		if err != nil {
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

// adopt puts a job with its old number into the book.
func (t *tx) adopt(found map[where]record, id uint64, j job.Job, data []byte, when time.Time) error {
	var e entry
	if r, ok := found[where{inEntries, key{id, 0}}]; !ok || json.Unmarshal(r.payload, &e) != nil {
		e.Created, e.Changed = when, when
	}
	e.ID, e.First, e.At, e.Last = ID(id), 1, 1, 1
	e.describe(j)
	t.about.Jobs++
	t.about.NextJob = max(t.about.NextJob, id+1)
	return errors.Join(
		t.putJSON(inEntries, key{id, 0}, e),
		t.put(inJobs, key{id, 0}, data),
		t.putEdit(ID(id), 1, edit{"Salvaged", when, data}),
	)
}
