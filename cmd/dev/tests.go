package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
)

// testRaces gives the runs of the concurrent packages with the race detector.
func testRaces(r *runner) ([]step, error) {
	packages, err := concurrent(os.DirFS(r.root))
	if err != nil {
		return nil, err
	}
	return r.testing(packages, watched, "race", []string{"-race", "-short"}, "CGO_ENABLED=1")
}

// compileRaced compiles what testRaces runs.
func compileRaced(r *runner) error {
	packages, err := concurrent(os.DirFS(r.root))
	if err != nil {
		return err
	}
	return r.execute(compiling(append([]string{"-race"}, packages...)...).with("CGO_ENABLED=1"), r.stdout)
}

// testAll gives the runs of all tests.
func testAll(r *runner) ([]step, error) {
	packages, err := packagesWith(os.DirFS(r.root), func(string, []byte) (bool, error) { return true, nil })
	if err != nil {
		return nil, err
	}
	return r.testing(packages, nil, "tests", nil, "CI=true")
}

// seed is what cases that are drawn by chance are drawn from, so that the same source
// passes the same tests each time. Who runs a package's tests by hand draws others.
const seed = "-rapid.seed=20260412"

// longest are the packages whose tests take longest. They are begun first, each in a run of
// its own, so that no processor waits for the last of them alone.
var longest = []string{"./app/window", "./storage/office", "./cmd/haunchsheet", "./export/sheet", "./export/workbook", "./storage", "./app/window/shelf", "./geometry/layout", "./geometry/solid"}

// waiting are the packages whose tests mostly wait, for servers and for what is looked for
// now and then.
var waiting = []string{"./storage/office", "./app/window/shelf"}

// together is in how many runs the tests of the other packages are.
const together = 4

// collection lets the tests' memory grow further before it is collected: they end soon.
const collection = "GOGC=400"

// testing gives the runs of the tests of packages; only has the tests that are run of some.
// Packages with cases that are drawn by chance are apart, since they alone know the seed.
func (r *runner) testing(packages []string, only map[string][]string, what string, args []string, env string) ([]step, error) {
	drawing, err := drawn(os.DirFS(r.root))
	if err != nil {
		return nil, err
	}
	var out []step
	add := func(name string, packages ...string) {
		c := slices.Concat([]string{"test", headless, "-vet=off", "-p=1", "-json", "-timeout=40m"}, args)
		if tests := only[packages[0]]; len(tests) > 0 {
			c = append(c, "-run=^("+strings.Join(tests, "|")+")$")
		}
		c = append(c, packages...)
		if slices.Contains(drawing, packages[0]) {
			c = append(c, seed)
		}
		out = append(out, step{name: what + ": " + name, beside: true, waits: slices.Contains(waiting, packages[0]), command: goTool(c...).with(env, collection)})
	}
	others := make([][]string, together)
	var chance []string
	n := 0
	for _, pkg := range longestFirst(packages) {
		switch {
		case slices.Contains(longest, pkg) || len(only[pkg]) > 0:
			add(strings.TrimPrefix(pkg, "./"), pkg)
		case slices.Contains(drawing, pkg):
			chance = append(chance, pkg)
		default:
			others[n%together] = append(others[n%together], pkg)
			n++
		}
	}
	for i, some := range append(others, chance) {
		if len(some) > 0 {
			add(fmt.Sprintf("%d other packages, run %d", len(some), i+1), some...)
		}
	}
	return out, nil
}

// longestFirst gives the packages in the order in which their tests are begun.
func longestFirst(packages []string) []string {
	rank := func(pkg string) int {
		if k := slices.Index(longest, pkg); k >= 0 {
			return k
		}
		return len(longest)
	}
	return slices.SortedStableFunc(slices.Values(packages), func(a, b string) int { return rank(a) - rank(b) })
}

// test runs a command of go test -json, and says which tests were left out; with the race detector those
// are many, and run without it.
func (r *runner) test(c command) error {
	out := &told{to: r.stdout}
	err := r.execute(c, out)
	if left := out.report(); left != "" && !slices.Contains(c.args, "-race") {
		r.say("%s", left)
	}
	return err
}

// drawn lists the packages whose tests draw cases by chance.
func drawn(fsys fs.FS) ([]string, error) {
	return packagesWith(fsys, func(name string, source []byte) (bool, error) {
		return strings.HasSuffix(name, "_test.go") && bytes.Contains(source, []byte(`"pgregory.net/rapid"`)), nil
	})
}

// packagesWith lists the packages that have a Go file of a kind, each once.
func packagesWith(fsys fs.FS, is func(name string, source []byte) (bool, error)) (out []string, err error) {
	err = eachGoFile(fsys, func(name string, source []byte) error {
		pkg := "./" + path.Dir(name)
		if slices.Contains(out, pkg) {
			return nil
		}
		ok, err := is(name, source)
		if ok {
			out = append(out, pkg)
		}
		return err
	})
	return out, err
}
