package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"slices"
)

// watched are the tests that are run with the race detector of packages of which most tests
// take long and have nothing for it: a window in a test does everything at once, unless it
// is given a scheduler, and every set of sheets starts the same goroutines. In the others
// all tests are run, and by dev check races in these. Each file of these packages that
// starts goroutines has one of the tests named for it, see starting.
var watched = map[string][]string{
	"./app/window": {
		"TestSlowDisk", "TestClosingWaits", "TestClosingWithoutWaiting", "TestFailedWrite", "TestBookIsPutBack", "TestDiskFillsUp", "TestDrawAndPrint", "TestPagesOpenAndClose",
	},
	"./cmd/haunchsheet": {"TestSameJobSameFiles", "TestAllFilesOrNone", "TestOfficeFiles", "TestSeveralJobs", "TestOfficeCommands"},
	"./export/sheet":    {"TestWriteAtOnce", "TestSameBytes", "TestStop"},
	"./storage": {
		"TestQueue.*", "TestSecondWindow", "TestSecondProcess", "TestReadOnlyWhileWriting", "TestWaitingWindowGetsTheCurrentFile",
		"TestCompactWhileOthersReadAndWrite", "TestCutShortWhileOpen", "TestDisplacedWhileOpen",
	},
	"./storage/office": {"TestFollowing", "TestSimulatedOffice", "TestKilledServer", "TestThreePeopleOneJob", "TestWhatIsBesideJobsTravels"},
}

// starting are the files of the packages of watched that start goroutines, and what watches
// them. A test holds them against the source, so that no goroutine comes unseen.
var starting = map[string]string{
	"app/window/live.go":        "TestSlowDisk",
	"app/window/rescue.go":      "TestBookIsPutBack",
	"app/window/side.go":        "TestSlowDisk",
	"app/window/unsaved.go":     "TestClosingWaits",
	"app/window/window.go":      "TestSlowDisk",
	"cmd/haunchsheet/main.go":   "TestSameJobSameFiles",
	"export/sheet/pdf.go":       "TestWriteAtOnce",
	"export/sheet/pdffinish.go": "TestWriteAtOnce",
	"storage/queue.go":          "TestQueue.*",
	"storage/office/live.go":    "TestFollowing",
	"storage/office/sync.go":    "TestSimulatedOffice",
}

// single are packages that start nothing, and have one parallel test, which waits for
// another program while those of other packages run. A test holds them against the source.
var single = []string{"./geometry/plane", "./geometry/solid"}

// concurrent lists the packages that start goroutines, or whose tests do: by a go
// statement, by what guard has for it, or by a call of a function Go, Parallel or
// AfterFunc, as those of sync.WaitGroup, testing.T and time. In the others the race
// detector, which makes tests several times slower, has nothing to find: what runs alone
// races with nothing. What the packages call is watched with them.
func concurrent(fsys fs.FS) ([]string, error) {
	return packagesWith(fsys, func(name string, source []byte) (bool, error) {
		if slices.Contains(single, "./"+path.Dir(name)) {
			return false, nil
		}
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
		case *ast.SelectorExpr: // also where it is handed on
			if x, ok := n.X.(*ast.Ident); ok && x.Name == "guard" {
				found = found || n.Sel.Name == "Each" || n.Sel.Name == "Beside"
			}
		}
		return !found
	})
	return found
}
