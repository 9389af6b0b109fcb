package storage_test

import (
	"fmt"
	"log"
	"os"
	"path/filepath"

	"haunchbook.example/app/job"
	"haunchbook.example/storage"
)

func Example() {
	dir, err := os.MkdirTemp("", "jobs")
	if err != nil {
		log.Fatal(err)
	}
	defer os.RemoveAll(dir)

	book, err := storage.Open(filepath.Join(dir, "jobs.book"), storage.Options{})
	if err != nil {
		log.Fatal(err)
	}
	defer book.Close()

	j := job.New()
	j.Name = "Shop floor"
	id, err := book.Create(j)
	if err != nil {
		log.Fatal(err)
	}
	j.Notes = "Top of slab matches the old floor."
	if err := book.Edit(id, "Notes", j); err != nil { // on disk when it returns
		log.Fatal(err)
	}
	_, label, _, err := book.Undo(id)
	if err != nil {
		log.Fatal(err)
	}
	list, err := book.List()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("undid %q; %s %s is in %s\n", label, list[0].ID, list[0].Name, list[0].State)
	// Output: undid "Notes"; J-0001 Shop floor is in draft
}
