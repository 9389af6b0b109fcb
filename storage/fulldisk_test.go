package storage

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// TestFullDisk fills small disks of several sizes, so that writes are cut short at
// different places of a commit.
func TestFullDisk(t *testing.T) {
	if testing.Short() {
		t.Skip("goes through much, one after the other: run without -short")
	}
	for _, pages := range []int{45, 46, 47, 50, 53, 61, 128, 256} {
		t.Run(fmt.Sprint(pages), func(t *testing.T) {
			t.Parallel()
			fullDisk(t, pages)
		})
	}
}

func fullDisk(t *testing.T, pages int) {
	dir := t.TempDir()
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", fmt.Sprintf("size=%dk", pages*4), "none", dir).CombinedOutput(); err != nil {
		t.Skipf("mounting a small disk needs root: %v: %s", err, out)
	}
	defer func() {
		var out []byte
		err := errors.New("never tried")
		for n := 0; err != nil && n < 100; n++ { // a program that another test starts has our files until it runs
			time.Sleep(time.Duration(n) * time.Millisecond)
			out, err = exec.Command("umount", dir).CombinedOutput()
		}
		if err != nil {
			t.Errorf("%v: %s", err, out)
		}
	}()
	path := filepath.Join(dir, "jobs.book")
	b, err := Open(path, Options{NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	j := shop(0)
	id := must(b.Create(j))(t)
	saved := 0
	for n := 1; n < 5000; n++ {
		j.Notes, j.Site = strconv.Itoa(n), filling(n)
		if err = b.Edit(id, "Edit", j); err != nil {
			break
		}
		saved = n
	}
	if !IsKind(err, Full) {
		t.Fatalf("after %d edits: %v, want Full", saved, err)
	}
	if !strings.Contains(err.Error(), "disk is full") {
		t.Errorf("the message does not say so: %v", err)
	}
	check := func(b *Book) {
		t.Helper()
		if got := must(b.Get(id))(t); got.Notes != strconv.Itoa(saved) {
			t.Errorf("the book holds edit %s, want the last saved, %d", got.Notes, saved)
		}
	}
	check(b)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	if b, err = Open(path, Options{}); err != nil {
		t.Fatalf("on a full disk the book does not open: %v", err)
	}
	check(b)
	b.Close()

	// No stub of a new book is left where none could be made.
	fillDisk(t, dir)
	if _, err := Open(filepath.Join(dir, "new.book"), Options{}); !IsKind(err, Full) {
		t.Errorf("a new book on a full disk: %v, want Full", err)
	}
	files, _ := os.ReadDir(dir)
	for _, f := range files {
		if strings.HasPrefix(f.Name(), "new") || strings.HasPrefix(f.Name(), ".new") {
			t.Errorf("%s is left", f.Name())
		}
	}
}

func fillDisk(t *testing.T, dir string) {
	t.Helper()
	f, err := os.Create(filepath.Join(dir, "sawdust"))
	if err != nil {
		return // not even room for a name
	}
	for err == nil {
		_, err = f.Write(make([]byte, 4096))
	}
	_ = f.Close()
}
