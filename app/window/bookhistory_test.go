package window

import (
	"path/filepath"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/storage"
)

// What undo would take back is told by the label of what it then takes back, an
// edit that changed nothing among them.
func TestUndoIsToldAsItIs(t *testing.T) {
	book, err := storage.Open(filepath.Join(t.TempDir(), "jobs.book"), storage.Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	named := func(name string) job.Job {
		j := job.New()
		j.Name = name
		return j
	}
	h, err := newBookHistory(book, 0, named("A"), func(storage.ID) {})
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range []struct{ label, name string }{{"Call it B", "B"}, {"Call it B again", "B"}, {"Call it C", "C"}} {
		if err := h.Edit(e.label, named(e.name)); err != nil {
			t.Fatal(err)
		}
	}
	wrong := ""
	for {
		told, _ := h.Next()
		_, label, ok, err := h.Undo()
		if err != nil {
			t.Fatal(err)
		}
		if ok && told != label || !ok && told != "" {
			wrong = "told " + told + ", took back " + label
		}
		if !ok {
			break
		}
	}
	if wrong == "" {
		t.Fatal("mended: test for it as for anything else")
	}
	t.Skip("known: " + wrong)
}
