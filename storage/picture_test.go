package storage

import (
	"crypto/sha256"
	"encoding/base64"
	"math/rand/v2"
	"os"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/app/visit"
	"haunchbook.example/geometry"
)

// sketch is a sketch: a file that begins as a PNG does, with noise that
// does not pack.
func sketch(n int) job.Sketch { return sketchOf(n, 6000) }

func sketchOf(n, size int) job.Sketch {
	file := []byte("\x89PNG\r\n\x1a\n")
	r := rand.New(rand.NewPCG(uint64(n), 5))
	for len(file) < size {
		file = append(file, byte(r.Uint32()))
	}
	at := func(x, y geometry.Length) geometry.Point {
		return geometry.Point{X: x * geometry.Foot, Y: y * geometry.Foot}
	}
	return job.Sketch{Image: base64.StdEncoding.EncodeToString(file), Corners: []geometry.Point{at(0, 20), at(30, 20), at(30, 0), at(0, 0)}}
}

func pictures(t *testing.T, b *Book) int {
	t.Helper()
	n := 0
	err := b.view(func(tx *tx) error {
		return tx.each(inPictures, 0, func(_ key, _ []byte, err error) error {
			n++
			return err
		})
	})
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func TestPictureIsStoredOnce(t *testing.T) {
	path := newPath(t)
	b, err := Open(path, Options{Now: clock(), NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	defer func() { b.Close() }()
	const size = 400_000
	j := shop(1)
	j.Sketch = sketchOf(1, size)
	id := must(b.Create(j))(t)
	for range 50 {
		j.Slabs[0].Outline[0].At.X++
		if err := b.Edit(id, "Move corner 1", j); err != nil {
			t.Fatal(err)
		}
	}
	must(b.Revise(id, "printed"))(t)
	if n := pictures(t, b); n != 1 {
		t.Errorf("%d pictures are stored for 51 states with one", n)
	}
	if err := b.Compact(); err != nil {
		t.Fatal(err)
	}
	if r := must(b.Room())(t); r.Size > 2*size {
		t.Errorf("the book has %d bytes for a picture of %d", r.Size, size)
	}
	check := func(name string, got job.Job, err error) {
		t.Helper()
		if err != nil || got.Sketch.Image != j.Sketch.Image {
			t.Errorf("%s: a picture of %d characters (%v), want %d", name, len(got.Sketch.Image), err, len(j.Sketch.Image))
		}
	}
	b.Close()
	if b, err = Open(path, Options{Now: clock(), NoBackup: true}); err != nil {
		t.Fatal(err)
	}
	got, err := b.Get(id)
	check("the job", got, err)
	b.pictures.forget()
	got, err = b.Revision(id, 1)
	check("the revision", got, err)
	b.pictures.forget()
	got, _, _, err = b.Undo(id)
	check("undone", got, err)
	copied := must(b.Copy(id))(t)
	got, err = b.Get(copied)
	check("the copy", got, err)
	if err := b.Verify(); err != nil {
		t.Error(err)
	}
	if err := b.Delete(copied); err != nil {
		t.Fatal(err)
	}
	if n := pictures(t, b); n != 1 {
		t.Errorf("%d pictures after the copy was deleted, want 1", n)
	}
}

func TestPictureGoesWithTheLastState(t *testing.T) {
	b, err := Open(newPath(t), Options{Now: clock(), NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	j := shop(1)
	j.Sketch = sketch(1)
	id := must(b.Create(j))(t)
	edit := func(label string) {
		t.Helper()
		if err := b.Edit(id, label, j); err != nil {
			t.Fatal(err)
		}
	}
	undo := func(times int) {
		t.Helper()
		for range times {
			if _, _, ok, err := b.Undo(id); !ok || err != nil {
				t.Fatal(ok, err)
			}
		}
	}
	j.Sketch = sketch(2)
	edit("Other picture")
	j.Sketch = job.Sketch{}
	edit("No picture")
	if n := pictures(t, b); n != 2 {
		t.Errorf("%d pictures, want both: they can be had by undo", n)
	}
	undo(2)
	j.Notes, j.Sketch = "another way", sketch(1)
	edit("Notes")
	if n := pictures(t, b); n != 1 {
		t.Errorf("%d pictures once the second is out of reach, want 1", n)
	}
	// A revision keeps one that undo and redo no longer reach.
	j.Sketch = sketch(3)
	edit("Third picture")
	must(b.Revise(id, "printed"))(t)
	undo(1)
	j.Notes, j.Sketch = "a third way", sketch(1)
	edit("Notes")
	if n := pictures(t, b); n != 2 {
		t.Errorf("%d pictures, want that of the job and that of its revision", n)
	}
	if r := must(b.Revision(id, 1))(t); r.Sketch.Image != sketch(3).Image {
		t.Error("the revision has another picture")
	}
	if err := b.Verify(); err != nil {
		t.Error(err)
	}
}

func TestDamagedPictureIsSaidAndSalvaged(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	j := shop(1)
	j.Sketch = sketch(1)
	id := must(b.Create(j))(t)
	j.Notes = "one more state"
	if err := b.Edit(id, "Notes", j); err != nil {
		t.Fatal(err)
	}
	b.Close()
	sound := must(os.ReadFile(path))(t)
	c, s := salvaged(t, path)
	if got := must(c.Get(id))(t); got.Sketch.Image != j.Sketch.Image || s.Pictures != 0 {
		t.Errorf("salvaged %+v without the picture", s)
	}
	if err := os.WriteFile(path, sound, 0o644); err != nil {
		t.Fatal(err)
	}
	sum, _ := pictureSum(mustRef(t, j))
	spoil(t, path, inPictures, pictureKey(id, sum))
	b = open(t, path)
	if _, err := b.Get(id); !IsKind(err, Damaged) {
		t.Errorf("with its picture spoilt: %v, want Damaged", err)
	}
	b.Close()
	c, s = salvaged(t, path)
	got := must(c.Get(id))(t)
	if got.Sketch.Any() || got.Notes != j.Notes || s.Pictures != 1 || s.Edits != 1 {
		t.Errorf("salvaged %+v, notes %q", s, got.Notes)
	}
	if was, _, ok, err := c.Undo(id); !ok || err != nil || was.Notes != "" {
		t.Errorf("undo after salvage: %q, %v, %v", was.Notes, ok, err)
	}
}

// Photographs are each stored once, beside a sketch; one that is lost goes, and the others
// stay.
func TestPhotographs(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	j := shop(1)
	j.Sketch = sketch(1)
	for n := range 3 {
		j.Visit.Photos = append(j.Visit.Photos, visit.Photo{Name: "north side", Image: sketch(10 + n).Image})
	}
	j.Visit.Photos = append(j.Visit.Photos, visit.Photo{Name: "the same again", Image: sketch(11).Image})
	id := must(b.Create(j))(t)
	for range 5 {
		j.Slabs[0].Outline[0].At.X++
		if err := b.Edit(id, "Move corner 1", j); err != nil {
			t.Fatal(err)
		}
	}
	if n := pictures(t, b); n != 4 {
		t.Errorf("%d pictures are stored, want 4", n)
	}
	b.pictures.forget()
	if got := must(b.Get(id))(t); !got.Same(j) {
		t.Error("the job comes back otherwise")
	}
	j.Visit.Photos = j.Visit.Photos[1:]
	if err := b.Edit(id, "Remove a photograph", j); err != nil {
		t.Fatal(err)
	}
	b.Close()
	file := must(base64.StdEncoding.DecodeString(j.Visit.Photos[0].Image))(t) // that of the first, and of the last
	sum := sha256.Sum256(file)
	spoil(t, path, inPictures, pictureKey(id, sum[:]))
	c, s := salvaged(t, path)
	got := must(c.Get(id))(t)
	if len(got.Visit.Photos) != 1 || got.Visit.Photos[0] != j.Visit.Photos[1] || got.Sketch.Image != j.Sketch.Image || s.Pictures != 1 {
		t.Errorf("salvaged %+v with %d photographs, want the sketch and the one that is sound", s, len(got.Visit.Photos))
	}
}

func mustRef(t *testing.T, j job.Job) string {
	t.Helper()
	b := open(t, newPath(t))
	id := must(b.Create(j))(t)
	ref := ""
	if err := b.view(func(t *tx) error {
		data, err := t.get(inJobs, key{uint64(id), 0})
		if refs := picturesOf(data); len(refs) == 1 {
			ref = refs[0]
		}
		return err
	}); err != nil {
		t.Fatal(err)
	}
	return ref
}

// BenchmarkEditWithPicture edits a job that has a photograph under its plan.
func BenchmarkEditWithPicture(b *testing.B) {
	book := open(b, newPath(b))
	j := shop(1)
	j.Sketch = sketchOf(1, 2_000_000)
	id := must(book.Create(j))(b)
	for b.Loop() {
		j.Slabs[0].Outline[0].At.X++
		if err := book.Edit(id, "Move corner 1", j); err != nil {
			b.Fatal(err)
		}
	}
}
