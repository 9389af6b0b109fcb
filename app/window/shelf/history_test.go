package shelf

import (
	"path/filepath"
	"slices"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/document"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/storage"
)

// An edit that changes nothing is no step, and what undo and redo would do is told by
// the label of what they then do.
func TestUndoIsToldAsItIs(t *testing.T) {
	book, err := storage.Open(filepath.Join(t.TempDir(), "jobs.book"), storage.Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	h, err := newHistory(storage.NewQueue(book, nil), 0, job.New())
	if err != nil {
		t.Fatal(err)
	}
	for name, h := range map[string]document.History{"book": h, "memory": nil} {
		t.Run(name, func(t *testing.T) {
			d := document.New(job.New(), nil, document.Scheduler{})
			d.Reset(job.New(), h)
			call := func(label, name string) {
				j := d.Job()
				j.Name = name
				d.Commit(label, j)
			}
			call("Call it B", "B")
			call("Call it B again", "B")
			j := d.Job()
			j.Slabs = slices.Clone(j.Slabs)
			j.Slabs[0].Pads = []plan.Pad{} // an empty list, as none
			d.Commit("No pads", j)
			call("Call it C", "C")
			d.Preview(j)
			d.Commit("Drag and put back", d.Base())
			for _, move := range []struct {
				told func() (string, bool)
				step func() (string, bool)
				want []string
			}{
				{d.CanUndo, d.Undo, []string{"Call it C", "Call it B", ""}},
				{d.CanRedo, d.Redo, []string{"Call it B", "Call it C", ""}},
			} {
				for _, want := range move.want {
					told, _ := move.told()
					if done, ok := move.step(); told != want || done != want || ok != (want != "") {
						t.Errorf("told %q, did %q; want %q", told, done, want)
					}
				}
			}
			if d.Job().Name != "C" {
				t.Errorf("it ends as %q", d.Job().Name)
			}
		})
	}
}
