package main

import (
	"slices"
	"strings"
	"testing"
	"time"
)

// What go compiles is counted and said; what it complains of is passed on at once.
func TestProgress(t *testing.T) {
	var b strings.Builder
	p := &progress{to: &b}
	p.Write([]byte("internal/abi\nexample.org/a"))
	if b.Len() > 0 {
		t.Fatalf("said before anything was to be said: %q", b.String())
	}
	p.Write([]byte("/b\ngo: downloading example.org/c v1.0.0\n# example.org/a/b\na/b.go:3:1: no such thing\n"))
	p.beat(time.Second)
	p.beat(time.Second) // nothing new, and not long enough to say so
	want := "go: downloading example.org/c v1.0.0\n# example.org/a/b\na/b.go:3:1: no such thing\n" +
		"   compiling, 2 packages so far; now example.org/a/b\n"
	if b.String() != want {
		t.Errorf("said %q, want %q", b.String(), want)
	}
	b.Reset()
	for range patience {
		p.beat(90 * time.Second)
	}
	if got := b.String(); got != "   still compiling after 1m30s; last begun: example.org/a/b\n" {
		t.Errorf("after a while without a word: %q", got)
	}
	b.Reset()
	for range 3 * patience {
		heardWriter{&b, p}.Write([]byte("."))
		p.beat(time.Minute)
	}
	if strings.Contains(b.String(), "still") {
		t.Errorf("a command that speaks is said to be silent: %q", b.String())
	}
	p.Write([]byte("no end"))
	if p.flush(); !strings.HasSuffix(b.String(), "no end") {
		t.Errorf("the last line is lost: %q", b.String())
	}
}

func TestTelling(t *testing.T) {
	for _, c := range [][2][]string{
		{{"go", "build", "-o", "x"}, {"go", "build", "-v", "-o", "x"}},
		{{"go", "run", "./cmd/x"}, {"go", "run", "-v", "./cmd/x"}},
		{{"go", "test", "./..."}, {"go", "test", "./..."}},
		{{"xz"}, {"xz"}},
	} {
		if got := telling(c[0]); !slices.Equal(got, c[1]) {
			t.Errorf("%v: %v, want %v", c[0], got, c[1])
		}
	}
}
