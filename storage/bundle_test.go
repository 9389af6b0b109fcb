package storage

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/estimate"
	"haunchbook.example/geometry"
)

// full is a book with something of everything in it.
func full(t testing.TB) (*Book, ID) {
	t.Helper()
	b := open(t, newPath(t))
	j := shop(1)
	id := must(b.Create(j))(t)
	must(b.Revise(id, "printed"))(t)
	j.Revision = "B"
	s := Settings{Company: Company{Name: "Sample Flatwork", Lines: []string{"1 Yard Road"}, Logo: sign(t)}, Start: shop(0), Frost: 30 * geometry.Inch}
	prices := estimate.Starting(geometry.FeetInches)
	prices.Name = "Our prices"
	later := prices
	later.Name = "Our prices, spring"
	err := errors.Join(b.Edit(id, "Revision", j), b.SetState(id, Poured), b.SetSettings(s), b.SetPrices(prices), b.SetPrices(later),
		b.SetRecord(id, actual.Record{Poured: "2026-03-09", Delivered: decimal.New(1125, -2), Hours: []actual.TaskHours{{Task: "Set forms", Hours: decimal.New(75, -1)}}}))
	if err != nil {
		t.Fatal(err)
	}
	must(b.Create(shop(2)))(t)
	return b, id
}

// sign is a logo.
func sign(t testing.TB) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 40, 20))); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestSettingsPricesRecords(t *testing.T) {
	b := open(t, newPath(t))
	if s := must(b.Settings())(t); len(s.Start.Slabs[0].Outline) != 0 || s.Frost != 0 {
		t.Errorf("settings of a new book: %+v", s)
	}
	if p := must(b.Prices(geometry.Millimeters))(t); !p.Invented || p.Units != geometry.Millimeters {
		t.Errorf("prices of a new book: %q", p.Name)
	}
	b, id := full(t)
	s := must(b.Settings())(t)
	if s.Company.Name != "Sample Flatwork" || s.Frost != 30*geometry.Inch || s.Start.Name != shop(0).Name {
		t.Errorf("settings: %+v", s)
	}
	if img := must(s.Company.Picture())(t); img == nil || img.Bounds().Dx() != 40 {
		t.Errorf("the logo is %v", img)
	}
	s.Company.Logo = []byte("no picture")
	if err := b.SetSettings(s); !IsKind(err, Invalid) {
		t.Errorf("a logo that is none: %v", err)
	}
	if !s.Stored || must(open(t, newPath(t)).Settings())(t).Stored {
		t.Error("it does not say whether settings were stored")
	}
	history := must(b.PriceHistory(geometry.FeetInches))(t)
	if len(history) != 2 || history[0].List.Name != "Our prices" || history[1].Number != 2 || !history[1].Stored.After(history[0].Stored) {
		t.Errorf("price history: %d", len(history))
	}
	if p := must(b.Prices(geometry.FeetInches))(t); p.Name != "Our prices, spring" {
		t.Errorf("current prices: %q", p.Name)
	}
	r, ok, err := b.Record(id)
	if err != nil || !ok || !r.Delivered.Equal(decimal.New(1125, -2)) {
		t.Errorf("record: %+v, %v, %v", r, ok, err)
	}
	if all := must(b.Records())(t); len(all) != 1 {
		t.Errorf("%d records", len(all))
	}
	for what, err := range map[string]error{
		"frost": b.SetSettings(Settings{Start: shop(0), Frost: -1}), "prices": b.SetPrices(estimate.PriceList{Crew: -1}),
		"record": b.SetRecord(id, actual.Record{Left: decimal.NewNullDecimal(decimal.NewFromInt(1))}),
	} {
		if !IsKind(err, Invalid) {
			t.Errorf("%s: %v, want Invalid", what, err)
		}
	}
}

func TestExportAndImport(t *testing.T) {
	b, id := full(t)
	var whole, single bytes.Buffer
	if err := errors.Join(b.Export(&whole, ExportOptions{}), b.ExportJob(&single, id, ExportOptions{})); err != nil {
		t.Fatal(err)
	}
	c := open(t, newPath(t))
	done, err := c.ImportBytes(context.Background(), whole.Bytes())
	if err != nil || len(done.Jobs) != 2 || !done.Settings || done.Prices != 2 {
		t.Fatalf("imported %+v, %v", done, err)
	}
	if diff := cmp.Diff(string(must(b.Get(id))(t).Encode()), string(must(c.Get(done.Jobs[0]))(t).Encode())); diff != "" {
		t.Error(diff)
	}
	if s := must(c.Summary(done.Jobs[0]))(t); s.State != Poured || !s.Changed.Equal(must(b.Summary(id))(t).Changed) {
		t.Errorf("the imported job is %+v", s)
	}
	if diff := cmp.Diff(must(b.Revisions(id))(t), must(c.Revisions(done.Jobs[0]))(t)); diff != "" {
		t.Error(diff)
	}
	if r, ok, err := c.Record(done.Jobs[0]); !ok || err != nil || r.Poured != "2026-03-09" {
		t.Errorf("the record is %+v, %v, %v", r, ok, err)
	}
	// Again, and one job alone: added under new numbers, own settings kept.
	done, err = c.ImportBytes(context.Background(), single.Bytes())
	if err != nil || len(done.Jobs) != 1 || done.Settings || done.Prices != 0 {
		t.Fatalf("imported %+v, %v", done, err)
	}
	if n := len(must(c.List())(t)); n != 3 {
		t.Errorf("%d jobs, want 3", n)
	}
	if err := c.Verify(); err != nil {
		t.Error(err)
	}
}

func bundle(t testing.TB, files map[string]string) []byte {
	t.Helper()
	var buf bytes.Buffer
	z := zip.NewWriter(&buf)
	var names []string
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		w, err := z.Create(name)
		if err == nil {
			_, err = w.Write([]byte(files[name]))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

func TestImportTakesAllOrNothing(t *testing.T) {
	good := string(shop(1).Encode())
	const book = `{"haunchbook-export": 1}`
	for name, c := range map[string]struct {
		files map[string]string
		want  string
	}{
		"no book":       {map[string]string{"jobs/0001/job.json": good}, "book.json"},
		"newer":         {map[string]string{"book.json": `{"haunchbook-export": 9}`}, "version 9"},
		"bad job":       {map[string]string{"book.json": book, "jobs/0001/job.json": good, "jobs/0002/job.json": `{"haunchbook": 1, "nme": "x"}`}, "jobs/0002/job.json: nme"},
		"bad state":     {map[string]string{"book.json": book, "jobs/0001/job.json": good, "jobs/0001/about.json": `{"state": "lost"}`}, "about.json"},
		"bad revision":  {map[string]string{"book.json": book, "jobs/0001/job.json": good, "jobs/0001/revisions/one.json": `{}`}, "one.json"},
		"bad record":    {map[string]string{"book.json": book, "jobs/0001/job.json": good, "jobs/0001/record.json": `{"left": "3"}`}, "record.json"},
		"bad prices":    {map[string]string{"book.json": `{"haunchbook-export": 1, "prices": [{"list": {"crew": -1}}]}`}, "prices[0]"},
		"outside":       {map[string]string{"book.json": book, "../job.json": good}, "outside"},
		"not an export": {nil, "book.json"},
	} {
		t.Run(name, func(t *testing.T) {
			b := open(t, newPath(t))
			_, err := b.ImportBytes(context.Background(), bundle(t, c.files))
			if !IsKind(err, Invalid) || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want it to name %q", err, c.want)
			}
			if list := must(b.List())(t); len(list) != 0 {
				t.Errorf("%d jobs came in all the same", len(list))
			}
		})
	}
	b := open(t, newPath(t))
	if _, err := b.ImportBytes(context.Background(), []byte("Lumber list")); !IsKind(err, Invalid) {
		t.Errorf("a text file: %v", err)
	}
}

// Stopped while jobs come in, an import leaves nothing.
func TestStoppedImport(t *testing.T) {
	b, _ := full(t)
	var buf bytes.Buffer
	if err := b.Export(&buf, ExportOptions{}); err != nil {
		t.Fatal(err)
	}
	c := open(t, newPath(t))
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := c.ImportBytes(ctx, buf.Bytes()); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped, it gives %v", err)
	}
	if list := must(c.List())(t); len(list) != 0 || must(c.Settings())(t).Stored {
		t.Errorf("%d jobs came in all the same", len(list))
	}
}

func FuzzImport(f *testing.F) {
	b, _ := full(f)
	var buf bytes.Buffer
	if err := b.Export(&buf, ExportOptions{History: true}); err != nil {
		f.Fatal(err)
	}
	f.Add(buf.Bytes())
	f.Add(bundle(f, map[string]string{"book.json": `{"haunchbook-export": 1}`, "jobs/1/job.json": string(shop(1).Encode())}))
	dir := f.TempDir()
	f.Fuzz(func(t *testing.T, data []byte) {
		path := filepath.Join(dir, "fuzz.book")
		defer os.Remove(path)
		b, err := Open(path, Options{NoBackup: true})
		if err != nil {
			t.Skip(err)
		}
		defer b.Close()
		if _, err := b.ImportBytes(context.Background(), data); err != nil && !IsKind(err, Invalid) {
			t.Errorf("%v, want a fault of kind Invalid", err)
		}
		if err := b.Verify(); err != nil {
			t.Error(err)
		}
	})
}

// FuzzImportedJob imports exports that are whole but for the texts in them.
func FuzzImportedJob(f *testing.F) {
	f.Add(shop(1).Encode(), []byte(`{"state":"won"}`), []byte(`{"note":"","job":{}}`))
	dir := f.TempDir()
	f.Fuzz(func(t *testing.T, job, about, revision []byte) {
		data := bundle(t, map[string]string{
			"book.json": `{"haunchbook-export": 1}`, "jobs/1/job.json": string(job), "jobs/1/about.json": string(about), "jobs/1/revisions/1.json": string(revision),
		})
		path := filepath.Join(dir, "fuzz.book")
		defer os.Remove(path)
		b, err := Open(path, Options{NoBackup: true})
		if err != nil {
			t.Skip(err)
		}
		defer b.Close()
		if done, err := b.ImportBytes(context.Background(), data); err == nil {
			must(b.Get(done.Jobs[0]))(t)
			must(b.Revision(done.Jobs[0], 1))(t)
		}
	})
}

// An export with the history can be undone where it is imported.
func TestExportWithHistory(t *testing.T) {
	b := open(t, newPath(t))
	j := shop(1)
	j.Sketch = sketch(1)
	id := must(b.Create(j))(t)
	for _, notes := range []string{"one", "two", "three"} {
		j.Notes = notes
		if err := b.Edit(id, "Write "+notes, j); err != nil {
			t.Fatal(err)
		}
	}
	if _, _, _, err := b.Undo(id); err != nil {
		t.Fatal(err)
	}
	export := func(o ExportOptions) []byte {
		t.Helper()
		var buf bytes.Buffer
		if err := b.ExportJob(&buf, id, o); err != nil {
			t.Fatal(err)
		}
		return buf.Bytes()
	}
	c := open(t, newPath(t))
	take := func(data []byte) (ID, Edits) {
		t.Helper()
		done, err := c.ImportBytes(context.Background(), data)
		if err != nil {
			t.Fatal(err)
		}
		return done.Jobs[0], must(c.History(done.Jobs[0]))(t)
	}
	if _, h := take(export(ExportOptions{})); len(h.Done) != 0 || len(h.Undone) != 0 {
		t.Errorf("without the history it came with %+v", h)
	}
	got, h := take(export(ExportOptions{History: true}))
	if diff := cmp.Diff(must(b.History(id))(t), h); diff != "" {
		t.Error(diff)
	}
	if r, label, ok, err := c.Redo(got); err != nil || !ok || r.Notes != "three" || label != "Write three" || r.Sketch.Image != j.Sketch.Image {
		t.Errorf("redo after the import: %q %q %v %v", r.Notes, label, ok, err)
	}
	for range 3 {
		if _, _, ok, err := c.Undo(got); !ok || err != nil {
			t.Fatal(ok, err)
		}
	}
	if r := must(c.Get(got))(t); r.Notes != "" {
		t.Errorf("undone to the start it reads %q", r.Notes)
	}

	// A job file that was edited on the way is one edit more.
	edited := shop(1)
	edited.Notes = "by hand"
	state := func(notes string) string {
		s := shop(1)
		s.Notes = notes
		return string(s.Encode())
	}
	files := map[string]string{
		"book.json": `{"haunchbook-export": 1}`, "jobs/1/job.json": string(edited.Encode()), "jobs/1/about.json": `{"state": "draft", "at": 1}`,
		"jobs/1/history/1.json": `{"label": "New job", "time": "2026-03-02T07:00:00Z", "job": ` + state("") + `}`,
		"jobs/1/history/2.json": `{"label": "Write one", "time": "2026-03-02T07:01:00Z", "job": ` + state("one") + `}`,
	}
	got, h = take(bundle(t, files))
	if len(h.Done) != 1 || h.Done[0].Label != "Imported" || len(h.Undone) != 0 {
		t.Errorf("the history of an edited file: %+v", h)
	}
	if r := must(c.Get(got))(t); r.Notes != "by hand" {
		t.Errorf("the edited file reads %q", r.Notes)
	}
	files["jobs/1/about.json"] = `{"state": "draft", "at": 7}`
	if _, err := c.ImportBytes(context.Background(), bundle(t, files)); !IsKind(err, Invalid) || !strings.Contains(err.Error(), "about.json: at: found 7") {
		t.Errorf("a history that stands nowhere: %v", err)
	}
	if err := c.Verify(); err != nil {
		t.Error(err)
	}
}

func TestPricesAt(t *testing.T) {
	b := open(t, newPath(t))
	prices := estimate.Starting(geometry.FeetInches)
	for _, name := range []string{"Winter", "Spring"} {
		prices.Name = name
		if err := b.SetPrices(prices); err != nil {
			t.Fatal(err)
		}
	}
	h := must(b.PriceHistory(geometry.FeetInches))(t)
	for _, c := range []struct {
		at   time.Time
		want string
	}{
		{h[0].Stored.Add(-time.Second), estimate.Starting(geometry.FeetInches).Name},
		{h[0].Stored, "Winter"}, {h[1].Stored.Add(-1), "Winter"}, {h[1].Stored.Add(time.Hour), "Spring"},
	} {
		if got := must(b.PricesAt(geometry.FeetInches, c.at))(t); got.Name != c.want {
			t.Errorf("at %v: %q, want %q", c.at, got.Name, c.want)
		}
	}
}
