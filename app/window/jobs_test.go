package window

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/opening"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// withBook is a window on the sample job in a book.
func withBook(t *testing.T) *Window {
	t.Helper()
	return open(t, Options{Job: hands.Demo(t), Book: hands.Book(t)})
}

// A window that reads a book goes on to write when it may; the change goes along as a
// job of its own.
func TestReadOnlyAndOnToWriting(t *testing.T) {
	path := filepath.Join(t.TempDir(), "jobs.book")
	first, err := storage.Open(path, storage.Options{})
	if err != nil {
		t.Fatal(err)
	}
	id, err := first.Create(hands.Shop())
	if err != nil {
		t.Fatal(err)
	}
	second, err := storage.Open(path, storage.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	w := open(t, Options{Job: hands.Shop(), Book: second, ID: id})
	strip := hands.On(t, w.strip.object)
	strip.Reads("read only", "another window has it", "not saved in the book")
	j := w.doc.Job()
	j.Name = "Changed while read only"
	w.doc.Commit("Name", j)
	if got, err := first.Get(id); err != nil || got.Name != "New job" {
		t.Errorf("the book of the other window has %q, %v", got.Name, err)
	}
	if n, _ := w.shelf.Unsaved(); n == 0 {
		t.Error("the change is not known to be unsaved")
	}
	strip.Press("Open it for writing")
	strip.Reads("read only")
	if err := first.Close(); err != nil {
		t.Fatal(err)
	}
	strip.Press("Open it for writing")
	book := w.shelf.Book()
	defer book.Close()
	if w.strip.object.Visible() || book.ReadOnly() {
		t.Errorf("still not open to write: %s", strip.Text())
	}
	if all, err := book.List(); err != nil || len(all) != 2 {
		t.Fatalf("%d jobs, %v; want the one in the book and the changed one", len(all), err)
	}
	if got, err := book.Get(w.shelf.ID()); err != nil || !strings.HasPrefix(got.Name, "Changed while read only") {
		t.Errorf("the changed job is %q, %v", got.Name, err)
	}
}

// A window without a book says so once there is something to lose; a book that is
// opened later takes the job.
func TestBookLater(t *testing.T) {
	w := open(t, Options{Job: hands.Demo(t)})
	if w.strip.object.Visible() {
		t.Error("nothing was changed yet, and it warns")
	}
	j := w.doc.Job()
	j.Name = "In memory"
	w.doc.Commit("Name", j)
	hands.On(t, w.strip.object).Reads("No job book", "this window only")
	w.writeBook(filepath.Join(t.TempDir(), "later.book"))
	if w.strip.object.Visible() {
		t.Error("with a book it still warns")
	}
	if got, err := w.shelf.Book().Get(w.shelf.ID()); err != nil || got.Name != "In memory" {
		t.Errorf("the job did not go into the book: %q, %v", got.Name, err)
	}
	_ = w.shelf.Book().Close()
}

// The disk fills up while the window is open: it says so at once, goes on in memory,
// and saves everything in order as soon as there is room.
func TestDiskFillsUp(t *testing.T) {
	dir := t.TempDir()
	hands.SmallDisk(t, dir, 512<<10)
	path := filepath.Join(dir, "jobs.book")
	book, err := storage.Open(path, storage.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w := open(t, Options{Job: hands.Demo(t), Book: book})
	sawdust := filepath.Join(dir, "sawdust")
	hands.FillDisk(t, sawdust)
	edits := 0
	note := func() {
		edits++
		j := w.doc.Job().Clone()
		j.Notes = strings.Repeat("x", edits)
		j.Slabs[0].Outline[0].At.X -= geometry.Sixteenth
		w.doc.Commit("Edit", j)
	}
	for n := 0; n < 500; n++ {
		note()
		if got, _ := w.shelf.Unsaved(); got > 0 {
			break
		}
	}
	if n, err := w.shelf.Unsaved(); n != 1 || !storage.IsKind(err, storage.Full) {
		t.Fatalf("after %d edits on a full disk: %d unsaved, %v", edits, n, err)
	}
	note()
	note()
	strip := hands.On(t, w.strip.object)
	strip.Reads("Not saved: 3 changes", "The disk is full")
	// Undo and redo go on.
	w.undo()
	if got := len(w.doc.Job().Notes); got != edits-1 {
		t.Errorf("undo on a full disk gives edit %d, want %d", got, edits-1)
	}
	w.redo()
	// Closing asks, and so does another job.
	w.close()
	if w.asked == nil {
		t.Fatal("it closed over what is not saved")
	}
	w.asked = nil
	w.newJob()
	if w.asked == nil || len(w.doc.Job().Notes) != edits {
		t.Error("a new job took the place of what is not saved")
	}
	if err := os.Remove(sawdust); err != nil {
		t.Fatal(err)
	}
	strip.Press("Try again")
	if n, err := w.shelf.Unsaved(); n != 0 || err != nil || w.strip.object.Visible() {
		t.Fatalf("with room again: %d unsaved, %v", n, err)
	}
	if err := book.Close(); err != nil {
		t.Fatal(err)
	}
	b, err := storage.Open(path, storage.Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if got, err := b.Get(w.shelf.ID()); err != nil || len(got.Notes) != edits {
		t.Errorf("the book has edit %d of %d, %v", len(got.Notes), edits, err)
	}
	if h, err := b.History(w.shelf.ID()); err != nil || len(h.Done) != edits {
		t.Errorf("%d of %d edits can be undone, %v", len(h.Done), edits, err)
	}
}

// From anywhere to another job with the keys alone.
func TestFindAJobWithTheKeys(t *testing.T) {
	w := withBook(t)
	w.Show()
	for _, name := range []string{"Barn floor", "Garage slab"} {
		j := hands.Demo(t)
		j.Name = name
		if _, err := w.shelf.Book().Create(j); err != nil {
			t.Fatal(err)
		}
	}
	w.showJobs()
	w.typed("garage<Return>")
	if got := w.doc.Job().Name; got != "Garage slab" || w.pages.at != planPage {
		t.Errorf("%q is open, on page %d", got, w.pages.at)
	}
	w.showJobs()
	page := hands.On(t, w.pages.list[bookPage].root)
	page.Reads("1 job, 2 more not listed") // the search is kept
	if f, ok := w.win.Canvas().Focused().(*form.Entry); !ok || f.Text != "garage" {
		t.Errorf("the search is not ready: %T", w.win.Canvas().Focused())
	}
}

// New jobs and the sample leave the one that was open in the book.
func TestOtherJobs(t *testing.T) {
	w := withBook(t)
	w.Show()
	first := w.shelf.ID()
	w.newJob()
	if !w.doc.Blank() || w.shelf.ID() == first || w.win.Canvas().Focused() != fyne.Focusable(w.plan) {
		t.Errorf("job %v is open", w.shelf.ID())
	}
	w.sample()
	if w.doc.Blank() {
		t.Error("the sample is blank")
	}
	w.openFromBook(99)
	if w.machine.Notice == "" {
		t.Error("a job that is not there opens")
	}
	w.openFromBook(first)
	if w.shelf.ID() != first {
		t.Errorf("job %v is open", w.shelf.ID())
	}
	if all, err := w.shelf.Book().List(); err != nil || len(all) != 3 {
		t.Errorf("%d jobs, %v", len(all), err)
	}
}

// Each sample job of the menu opens as a job of its own, without a fault.
func TestSampleJobs(t *testing.T) {
	w := open(t, Options{Job: hands.Demo(t)})
	names := map[string]bool{}
	for _, i := range w.samples().Items {
		i.Action()
		if f := w.doc.Faults(); w.doc.Blank() || len(f) > 0 {
			t.Errorf("%s: blank %v, faults %v", i.Label, w.doc.Blank(), f)
		}
		names[w.doc.Job().Name] = true
	}
	if len(names) != 5 {
		t.Errorf("opened %v, want five jobs", names)
	}
}

// What is being typed when the window closes is taken.
func TestClosingTakesWhatIsBeingTyped(t *testing.T) {
	path := filepath.Join(t.TempDir(), "jobs.book")
	book, err := storage.Open(path, storage.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w := open(t, Options{Job: hands.Demo(t), Book: book})
	w.side.tab(jobTab)
	e := hands.On(t, w.side.object).Field("Customer")
	w.win.Canvas().Focus(e)
	e.SetText("Typed and not entered")
	w.close()
	if w.asked != nil {
		t.Fatal("it asks about changes that can be saved")
	}
	b, err := storage.Open(path, storage.Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if got, err := b.Get(1); err != nil || got.Customer != "Typed and not entered" {
		t.Errorf("the book has %q, %v", got.Customer, err)
	}
}

// Begin opens a window on what is found.
func TestBegin(t *testing.T) {
	a := test.NewTempApp(t)
	var openFile func(string)
	if err := Begin(a, Start{Book: "none", Synchronous: true, Ready: func(open func(string)) { openFile = open }}); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "shop.json")
	if err := os.WriteFile(file, hands.Demo(t).Encode(), 0o600); err != nil {
		t.Fatal(err)
	}
	openFile(file)
	var titles []string
	for _, w := range a.Driver().AllWindows() {
		titles = append(titles, w.Title())
	}
	if !slices.Contains(titles, hands.Demo(t).Name+" – Haunchbook") {
		t.Errorf("a file that is named to the window is not open in it: %q", titles)
	}
	w, err := enter(a, opening.Found{Job: hands.Shop(), Welcome: true}, document.Scheduler{})
	if err != nil {
		t.Fatal(err)
	}
	defer w.win.Close()
	if !w.greeting.Visible() || w.win.Title() != "New job – Haunchbook" {
		t.Errorf("the window is called %q", w.win.Title())
	}
}
