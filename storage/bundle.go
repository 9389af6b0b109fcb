package storage

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"
	"time"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
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

// Imported tells what Import brought in.
type Imported struct {
	Jobs     []ID // as they are numbered here
	Settings bool
	Prices   int
}

// Bounds of an import, far beyond any book.
const (
	maxImportFiles = 500_000
	maxImportFile  = maxPayload
	maxImportAll   = 4 << 30
)

// Import adds the jobs of an export under new numbers. Settings and price lists
// come along only into a book that has none of its own. It takes all or, with an
// error that names the file or when the context ends, nothing.
func (b *Book) Import(ctx context.Context, r io.ReaderAt, size int64) (Imported, error) {
	files, err := readBundle(r, size)
	if err != nil {
		return Imported{}, &Fault{Kind: Invalid, Text: err.Error(), Way: "nothing was imported", Err: err}
	}
	var done Imported
	err = b.update(func(t *tx) error {
		done = Imported{}
		if err := t.importBook(files, &done); err != nil {
			return err
		}
		for _, dir := range jobFolders(files) {
			if err := ctx.Err(); err != nil {
				return err
			}
			id, err := t.importJob(files, dir, b.o.Now().UTC())
			if err != nil {
				return &Fault{Kind: Invalid, Text: err.Error(), Way: "nothing was imported", Err: err}
			}
			done.Jobs = append(done.Jobs, id)
		}
		return nil
	})
	if err != nil {
		return Imported{}, err
	}
	return done, nil
}

// readBundle reads the files of an export.
func readBundle(r io.ReaderAt, size int64) (map[string][]byte, error) {
	z, err := zip.NewReader(r, size)
	if err != nil {
		return nil, fmt.Errorf("the file is no export of a job book: %w", err)
	}
	if len(z.File) > maxImportFiles {
		return nil, fmt.Errorf("the export has %d files, %d are the most", len(z.File), maxImportFiles)
	}
	files, total := map[string][]byte{}, int64(0)
	for _, f := range z.File {
		if strings.HasSuffix(f.Name, "/") {
			continue
		}
		if _, twice := files[f.Name]; twice || path.Clean(f.Name) != f.Name || strings.HasPrefix(f.Name, "/") || strings.HasPrefix(f.Name, "..") {
			return nil, fmt.Errorf("%q: a name twice, or outside the export", f.Name)
		}
		data, err := readPart(f)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", f.Name, err)
		}
		if total += int64(len(data)); total > maxImportAll {
			return nil, errors.New("the export is too large")
		}
		files[f.Name] = data
	}
	var book bundleBook
	data, ok := files["book.json"]
	if !ok {
		return nil, errors.New("book.json is missing: this is no export of a job book")
	}
	if err := json.Unmarshal(data, &book); err != nil {
		return nil, fmt.Errorf("book.json: %w", err)
	}
	if book.Version < 1 || book.Version > bundleVersion {
		return nil, fmt.Errorf("book.json: found version %d; this program reads up to %d", book.Version, bundleVersion)
	}
	return files, nil
}

func readPart(f *zip.File) (data []byte, err error) {
	r, err := f.Open()
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, r.Close()) }()
	data, err = io.ReadAll(io.LimitReader(r, maxImportFile+1))
	if err == nil && len(data) > maxImportFile {
		err = errors.New("the file is too large")
	}
	return data, err
}

// jobFolders lists the folders that hold a job, in order.
func jobFolders(files map[string][]byte) []string {
	var dirs []string
	for name := range files {
		if dir, ok := strings.CutSuffix(name, "/job.json"); ok && path.Dir(dir) == "jobs" {
			dirs = append(dirs, dir)
		}
	}
	slices.Sort(dirs)
	return dirs
}

func (t *tx) importBook(files map[string][]byte, done *Imported) error {
	var book bundleBook
	if err := json.Unmarshal(files["book.json"], &book); err != nil {
		return err
	}
	if _, err := t.get(inSettings, key{}); IsKind(err, Missing) && book.Settings != nil {
		if err := t.putJSON(inSettings, key{}, book.Settings); err != nil {
			return err
		}
		done.Settings = true
	}
	own := map[uint64]bool{}
	if err := t.each(inPrices, 0, func(k key, _ []byte, _ error) error {
		own[k.a] = true
		return nil
	}); err != nil {
		return err
	}
	next := map[geometry.Units]int{}
	for i, p := range book.Prices {
		if err := p.List.Validate(); err != nil {
			return &Fault{Kind: Invalid, Text: fmt.Sprintf("book.json: prices[%d]: %v", i, err), Way: "nothing was imported", Err: err}
		}
		if own[uint64(p.List.Units)+1] {
			continue
		}
		next[p.List.Units]++
		if err := t.putJSON(inPrices, pricesKey(p.List.Units, next[p.List.Units]), storedPrices(p)); err != nil {
			return err
		}
		done.Prices++
	}
	return nil
}

func (t *tx) importJob(files map[string][]byte, dir string, now time.Time) (ID, error) {
	fault := func(name string, err error) error { return fmt.Errorf("%s/%s: %w", dir, name, err) }
	j, err := readJob(files[dir+"/job.json"])
	if err != nil {
		return 0, fault("job.json", err)
	}
	about := bundleAbout{Created: now, Changed: now}
	if data, ok := files[dir+"/about.json"]; ok {
		if err := json.Unmarshal(data, &about); err != nil {
			return 0, fault("about.json", err)
		}
	}
	id, err := t.create(j, now, "Imported")
	if err != nil {
		return 0, err
	}
	var e entry
	if err := t.entry(id, &e); err != nil {
		return 0, err
	}
	e.State, e.Archived, e.Created, e.Changed = about.State, about.Archived, about.Created, about.Changed
	if err := t.importHistory(files, dir, &e, about.At, j, now); err != nil {
		return 0, err
	}
	if err := t.putJSON(inEntries, key{uint64(id), 0}, e); err != nil {
		return 0, err
	}
	if data, ok := files[dir+"/record.json"]; ok {
		var r actual.Record
		if err := errors.Join(json.Unmarshal(data, &r), r.Validate()); err != nil {
			return 0, fault("record.json", err)
		}
		if err := t.putJSON(inRecords, key{uint64(id), 0}, r); err != nil {
			return 0, err
		}
	}
	return id, t.importRevisions(files, dir, id)
}

func (t *tx) importRevisions(files map[string][]byte, dir string, id ID) error {
	for name, data := range files {
		var number int
		rest, ok := strings.CutPrefix(name, dir+"/revisions/")
		if !ok {
			continue
		}
		if _, err := fmt.Sscanf(rest, "%d.json", &number); err != nil || number < 1 || number > maxRevision || rest != fmt.Sprintf("%d.json", number) {
			return fmt.Errorf("%s: found no number of a revision; name it 1.json, 2.json, … up to %d.json", name, maxRevision)
		}
		var r bundleRevision
		if err := json.Unmarshal(data, &r); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		j, err := readJob(r.Job)
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		state, err := t.encode(id, j)
		if err != nil {
			return err
		}
		if err := t.putRevision(id, number, edit{Label: r.Note, Time: r.Time, data: state}); err != nil {
			return err
		}
	}
	return nil
}

// importHistory takes in the edits of a job that came with it. If its job file
// is not the edit that it should stand at, as when someone edited the file, that
// is one edit more.
func (t *tx) importHistory(files map[string][]byte, dir string, e *entry, at int, j job.Job, now time.Time) error {
	var states [][]byte
	for n := 1; ; n++ {
		name := fmt.Sprintf("%s/history/%d.json", dir, n)
		data, ok := files[name]
		if !ok {
			break
		}
		var d bundleEdit
		if err := json.Unmarshal(data, &d); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		was, err := readJob(d.Job)
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		state, err := t.encode(e.ID, was)
		if err != nil {
			return err
		}
		states = append(states, state)
		if err := t.putEdit(e.ID, uint64(n), 1, edit{Label: d.Label, Time: d.Time, data: state}); err != nil {
			return err
		}
	}
	if len(states) == 0 {
		return nil
	}
	if at < 1 || at > len(states) {
		return fmt.Errorf("%s/about.json: at: found %d; it must be the number of a file in history/, up to %d", dir, at, len(states))
	}
	e.First, e.At, e.Last = 1, uint64(at), uint64(len(states))
	state, err := t.encode(e.ID, j)
	if err != nil || bytes.Equal(state, states[at-1]) {
		return err
	}
	e.At++
	for ; e.Last > e.At; e.Last-- {
		if err := t.delete(inEdits, key{uint64(e.ID), e.Last}); err != nil {
			return err
		}
	}
	e.Last = e.At
	return t.putEdit(e.ID, e.At, 1, edit{Label: "Imported", Time: now, data: state})
}

// ImportBytes is Import from memory.
func (b *Book) ImportBytes(ctx context.Context, data []byte) (Imported, error) {
	return b.Import(ctx, bytes.NewReader(data), int64(len(data)))
}
