package storage

import (
	"fmt"
	"testing"
)

// BenchmarkBook measures a book of 10,000 jobs.
func BenchmarkBook(b *testing.B) {
	const jobs = 10_000
	path := newPath(b)
	book := open(b, path)
	err := book.update(func(t *tx) error {
		for n := range jobs {
			if _, err := t.create(shop(n), book.o.Now(), "New job"); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		b.Fatal(err)
	}
	book.Close()
	o := Options{NoBackup: true}
	b.Run("Open and list", func(b *testing.B) {
		for b.Loop() {
			book, err := Open(path, o)
			if err != nil {
				b.Fatal(err)
			}
			list, err := book.List()
			if err != nil || len(list) != jobs {
				b.Fatal(len(list), err)
			}
			book.Close()
		}
	})
	book, err = Open(path, o)
	if err != nil {
		b.Fatal(err)
	}
	defer book.Close()
	list, err := book.List()
	if err != nil {
		b.Fatal(err)
	}
	b.Run("List again after an edit", func(b *testing.B) {
		j := shop(1)
		for n := 0; b.Loop(); n++ {
			j.Notes = fmt.Sprint("again ", n)
			if err := book.Edit(list[0].ID, "Notes", j); err != nil {
				b.Fatal(err)
			}
			if again, err := book.List(); err != nil || len(again) != jobs {
				b.Fatal(len(again), err)
			}
		}
	})
	b.Run("Search", func(b *testing.B) {
		for b.Loop() {
			n := 0
			for _, s := range list {
				if s.Matches("ferry 99") {
					n++
				}
			}
			if n == 0 {
				b.Fatal("nothing found")
			}
		}
	})
	b.Run("Edit", func(b *testing.B) {
		j := shop(1)
		for n := 0; b.Loop(); n++ {
			j.Notes = fmt.Sprint(n)
			if err := book.Edit(list[0].ID, "Notes", j); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("Backup", func(b *testing.B) {
		for b.Loop() {
			if _, err := book.Backup("bench"); err != nil {
				b.Fatal(err)
			}
		}
	})
}
