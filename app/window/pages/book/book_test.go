package book

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// opened is the page of a book with the sample job in it.
func opened(t *testing.T) (*hands.Desk, *Page) {
	t.Helper()
	d := hands.NewDesk(t, hands.Demo(t), hands.Book(t))
	p := New(d, d.Shelf, d.Fonts, document.Scheduler{})
	d.Show(p)
	return d, p
}

// part shows a part of the page, and gives hands for it.
func (p *Page) shown(t *testing.T, name string) hands.Hands {
	t.Helper()
	for i, q := range p.parts {
		if q.name == name {
			p.turn(i)
			return hands.On(t, p.body)
		}
	}
	t.Fatalf("no part %q", name)
	return hands.Hands{}
}

func must[T any](t *testing.T) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func TestList(t *testing.T) {
	d, p := opened(t)
	first := d.Shelf.ID()
	if len(p.listed) != 1 || p.chosen != first {
		t.Fatalf("%d jobs are listed, %v is chosen", len(p.listed), p.chosen)
	}
	p.shown(t, "Job").Press("Copy it as a start for another")
	second := p.chosen
	if second == first || len(p.listed) != 2 {
		t.Fatalf("%d jobs are listed, %v is chosen", len(p.listed), second)
	}
	d.Type(p.search, "copy")
	if d.Last() != "open "+second.String() {
		t.Errorf("Enter in the search asks %v", d.Asked)
	}
	p.search.SetText("copy")
	if len(p.listed) != 1 || p.listed[0].ID != second {
		t.Errorf("the search finds %+v", p.listed)
	}
	d.Key(p.search, fyne.KeyEscape)
	if p.search.Text != "" || len(p.listed) != 2 {
		t.Errorf("Esc leaves %q and %d jobs", p.search.Text, len(p.listed))
	}
	d.Select("Sorted", "by number")
	if p.listed[0].ID != first {
		t.Errorf("by number: %+v", p.listed)
	}
	d.Tick("Archived: out of the everyday list", 0)
	if len(p.listed) != 1 || p.chosen != second {
		t.Errorf("%d jobs are listed with one archived, %v chosen", len(p.listed), p.chosen)
	}
	d.Reads("1 more not listed", "Archived.")
	d.Tick("Archived jobs too", 0)
	if len(p.listed) != 2 {
		t.Errorf("%d jobs are listed with the archived ones", len(p.listed))
	}
	d.Reads("Shop addition, Lot 7   (open)")
	d.Key(p.search, fyne.KeyDown)
	if got := d.Window().Canvas().Focused(); got != fyne.Focusable(p.list) {
		t.Errorf("the arrow down goes to %T", got)
	}
	p.list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if p.chosen != first || d.Last() != "home" {
		t.Errorf("Enter on the open job: %v is chosen, asked %v", p.chosen, d.Asked)
	}
	for _, name := range []string{"New job", "Sample job"} {
		d.Press(name)
		if d.Last() != strings.TrimSuffix(strings.ToLower(name), " job") && d.Last() != strings.ToLower(name) {
			t.Errorf("%s asks %v", name, d.Asked)
		}
	}
}

func TestDelete(t *testing.T) {
	d, p := opened(t)
	job := p.shown(t, "Job")
	job.Press("Delete…")
	job.Press("Delete it for good")
	if !strings.Contains(d.Told, "open another first") {
		t.Errorf("of the open job it says %q", d.Told)
	}
	job = p.shown(t, "Job")
	job.Press("Copy it as a start for another")
	job = p.shown(t, "Job")
	job.Press("Delete…")
	job.Press("Delete it for good")
	if len(p.listed) != 1 || p.chosen != d.Shelf.ID() || !strings.Contains(d.Told, "Deleted") {
		t.Errorf("%d jobs are listed; it says %q", len(p.listed), d.Told)
	}
}

// Two revisions, and what changed between them in words, quantity and price.
func TestRevisions(t *testing.T) {
	d, p := opened(t)
	r := p.shown(t, "Revisions")
	r.Reads("None yet")
	d.Type(r.Hinted("Why"), "before")
	r.Reads("before", "Nothing changed.")
	j := d.Job()
	was := j.Encode()
	j.Slabs = append(j.Slabs[:0:0], j.Slabs...)
	j.Slabs[0].Field += geometry.Inch
	d.Commit("Thicker", j)
	r.Reads("field", `6"`, `7"`, "Bid", "Concrete to order")
	r.Press("Bring the “from” state back")
	if !bytes.Equal(d.Job().Encode(), was) || d.Last() != "home" {
		t.Errorf("the job is not as it was; asked %v", d.Asked)
	}
	r.Select("To", r.List("From").Selected)
	r.Reads("Nothing changed.")
	p.work.Run("comparing the revisions", func(context.Context) error { panic("spoiled") }, func(err error) { d.Say(err.Error()) })
	if !strings.Contains(d.Told, "failed (spoiled)") {
		t.Errorf("a panic says %q", d.Told)
	}
}

// A revision of another job comes back in that job, and can be undone there.
func TestRevisionOfAnotherJob(t *testing.T) {
	d, p := opened(t)
	b := d.Shelf.Book()
	other := hands.Demo(t)
	other.Name = "Other"
	id := must[storage.ID](t)(b.Create(other))
	must[int](t)(b.Revise(id, "before"))
	now := other
	now.Notes = "later"
	if err := b.Edit(id, "Notes", now); err != nil {
		t.Fatal(err)
	}
	first, before := d.Shelf.ID(), d.Base()
	p.Update()
	p.choose(id)
	p.shown(t, "Revisions").Press("Bring the “from” state back")
	if got, err := b.Get(id); err != nil || d.Shelf.ID() != id || got.Notes != other.Notes {
		t.Errorf("job %v is open and reads %q, %v", d.Shelf.ID(), got.Notes, err)
	}
	d.Undo()
	if got, err := b.Get(id); err != nil || got.Notes != "later" {
		t.Errorf("undone it reads %q, %v", got.Notes, err)
	}
	if got, err := b.Get(first); err != nil || !bytes.Equal(got.Encode(), before.Encode()) {
		t.Errorf("the job that was open was changed: %v", err)
	}
}

func TestAfterThePour(t *testing.T) {
	d, p := opened(t)
	b, id := d.Shelf.Book(), d.Shelf.ID()
	f := p.shown(t, "After the pour")
	record := func() actual.Record {
		r, _, err := b.Record(id)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	to, _ := d.Takeoff()
	volume := ", yd³"
	for _, v := range [][2]string{{"Poured on", "2026-05-02"}, {"Ordered" + volume, "25"}, {"Delivered" + volume, "25"}, {"Left over" + volume, "1"}, {"Trucks", "3"}, {"Weather", "fair"}, {"Notes", "went well"}} {
		f.Fill(v[0], v[1])
	}
	if r := record(); r.Poured != "2026-05-02" || !r.Ordered.Equal(decimal.NewFromInt(25)) || !r.Left.Valid || !r.Left.Decimal.Equal(decimal.NewFromInt(1)) || r.Trucks != 3 || r.Notes != "went well" {
		t.Errorf("the record is %+v", r)
	}
	f.Reads("Estimate against actual", "Concrete delivered", "Waste")
	task := ""
	for _, l := range estimate.Of(*to, d.Job().Pricing(), d.Prices()).Lines {
		if l.Kind == estimate.Labor {
			task = l.Name
		}
	}
	f.Fill(task, "12.5")
	if r := record(); len(r.Hours) != 1 || r.Hours[0].Task != task {
		t.Errorf("hours %+v", r.Hours)
	}
	f.Press("Add an invoice")
	i := slices.IndexFunc(f.Entries(), func(e *form.Entry) bool { return e.Text == "0.00" })
	f.Type(f.Entries()[i], "1450.5")
	f.Type(f.Entries()[i+1], "Sample plant")
	f.Reads("Margin by kind of work", "Not written down", "$1,450.50")
	if v := record().Invoices; len(v) != 1 || v[0].For != "Ready-mix" || !v[0].Amount.Equal(decimal.RequireFromString("1450.5")) {
		t.Errorf("invoices %+v", v)
	}
	f.Fill("Left over"+volume, "0")
	if r := record(); !r.Left.Valid || !r.Left.Decimal.IsZero() {
		t.Errorf("nothing left over is kept as %+v", r.Left)
	}
	f.Fill("Left over"+volume, "")
	if r := record(); r.Left.Valid {
		t.Errorf("what nobody wrote down is kept as %+v", r.Left)
	}
	f.ReadsNot("Concrete used")
	f.Fill("Left over"+volume, "0")
	f.Fill(task, "")
	f.Fill("Trucks", "some")
	f.Reads("! ")
	if r := record(); len(r.Hours) != 0 || r.Trucks != 3 {
		t.Errorf("the record is %+v", r)
	}
	p.shown(t, "Own figures").Reads("Waste")
}

// Loads are typed from field to field with Enter; what they come to counts as delivered.
func TestLoads(t *testing.T) {
	d, p := opened(t)
	id := d.Shelf.ID()
	f := p.shown(t, "After the pour")
	f.ReadsNot("Loads", "Add cylinders", "Page to file…")
	f.Press("Add a load")
	f.Press("Add a load")
	f.Fill("Left over, yd³", "0")
	record := func() actual.Record {
		r, _, err := d.Shelf.Record(id)
		return must[actual.Record](t)(r, err)
	}
	all := f.Entries()
	d.Window().Canvas().Focus(all[slices.Index(all, f.Field("Notes"))+1])
	for _, text := range []string{"4471", "9.5", "700", "7:25", "7:30", "9:05", "66", "5", "5.5", "3", "1", "4472", "2.25"} {
		e := d.Window().Canvas().Focused().(*form.Entry)
		e.SetText(text)
		e.OnSubmitted(text)
	}
	r := record()
	if l := r.Loads[0]; len(r.Loads) != 2 || l.Ticket != "4471" || l.Emptied != actual.At(9, 5) || l.Slump != 5*geometry.Inch || l.Temperature.F() != 66 || l.Bay != 1 {
		t.Fatalf("%+v", r)
	}
	if got := r.Came(); !got.Equal(decimal.RequireFromString("11.75")) {
		t.Errorf("%s came", got)
	}
	f.Reads("Load 1 was 125 min old", "come to 11.75 yd³", "Concrete delivered", "Load 1 got 3 gal")
	f.Press("Add cylinders")
	if r := record(); len(r.Cylinders) != 1 || r.Cylinders[0].Ticket != "4472" {
		t.Errorf("%+v", r.Cylinders)
	}
	var b bytes.Buffer
	if png.Encode(&b, d.Window().Canvas().Capture()) == nil && os.Getenv("HAUNCHBOOK_PICTURES") != "" {
		must[int](t)(0, os.WriteFile(filepath.Join(os.Getenv("HAUNCHBOOK_PICTURES"), "loads.png"), b.Bytes(), 0o600))
	}
}

// A mean of enough jobs is offered, and taken for this job and new ones.
func TestOwnFigures(t *testing.T) {
	d, p := opened(t)
	b := d.Shelf.Book()
	for i := range actual.EnoughJobs {
		id := must[storage.ID](t)(b.Create(hands.Demo(t)))
		r := actual.Record{Ordered: decimal.NewFromInt(25), Delivered: decimal.NewFromInt(25), Left: decimal.NewNullDecimal(decimal.NewFromInt(int64(i % 2)))}
		r.Hours = []actual.TaskHours{{Task: "Set forms", Hours: decimal.NewFromInt(10)}}
		if err := b.SetRecord(id, r); err != nil {
			t.Fatal(err)
		}
	}
	own := p.shown(t, "Own figures")
	own.Reads("Waste", "Set forms")
	waste, rate := d.Job().Spec.Order.Waste, must[estimate.PriceList](t)(b.Prices(d.Units()))
	for range 2 { // taken, a figure is in use and still offered
		own.Press("Take it")
	}
	if err := p.takeWaste(decimal.NewFromInt(7)); err != nil || d.Job().Spec.Order.Waste.Equal(waste) {
		t.Errorf("the waste is %s, %v", d.Job().Spec.Order.Waste, err)
	}
	if err := p.takeWaste(decimal.NewFromInt(-7)); err == nil {
		t.Error("a waste below zero is taken")
	}
	if err := p.takeRate("Set forms", decimal.NewFromInt(31)); err != nil {
		t.Error(err)
	}
	if now := must[estimate.PriceList](t)(b.Prices(d.Units())); fmt.Sprint(now.Tasks) == fmt.Sprint(rate.Tasks) {
		t.Error("the rates are as they were")
	}
}

func TestPriceLists(t *testing.T) {
	d, p := opened(t)
	lists := p.shown(t, "Price lists")
	lists.Reads("None is kept yet")
	b := d.Shelf.Book()
	list := estimate.Starting(geometry.FeetInches)
	for i, name := range []string{"Winter", "Spring"} {
		list.Name = name
		list.Wage = decimal.NewFromInt(int64(60 + i))
		if err := b.SetPrices(list); err != nil {
			t.Fatal(err)
		}
	}
	lists = p.shown(t, "Price lists")
	lists.Reads("Wage per labor hour", "$60.00", "$61.00")
	lists.Press("Let this list apply again")
	if !strings.Contains(d.Told, "applies already") {
		t.Errorf("it says %q", d.Told)
	}
	is := lists.List("List")
	lists.Select("List", is.Options[1])
	lists.Reads("No price differs.")
	lists.Press("Let this list apply again")
	if got := must[estimate.PriceList](t)(b.Prices(d.Units())); got.Name != "Winter" {
		t.Errorf("%q applies", got.Name)
	}
}

func TestBidKeepsItsPrices(t *testing.T) {
	d, p := opened(t)
	bid := func() decimal.Decimal {
		to, _ := d.Takeoff()
		return estimate.Of(*to, d.Job().Pricing(), d.Prices()).Bid
	}
	p.shown(t, "Job").Select("State", storage.Bid.String())
	was := bid()
	list := estimate.Starting(geometry.FeetInches)
	list.Wage = decimal.NewFromInt(90)
	if err := d.Shelf.Book().SetPrices(list); err != nil {
		t.Fatal(err)
	}
	d.ForgetPrices()
	if got := bid(); !got.Equal(was) {
		t.Errorf("the bid was %s, it is %s with a new list", was, got)
	}
	if r, err := d.Shelf.Book().Revisions(d.Shelf.ID()); err != nil || len(r) != 1 {
		t.Errorf("revisions %v, %v", r, err)
	}
}

// Every field of the settings reads and writes.
func TestSettings(t *testing.T) {
	d, p := opened(t)
	f := p.shown(t, "Settings")
	settings := func() storage.Settings { return must[storage.Settings](t)(d.Shelf.Settings()) }
	for _, c := range []struct {
		label, text string
		got         func(storage.Settings) string
	}{
		{"Name", "Other Flatwork", func(s storage.Settings) string { return s.Company.Name }},
		{"Address", "2 Pit Road", func(s storage.Settings) string { return s.Company.Lines[0] }},
		{"Phone", "555 0199", func(s storage.Settings) string { return s.Company.Lines[1] }},
		{"License", "12345", func(s storage.Settings) string { return s.Company.Lines[2] }},
		{"Frost depth", `3'-4"`, func(s storage.Settings) string { return s.Frost.Text(geometry.FeetInches) }},
		{"Waste", "7.5", func(s storage.Settings) string { return s.Start.Spec.Order.Waste.String() }},
		{"Overhead", "12", func(s storage.Settings) string { return s.Start.Price.Overhead.String() }},
	} {
		f.Fill(c.label, c.text)
		if got := c.got(settings()); got != c.text {
			t.Errorf("%s: the book has %q, want %q", c.label, got, c.text)
		}
	}
	f.Fill("Overhead", "1200")
	f.Reads("found 1200")
	if s := settings(); !s.Start.Price.Overhead.Equal(decimal.NewFromInt(12)) {
		t.Errorf("a faulty overhead was kept: %s", s.Start.Price.Overhead)
	}
	f.Select("Units", "millimeters")
	f.Select("Paper", f.List("Paper").Options[2])
	if s := settings(); s.Start.Units != geometry.Millimeters || s.Paper != f.List("Paper").Options[2] {
		t.Errorf("units %v, paper %q", s.Start.Units, s.Paper)
	}
	f.Press("Start new jobs as the open one")
	if s := settings(); s.Start.Units != d.Units() || !s.Start.Spec.Order.Waste.Equal(d.Job().Spec.Order.Waste) {
		t.Errorf("new jobs start with %v and a waste of %s", s.Start.Units, s.Start.Spec.Order.Waste)
	}
}

func TestLogo(t *testing.T) {
	d, p := opened(t)
	var logo bytes.Buffer
	if err := png.Encode(&logo, image.NewGray(image.Rect(0, 0, 40, 20))); err != nil {
		t.Fatal(err)
	}
	if err := d.Shelf.ChangeSettings(func(s *storage.Settings) { s.Company.Logo = logo.Bytes() }); err != nil {
		t.Fatal(err)
	}
	f := p.shown(t, "Settings")
	f.ReadsNot("No logo")
	f.Press("Without a logo")
	f.Reads("No logo")
	for _, bad := range [][]byte{[]byte("no picture"), make([]byte, maxLogo+1)} {
		if err := checkLogo(bad); err == nil || !strings.Contains(err.Error(), "picture") {
			t.Errorf("%d bytes as a logo: %v", len(bad), err)
		}
	}
}

// The whole book goes out as open files and comes back.
func TestExportAndImport(t *testing.T) {
	d, p := opened(t)
	f := p.shown(t, "The book")
	f.Tick("Export with the undo history of every job", 0)
	path := filepath.Join(t.TempDir(), "jobs.zip")
	p.saveAs(path, func(out io.Writer) error {
		return p.book.Export(out, storage.ExportOptions{History: p.history})
	})
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	p.importBundle(data)
	if all, err := p.book.List(); err != nil || len(all) != 2 || d.Told != "Imported 1 job" {
		t.Errorf("%d jobs, %v; it says %q", len(all), err, d.Told)
	}
	p.importBundle([]byte("no export"))
	if !strings.Contains(d.Told, "no export of a job book") {
		t.Errorf("of a text file it says %q", d.Told)
	}
	p.saveAs(filepath.Join(path, "under a file"), func(io.Writer) error { return nil })
	if !strings.Contains(d.Told, "jobs.zip") {
		t.Errorf("of a path that cannot be it says %q", d.Told)
	}
}

func TestSoundness(t *testing.T) {
	d, p := opened(t)
	f := p.shown(t, "The book")
	f.Press("Check every record")
	f.Reads("Every record is as it was written")
	f.Press("Make the file smaller")
	if err := p.book.Verify(); err != nil {
		t.Error(err)
	}
	// The file is spoiled under the open book: it says so, and salvages.
	data, err := os.ReadFile(p.book.Path())
	if err != nil {
		t.Fatal(err)
	}
	for at := 2 * 4096; at < len(data); at += 4096 {
		data[at+8] ^= 0x77
	}
	if err := os.WriteFile(p.book.Path(), data, 0o644); err != nil {
		t.Fatal(err)
	}
	f = p.shown(t, "The book")
	f.Press("Check every record")
	f.Press("Salvage what reads into a new book")
	f.Reads("Found: ")
	_ = d
}

// A backup put in place of the book; one that is damaged leaves it as it is.
func TestRestore(t *testing.T) {
	d, p := opened(t)
	f := p.shown(t, "The book")
	f.Press("Back up now")
	f = p.shown(t, "The book")
	f.Reads(p.book.Path(), "asked")
	j := d.Job()
	j.Name = "Changed since"
	d.Commit("Name", j)
	f.Press("Restore…")
	f.Press("Put it in place of the book")
	if got := d.Job().Name; got == "Changed since" || !strings.Contains(d.Told, "Restored") {
		t.Errorf("%q is open; it says %q", got, d.Told)
	}
	j = d.Job()
	j.Name = "On"
	d.Commit("Name", j)
	if got, err := d.Shelf.Book().Get(d.Shelf.ID()); err != nil || got.Name != "On" {
		t.Errorf("work after restoring is not saved: %q, %v", got.Name, err)
	}
	bad := filepath.Join(t.TempDir(), "bad.book")
	if err := os.WriteFile(bad, []byte("no book"), 0o644); err != nil {
		t.Fatal(err)
	}
	p.restore(bad)
	if !strings.Contains(d.Told, "not a job book") {
		t.Errorf("it says %q", d.Told)
	}
	j.Notes = "on"
	d.Commit("Notes", j)
	if got, err := d.Shelf.Book().Get(d.Shelf.ID()); err != nil || got.Notes != "on" {
		t.Errorf("work after it is not saved: %q, %v", got.Notes, err)
	}
	_ = d.Shelf.Book().Close()
}

// Backups are listed with their age, those in the second place by themselves, and
// other versions of the book are told.
func TestSecondPlace(t *testing.T) {
	d, p := opened(t)
	b := p.book
	f := p.shown(t, "The book")
	f.Reads("None chosen.")
	f.ReadsNot("other versions")
	disk := filepath.Join(t.TempDir(), "stick")
	p.keepIn(disk)
	if !strings.Contains(d.Told, "no folder that can be reached") {
		t.Errorf("of a folder that is not there it says %q", d.Told)
	}
	if err := os.Mkdir(disk, 0o700); err != nil {
		t.Fatal(err)
	}
	p.keepIn(disk)
	if list, err := b.SecondBackups(); err != nil || len(list) != 1 {
		t.Fatalf("%d backups, %v; it says %q", len(list), err, d.Told)
	}
	f = p.shown(t, "The book")
	f.Reads("Folder: "+disk, "second-place", "yet to come") // the desk's clock is behind
	other := filepath.Join(filepath.Dir(b.Path()), "jobs (old laptop).book")
	data, err := os.ReadFile(b.Path())
	if err == nil {
		err = errors.Join(os.WriteFile(other, data, 0o600), os.Rename(disk, disk+" in a drawer"))
	}
	if err != nil {
		t.Fatal(err)
	}
	f = p.shown(t, "The book")
	f.Reads("other versions of it: jobs (old laptop).book", "! The second place for backups")
	f.Press("No second place")
	if dir, err := b.SecondPlace(); dir != "" || err != nil {
		t.Errorf("the second place is %q, %v; it says %q", dir, err, d.Told)
	}
}

func TestWithoutABook(t *testing.T) {
	d := hands.NewDesk(t, shelf.Blank(geometry.FeetInches), nil)
	p := New(d, d.Shelf, d.Fonts, document.Scheduler{})
	d.Show(p)
	d.Reads("This window has no job book")
	for name, asks := range map[string]string{"Open a job book…": "choose book", "Save as a job file…": "save file", "Sample job": "sample"} {
		if d.Press(name); d.Last() != asks {
			t.Errorf("%s asks %v", name, d.Asked)
		}
	}
	if p.Search() != nil {
		t.Error("there is a search")
	}
}

// A click on a job chooses it, a double-click opens it; the keys go on from there.
func TestDoubleClickOpensAJob(t *testing.T) {
	b := hands.Book(t)
	first, err := b.Create(hands.Shop())
	if err != nil {
		t.Fatal(err)
	}
	d := hands.NewDesk(t, hands.Demo(t), b)
	p := New(d, d.Shelf, d.Fonts, document.Scheduler{})
	d.Show(p)
	row := func(id storage.ID) *jobRow {
		for _, r := range hands.Every[*jobRow](d.Hands) {
			if p.listed[r.i].ID == id {
				return r
			}
		}
		t.Fatalf("job %v is not listed", id)
		return nil
	}
	test.Tap(row(first))
	if p.chosen != first || d.Last() != "" {
		t.Errorf("a click chooses %v and asks %v", p.chosen, d.Asked)
	}
	test.DoubleTap(row(first))
	if d.Last() != "open "+first.String() {
		t.Errorf("a double-click asks %v", d.Asked)
	}
	p.list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if p.chosen != first {
		t.Errorf("Enter after a click is of job %v", p.chosen)
	}
}
