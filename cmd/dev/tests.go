package main

import (
	"bytes"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
)

// testRaces runs the tests of the concurrent packages with the race detector.
func testRaces(r *runner) error {
	packages, err := concurrent(os.DirFS(r.root))
	if err != nil {
		return err
	}
	return r.test(packages, []string{"-race", "-short"}, "CGO_ENABLED=1")
}

// testAll runs all tests.
func testAll(r *runner) error {
	packages, err := packagesWith(os.DirFS(r.root), func(string, []byte) (bool, error) { return true, nil })
	if err != nil {
		return err
	}
	return r.test(packages, nil, "CI=true")
}

// seed is what cases that are drawn by chance are drawn from, so that the same source
// passes the same tests each time. Who runs a package's tests by hand draws others.
const seed = "-rapid.seed=20260412"

// longest are the packages whose tests take longest. They are begun first, so that no core
// waits for the last of them alone.
var longest = []string{"./storage/office", "./export/sheet", "./cmd/haunchsheet", "./app/window", "./export/workbook", "./storage", "./geometry/layout", "./geometry/solid"}

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

// test runs the tests of packages, those with cases that are drawn by chance apart, since
// they alone know the seed.
func (r *runner) test(packages, args []string, env string) error {
	drawing, err := drawn(os.DirFS(r.root))
	if err != nil {
		return err
	}
	var plain, chance []string
	for _, pkg := range longestFirst(packages) {
		if slices.Contains(drawing, pkg) {
			chance = append(chance, pkg)
		} else {
			plain = append(plain, pkg)
		}
	}
	args = slices.Concat([]string{"test", headless, "-json", "-timeout=40m"}, args)
	out := &told{to: r.stdout}
	var failed error
	for _, run := range []struct{ packages, flags []string }{{plain, nil}, {chance, []string{seed}}} {
		if len(run.packages) == 0 {
			continue
		}
		c := goTool(slices.Concat(args, run.packages, run.flags)...).with(env)
		r.say("%s", c)
		failed = errors.Join(failed, r.execute(c, out))
	}
	if left := out.report(); left != "" && !slices.Contains(args, "-short") { // which leaves many out
		r.say("%s", left)
	}
	return failed
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

// concurrent lists the packages that start goroutines, or whose tests do: by a go
// statement, or by a call of a function Go, Parallel or AfterFunc, as those of
// sync.WaitGroup, testing.T and time. In the others the race detector, which makes
// tests several times slower, has nothing to find: what runs alone races with nothing.
// What the packages call is watched with them.
func concurrent(fsys fs.FS) ([]string, error) {
	return packagesWith(fsys, func(name string, source []byte) (bool, error) {
		f, err := parser.ParseFile(token.NewFileSet(), name, source, parser.SkipObjectResolution)
		return err == nil && startsGoroutines(f), err
	})
}

func startsGoroutines(f *ast.File) bool {
	found := false
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.GoStmt:
			found = true
		case *ast.CallExpr:
			if s, ok := n.Fun.(*ast.SelectorExpr); ok {
				found = found || slices.Contains([]string{"Go", "Parallel", "AfterFunc"}, s.Sel.Name)
			}
		}
		return !found
	})
	return found
}
