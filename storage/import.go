package storage

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"
	"time"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/job"
	"haunchbook.example/app/picture"
	"haunchbook.example/geometry"
)

// Imported tells what Import brought in.
type Imported struct {
	Jobs     []ID // as they are numbered here
	Settings bool
	Prices   int
}

// ImportFile is Import from a file.
func (b *Book) ImportFile(ctx context.Context, name string) (Imported, error) {
	f, err := os.Open(name)
	if err != nil {
		return Imported{}, explain(name, err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return Imported{}, explain(name, err)
	}
	return b.Import(ctx, f, info.Size())
}

// Import adds the jobs of an export under new numbers. Settings and price lists
// come along only into a book that has none of its own. It takes all or, with an
// error that names the file or when the context ends, nothing.
func (b *Book) Import(ctx context.Context, r io.ReaderAt, size int64) (Imported, error) {
	var done Imported
	invalid := func(err error) error {
		if err == nil || ctx.Err() != nil {
			return errors.Join(ctx.Err(), err)
		}
		return &Fault{Kind: Invalid, Text: err.Error(), Way: "nothing was imported", Err: err}
	}
	a, err := openArchive(r, size)
	if err != nil {
		return Imported{}, invalid(err)
	}
	book, err := a.book()
	if err != nil {
		return Imported{}, invalid(err)
	}
	jobs, err := a.jobs()
	if err != nil {
		return Imported{}, invalid(err)
	}
	err = b.update(func(t *tx) error {
		done = Imported{}
		if err := t.importBook(book, &done); err != nil {
			return err
		}
		for _, files := range jobs {
			if err := ctx.Err(); err != nil {
				return err
			}
			id, err := t.importJob(ctx, a, files, b.o.Now().UTC())
			if err != nil {
				return invalid(err)
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

// book reads what the export says of itself.
func (a *archive) book() (bundleBook, error) {
	var book bundleBook
	if !a.has("book.json") {
		return book, errors.New("book.json is missing: this is no export of a job book")
	}
	if err := a.readJSON("book.json", &book); err != nil {
		return book, err
	}
	if book.Version < 1 || book.Version > bundleVersion {
		return book, fmt.Errorf("book.json: found version %d; this program reads up to %d", book.Version, bundleVersion)
	}
	return book, nil
}

// readJSON reads a file into v, which stays as it is where there is none.
func (a *archive) readJSON(name string, v any) error {
	data, err := a.read(name)
	if data == nil || err != nil {
		return err
	}
	if err := json.Unmarshal(data, v); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

// jobFiles are the files of one job.
type jobFiles struct {
	dir       string // with a / at its end
	revisions []int  // their numbers, in order
	edits     int    // history/1.json and so on
}

// jobs sorts the files of the export by the jobs that they are of.
func (a *archive) jobs() ([]*jobFiles, error) {
	var list []*jobFiles
	byDir := map[string]*jobFiles{}
	for _, name := range a.names {
		parts := strings.Split(name, "/")
		if parts[0] != "jobs" || len(parts) < 3 {
			continue
		}
		dir := parts[0] + "/" + parts[1] + "/"
		j := byDir[dir]
		if j == nil {
			j = &jobFiles{dir: dir}
			byDir[dir] = j
			if a.has(dir + "job.json") {
				list = append(list, j)
			}
		}
		if len(parts) == 4 && parts[2] == "revisions" {
			digits := strings.TrimSuffix(parts[3], ".json")
			number, err := strconv.Atoi(digits)
			if err != nil || number < 1 || number > maxRevision || parts[3] != fmt.Sprintf("%d.json", number) {
				return nil, fmt.Errorf("%s: found no number of a revision; name it 1.json, 2.json, … up to %d.json", name, maxRevision)
			}
			j.revisions = append(j.revisions, number)
		}
	}
	for _, j := range list {
		slices.Sort(j.revisions)
		for a.has(j.edit(j.edits + 1)) {
			j.edits++
		}
	}
	return list, nil
}

func (j *jobFiles) edit(n int) string     { return fmt.Sprintf("%shistory/%d.json", j.dir, n) }
func (j *jobFiles) revision(n int) string { return fmt.Sprintf("%srevisions/%d.json", j.dir, n) }

func (t *tx) importBook(book bundleBook, done *Imported) error {
	if _, err := t.get(inSettings, key{}); IsKind(err, Missing) && book.Settings != nil {
		if logo := book.Settings.Company.Logo; len(logo) > 0 {
			if _, _, err := picture.Check(logo); err != nil {
				return &Fault{Kind: Invalid, Text: fmt.Sprintf("book.json: settings.company.logo: %v", err), Way: "nothing was imported", Err: err}
			}
		}
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

// jobIn reads a job file within the export.
func jobIn(name string, data []byte) (job.Job, error) {
	j, err := readJob(data)
	if err != nil {
		return j, fmt.Errorf("%s: %w", name, err)
	}
	return j, nil
}

func (t *tx) importJob(ctx context.Context, a *archive, files *jobFiles, now time.Time) (ID, error) {
	name := files.dir + "job.json"
	data, err := a.read(name)
	if err != nil {
		return 0, err
	}
	j, err := jobIn(name, data)
	if err != nil {
		return 0, err
	}
	about := bundleAbout{Created: now, Changed: now}
	if err := a.readJSON(files.dir+"about.json", &about); err != nil {
		return 0, err
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
	if err := t.importHistory(ctx, a, files, &e, about.At, j, now); err != nil {
		return 0, err
	}
	if err := t.putJSON(inEntries, key{uint64(id), 0}, e); err != nil {
		return 0, err
	}
	if name := files.dir + "record.json"; a.has(name) {
		var r actual.Record
		if err := a.readJSON(name, &r); err != nil {
			return 0, err
		}
		if err := r.Validate(); err != nil {
			return 0, fmt.Errorf("%s: %w", name, err)
		}
		if err := t.putJSON(inRecords, key{uint64(id), 0}, r); err != nil {
			return 0, err
		}
	}
	for _, number := range files.revisions {
		name := files.revision(number)
		var r bundleRevision
		state, err := t.importState(ctx, a, id, name, &r, func() []byte { return r.Job })
		if err != nil {
			return 0, err
		}
		if err := t.putRevision(id, number, edit{Label: r.Note, Time: r.Time, data: state}); err != nil {
			return 0, err
		}
	}
	return id, nil
}

// importState reads a state of a job with what is said of it, and gives the state as
// it is stored.
func (t *tx) importState(ctx context.Context, a *archive, id ID, name string, said any, state func() []byte) ([]byte, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if err := a.readJSON(name, said); err != nil {
		return nil, err
	}
	j, err := jobIn(name, state())
	if err != nil {
		return nil, err
	}
	return t.encode(id, j)
}

// importHistory takes in the edits of a job that came with it. If its job file
// is not the edit that it should stand at, as when someone edited the file, that
// is one edit more.
func (t *tx) importHistory(ctx context.Context, a *archive, files *jobFiles, e *entry, at int, j job.Job, now time.Time) error {
	if files.edits == 0 {
		return nil
	}
	if at < 1 || at > files.edits {
		return fmt.Errorf("%sabout.json: at: found %d; it must be the number of a file in history/, up to %d", files.dir, at, files.edits)
	}
	var there []byte // the state that it should stand at
	for n := 1; n <= files.edits; n++ {
		var d bundleEdit
		state, err := t.importState(ctx, a, e.ID, files.edit(n), &d, func() []byte { return d.Job })
		if err != nil {
			return err
		}
		if n == at {
			there = state
		}
		if err := t.putEdit(e.ID, uint64(n), 1, edit{Label: d.Label, Time: d.Time, data: state}); err != nil {
			return err
		}
	}
	e.First, e.At, e.Last = 1, uint64(at), uint64(files.edits)
	state, err := t.encode(e.ID, j)
	if err != nil || bytes.Equal(state, there) {
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
