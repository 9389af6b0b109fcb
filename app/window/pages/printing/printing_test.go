package printing

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/export/sheet"
	"haunchbook.example/export/workbook"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// opened is the page of the sample job in a book with settings.
func opened(t *testing.T) (*hands.Desk, *Page) {
	t.Helper()
	book := hands.Book(t)
	var logo bytes.Buffer
	if err := png.Encode(&logo, image.NewGray(image.Rect(0, 0, 40, 20))); err != nil {
		t.Fatal(err)
	}
	err := book.SetSettings(storage.Settings{
		Company: storage.Company{Name: "Sample Flatwork", Lines: []string{"1 Yard Road", "", "License 12345"}, Logo: logo.Bytes()},
		Start:   shelf.StartOf(shelf.Blank(geometry.FeetInches)), Frost: 31 * geometry.Inch, Paper: sheet.Tabloid.Name,
	})
	if err != nil {
		t.Fatal(err)
	}
	d := hands.NewDesk(t, hands.Demo(t), book)
	p := New(d, d.Shelf, &document.Scheduler{})
	d.Beside(p)
	return d, p
}

// to prints what is ticked.
func to(d *hands.Desk, folder string) {
	d.Hinted("Folder to write to").SetText(folder)
	d.Press("Write")
}

// held has a page's work wait until it is called.
func held(p *Page) *[]func() {
	var work []func()
	p.work.Go = func(f func()) { work = append(work, f) }
	p.work.Post = func(f func()) { f() }
	return &work
}

func revisions(t *testing.T, d *hands.Desk) []storage.Revision {
	t.Helper()
	r, err := d.Shelf.Book().Revisions(d.Shelf.ID())
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// pdfText gives the text of a PDF.
func pdfText(t *testing.T, path string) string {
	t.Helper()
	out, err := exec.Command("pdftotext", "-layout", path, "-").Output()
	if errors.Is(err, exec.ErrNotFound) && os.Getenv("CI") == "" {
		t.Skip("pdftotext is not installed: go run ./cmd/dev test installs it")
	}
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return string(out)
}

// one gives the one file of a folder whose name ends so.
func one(t *testing.T, folder, end string) string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(folder, "*-"+end))
	if err != nil || len(found) != 1 {
		t.Fatalf("files that end in %s: %v, %v", end, found, err)
	}
	return found[0]
}

func exists(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

func TestPrintKeepsARevisionAndHeadsTheSheets(t *testing.T) {
	d, _ := opened(t)
	folder := filepath.Join(t.TempDir(), "sheets")
	to(d, folder)
	d.Reads("Written", "Each print keeps a revision")
	r := revisions(t, d)
	if len(r) != 1 || r[0].Note != "printed: J-0001-Shop-addition-Lot-7-rev-A-layout.pdf, J-0001-Shop-addition-Lot-7-rev-A-materials.xlsx" {
		t.Fatalf("revisions %+v", r)
	}
	kept, err := d.Shelf.Book().Revision(d.Shelf.ID(), 1)
	if err != nil || !bytes.Equal(kept.Encode(), d.Base().Encode()) {
		t.Errorf("the revision is not the job that was printed: %v", err)
	}
	x, err := excelize.OpenFile(one(t, folder, "materials.xlsx"))
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
	text := pdfText(t, one(t, folder, "layout.pdf"))
	for _, want := range []string{"Sample Flatwork", "License 12345", "Frost depth"} {
		if !strings.Contains(text, want) {
			t.Errorf("the layout sheet does not show %q", want)
		}
	}
	info, err := exec.Command("pdfinfo", one(t, folder, "layout.pdf")).Output()
	if err == nil && !strings.Contains(string(info), "792 x 1224") && !strings.Contains(string(info), "1224 x 792") {
		t.Errorf("the paper of the settings is 11 by 17 in; the sheet has %s", info)
	}
	to(d, filepath.Join(t.TempDir(), "again"))
	if r := revisions(t, d); len(r) != 2 {
		t.Errorf("printed twice: revisions %+v", r)
	}
}

func TestBidWantsOnesOwnPrices(t *testing.T) {
	d, p := opened(t)
	estimated := func() estimate.Estimate {
		t, _ := d.Takeoff()
		return estimate.Of(*t, d.Job().Pricing(), d.Prices())
	}
	folder := filepath.Join(t.TempDir(), "bid")
	for _, o := range outputs {
		if p.ticked[o.name] != (o.name == bidFile) {
			d.Tick(o.about, 0)
		}
	}
	d.Reads("The bid is a draft, and is not written", "invented", "Concrete to order: $168.00 per yd³", "Wage: $54.00")
	to(d, folder)
	d.Reads("not written")
	if exists(folder) || len(revisions(t, d)) != 0 {
		t.Errorf("a bid with invented prices was written, with revisions %+v", revisions(t, d))
	}
	d.Press("Enter my prices…")
	if d.Last() != "prices" {
		t.Errorf("asked %v", d.Asked)
	}

	// With one's own prices, which the bid keeps whatever comes.
	list := estimate.Starting(geometry.FeetInches)
	list.Invented, list.Name = false, "Our prices"
	book := d.Shelf.Book()
	if err := book.SetPrices(list); err != nil {
		t.Fatal(err)
	}
	d.ForgetPrices()
	d.Refresh()
	d.ReadsNot("The bid is a draft, and is not written")
	bid := estimated().Bid
	to(d, folder)
	d.Reads(bidFile)
	text := pdfText(t, one(t, folder, bidFile))
	if want := estimate.Money("$", bid); !strings.Contains(text, want) || strings.Contains(text, "Draft") {
		t.Errorf("the bid does not ask %s:\n%s", want, text)
	}
	s, err := book.Summary(d.Shelf.ID())
	if err != nil || s.State != storage.Bid {
		t.Errorf("the job is in state %v, %v", s.State, err)
	}
	if r := revisions(t, d); len(r) != 1 || !strings.Contains(r[0].Note, bidFile) {
		t.Errorf("revisions %+v", r)
	}
	list.Wage = list.Wage.Add(decimal.NewFromInt(40))
	if err := book.SetPrices(list); err != nil {
		t.Fatal(err)
	}
	d.ForgetPrices()
	if now := estimated().Bid; !now.Equal(bid) {
		t.Errorf("the bid was %s, with a new list it is %s", bid, now)
	}
	if kept, err := book.Revision(d.Shelf.ID(), 1); err != nil || kept.Price.Prices.Name != "Our prices" {
		t.Errorf("the revision of the bid keeps the prices %q, %v", kept.Price.Prices.Name, err)
	}
}

func TestPrintCanBeStopped(t *testing.T) {
	d, p := opened(t)
	folder := filepath.Join(t.TempDir(), "sheets")
	work := held(p)
	to(d, folder)
	if len(*work) != 1 {
		t.Fatalf("%d pieces of work", len(*work))
	}
	d.Press("Stop")
	d.Reads("nothing was written")
	(*work)[0]()
	if exists(folder) || len(revisions(t, d)) != 0 {
		t.Errorf("it wrote after it was stopped; revisions %+v", revisions(t, d))
	}
	ctx, stop := context.WithCancel(context.Background())
	_, err := makeFiles(ctx, source{Handover: handover.Of(handover.From{Job: d.Base(), Prices: d.Prices()})}, []string{"layout.pdf", "materials.xlsx"}, func(done int, _ string) {
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
	d, p := opened(t)
	folder := filepath.Join(t.TempDir(), "sheets")
	work := held(p)
	to(d, folder)
	j := d.Job()
	j.Notes = "changed"
	d.Commit("Notes", j)
	(*work)[0]()
	if exists(folder) {
		t.Error("files of an earlier state were written as a revision of this one")
	}
	d.Reads("The job was changed while")
	d.ReadsNot("Written")
}

// Every file is written, whole; nothing where there is nothing to write or nowhere.
func TestEveryFile(t *testing.T) {
	d := hands.NewDesk(t, hands.Demo(t), nil)
	p := New(d, d.Shelf, &document.Scheduler{})
	d.Beside(p)
	d.Reads("no revision is kept")
	folder := filepath.Join(t.TempDir(), "all")
	for _, o := range outputs {
		if !p.ticked[o.name] && o.name != bidFile {
			d.Tick(o.about, 0)
		}
	}
	d.Select("Paper", d.List("Paper").Options[1])
	to(d, folder)
	files, err := os.ReadDir(folder)
	e, priced := p.frame.Current().Estimate(t.Context())
	if err != nil || priced != nil || len(files) != len(outputs)-2+len(e.Requests()) { // the bid is a draft
		t.Errorf("the folder holds %v, %v, %v", files, err, priced)
	}
	if got := p.folder(); filepath.Dir(got) != filepath.Dir(folder) {
		t.Errorf("the next print goes to %s", got)
	}
	to(d, "")
	d.Reads("Name a folder")
	for _, o := range outputs {
		if p.ticked[o.name] {
			d.Tick(o.about, 0)
		}
	}
	to(d, folder)
	d.Reads("Tick what to write")
	p.work.Go = func(f func()) { f() }
	p.work.Do("making the files", func() error { panic("spoiled") }, func(err error) { p.run.finish(nil, err) })
	d.Reads(fmt.Sprintf("aking the files failed (%s)", "spoiled"))
}

func TestNothingToPrint(t *testing.T) {
	d := hands.NewDesk(t, shelf.Blank(geometry.FeetInches), nil)
	d.Beside(New(d, d.Shelf, &document.Scheduler{}))
	d.Reads("nothing to print yet")
	d.Press("Back")
	if d.Last() != "back" {
		t.Errorf("asked %v", d.Asked)
	}
	j := hands.Demo(t)
	j.Slabs[0].Field = -geometry.Foot
	d.Commit("Spoil", j)
	d.Reads("The plan has faults")
}

// What came of a print lies in sight in a low window, and none of it over the other.
func TestResultIsInSight(t *testing.T) {
	d, p := opened(t)
	d.Window().Resize(fyne.NewSize(334, 600)) // the panel in a window of 1024 by 700
	to(d, filepath.Join(t.TempDir(), "a folder with a name of some length", "and one within it of some length too"))
	d.Reads("Written:")
	d.Window().Resize(fyne.NewSize(334, 601)) // lays out what grew, as the next frame does on a screen
	at := func(o fyne.CanvasObject) (top, bottom float32) {
		y := fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Y
		return y, y + o.Size().Height
	}
	above := float32(0)
	for _, o := range []fyne.CanvasObject{p.run.write, p.run.said, p.run.open} {
		top, bottom := at(o)
		if top < above || bottom > 600 {
			t.Errorf("%T stands from %g to %g; what is above ends at %g", o, top, bottom, above)
		}
		above = bottom
	}
	if least := p.run.said.MinSize().Height; p.run.said.Size().Height < least {
		t.Errorf("the text has %g of the %g that it needs", p.run.said.Size().Height, least)
	}
}

// Each supplier's request is a file of its own, named as the others are.
func TestRequestsAreWritten(t *testing.T) {
	d, p := opened(t)
	for name := range p.ticked {
		p.ticked[name] = name == requestFile
	}
	dir := t.TempDir()
	to(d, dir)
	e, err := p.frame.Current().Estimate(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	asked := e.Requests()
	if len(asked) < 2 {
		t.Fatalf("%d suppliers", len(asked))
	}
	for i, r := range asked {
		data, err := os.ReadFile(filepath.Join(dir, "J-0001-Shop-addition-Lot-7-rev-A-"+workbook.RequestName(i, r)))
		if err != nil {
			t.Fatal(err)
		}
		q, err := workbook.ReadQuote(data)
		if r.Supplier != "" && (err != nil || q.Supplier != r.Supplier || len(q.Lines) != len(r.Lines)) {
			t.Errorf("%s: %d lines, %v", r.Supplier, len(q.Lines), err)
		}
	}
}
