package main

import (
	"os"
	"slices"
	"testing"
	"testing/fstest"
)

// The race detector is run where goroutines are started, by the program or by a test.
func TestConcurrentPackages(t *testing.T) {
	files := fstest.MapFS{}
	for name, source := range map[string]string{
		"plain/p.go":          "package plain; func F() { go F() }",
		"alone/a.go":          `package alone; import "sync"; var L sync.Mutex`,
		"group/g.go":          `package group; import "sync"; func F(w *sync.WaitGroup) { w.Go(func() {}) }`,
		"later/l.go":          `package later; import "time"; var T = time.AfterFunc(1, func() {})`,
		"tested/t.go":         "package tested",
		"tested/t_test.go":    `package tested; import "testing"; func TestT(t *testing.T) { t.Parallel() }`,
		"alone/testdata/x.go": "package x; func F() { go F() }",
		".hidden/h.go":        "package h; func F() { go F() }",
	} {
		files[name] = &fstest.MapFile{Data: []byte(source)}
	}
	got, err := concurrent(files)
	slices.Sort(got)
	if want := []string{"./group", "./later", "./plain", "./tested"}; err != nil || !slices.Equal(got, want) {
		t.Errorf("%v, %v, want %v", got, err, want)
	}
	files["alone/a.go"] = &fstest.MapFile{Data: []byte("package")}
	if _, err := concurrent(files); err == nil {
		t.Error("what does not read is passed over")
	}
}

// The book's queue and what the window computes aside are among them.
func TestTheProjectsConcurrentPackages(t *testing.T) {
	got, err := concurrent(os.DirFS("../.."))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"./storage", "./app/window"} {
		if !slices.Contains(got, want) {
			t.Errorf("%s is not among %v", want, got)
		}
	}
}

// Packages that are begun first are there, and nothing is left out or doubled.
func TestLongestFirst(t *testing.T) {
	all, err := packagesWith(os.DirFS("../.."), func(string, []byte) (bool, error) { return true, nil })
	if err != nil {
		t.Fatal(err)
	}
	for _, pkg := range longest {
		if !slices.Contains(all, pkg) {
			t.Errorf("%s is no package", pkg)
		}
	}
	got := longestFirst(all)
	if !slices.Equal(got[:len(longest)], longest) {
		t.Errorf("they begin with %v", got[:len(longest)])
	}
	slices.Sort(got)
	if slices.Sort(all); !slices.Equal(got, all) {
		t.Errorf("%v, want %v", got, all)
	}
}
