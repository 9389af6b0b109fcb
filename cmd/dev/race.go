package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"slices"
)

// testRaces runs the tests of the concurrent packages with the race detector.
func testRaces(r *runner) error {
	packages, err := concurrent(os.DirFS(r.root))
	if err != nil {
		return err
	}
	c := goTool(slices.Concat([]string{"test", "-race", "-short", headless, "-timeout=40m"}, packages)...).with("CGO_ENABLED=1")
	r.say("%s", c)
	return r.execute(c, r.stdout)
}

// concurrent lists the packages that start goroutines, or whose tests do: by a go
// statement, or by a call of a function Go, Parallel or AfterFunc, as those of
// sync.WaitGroup, testing.T and time. In the others the race detector, which makes
// tests several times slower, has nothing to find: what runs alone races with nothing.
// What the packages call is watched with them.
func concurrent(fsys fs.FS) ([]string, error) {
	var out []string
	err := eachGoFile(fsys, func(name string, source []byte) error {
		pkg := "./" + path.Dir(name)
		if slices.Contains(out, pkg) {
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, source, parser.SkipObjectResolution)
		if err == nil && startsGoroutines(f) {
			out = append(out, pkg)
		}
		return err
	})
	return out, err
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
