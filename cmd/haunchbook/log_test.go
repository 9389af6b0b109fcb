package main

import (
	"io"
	"log"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"haunchbook.example/app/guard"
)

// A fault of the program is in the log with where it arose; the log is its owner's to read,
// and begun anew when it is large.
func TestLog(t *testing.T) {
	was := log.Writer()
	log.SetOutput(io.Discard)
	defer log.SetOutput(was)
	dir := filepath.Join(t.TempDir(), "settings")
	name, done := keepLog(dir)
	if err := guard.Try("the takeoff", func() error { return spoiled() }); err == nil {
		t.Fatal("no error of a panic")
	}
	log.Print("from the toolkit")
	done()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"the takeoff failed: planted", "haunchbook.spoiled", "from the toolkit"} {
		if !strings.Contains(string(data), want) {
			t.Errorf("the log has no %q: %.400s", want, data)
		}
	}
	if i, err := os.Stat(name); err != nil || i.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v", i.Mode(), err)
	}
	if err := os.WriteFile(name, make([]byte, mostLog+1), 0o600); err != nil {
		t.Fatal(err)
	}
	_, done = keepLog(dir)
	done()
	now, err := os.Stat(name)
	before, errBefore := os.Stat(name + ".before")
	if err != nil || errBefore != nil || now.Size() > 1000 || before.Size() != mostLog+1 {
		t.Errorf("%v, %v; before %v, %v", now, err, before, errBefore)
	}
	if name, done := keepLog(filepath.Join(name, "below a file")); name != "" {
		t.Errorf("a log at %s", name)
	} else {
		done()
	}
}

//go:noinline
func spoiled() error { panic("planted") }
