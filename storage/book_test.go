package storage

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/account"
	"haunchbook.example/app/date"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/hold"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// clock gives times a second apart, so that tests do not depend on the day.
func clock() func() time.Time {
	at := time.Date(2026, 3, 2, 7, 0, 0, 0, time.UTC)
	return func() time.Time {
		at = at.Add(time.Second)
		return at
	}
}

func open(t testing.TB, path string) *Book {
	t.Helper()
	b, err := Open(path, Options{Now: clock()})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = b.Close() })
	return b
}

func newPath(t testing.TB) string { return filepath.Join(t.TempDir(), "jobs.book") }

// shop is a job with an L-shaped plan, numbered n.
func shop(n int) job.Job {
	j := job.New()
	j.Name = fmt.Sprintf("Shop addition %d", n)
	j.Customer = fmt.Sprintf("Customer %d", n%97)
	j.Site = fmt.Sprintf("%d Ferry Lane", n)
	j.Date = "2026-03-02"
	at := func(x, y geometry.Length) plan.Edge {
		return plan.Edge{At: geometry.Point{X: x * geometry.Foot, Y: y * geometry.Foot}, Section: "edge", Wall: "2x6"}
	}
	j.Slabs[0].Field = 6 * geometry.Inch
	j.Slabs[0].Sections = []plan.Section{{Name: "edge", Depth: 12 * geometry.Inch, Bottom: 12 * geometry.Inch, Taper: 12 * geometry.Inch}}
	j.Slabs[0].Outline = plan.Loop{at(0, 0), at(30, 0), at(30, 16), at(18, 16), at(18, 26), at(0, 26)}
	return j
}

func must[T any](v T, err error) func(testing.TB) T {
	return func(t testing.TB) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func TestJobsComeBackAsTheyWere(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	want := map[ID]job.Job{}
	for n := range 5 {
		j := shop(n)
		want[must(b.Create(j))(t)] = j
	}
	check := func(b *Book) {
		t.Helper()
		list := must(b.List())(t)
		if len(list) != len(want) {
			t.Fatalf("%d jobs in the list, want %d", len(list), len(want))
		}
		for _, s := range list {
			got := must(b.Get(s.ID))(t)
			if d := cmp.Diff(string(want[s.ID].Encode()), string(got.Encode())); d != "" {
				t.Errorf("%v: %s", s.ID, d)
			}
			if s.Name != want[s.ID].Name || s.Site != want[s.ID].Site || len(s.Thumbnail) != 6 {
				t.Errorf("%v is listed as %+v", s.ID, s)
			}
		}
	}
	check(b)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	check(open(t, path))
}

func TestLastChangedIsListedFirst(t *testing.T) {
	b := open(t, newPath(t))
	first, second := must(b.Create(shop(1)))(t), must(b.Create(shop(2)))(t)
	if list := must(b.List())(t); list[0].ID != second {
		t.Errorf("%v is first, want the newest, %v", list[0].ID, second)
	}
	if err := b.SetState(first, Bid); err != nil {
		t.Fatal(err)
	}
	if list := must(b.List())(t); list[0].ID != first || list[0].State != Bid {
		t.Errorf("first is %+v, want %v, changed last", list[0], first)
	}
}

func TestMatches(t *testing.T) {
	s := Summary{ID: 42, Name: "Shop addition", Customer: "Harrow Mill", Site: "12 Ferry Lane", State: Won}
	for query, want := range map[string]bool{
		"": true, "  ": true, "shop": true, "FERRY shop": true, "j-0042": true, "won": true, "barn": false, "shop barn": false,
	} {
		if got := s.Matches(query); got != want {
			t.Errorf("Matches(%q) = %v", query, got)
		}
	}
}

func TestCopyArchiveDelete(t *testing.T) {
	b := open(t, newPath(t))
	j := shop(1)
	j.Pour.Date, j.Holds = date.Of(2026, 12, 5), []hold.Hold{{Kind: hold.Locate, Number: "A-1182"}}
	j.Account = account.Account{Retainage: decimal.NewFromInt(10), Invoices: []account.Invoice{{Number: 3}}}
	id := must(b.Create(j))(t)
	if err := errors.Join(b.SetState(id, Closed), b.Archive(id, true)); err != nil {
		t.Fatal(err)
	}
	copied := must(b.Copy(id))(t)
	if c := must(b.Get(copied))(t); c.Pour.Date.Known() || len(c.Holds)+len(c.Account.Invoices) > 0 || c.Account.Retainage.IsZero() {
		t.Errorf("the copy has the records of %s: %v", c.Pour.Date, c.Holds)
	}
	s := must(b.Summary(copied))(t)
	if s.State != Draft || s.Archived || s.Name != "Shop addition 1 (copy)" {
		t.Errorf("the copy is %+v", s)
	}
	if s := must(b.Summary(id))(t); s.State != Closed || !s.Archived {
		t.Errorf("the original is %+v", s)
	}
	must(b.Revise(id, "printed"))(t)
	if err := b.Delete(id); err != nil {
		t.Fatal(err)
	}
	for what, err := range map[string]error{
		"get": second(b.Get(id)), "summary": second(b.Summary(id)), "delete": b.Delete(id), "state": b.SetState(id, Bid),
		"copy": second(b.Copy(id)), "revise": second(b.Revise(id, "")),
	} {
		if !IsKind(err, Missing) {
			t.Errorf("%s of a deleted job: %v, want a fault of kind Missing", what, err)
		}
	}
	if r := must(b.Revisions(id))(t); len(r) != 0 {
		t.Errorf("%d revisions of a deleted job", len(r))
	}
	if next := must(b.Create(shop(9)))(t); next <= copied {
		t.Errorf("the number %v was used before", next)
	}
	must(b.List())(t)
}

func second[T any](_ T, err error) error { return err }

func TestUndoSurvivesRestart(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	j := shop(1)
	id := must(b.Create(j))(t)
	var depths []geometry.Length
	for i := range 4 {
		j.Slabs[0].Sections[0].Depth = geometry.Length(12+i) * geometry.Inch
		depths = append(depths, j.Slabs[0].Sections[0].Depth)
		if err := b.Edit(id, fmt.Sprintf("Edge depth %d", 12+i), j); err != nil {
			t.Fatal(err)
		}
	}
	// The first edit changed nothing, so that there are three.
	undo := func(b *Book, want geometry.Length, label string) {
		t.Helper()
		got, l, ok, err := b.Undo(id)
		if err != nil || !ok || got.Slabs[0].Sections[0].Depth != want || l != label {
			t.Fatalf("undo: depth %v, %q, %v, %v; want %v, %q", got.Slabs[0].Sections[0].Depth, l, ok, err, want, label)
		}
		if now := must(b.Get(id))(t); now.Slabs[0].Sections[0].Depth != want {
			t.Fatalf("after undo the book holds %v", now.Slabs[0].Sections[0].Depth)
		}
	}
	undo(b, depths[2], "Edge depth 15")
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	b = open(t, path)
	undo(b, depths[1], "Edge depth 14")
	got, label, ok, err := b.Redo(id)
	if err != nil || !ok || label != "Edge depth 14" || got.Slabs[0].Sections[0].Depth != depths[2] {
		t.Fatalf("redo: %q, %v, %v", label, ok, err)
	}
	h := must(b.History(id))(t)
	if len(h.Done) != 2 || len(h.Undone) != 1 || h.Undone[0].Label != "Edge depth 15" {
		t.Errorf("history is %+v", h)
	}
	undo(b, depths[1], "Edge depth 14")
	undo(b, depths[0], "Edge depth 13")
	if _, _, ok, err := b.Undo(id); ok || err != nil {
		t.Errorf("there was more to undo than done: %v, %v", ok, err)
	}
	j.Notes = "another way"
	if err := b.Edit(id, "Notes", j); err != nil {
		t.Fatal(err)
	}
	if _, _, ok, err := b.Redo(id); ok || err != nil {
		t.Errorf("after a new edit there is something to redo: %v, %v", ok, err)
	}
}

// Every edit can be undone, in little room, across openings and a compaction.
func TestUndoWithoutLimit(t *testing.T) {
	t.Parallel()
	path := newPath(t)
	b, err := Open(path, Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	const edits = 330
	j := shop(1)
	id := must(b.Create(j))(t)
	want := []string{string(j.Encode())}
	for i := range edits {
		switch i % 3 {
		case 0:
			j.Notes = strings.Repeat("n", 1+i%700)
		case 1:
			j.Slabs[0].Outline[i%6].At.X += geometry.Sixteenth
		default:
			j.Customer = fmt.Sprint("Customer ", i)
		}
		if err := b.Edit(id, fmt.Sprint("Edit ", i), j); err != nil {
			t.Fatal(err)
		}
		want = append(want, string(j.Encode()))
	}
	if err := errors.Join(b.Verify(), b.Compact(), b.Close()); err != nil {
		t.Fatal(err)
	}
	whole := 0
	for _, w := range want {
		whole += len(w)
	}
	if n := size(t, path); n*6 > int64(whole) {
		t.Errorf("%d edits of %d bytes in all take %d bytes", edits, whole, n)
	}
	if b, err = Open(path, Options{NoBackup: true}); err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if h := must(b.History(id))(t); len(h.Done) != edits || h.Done[7].Label != "Edit 7" {
		t.Errorf("the history has %d edits", len(h.Done))
	}
	back := 0
	for n := edits - 1; n >= 0; n-- {
		got, label, ok, err := b.Undo(id)
		if !ok || err != nil {
			t.Fatalf("after %d: %v, %v", back, ok, err)
		}
		if string(got.Encode()) != want[n] || label != fmt.Sprint("Edit ", n) {
			t.Fatalf("undone to state %d it is not as it was (%q)", n, label)
		}
		back++
	}
	if _, _, ok, _ := b.Undo(id); ok {
		t.Error("undone beyond the start")
	}
	// On from the middle: what was beyond goes, and what comes can be undone.
	for range 100 {
		if _, _, ok, err := b.Redo(id); !ok || err != nil {
			t.Fatal(ok, err)
		}
	}
	for i := range 80 {
		j.Notes = fmt.Sprint("another way ", i)
		if err := b.Edit(id, "Other", j); err != nil {
			t.Fatal(err)
		}
	}
	if h := must(b.History(id))(t); len(h.Done) != 180 || len(h.Undone) != 0 {
		t.Errorf("%d done, %d undone", len(h.Done), len(h.Undone))
	}
	if err := b.Verify(); err != nil {
		t.Error(err)
	}
	for range 80 {
		if _, _, ok, err := b.Undo(id); !ok || err != nil {
			t.Fatal(ok, err)
		}
	}
	if got := must(b.Get(id))(t); string(got.Encode()) != want[100] {
		t.Error("back where it went another way, it is not as it was")
	}
}

func TestDraftWithFaultsIsKept(t *testing.T) {
	b := open(t, newPath(t))
	j := shop(1)
	j.Slabs[0].Outline[1].At, j.Slabs[0].Outline[2].At = j.Slabs[0].Outline[2].At, j.Slabs[0].Outline[1].At
	if len(j.Validate()) == 0 {
		t.Fatal("the crossed outline has no fault")
	}
	id := must(b.Create(j))(t)
	if got := must(b.Get(id))(t); len(got.Slabs[0].Outline) != 6 {
		t.Errorf("a faulty draft came back with %d corners", len(got.Slabs[0].Outline))
	}
}

func TestRevisions(t *testing.T) {
	b := open(t, newPath(t))
	j := shop(1)
	j.Revision = "A"
	id := must(b.Create(j))(t)
	must(b.Revise(id, "printed"))(t)
	j.Revision, j.Notes = "B", "door moved"
	if err := b.Edit(id, "Move door", j); err != nil {
		t.Fatal(err)
	}
	must(b.Revise(id, "printed again"))(t)
	list := must(b.Revisions(id))(t)
	if len(list) != 2 || list[0].Name != "A" || list[1].Name != "B" || list[1].Note != "printed again" || list[1].Number != 2 {
		t.Fatalf("revisions are %+v", list)
	}
	if got := must(b.Revision(id, 1))(t); got.Revision != "A" || got.Notes != "" {
		t.Errorf("revision 1 is %+v", got)
	}
	if _, err := b.Revision(id, 3); !IsKind(err, Missing) {
		t.Errorf("revision 3: %v", err)
	}
}

func TestRemember(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	if err := errors.Join(b.Remember("open", ID(7)), b.Remember("size", []int{800, 600}), b.Remember("open", ID(8))); err != nil {
		t.Fatal(err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	b = open(t, path)
	var id ID
	if ok, err := b.Recall("open", &id); !ok || err != nil || id != 8 {
		t.Errorf("recalled %v, %v, %v", id, ok, err)
	}
	if ok, err := b.Recall("nothing", &id); ok || err != nil {
		t.Errorf("recalled what was never remembered: %v, %v", ok, err)
	}
}

func TestSecondWindow(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	id := must(b.Create(shop(1)))(t)

	_, err := Open(path, Options{Wait: 50 * time.Millisecond})
	if !IsKind(err, Busy) || !strings.Contains(err.Error(), "another window") {
		t.Fatalf("a second window got %v, want Busy", err)
	}
	r, err := Open(path, Options{Wait: 50 * time.Millisecond, ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if !r.ReadOnly() || r.AsOf().IsZero() {
		t.Error("the second window does not say that it shows a moment, to read only")
	}
	if got := must(r.Get(id))(t); got.Name != "Shop addition 1" {
		t.Errorf("the second window reads %q", got.Name)
	}
	if err := r.Edit(id, "Notes", shop(2)); !IsKind(err, ReadOnly) {
		t.Errorf("an edit in a read-only window gives %v", err)
	}
	if err := b.Edit(id, "Name", shop(3)); err != nil {
		t.Fatal(err)
	}
	if got := must(r.Get(id))(t); got.Name != "Shop addition 1" {
		t.Errorf("the moment moved: %q", got.Name)
	}
	// A window that waits gets the book when the first one closes.
	done := make(chan error)
	go func() {
		w, err := Open(path, Options{Wait: time.Minute})
		if err == nil {
			err = w.Close()
		}
		done <- err
	}()
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	if err := <-done; err != nil {
		t.Errorf("the waiting window got %v", err)
	}
	r2, err := Open(path, Options{ReadOnly: true})
	if err != nil || !r2.AsOf().IsZero() {
		t.Fatalf("reading a book that no window has open: %v, %v", r2.AsOf(), err)
	}
	r2.Close()
	if r.snapshot != "" && runtime.GOOS != "windows" {
		t.Errorf("a copy lies about: %s", r.snapshot)
	}
}

func TestReadOnlyWhileWriting(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	j := shop(1)
	id := must(b.Create(j))(t)
	stop, done := make(chan struct{}), make(chan error)
	go func() {
		for n := 0; ; n++ {
			select {
			case <-stop:
				done <- nil
				return
			default:
			}
			j.Notes = strings.Repeat(fmt.Sprint(n), 500)
			if err := b.Edit(id, "Notes", j); err != nil {
				done <- err
				return
			}
			time.Sleep(2 * time.Millisecond)
		}
	}()
	for range 10 {
		r, err := Open(path, Options{Wait: time.Millisecond, ReadOnly: true})
		if err != nil {
			t.Fatal(err)
		}
		must(r.Get(id))(t)
		must(r.History(id))(t)
		if err := r.Close(); err != nil {
			t.Error(err)
		}
	}
	close(stop)
	if err := <-done; err != nil {
		t.Fatal(err)
	}
}

func TestNewerBookIsLeftAlone(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	must(b.Create(shop(1)))(t)
	if err := b.update(func(t *tx) error { t.about.Schema = schema + 1; return nil }); err != nil {
		t.Fatal(err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	before := must(os.ReadFile(path))(t)
	_, err := Open(path, Options{})
	if !IsKind(err, Newer) || !strings.Contains(err.Error(), "newer version") {
		t.Errorf("got %v, want Newer", err)
	}
	if string(must(os.ReadFile(path))(t)) != string(before) {
		t.Error("the newer book was changed")
	}
}

func TestForeignFilesAreLeftAlone(t *testing.T) {
	for name, content := range map[string]string{
		"empty": "", "text": "Lumber list\n2x12 x 16  9\n", "zeros": strings.Repeat("\x00", 65536), "short": strings.Repeat("x", 4096),
	} {
		t.Run(name, func(t *testing.T) {
			path := newPath(t)
			if err := os.WriteFile(path, []byte(content), 0o644); err != nil {
				t.Fatal(err)
			}
			for _, o := range []Options{{}, {ReadOnly: true}} {
				b, err := Open(path, o)
				if err == nil {
					b.Close()
					t.Fatal("a foreign file opens")
				}
				if !IsKind(err, Foreign) && !IsKind(err, Damaged) {
					t.Errorf("%v, want Foreign or Damaged", err)
				}
			}
			if got := must(os.ReadFile(path))(t); string(got) != content {
				t.Error("the file was changed")
			}
		})
	}
}

func TestMissingFolderIsMade(t *testing.T) {
	b := open(t, filepath.Join(t.TempDir(), "a", "b", "jobs.book"))
	must(b.Create(shop(1)))(t)
}

func TestMigrationBacksUpFirst(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	id := must(b.Create(shop(1)))(t)
	steps := append(slices.Clone(migrations),
		func(t *tx) error { return t.put(inNotes, key{1, 1}, []byte(`"from form 1"`)) },
		func(t *tx) error { return t.delete(inNotes, key{1, 1}) },
	)
	before := must(Backups(path))(t)
	if err := b.migrateTo(schema+2, steps); err != nil {
		t.Fatal(err)
	}
	after := must(Backups(path))(t)
	if len(after) != len(before)+1 || after[0].Note != fmt.Sprint("form", schema) {
		t.Fatalf("backups after the migration: %+v", after)
	}
	if err := b.check(); !IsKind(err, Newer) {
		t.Errorf("the book is not of the new form: %v", err)
	}
	old := open(t, after[0].Path)
	if got := must(old.Get(id))(t); got.Name != "Shop addition 1" {
		t.Errorf("the backup reads %q", got.Name)
	}
	// A step that fails changes nothing.
	fail := append(steps, func(t *tx) error { return errors.New("no") })
	if err := b.migrateTo(schema+3, fail); err == nil {
		t.Error("the failing step passed")
	}
	var a about
	if err := b.view(func(t *tx) error { return t.getJSON(inMeta, aboutKey, &a) }); err != nil || a.Schema != schema+2 {
		t.Errorf("after a failed step the form is %d (%v), want %d", a.Schema, err, schema+2)
	}
}

func TestBackupsRotateAndRestore(t *testing.T) {
	path := newPath(t)
	now := time.Date(2026, 1, 1, 8, 0, 0, 0, time.UTC)
	o := Options{Now: func() time.Time { return now }, Keep: Keep{3, 5 * 24 * time.Hour}}
	for day := range 20 {
		now = now.Add(25 * time.Hour)
		b, err := Open(path, o)
		if err != nil {
			t.Fatal(err)
		}
		must(b.Create(shop(day)))(t)
		// The file's own time decides whether there is anything new to back up.
		if err := errors.Join(b.Close(), os.Chtimes(path, now.Add(time.Hour), now.Add(time.Hour))); err != nil {
			t.Fatal(err)
		}
	}
	list := must(Backups(path))(t)
	if len(list) < 4 || len(list) > 6 {
		t.Fatalf("%d backups are kept, want those of five days", len(list))
	}
	for _, f := range list {
		if now.Sub(f.Time) > 5*24*time.Hour {
			t.Errorf("%s is older than the rule keeps", f.Path)
		}
	}
	b, err := Open(path, o)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Restore(path, list[1].Path); !IsKind(err, Busy) {
		t.Errorf("restoring over an open book: %v, want Busy", err)
	}
	jobs := len(must(b.List())(t))
	b.Close()
	aside, err := Restore(path, list[1].Path)
	if err != nil {
		t.Fatal(err)
	}
	o.NoBackup = true
	if b, err = Open(path, o); err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if n := len(must(b.List())(t)); n >= jobs {
		t.Errorf("%d jobs after restoring an older book of %d", n, jobs)
	}
	old, err := Open(aside, o)
	if err != nil {
		t.Fatal(err)
	}
	defer old.Close()
	if n := len(must(old.List())(t)); n != jobs {
		t.Errorf("the book set aside has %d jobs, want %d", n, jobs)
	}
}

func TestBidKeepsItsPrices(t *testing.T) {
	b := open(t, newPath(t))
	id := must(b.Create(shop(1)))(t)
	prices := estimate.Starting(geometry.FeetInches)
	prices.Name = "March"
	if err := b.SetPrices(prices); err != nil {
		t.Fatal(err)
	}
	must(b.Bid(id))(t)
	prices.Name = "April"
	if err := b.SetPrices(prices); err != nil {
		t.Fatal(err)
	}
	j := must(b.Bid(id))(t)
	if j.Price.Prices.Name != "March" || must(b.Get(id))(t).Price.Prices.Name != "March" {
		t.Errorf("the bid has the prices of %q", j.Price.Prices.Name)
	}
	if c := must(b.Get(must(b.Copy(id))(t)))(t); len(c.Price.Prices.Items) != 0 {
		t.Errorf("a copy of the bid keeps the prices of %q", c.Price.Prices.Name)
	}
	if s := must(b.Summary(id))(t); s.State != Bid {
		t.Errorf("the job is in state %v", s.State)
	}
	if r := must(b.Revisions(id))(t); len(r) != 2 || r[0].Note != "bid" {
		t.Errorf("revisions: %+v", r)
	}
}

func TestSort(t *testing.T) {
	at := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	list := []Summary{{ID: 1, Name: "b", State: Won, Changed: at}, {ID: 2, Name: "A", State: Draft, Changed: at.Add(1)}, {ID: 3, Name: "b", Customer: "x", Changed: at.Add(2)}}
	for by, want := range map[SortBy][]ID{ByChanged: {3, 2, 1}, ByName: {2, 3, 1}, ByCustomer: {2, 1, 3}, ByState: {3, 2, 1}, ByNumber: {1, 2, 3}} {
		Sort(list, by)
		if got := []ID{list[0].ID, list[1].ID, list[2].ID}; !slices.Equal(got, want) {
			t.Errorf("by %d: %v, want %v", by, got, want)
		}
	}
}
