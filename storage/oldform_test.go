package storage

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"haunchbook.example/geometry"
)

// oldState is a state of a job as books of form 1 hold it: a job file of version
// 1, with one slab, and the picture in it.
func oldState(notes string) []byte {
	return fmt.Appendf(nil, `{
  "haunchbook": 1,
  "name": "Shop addition, Lot 7",
  "customer": "Sample customer",
  "notes": %q,
  "units": "ft-in",
  "slab": {
    "field": "6\"",
    "sections": [{"name": "Edge 12", "depth": "12\"", "bottom": "12\"", "taper": "8\""}],
    "outline": [
      {"at": ["0", "0"], "section": "Edge 12", "wall": "2x6", "doors": [{"name": "D1", "kind": "overhead", "from": "5'-3\"", "width": "12'"}]},
      {"at": ["22'-6\"", "0"], "section": "Edge 12", "wall": "2x6"},
      {"at": ["22'-6\"", "28'"], "joint": true},
      {"at": ["0", "28'"], "section": "Edge 12"}
    ],
    "base": "graded"
  },
  "spec": {"mix": {"strength": 3500, "slump": "5\"", "aggregate": "3/4\"", "air": 6}},
  "pour": {"weathering": "severe", "use": "garage"},
  "trace": {"image": %q, "corners": [["0", "20'"], ["30'", "20'"], ["30'", "0"], ["0", "0"]], "fade": 40}
}
`, notes, sketch(1).Image)
}

// oldBook makes a book as the first form of this program left it, of one job with
// three states and a revision.
func oldBook(t *testing.T) (path string, id ID) {
	t.Helper()
	path = newPath(t)
	b := open(t, path)
	id = must(b.Create(shop(1)))(t)
	at := time.Date(2025, 11, 3, 9, 30, 0, 0, time.UTC)
	err := b.update(func(t *tx) error {
		t.about.Schema = 1
		if err := t.DeleteBucket(inPictures.name()); err != nil {
			return err
		}
		for seq, notes := range []string{"", "one", "two"} {
			if err := t.putState(inEdits, key{uint64(id), uint64(seq + 1)}, edit{Label: "Write " + notes, Time: at, data: oldState(notes)}); err != nil {
				return err
			}
		}
		e := entry{First: 1, At: 3, Last: 3}
		e.ID, e.Name, e.Created, e.Changed = id, "Shop addition, Lot 7", at, at
		if err := t.putJSON(inEntries, key{uint64(id), 0}, e); err != nil {
			return err
		}
		if err := t.putRevision(id, 1, edit{Label: "printed", Time: at, data: oldState("one")}); err != nil {
			return err
		}
		start, _, _ := strings.Cut(string(oldState("")), `,
  "trace"`)
		settings := fmt.Sprintf(`{"company": {"name": "Sample Flatwork"}, "start": %s}, "frost": "30\""}`, start)
		if err := t.put(inSettings, key{}, []byte(settings)); err != nil {
			return err
		}
		return t.put(inJobs, key{uint64(id), 0}, oldState("two"))
	})
	if err != nil {
		t.Fatal(err)
	}
	b.Close()
	return path, id
}

// TestOldBookOpens opens a book of the first form, goes on in it and takes it
// apart.
func TestOldBookOpens(t *testing.T) {
	path, id := oldBook(t)
	b := open(t, path)
	check := func(b *Book, notes string) {
		t.Helper()
		j := must(b.Get(id))(t)
		if faults := j.Validate(); len(faults) > 0 {
			t.Fatal(faults)
		}
		if len(j.Slabs) != 1 || len(j.Slabs[0].Outline) != 4 || j.Slabs[0].Field != 6*geometry.Inch || len(j.Slabs[0].Outline[0].Doors) != 1 {
			t.Errorf("the slab reads %+v", j.Slabs)
		}
		if j.Notes != notes || j.Sketch.Image != sketch(1).Image || j.Spec.Mix.Strength != 3500 {
			t.Errorf("the job reads %q, a picture of %d characters, %d psi", j.Notes, len(j.Sketch.Image), j.Spec.Mix.Strength)
		}
	}
	check(b, "two")
	if r := must(b.Revision(id, 1))(t); r.Notes != "one" || len(r.Slabs[0].Outline) != 4 {
		t.Errorf("the revision reads %+v", r)
	}
	if s := must(b.Settings())(t); s.Company.Name != "Sample Flatwork" || s.Frost != 30*geometry.Inch || s.Start.Spec.Mix.Strength != 3500 {
		t.Errorf("the settings read %+v", s)
	}
	if _, label, ok, err := b.Undo(id); !ok || err != nil || label != "Write two" {
		t.Errorf("undo: %q %v %v", label, ok, err)
	}
	check(b, "one")
	j := must(b.Get(id))(t)
	j.Notes = "new form"
	if err := b.Edit(id, "Notes", j); err != nil {
		t.Fatal(err)
	}
	check(b, "new form")
	if l := must(b.List())(t); len(l) != 1 || len(l[0].Thumbnail) != 4 {
		t.Errorf("the list is %+v", l)
	}
	if n := pictures(t, b); n != 1 {
		t.Errorf("%d pictures, want 1", n)
	}
	backup := ""
	for _, f := range must(Backups(path))(t) {
		if f.Note == "form1" {
			backup = f.Path
		}
	}
	if err := b.Verify(); err != nil || backup == "" {
		t.Errorf("%v; the backup from before is %q", err, backup)
	}
	b.Close()

	// What was set aside before the migration can be salvaged and restored too.
	c, s := salvaged(t, backup)
	check(c, "two")
	if s.Jobs != 1 || s.Revisions != 1 || s.Edits != 2 || s.Pictures != 0 {
		t.Errorf("salvaged %+v", s)
	}
	if _, err := Restore(path, backup); err != nil {
		t.Fatal(err)
	}
	check(open(t, path), "two")
}
