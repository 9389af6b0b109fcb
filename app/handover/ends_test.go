package handover_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// computing are the functions that compute a figure from a plan: the handover's to
// call, and nobody else's.
var computing = map[string][]string{
	"geometry/solid":        {"Of", "OfSound"},
	"geometry/layout":       {"Of"},
	"geometry/layout/cover": {"Foam", "Lay"},
	"app/takeoff":           {"Of", "Trucks"},
	"app/estimate":          {"Of", "Compare", "Thresholds", "FrostReaches"},
	"app/pour":              {"Of", "From"},
	"app/hold":              {"Check"},
}

// The ends write what the handover has and compute nothing.
func TestEndsComputeNothing(t *testing.T) {
	for _, dir := range []string{"export", "app/window", "cmd/haunchsheet", "cmd/haunchbook"} {
		looked := 0
		err := filepath.WalkDir(filepath.Join("../..", dir), func(name string, _ os.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
				return err
			}
			looked++
			for _, found := range calls(t, name) {
				t.Errorf("%s: %s", name, found)
			}
			return nil
		})
		if err != nil || looked == 0 {
			t.Fatalf("%s: %d files (%v)", dir, looked, err)
		}
	}
}

// The test knows such a call when it sees one.
func TestEndsAreLookedAt(t *testing.T) {
	file := filepath.Join(t.TempDir(), "x.go")
	code := "package x\n\nimport (\n\tquantities \"haunchbook.example/app/takeoff\"\n\t\"haunchbook.example/app/pour\"\n)\n\nvar a = quantities.Of\n\nfunc f() { pour.From(nil); quantities.Default() }\n"
	if err := os.WriteFile(file, []byte(code), 0o600); err != nil {
		t.Fatal(err)
	}
	if got := calls(t, file); !slices.Equal(got, []string{"app/takeoff.Of", "app/pour.From"}) {
		t.Errorf("found %v", got)
	}
}

// calls gives the computing functions that a file names.
func calls(t *testing.T, name string) []string {
	t.Helper()
	f, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	of := map[string]string{} // the package behind a name
	for _, i := range f.Imports {
		path, ok := strings.CutPrefix(strings.Trim(i.Path.Value, `"`), "haunchbook.example/")
		if _, watched := computing[path]; !ok || !watched {
			continue
		}
		called := filepath.Base(path)
		if i.Name != nil {
			called = i.Name.Name
		}
		of[called] = path
	}
	var out []string
	ast.Inspect(f, func(n ast.Node) bool {
		if s, ok := n.(*ast.SelectorExpr); ok {
			if x, ok := s.X.(*ast.Ident); ok && x.Obj == nil && slices.Contains(computing[of[x.Name]], s.Sel.Name) {
				out = append(out, of[x.Name]+"."+s.Sel.Name)
			}
		}
		return true
	})
	return out
}
