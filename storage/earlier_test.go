package storage

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"testing"

	"haunchbook.example/app/job"
)

// TestEarlierBooksOpen opens a book that was written by a program of each version of the
// job file: the last of that version, built from its source, drew the sample job, wrote
// three notes, printed before the third, and began a second job. The job as that program
// gave it out as a file lies beside the book.
func TestEarlierBooksOpen(t *testing.T) {
	for version := 1; version <= job.Version; version++ {
		t.Run(fmt.Sprint(version), func(t *testing.T) {
			dir := filepath.Join("..", "testdata", "books")
			file := must(os.ReadFile(filepath.Join(dir, fmt.Sprintf("%d.json", version))))(t)
			packed := must(os.Open(filepath.Join(dir, fmt.Sprintf("%d.book.gz", version))))(t)
			defer packed.Close()
			sound := must(io.ReadAll(must(gzip.NewReader(packed))(t)))(t)
			path := newPath(t)
			if err := os.WriteFile(path, sound, 0o600); err != nil {
				t.Fatal(err)
			}
			b := open(t, path)
			all := must(b.List())(t)
			if len(all) != 2 {
				t.Fatalf("%d jobs, want 2", len(all))
			}
			id := ID(1)
			j := must(b.Get(id))(t)
			if want := must(job.Read(bytes.NewReader(file)))(t); !j.Same(want) {
				t.Errorf("it is another job than its file:\n%s\n%s", j.Encode(), want.Encode())
			}
			asFileSays(t, file, j)
			if got := must(b.Get(ID(2)))(t); got.Name != "House slab" || got.Units != 1 {
				t.Errorf("the second job is %q in units %v", got.Name, got.Units)
			}
			if r := must(b.Revision(id, 1))(t); r.Notes != "second" || len(r.Slabs[0].Outline) != len(j.Slabs[0].Outline) {
				t.Errorf("the revision reads %q", r.Notes)
			}
			if s := must(b.Settings())(t); s.Company.Name != "Sample Flatwork" {
				t.Errorf("the settings read %+v", s.Company)
			}
			for _, want := range []string{"second", "first"} {
				if got, _, ok, err := b.Undo(id); !ok || err != nil || got.Notes != want {
					t.Errorf("undone it reads %q, want %q: %v %v", got.Notes, want, ok, err)
				}
			}
			j.Notes = "goes on"
			if err := b.Edit(id, "Notes", j); err != nil {
				t.Fatal(err)
			}
			if err := b.Verify(); err != nil {
				t.Error(err)
			}
			b.Close()
			if err := os.WriteFile(path, sound, 0o600); err != nil {
				t.Fatal(err)
			}
			c, s := salvaged(t, path)
			if got := must(c.Get(id))(t); s.Jobs != 2 || s.Revisions != 1 || got.Notes != "third" {
				t.Errorf("salvaged %+v, notes %q", s, got.Notes)
			}
		})
	}
}

// asFileSays holds a job to what stands in a file, read without the program.
func asFileSays(t *testing.T, file []byte, j job.Job) {
	t.Helper()
	type slab struct {
		Outline []struct{ Doors []struct{ Name string } }
	}
	var says struct {
		Name, Notes, Customer string
		Slab                  slab
		Slabs                 []slab
	}
	if err := json.Unmarshal(file, &says); err != nil {
		t.Fatal(err)
	}
	if says.Slabs = append(says.Slabs, says.Slab); j.Name != says.Name || j.Notes != says.Notes || j.Notes != "third" || j.Customer != says.Customer {
		t.Errorf("it reads %q, %q, %q", j.Name, j.Notes, j.Customer)
	}
	if len(j.Slabs[0].Outline) != len(says.Slabs[0].Outline) || len(j.Slabs[0].Outline) < 5 {
		t.Fatalf("%d corners, and the file has %d", len(j.Slabs[0].Outline), len(says.Slabs[0].Outline))
	}
	for i, e := range j.Slabs[0].Outline {
		if want := len(says.Slabs[0].Outline[i].Doors); len(e.Doors) != want {
			t.Errorf("edge %d has %d doors, and the file %d", i, len(e.Doors), want)
		}
	}
}
