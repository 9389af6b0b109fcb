package window

import (
	"archive/zip"
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/storage"
)

// bigBook makes a book of n jobs, by importing them.
func bigBook(b *testing.B, n int) string {
	b.Helper()
	demo, err := shelf.Demo()
	if err != nil {
		b.Fatal(err)
	}
	var buf bytes.Buffer
	z := zip.NewWriter(&buf)
	put := func(name string, data []byte) {
		w, err := z.Create(name)
		if err == nil {
			_, err = w.Write(data)
		}
		if err != nil {
			b.Fatal(err)
		}
	}
	put("book.json", []byte(`{"haunchbook-export": 1}`))
	for i := range n {
		j := demo
		j.Name, j.Customer, j.Site = fmt.Sprintf("Shop addition %d", i), fmt.Sprintf("Customer %d", i%97), fmt.Sprintf("%d Ferry Lane", i)
		put(fmt.Sprintf("jobs/%05d/job.json", i+1), j.Encode())
	}
	if err := z.Close(); err != nil {
		b.Fatal(err)
	}
	path := filepath.Join(b.TempDir(), "jobs.book")
	book, err := storage.Open(path, storage.Options{NoBackup: true})
	if err != nil {
		b.Fatal(err)
	}
	if _, err := book.ImportBytes(context.Background(), buf.Bytes()); err != nil {
		b.Fatal(err)
	}
	if err := book.Close(); err != nil {
		b.Fatal(err)
	}
	return path
}

// BenchmarkJobBook measures what one waits for with 10,000 jobs in the book.
func BenchmarkJobBook(b *testing.B) {
	path := bigBook(b, 10_000)
	a := test.NewTempApp(b)
	book, err := storage.Open(path, storage.Options{NoBackup: true})
	if err != nil {
		b.Fatal(err)
	}
	defer book.Close()
	j, err := book.Get(1)
	if err != nil {
		b.Fatal(err)
	}
	w, err := New(a, Options{Job: j, ID: 1, Book: book})
	if err != nil {
		b.Fatal(err)
	}
	w.win.SetPadded(false)
	w.win.Resize(fyne.NewSize(1280, 860))
	if _, err := book.List(); err != nil { // as is done beside the window once it is up
		b.Fatal(err)
	}
	b.Run("turn to the page", func(b *testing.B) {
		for b.Loop() {
			w.pages.turn(bookPage)
			w.pages.home()
		}
	})
	w.pages.turn(bookPage)
	p := hands.On(b, w.pages.list[bookPage].root)
	search, list := p.Entries()[0], hands.Every[interface{ Select(widget.ListItemID) }](p)[0]
	b.Run("type a letter in the search", func(b *testing.B) {
		for n := 0; b.Loop(); n++ {
			search.SetText([]string{"f", "fe", "ferry", "ferry 9", "ferry 99", "customer 12"}[n%6])
		}
	})
	search.SetText("")
	b.Run("choose a job", func(b *testing.B) {
		for n := 0; b.Loop(); n++ {
			list.Select(n % 1000)
		}
	})
	b.Run("open a job", func(b *testing.B) {
		for n := 0; b.Loop(); n++ {
			w.openFromBook(storage.ID(1 + n%1000))
		}
	})
	w.pages.home()
	b.Run("edit a job", func(b *testing.B) {
		for n := 0; b.Loop(); n++ {
			if err := w.doc.Change("Notes", func(j *job.Job) { j.Notes = fmt.Sprint(n) }); err != nil {
				b.Fatal(err)
			}
		}
	})
}
