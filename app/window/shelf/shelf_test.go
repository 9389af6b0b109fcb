package shelf_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/storage"
)

// opened is a shelf with the sample job on it, in a book.
func opened(t *testing.T) (*document.Document, *shelf.Shelf, *storage.Book) {
	t.Helper()
	j, b := hands.Demo(t), hands.Book(t)
	d := document.New(j, nil, document.Scheduler{})
	s := shelf.New(d, b, document.Scheduler{}, nil)
	if err := s.Open(j, 0); err != nil {
		t.Fatal(err)
	}
	return d, s, b
}

func note(d *document.Document, text string) {
	j := d.Job()
	j.Notes = text
	d.Commit("Notes", j)
}

// Every change is in the book at once, and so is undo.
func TestEveryChangeIsKept(t *testing.T) {
	d, s, b := opened(t)
	note(d, "one")
	note(d, "two")
	d.Undo()
	if got, err := b.Get(s.ID()); err != nil || got.Notes != "one" {
		t.Errorf("the book has %q, %v", got.Notes, err)
	}
	if n, err := s.Unsaved(); n != 0 || err != nil || !s.Kept() {
		t.Errorf("%d unsaved, %v", n, err)
	}
	// Opened again, it can be undone further.
	again := document.New(job.New(), nil, document.Scheduler{})
	other := shelf.New(again, b, document.Scheduler{}, nil)
	j, id, err := shelf.Last(b)
	if err != nil || id != s.ID() {
		t.Fatalf("%v was open last, %v", id, err)
	}
	if err := other.Open(j, id); err != nil {
		t.Fatal(err)
	}
	if label, _ := again.CanUndo(); label != "Notes" {
		t.Errorf("undo takes back %q", label)
	}
	if again.Undo(); again.Job().Notes != hands.Demo(t).Notes {
		t.Errorf("undone to %q", again.Job().Notes)
	}
	if again.Redo(); again.Job().Notes != "one" {
		t.Errorf("done again to %q", again.Job().Notes)
	}
}

// What was open last is open again, whatever was changed last; with no job there is
// none, and one that is gone is another.
func TestLast(t *testing.T) {
	_, s, b := opened(t)
	second := hands.Demo(t)
	second.Name = "Second"
	id, err := b.Create(second)
	if err != nil {
		t.Fatal(err)
	}
	if _, got, err := shelf.Last(b); got != s.ID() || err != nil {
		t.Errorf("%v was open last, %v", got, err)
	}
	if err := s.Open(second, id); err != nil {
		t.Fatal(err)
	}
	if j, got, err := shelf.Last(b); got != id || err != nil || j.Name != "Second" {
		t.Errorf("%v was open last, %v", got, err)
	}
	if _, got, err := shelf.Last(hands.Book(t)); got != 0 || err != nil {
		t.Errorf("of an empty book %v, %v", got, err)
	}
}

// Without a book a change is in the window alone, until it is saved as a file.
func TestWithoutABook(t *testing.T) {
	j := hands.Demo(t)
	d := document.New(j, nil, document.Scheduler{})
	s := shelf.New(d, nil, document.Scheduler{}, nil)
	if err := s.Open(j, 0); err != nil || s.Kept() || s.Book() != nil {
		t.Fatal(err)
	}
	if n, _ := s.Unsaved(); n != 0 {
		t.Error("nothing was changed, and it is unsaved")
	}
	note(d, "one")
	if n, _ := s.Unsaved(); n != 1 {
		t.Error("the change is not known to be unsaved")
	}
	s.Filed(d.Base().Encode())
	if n, _ := s.Unsaved(); n != 0 {
		t.Error("what is in a file is unsaved")
	}
	if err := s.Settle(); err != nil {
		t.Error(err)
	}
	if err := s.ChangeSettings(func(*storage.Settings) {}); err == nil {
		t.Error("settings are kept nowhere")
	}
	s.Close()
}

// A new job starts from the settings.
func TestNewJob(t *testing.T) {
	_, s, _ := opened(t)
	usual := hands.Demo(t).In(geometry.Millimeters)
	usual.Spec.Order.Waste = decimal.NewFromInt(9)
	if err := s.ChangeSettings(func(set *storage.Settings) { set.Start = shelf.StartOf(usual) }); err != nil {
		t.Fatal(err)
	}
	j, err := s.NewJob()
	if err != nil || j.Units != geometry.Millimeters || !j.Spec.Order.Waste.Equal(decimal.NewFromInt(9)) || len(j.Slabs) != 1 || len(j.Slabs[0].Outline) != 0 || j.Customer != "" {
		t.Errorf("a new job starts as %+v, %v", j, err)
	}
	if len(j.Slabs[0].Sections) != len(usual.Slabs[0].Sections) || j.Pour.Weathering != usual.Pour.Weathering {
		t.Errorf("without its sections or region: %+v, %v", j.Slabs[0].Sections, j.Pour.Weathering)
	}
}

func TestPricesForNewJobs(t *testing.T) {
	d, s, b := opened(t)
	if err := d.ChangePrices("Wage", func(l *estimate.PriceList) { l.Wage = decimal.NewFromInt(61) }); err != nil {
		t.Fatal(err)
	}
	if err := s.KeepPrices(); err != nil {
		t.Fatal(err)
	}
	if err := s.Open(shelf.Blank(geometry.FeetInches), 0); err != nil {
		t.Fatal(err)
	}
	if got := d.Prices().Wage; !got.Equal(decimal.NewFromInt(61)) {
		t.Errorf("a new job has a wage of %s", got)
	}
	if list, err := b.Prices(geometry.FeetInches); err != nil || !list.Wage.Equal(decimal.NewFromInt(61)) {
		t.Errorf("the book has %s, %v", list.Wage, err)
	}
}

func TestRevisionAndBid(t *testing.T) {
	_, s, b := opened(t)
	told := 0
	s.Revise("why", func(n int, err error) {
		if told++; n != 1 || err != nil {
			t.Errorf("revision %d, %v", n, err)
		}
	})
	for range 2 {
		s.Bid(func(err error) {
			if told++; err != nil {
				t.Error(err)
			}
		})
	}
	if told != 3 {
		t.Errorf("told %d times", told)
	}
	r, err := b.Revisions(s.ID())
	if err != nil || len(r) != 1 || r[0].Note != "why" {
		t.Errorf("revisions %+v, %v", r, err)
	}
	if sum, err := b.Summary(s.ID()); err != nil || sum.State != storage.Bid {
		t.Errorf("state %v, %v", sum.State, err)
	}
}

// A backup that does not read leaves the book and the job as they are.
func TestRestore(t *testing.T) {
	d, s, b := opened(t)
	backup, err := b.Backup("test")
	if err != nil {
		t.Fatal(err)
	}
	note(d, "since")
	j, id, aside, err := s.Restore(backup)
	if err != nil || j.Notes == "since" || id == 0 || aside == "" {
		t.Fatalf("job %v reads %q, the book is kept as %q, %v", id, j.Notes, aside, err)
	}
	if err := s.Open(j, id); err != nil {
		t.Fatal(err)
	}
	bad := filepath.Join(t.TempDir(), "bad.book")
	if err := os.WriteFile(bad, []byte("no book"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, back, _, err := s.Restore(bad); err == nil || back != id || s.Book() == nil {
		t.Errorf("job %v, %v", back, err)
	}
	if shelf.Sentence(&storage.Fault{Text: "found", Way: "do"}) != "found; do" {
		t.Error("a fault is not told with its way out")
	}
	s.Close()
}

func TestFound(t *testing.T) {
	got := shelf.Found(storage.Salvaged{Jobs: 2, Revisions: 1, Edits: 3, FromEdits: 1, Pictures: 1})
	for _, want := range []string{"2 jobs as last saved", "1 revision and", "3 edits", "Of 1 job the last state", "1 job lost a picture", "settings"} {
		if !strings.Contains(got, want) {
			t.Errorf("there is no %q in %q", want, got)
		}
	}
}

// A new job on a full disk waits as a whole, with its edits, in order.
func TestNewJobWaitsForRoom(t *testing.T) {
	dir := t.TempDir()
	hands.SmallDisk(t, dir, 256<<10)
	b, err := storage.Open(filepath.Join(dir, "jobs.book"), storage.Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	sawdust := filepath.Join(dir, "sawdust")
	hands.FillDisk(t, sawdust)
	j := hands.Demo(t)
	j.Notes = ""
	d := document.New(j, nil, document.Scheduler{})
	s := shelf.New(d, b, document.Scheduler{}, nil)
	for n := 0; err == nil && n < 100; n++ { // what room the file has left
		if err = s.Open(j, 0); err == nil {
			_, err = s.Unsaved()
		}
	}
	if !storage.IsKind(err, storage.Full) {
		t.Fatal(err)
	}
	before, _ := b.List()
	note(d, "one")
	note(d, "two")
	if n, err := s.Unsaved(); n != 3 || !storage.IsKind(err, storage.Full) {
		t.Errorf("%d wait, %v; want the job and two edits", n, err)
	}
	s.Revise("no", func(_ int, err error) {
		if err == nil {
			t.Error("a revision is kept of what is not saved")
		}
	})
	for _, want := range []string{"one", ""} {
		if _, ok := d.Undo(); !ok || d.Job().Notes != want {
			t.Errorf("undone to %q, want %q", d.Job().Notes, want)
		}
	}
	if _, ok := d.Undo(); ok {
		t.Error("undone beyond the start")
	}
	if label, ok := d.Redo(); !ok || d.Job().Notes != "one" || label != "Notes" {
		t.Errorf("done again: %q %q %v", d.Job().Notes, label, ok)
	}
	if err := os.Remove(sawdust); err != nil {
		t.Fatal(err)
	}
	if err := s.Settle(); err != nil {
		t.Fatal(err)
	}
	if n, err := s.Unsaved(); n != 0 || err != nil {
		t.Errorf("%d wait, %v", n, err)
	}
	if _, ok := d.Redo(); !ok || d.Job().Notes != "two" {
		t.Errorf("done again from memory: %q", d.Job().Notes)
	}
	if after, _ := b.List(); len(after) != len(before)+1 {
		t.Errorf("%d jobs, there were %d", len(after), len(before))
	}
	if got, err := b.Get(s.ID()); err != nil || got.Notes != "two" {
		t.Errorf("the book has %q, %v", got.Notes, err)
	}
}

// A job that nothing is drawn in starts anew in other units; what was set stays as long
// as it was.
func TestAnew(t *testing.T) {
	const mm = geometry.Millimeter
	j := shelf.Blank(geometry.FeetInches)
	j.Spec.Base.Foam = 2 * geometry.Inch
	is := shelf.Anew(j, geometry.Millimeters)
	if is.Units != geometry.Millimeters || is.Spec.Base.Gravel != 100*mm || is.Spec.Base.Foam != 2*geometry.Inch || is.Slabs[0].Field != 150*mm || is.Slabs[0].Sections[0].Name != "Edge 300" || is.Spec.Order.Truck.IntPart() != 8 {
		t.Errorf("%+v, %+v", is.Spec.Base, is.Slabs)
	}
	if back := shelf.Anew(is, geometry.FeetInches); !back.Same(j) {
		t.Errorf("back it is\n%s\nand not\n%s", back.Encode(), j.Encode())
	}
	if fresh := shelf.Blank(geometry.Millimeters); len(fresh.Validate()) > 1 { // no outline
		t.Errorf("faults: %v", fresh.Validate())
	}
}

// A usual garage in millimeters breaks no rule that one in feet and inches keeps.
func TestMetricGarageBreaksNoRule(t *testing.T) {
	rules := func(u geometry.Units, foot geometry.Length) map[string]int {
		j := shelf.Blank(u)
		p := j.Slabs[0]
		j = j.WithSlab(0, p.WithOutline(plan.Like(hands.Rectangle(0, 0, 24*foot, 20*foot), plan.Edge{Section: p.Sections[0].Name, Wall: "2x6"})))
		to, err := handover.Of(handover.From{Job: j, Prices: estimate.Starting(u)}).Takeoff(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		found := map[string]int{}
		for _, f := range to.Findings {
			found[f.Rule.Name]++
			t.Log(u, f.Rule.Name, f.Text)
		}
		return found
	}
	was := rules(geometry.FeetInches, geometry.Foot)
	if is := rules(geometry.Millimeters, 300*geometry.Millimeter); len(is) > len(was) {
		t.Errorf("findings: %v; in feet and inches: %v", is, was)
	}
}
