package main

import (
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
)

// Steps beside each other run all, where one fails as well, as soon as others wait; those
// before and after them do not. What each says stands in whole lines.
func TestBeside(t *testing.T) {
	var said strings.Builder
	var mu sync.Mutex
	var order []string
	note := func(name string) {
		mu.Lock()
		defer mu.Unlock()
		order = append(order, name)
	}
	met := make(chan bool)
	r := &runner{stdout: &said, stderr: &said}
	err := r.runAll([]step{
		{name: "before", inside: func(*runner) error { note("before"); return nil }},
		{name: "one", beside: true, inside: func(r *runner) error {
			r.say("one is here")
			met <- true // until the one that waits is there
			note("between")
			return errHelp
		}},
		{name: "two", beside: true, waits: true, inside: func(r *runner) error {
			_, _ = r.stdout.Write([]byte("two is "))
			<-met
			_, _ = r.stdout.Write([]byte("here\nno end"))
			note("between")
			return nil
		}},
		{name: "after", inside: func(*runner) error { note("after"); return nil }},
	})
	if err == nil || err.Error() != "failed: one" {
		t.Errorf("%v, want that one failed", err)
	}
	if strings.Join(order, " ") != "before between between after" {
		t.Errorf("ran %v", order)
	}
	for _, want := range []string{"\none is here\n", "\ntwo is here\n", "\nno end\n", "-- one: help asked for after ", "s  two: ok\n", "s  in all"} {
		if !strings.Contains(said.String(), want) {
			t.Errorf("there is no %q in:\n%s", want, said.String())
		}
	}
}

// A step is expanded to its parts; a dry run says what it is, and runs nothing.
func TestParts(t *testing.T) {
	ran := 0
	part := step{name: "part", inside: func(*runner) error { ran++; return nil }}
	whole := step{name: "whole", parts: func(*runner) ([]step, error) { return []step{part, part}, nil }}
	var said strings.Builder
	r := &runner{stdout: &said, stderr: &said}
	if err := r.runAll([]step{whole}); err != nil || ran != 2 {
		t.Errorf("%v; %d of 2 parts ran", err, ran)
	}
	whole.parts = func(*runner) ([]step, error) { return nil, errHelp }
	if err := r.runAll([]step{whole}); !errors.Is(err, errHelp) {
		t.Errorf("parts that are not known: %v", err)
	}
	r.dry = true
	if err := r.runAll([]step{whole}); err != nil || ran != 2 || !strings.Contains(said.String(), "whole: ") {
		t.Errorf("a dry run gives %v, and says %q", err, said.String())
	}
}

// Every package is tested whole in one run, and every one that starts goroutines with the
// race detector; the seed goes to those alone that know it.
func TestEveryPackageIsTested(t *testing.T) {
	r := &runner{root: "../.."}
	for name, c := range map[string]struct {
		parts func(*runner) ([]step, error)
		of    func(fs.FS) ([]string, error)
		flag  string
	}{
		"all": {testAll, func(f fs.FS) ([]string, error) {
			return packagesWith(f, func(string, []byte) (bool, error) { return true, nil })
		}, ""},
		"raced": {testRaces, concurrent, "-race"},
	} {
		want, err := c.of(os.DirFS(r.root))
		if err != nil {
			t.Fatal(err)
		}
		drawing, err := drawn(os.DirFS(r.root))
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		runs, err := c.parts(r)
		if err != nil {
			t.Fatal(err)
		}
		for _, run := range runs {
			args := run.args
			if c.flag != "" && !slices.Contains(args, c.flag) {
				t.Errorf("%s: no %s in %v", name, c.flag, args)
			}
			for _, a := range args {
				if !strings.HasPrefix(a, "./") {
					continue
				}
				got = append(got, a)
				if slices.Contains(drawing, a) != slices.Contains(args, seed) {
					t.Errorf("%s: %s is run with the seed, or without, in %v", name, a, args)
				}
			}
		}
		slices.Sort(want)
		if slices.Sort(got); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", name, got, want)
		}
	}
}

// What is taken for single starts one thing, the parallel test that waits.
func TestSingle(t *testing.T) {
	starts := map[string][]string{} // files, by package
	err := eachGoFile(os.DirFS("../.."), func(name string, source []byte) error {
		pkg := "./" + path.Dir(name)
		if !slices.Contains(single, pkg) {
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, source, parser.SkipObjectResolution)
		if err == nil && startsGoroutines(f) {
			starts[pkg] = append(starts[pkg], name)
			if n := strings.Count(string(source), "t.Parallel()"); n != 1 || !strings.HasSuffix(name, "_test.go") || strings.Contains(string(source), "\tgo ") {
				t.Errorf("%s starts more than a parallel test", name)
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, pkg := range single {
		if len(starts[pkg]) != 1 {
			t.Errorf("%s has %v", pkg, starts[pkg])
		}
	}
}

// The tests that are run with the race detector are there, and each file that starts
// goroutines in their packages has one.
func TestWatched(t *testing.T) {
	root := os.DirFS("../..")
	tests := map[string][]string{} // by package
	starts := map[string]bool{}
	err := eachGoFile(root, func(name string, source []byte) error {
		pkg := "./" + path.Dir(name)
		if watched[pkg] == nil {
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, source, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		if !strings.HasSuffix(name, "_test.go") {
			starts[name] = startsGoroutines(f)
			return nil
		}
		for _, d := range f.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && fn.Recv == nil && strings.HasPrefix(fn.Name.Name, "Test") {
				tests[pkg] = append(tests[pkg], fn.Name.Name)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for pkg, list := range watched {
		for _, w := range list {
			if !slices.ContainsFunc(tests[pkg], regexp.MustCompile("^("+w+")$").MatchString) {
				t.Errorf("%s has no test %s", pkg, w)
			}
		}
	}
	for name, is := range starts {
		if by, ok := starting[name]; is != ok {
			t.Errorf("%s starts goroutines: %t; there is a test for it: %t; see races.go", name, is, ok)
		} else if ok && !slices.Contains(watched["./"+path.Dir(name)], by) {
			t.Errorf("%s is watched by %s, which is not run", name, by)
		}
	}
	for name := range starting {
		if _, ok := starts[name]; !ok {
			t.Errorf("there is no %s", name)
		}
	}
}
