package main

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// interpreter finds a Python that has the modules, and the other programs. Where
// one is missing the test is left out, but not in continuous integration.
func interpreter(t *testing.T, modules string, programs ...string) string {
	t.Helper()
	lacking := func(what string) {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is missing", what)
		}
		t.Skipf("%s is missing: go run ./cmd/dev test installs it", what)
	}
	for _, p := range programs {
		if _, err := exec.LookPath(p); err != nil {
			lacking(p)
		}
	}
	for _, p := range []string{"/usr/bin/python3", "python3"} {
		if exec.Command(p, "-c", "import "+modules).Run() == nil {
			return p
		}
	}
	lacking("Python with " + modules)
	return ""
}

// hangsOn looks at the files that another program runs from, so that go test, which sees only
// what tests look at themselves, takes no result from before they were changed.
func hangsOn(t *testing.T, dir string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(_ string, d fs.DirEntry, err error) error {
		if err == nil {
			_, err = d.Info()
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// independent runs one of the programs of testdata over a sample of jobs. Each
// has a list of the faults that are known: it fails where a kind is new, is found
// more often, or is gone and still listed.
func independent(t *testing.T, python, folder, program string) {
	t.Helper()
	if testing.Short() {
		t.Skip("goes through many jobs")
	}
	dir := filepath.Join("..", "..", "testdata", folder)
	hangsOn(t, dir)
	out, err := exec.Command(python, filepath.Join(dir, program), "--program", build(t),
		"--count", "12", "--known", filepath.Join(dir, "known.txt")).CombinedOutput()
	if err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}

// TestDocuments reads the documents of jobs by a program that shares nothing
// with this one: what two of them show must be equal in both, what is drawn must
// be what is listed, and what the job says must stand on paper.
func TestDocuments(t *testing.T) {
	t.Parallel()
	independent(t, interpreter(t, "openpyxl, ezdxf", "pdftotext", "pdftocairo"), "reader", "read.py")
}

// TestReader runs the reader's own tests: it takes no label for that of another place, and no
// line for one that it is not.
func TestReader(t *testing.T) {
	t.Parallel()
	python := interpreter(t, "openpyxl, ezdxf")
	dir := filepath.Join("..", "..", "testdata", "reader")
	hangsOn(t, dir)
	if out, err := exec.Command(python, "-B", filepath.Join(dir, "own_test.py")).CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}

// TestPlaced checks what is placed by the rules alone, by another such program.
func TestPlaced(t *testing.T) {
	t.Parallel()
	independent(t, interpreter(t, "numpy, shapely"), "checker", "check.py")
}
