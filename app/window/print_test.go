package window

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	fynestorage "fyne.io/fyne/v2/storage"
	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"haunchbook.example/app/estimate"
	"haunchbook.example/export/sheet"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// withBook is a window on the sample job in a book with settings.
func withBook(t *testing.T) *Window {
	t.Helper()
	book, err := storage.Open(filepath.Join(t.TempDir(), "jobs.book"), storage.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = book.Close() })
	var logo bytes.Buffer
	if err := png.Encode(&logo, image.NewGray(image.Rect(0, 0, 40, 20))); err != nil {
		t.Fatal(err)
	}
	err = book.SetSettings(storage.Settings{
		Company: storage.Company{Name: "Sample Flatwork", Lines: []string{"1 Yard Road", "", "License 12345"}, Logo: logo.Bytes()},
		Start:   startOf(Blank(geometry.FeetInches)), Frost: 31 * geometry.Inch, Paper: sheet.Tabloid.Name,
	})
	if err != nil {
		t.Fatal(err)
	}
	return open(t, Options{Job: demoJob(t), Book: book})
}

// printTo prints what is ticked and gives what the page says then.
func printTo(t *testing.T, w *Window, folder string) string {
	t.Helper()
	findEntry(t, w, "Folder to write to").SetText(folder)
	w.written.OnTapped()
	return texts(w.edit.form.box)
}

// pdfText gives the text of a PDF.
func pdfText(t *testing.T, path string) string {
	t.Helper()
	out, err := exec.Command("pdftotext", "-layout", path, "-").Output()
	if errors.Is(err, exec.ErrNotFound) {
		t.Skip("pdftotext is not installed")
	}
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return string(out)
}

func TestPrintKeepsARevisionAndHeadsTheSheets(t *testing.T) {
	w := withBook(t)
	w.showPrint()
	folder := filepath.Join(t.TempDir(), "sheets")
	if said := printTo(t, w, folder); !strings.Contains(said, "Written") {
		t.Fatalf("it says %s", said)
	}
	revisions, err := w.book.Revisions(w.id)
	if err != nil || len(revisions) != 1 || revisions[0].Note != "printed: layout.pdf, materials.xlsx" {
		t.Fatalf("revisions %+v, %v", revisions, err)
	}
	kept, err := w.book.Revision(w.id, 1)
	if err != nil || !bytes.Equal(kept.Encode(), w.doc.Base().Encode()) {
		t.Errorf("the revision is not the job that was printed: %v", err)
	}
	x, err := excelize.OpenFile(filepath.Join(folder, "materials.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	defer x.Close()
	found := false
	for _, s := range x.GetSheetList() {
		rows, err := x.GetRows(s)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range rows {
			found = found || slices.ContainsFunc(r, func(c string) bool { return strings.Contains(c, "Sample Flatwork") })
		}
	}
	if !found {
		t.Error("the workbook does not name the company")
	}
	text := pdfText(t, filepath.Join(folder, "layout.pdf"))
	for _, want := range []string{"Sample Flatwork", "License 12345", "Frost depth"} {
		if !strings.Contains(text, want) {
			t.Errorf("the layout sheet does not show %q", want)
		}
	}
	info, err := exec.Command("pdfinfo", filepath.Join(folder, "layout.pdf")).Output()
	if err == nil && !strings.Contains(string(info), "792 x 1224") && !strings.Contains(string(info), "1224 x 792") {
		t.Errorf("the paper of the settings is 11 by 17 in; the sheet has %s", info)
	}
}

func TestBidWantsOnesOwnPrices(t *testing.T) {
	w := withBook(t)
	w.showPrint()
	folder := filepath.Join(t.TempDir(), "bid")
	for _, o := range outputs {
		w.ticked[o.name] = o.name == bidFile
	}
	w.edit.turn(printPage)
	said := texts(w.edit.form.box)
	for _, want := range []string{"must be your own", "invented", "Concrete to order: $168.00 per yd³", "Wage: $54.00"} {
		if !strings.Contains(said, want) {
			t.Errorf("it does not ask for %q:\n%s", want, said)
		}
	}
	if said := printTo(t, w, folder); !strings.Contains(said, "not written") {
		t.Errorf("with invented prices it says %s", said)
	}
	if exists(filepath.Join(folder, bidFile)) {
		t.Error("a bid with invented prices was written")
	}
	if r, err := w.book.Revisions(w.id); err != nil || len(r) != 0 {
		t.Errorf("a revision is kept of what was not written: %v, %v", r, err)
	}
	press(t, w.edit.form.box, "Enter my prices")
	if w.pages.at != priceView {
		t.Error("it does not go to the prices")
	}

	// With one's own prices, which the bid keeps whatever comes.
	list := estimate.Starting(geometry.FeetInches)
	list.Invented, list.Name = false, "Our prices"
	if err := w.book.SetPrices(list); err != nil {
		t.Fatal(err)
	}
	w.kept = nil
	w.showPrint()
	if said := texts(w.edit.form.box); strings.Contains(said, "must be your own") {
		t.Errorf("with one's own prices it still asks:\n%s", said)
	}
	bid := w.estimated(t).Bid
	if said := printTo(t, w, folder); !strings.Contains(said, bidFile) {
		t.Fatalf("it says %s", said)
	}
	text := pdfText(t, filepath.Join(folder, bidFile))
	if want := money(w.estimated(t), bid); !strings.Contains(text, want) || strings.Contains(text, "Draft") {
		t.Errorf("the bid does not ask %s:\n%s", want, text)
	}
	s, err := w.book.Summary(w.id)
	if err != nil || s.State != storage.Bid {
		t.Errorf("the job is in state %v, %v", s.State, err)
	}
	if r, err := w.book.Revisions(w.id); err != nil || len(r) != 1 || !strings.Contains(r[0].Note, bidFile) {
		t.Errorf("revisions %+v, %v", r, err)
	}
	list.Wage = list.Wage.Add(decimal.NewFromInt(40))
	if err := w.book.SetPrices(list); err != nil {
		t.Fatal(err)
	}
	w.kept = nil
	if now := w.estimated(t).Bid; !now.Equal(bid) {
		t.Errorf("the bid was %s, with a new list it is %s", bid, now)
	}
	if kept, err := w.book.Revision(w.id, 1); err != nil || kept.Price.Prices.Name != "Our prices" {
		t.Errorf("the revision of the bid keeps the prices %q, %v", kept.Price.Prices.Name, err)
	}
}

func TestPrintCanBeStopped(t *testing.T) {
	w := withBook(t)
	w.showPrint()
	folder := filepath.Join(t.TempDir(), "sheets")
	// A scheduler that keeps back what runs beside the window.
	var work []func()
	w.scheduler.Go = func(f func()) { work = append(work, f) }
	w.scheduler.Post = func(f func()) { f() }
	printTo(t, w, folder)
	if len(work) != 1 {
		t.Fatalf("%d pieces of work", len(work))
	}
	press(t, w.edit.form.box, "Stop")
	if said := texts(w.edit.form.box); !strings.Contains(said, "nothing was written") {
		t.Errorf("stopped, it says %s", said)
	}
	work[0]()
	if exists(folder) {
		t.Error("it wrote after it was stopped")
	}
	if r, _ := w.book.Revisions(w.id); len(r) != 0 {
		t.Errorf("revisions %+v", r)
	}

	ctx, stop := context.WithCancel(context.Background())
	names := []string{"layout.pdf", "materials.xlsx"}
	_, err := makeFiles(ctx, printing{job: w.doc.Base(), prices: w.prices()}, names, func(done int, _ string) {
		if done == 1 {
			stop()
		}
	})
	if !errors.Is(err, errStopped) {
		t.Errorf("stopped between files: %v", err)
	}
}

// A job that was changed while its files were made is not printed as it was.
func TestPrintOfAChangedJob(t *testing.T) {
	w := withBook(t)
	w.showPrint()
	folder := filepath.Join(t.TempDir(), "sheets")
	var work []func()
	was := w.scheduler
	w.scheduler.Go = func(f func()) { work = append(work, f) }
	w.scheduler.Post = func(f func()) { f() }
	printTo(t, w, folder)
	w.scheduler = was
	j := w.doc.Job()
	j.Notes = "changed"
	w.doc.Commit("Notes", j)
	work[0]()
	if exists(folder) {
		t.Error("files of an earlier state were written as a revision of this one")
	}
}

func TestNewJobsStartFromTheSettings(t *testing.T) {
	w := withBook(t)
	s, err := w.book.Settings()
	if err != nil {
		t.Fatal(err)
	}
	usual := demoJob(t)
	usual.Units = geometry.Millimeters
	usual.Spec.Order.Waste = decimal.NewFromInt(9)
	s.Start = startOf(usual)
	if err := w.book.SetSettings(s); err != nil {
		t.Fatal(err)
	}
	before := w.id
	w.newJob()
	j := w.doc.Job()
	if w.id == before || j.Units != geometry.Millimeters || !j.Spec.Order.Waste.Equal(decimal.NewFromInt(9)) || len(j.Slabs) != 1 || len(j.Slabs[0].Outline) != 0 || j.Customer != "" {
		t.Errorf("a new job starts as %+v", j)
	}
	if len(j.Slabs[0].Sections) != len(usual.Slabs[0].Sections) || j.Pour.Weathering != usual.Pour.Weathering {
		t.Errorf("without its sections or region: %+v, %v", j.Slabs[0].Sections, j.Pour.Weathering)
	}
	if got, err := w.book.Get(w.id); err != nil || got.Units != geometry.Millimeters {
		t.Errorf("the book has it in %v, %v", got.Units, err)
	}
}

// Every field of the settings' form reads and writes.
func TestSettingsForm(t *testing.T) {
	w := withBook(t)
	w.pages.turn(bookView)
	p := bookViewOf(w)
	p.turn(5)
	type fieldOf struct {
		label, text string
		got         func(storage.Settings) string
	}
	for _, f := range []fieldOf{
		{"Name", "Other Flatwork", func(s storage.Settings) string { return s.Company.Name }},
		{"Address", "2 Pit Road", func(s storage.Settings) string { return s.Company.Lines[0] }},
		{"Phone", "555 0199", func(s storage.Settings) string { return s.Company.Lines[1] }},
		{"Frost depth", `3'-4"`, func(s storage.Settings) string { return s.Frost.Text(geometry.FeetInches) }},
		{"Waste, %", "7.5", func(s storage.Settings) string { return s.Start.Spec.Order.Waste.String() }},
		{"Overhead, % of cost", "12", func(s storage.Settings) string { return s.Start.Price.Overhead.String() }},
	} {
		w.enter(t, labeledEntry(t, p.body, f.label), f.text)
		s, err := w.book.Settings()
		if err != nil {
			t.Fatal(err)
		}
		if got := f.got(s); got != f.text {
			t.Errorf("%s: the book has %q, want %q", f.label, got, f.text)
		}
	}
	e := labeledEntry(t, p.body, "Overhead, % of cost")
	w.enter(t, e, "1200")
	wantText(t, p.body, "found 1200")
	if s, _ := w.book.Settings(); !s.Start.Price.Overhead.Equal(decimal.NewFromInt(12)) {
		t.Errorf("a faulty overhead was kept: %s", s.Start.Price.Overhead)
	}
	if err := checkLogo([]byte("no picture")); err == nil || !strings.Contains(err.Error(), "PNG or JPEG") {
		t.Errorf("a text as a logo: %v", err)
	}
}

// labeledEntry gives the field beside a label.
func labeledEntry(t *testing.T, in fyne.CanvasObject, label string) *entry {
	t.Helper()
	var found *entry
	every(in, func(o fyne.CanvasObject) {
		if c, ok := o.(*fyne.Container); ok && len(c.Objects) == 2 && textOf(c.Objects[0]) == label {
			if e, ok := c.Objects[1].(*entry); ok {
				found = e
			}
		}
	})
	if found == nil {
		t.Fatalf("no field %q", label)
	}
	return found
}

// The whole book goes out as open files and comes back, by the page's own ways.
func TestExportAndImportFromThePage(t *testing.T) {
	w := withBook(t)
	w.pages.turn(bookView)
	p := bookViewOf(w)
	path := filepath.Join(t.TempDir(), "jobs.zip")
	p.saveAs(path, func(out io.Writer) error {
		return w.book.Export(out, storage.ExportOptions{History: true})
	})
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	p.importBundle(data)
	if all, err := w.book.List(); err != nil || len(all) != 2 {
		t.Errorf("%d jobs, %v; want the one and its import", len(all), err)
	}
	if w.machine.Info != "Imported 1 job" {
		t.Errorf("it says %q", w.machine.Info)
	}
	p.importBundle([]byte("no export"))
	if !strings.Contains(w.machine.Notice, "no export of a job book") {
		t.Errorf("of a text file it says %q", w.machine.Notice)
	}
	p.turn(6)
	press(t, p.body, "Check every record")
	wantText(t, p.body, "Every record is as it was written")
	press(t, p.body, "Make the file smaller")
	if err := w.book.Verify(); err != nil {
		t.Error(err)
	}
}

func TestPriceListsOnThePage(t *testing.T) {
	w := withBook(t)
	list := estimate.Starting(geometry.FeetInches)
	for i, name := range []string{"Winter", "Spring"} {
		list.Name = name
		list.Wage = decimal.NewFromInt(int64(60 + i))
		if err := w.book.SetPrices(list); err != nil {
			t.Fatal(err)
		}
	}
	w.pages.turn(bookView)
	p := bookViewOf(w)
	p.turn(4)
	wantText(t, p.body, "Wage per labor hour", "$60.00", "$61.00")
}

func TestPrintedTwice(t *testing.T) {
	w := withBook(t)
	w.showPrint()
	for i := range 2 {
		printTo(t, w, filepath.Join(t.TempDir(), fmt.Sprint(i)))
	}
	if r, err := w.book.Revisions(w.id); err != nil || len(r) != 2 {
		t.Errorf("%d revisions, %v", len(r), err)
	}
}

// A file chosen in the toolkit's dialog is emptied by it before anything is written:
// not here, where what is written is whole or is not there.
func TestChosenFileIsReplacedWhole(t *testing.T) {
	withBook(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "job.json")
	if err := os.WriteFile(path, []byte("the old job"), 0o600); err != nil {
		t.Fatal(err)
	}
	check := func(want string) {
		t.Helper()
		if got, err := os.ReadFile(path); err != nil || string(got) != want {
			t.Errorf("the file holds %q, %v; want %q", got, err, want)
		}
		if files, _ := os.ReadDir(dir); len(files) != 1 {
			t.Errorf("the folder holds %v", files)
		}
	}
	choose := func() fyne.URIWriteCloser {
		f, err := fynestorage.Writer(fynestorage.NewFileURI(path)) // as the dialog does
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	f := choose()
	check("the old job")
	if err := f.Close(); err != nil {
		t.Error(err)
	}
	check("the old job")
	f = choose()
	if _, err := io.WriteString(f, "the new job"); err != nil {
		t.Fatal(err)
	}
	check("the old job")
	if err := f.Close(); err != nil {
		t.Error(err)
	}
	check("the new job")
}

// exists tells whether there is a file.
func exists(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}
