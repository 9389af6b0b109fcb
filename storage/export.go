package storage

import (
	"archive/zip"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"time"

	"haunchbook.example/app/estimate"
)

// An export is a ZIP archive of plain files, so that it can be read without this
// program:
//
//	book.json                  version; settings and price lists of a whole book
//	jobs/NNNN/job.json         the job file
//	jobs/NNNN/about.json       state, dates; with the history, the edit it stands at
//	jobs/NNNN/record.json      after the pour, if anything was written down
//	jobs/NNNN/revisions/N.json {"note", "time", "job"}
//	jobs/NNNN/history/N.json   {"label", "time", "job"}, edit by edit, if asked for
//
// Sketches stand in each job file that shows them.

// ExportOptions say what of a job goes into an export besides the job, its
// revisions and what it took.
type ExportOptions struct {
	History bool // every edit that can be undone or redone
}

// bundleVersion is the version of exports that this program writes.
const bundleVersion = 1

type bundleBook struct {
	Version  int            `json:"haunchbook-export"`
	Settings *Settings      `json:"settings,omitempty"`
	Prices   []bundlePrices `json:"prices,omitempty"`
}

type bundlePrices struct {
	Stored time.Time          `json:"stored"`
	List   estimate.PriceList `json:"list"`
}

type bundleAbout struct {
	State    State     `json:"state"`
	Archived bool      `json:"archived,omitzero"`
	Created  time.Time `json:"created"`
	Changed  time.Time `json:"changed"`
	At       int       `json:"at,omitzero"` // the file in history/ that the job is
}

type bundleEdit struct {
	Label string          `json:"label"`
	Time  time.Time       `json:"time"`
	Job   json.RawMessage `json:"job"`
}

type bundleRevision struct {
	Note string          `json:"note"`
	Time time.Time       `json:"time"`
	Job  json.RawMessage `json:"job"`
}

// ExportJob writes one job with its revisions and record as open files.
func (b *Book) ExportJob(w io.Writer, id ID, o ExportOptions) error {
	return b.export(w, false, []ID{id}, o)
}

// Export writes the whole book as open files: settings, price lists and jobs.
func (b *Book) Export(w io.Writer, o ExportOptions) error {
	list, err := b.List()
	if err != nil {
		return err
	}
	ids := make([]ID, len(list))
	for i, s := range list {
		ids[i] = s.ID
	}
	slices.Sort(ids)
	return b.export(w, true, ids, o)
}

func (b *Book) export(w io.Writer, whole bool, ids []ID, o ExportOptions) error {
	out := zip.NewWriter(w)
	now := b.o.Now().UTC()
	write := func(name string, data []byte) error {
		f, err := out.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: now})
		if err != nil {
			return err
		}
		_, err = f.Write(data)
		return err
	}
	err := b.view(func(t *tx) error {
		book := bundleBook{Version: bundleVersion}
		if whole {
			if err := t.exportBook(&book); err != nil {
				return err
			}
		}
		if err := write("book.json", indented(book)); err != nil {
			return err
		}
		for _, id := range ids {
			if err := t.exportJob(id, o, write); err != nil {
				return err
			}
		}
		return nil
	})
	return errors.Join(err, out.Close())
}

func (t *tx) exportBook(book *bundleBook) error {
	var s Settings
	switch err := t.getJSON(inSettings, key{}, &s); {
	case err == nil:
		book.Settings = &s
	case !IsKind(err, Missing):
		return err
	}
	return t.each(inPrices, 0, func(k key, _ []byte, err error) error {
		var p storedPrices
		if err == nil {
			err = t.getJSON(inPrices, k, &p)
		}
		book.Prices = append(book.Prices, bundlePrices(p))
		return err
	})
}

func (t *tx) exportJob(id ID, o ExportOptions, write func(string, []byte) error) error {
	var e entry
	if err := t.entry(id, &e); err != nil {
		return err
	}
	dir := fmt.Sprintf("jobs/%04d/", uint64(id))
	data, err := t.get(inJobs, key{uint64(id), 0})
	if err == nil {
		data, err = t.whole(id, data)
	}
	if err != nil {
		return err
	}
	about := bundleAbout{State: e.State, Archived: e.Archived, Created: e.Created, Changed: e.Changed}
	if o.History {
		about.At = int(e.At - e.First + 1)
		if err := t.exportHistory(id, e, dir, write); err != nil {
			return err
		}
	}
	err = errors.Join(write(dir+"job.json", data), write(dir+"about.json", indented(about)))
	if record, recordErr := t.get(inRecords, key{uint64(id), 0}); recordErr == nil {
		err = errors.Join(err, write(dir+"record.json", append(record, '\n')))
	} else if !IsKind(recordErr, Missing) {
		err = errors.Join(err, recordErr)
	}
	return errors.Join(err, t.each(inRevisions, uint64(id), func(k key, payload []byte, err error) error {
		if err != nil {
			return err
		}
		r, err := parseEdit(payload)
		if err == nil {
			r.data, err = t.whole(id, r.data)
		}
		if err != nil {
			return err
		}
		return write(fmt.Sprintf("%srevisions/%d.json", dir, k.b), indented(bundleRevision{r.Label, r.Time, r.data}))
	}))
}

// exportHistory writes the edits of a job, numbered from 1.
func (t *tx) exportHistory(id ID, e entry, dir string, write func(string, []byte) error) error {
	for seq := e.First; seq <= e.Last; seq++ {
		d, err := t.getEdit(id, seq)
		if err == nil {
			d.data, err = t.whole(id, d.data)
		}
		if err != nil {
			return err
		}
		if err := write(fmt.Sprintf("%shistory/%d.json", dir, seq-e.First+1), indented(bundleEdit{d.Label, d.Time, d.data})); err != nil {
			return err
		}
	}
	return nil
}

func indented(v any) []byte {
	data, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		panic(err) // plain data does not fail
	}
	return append(data, '\n')
}
