package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"haunchbook.example/geometry"
)

// The table of testdata/rules.
type (
	ruleTable struct {
		Order json.RawMessage `json:"order"`
		Rules []ruleJobs      `json:"rules"`
	}
	ruleJobs struct {
		Rule     string           `json:"rule"`
		Source   string           `json:"source"`
		Severity string           `json:"severity"`
		Planning bool             `json:"planning"`
		With     map[string]any   `json:"with"`
		Kept     []map[string]any `json:"kept"`
		Broken   []struct {
			Set   map[string]any `json:"set"`
			Says  string         `json:"says"`
			At    []string       `json:"at"`
			Times int            `json:"times"`
		} `json:"broken"`
	}
	told struct {
		Rule     string     `json:"rule"`
		Source   string     `json:"source"`
		Severity string     `json:"severity"`
		At       []string   `json:"at"`
		Also     [][]string `json:"also"`
		Text     string     `json:"text"`
	}
)

// changed changes what stands at a path in a job file; nil takes it away.
func changed(in any, path []string, v any) any {
	if len(path) == 0 {
		return v
	}
	if list, ok := in.([]any); ok {
		i, err := strconv.Atoi(path[0])
		switch {
		case err != nil || i > len(list):
			panic("no such place: " + path[0])
		case i == len(list):
			return append(list, changed(nil, path[1:], v))
		case len(path) == 1 && v == nil:
			return slices.Delete(list, i, i+1)
		}
		list[i] = changed(list[i], path[1:], v)
		return list
	}
	m, ok := in.(map[string]any)
	if !ok {
		if path[0] == "0" {
			return []any{changed(nil, path[1:], v)}
		}
		m = map[string]any{}
	}
	if len(path) == 1 && v == nil {
		delete(m, path[0])
		return m
	}
	m[path[0]] = changed(m[path[0]], path[1:], v)
	return m
}

// rules reads the table.
func rules(t *testing.T) (table ruleTable) {
	t.Helper()
	data, err := os.ReadFile("../../testdata/rules/rules.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &table); err != nil {
		t.Fatal(err)
	}
	return table
}

// reads tells whether there is a program that reads the sheets, which must be there where CI
// is set.
func reads(t *testing.T) bool {
	t.Helper()
	pdf := exec.Command("pdftotext", "-v").Run() == nil
	if !pdf && os.Getenv("CI") != "" {
		t.Fatal("pdftotext is missing")
	}
	return pdf
}

// with gives the file of the job in order with changes.
func (r ruleTable) with(t *testing.T, changes ...map[string]any) []byte {
	t.Helper()
	var j any
	if err := json.Unmarshal(r.Order, &j); err != nil {
		t.Fatal(err)
	}
	for _, c := range changes {
		for _, p := range slices.Sorted(maps.Keys(c)) {
			j = changed(j, strings.Split(p, "."), c[p])
		}
	}
	data, err := json.Marshal(j)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// tells runs the program on the job in order with changes, and gives what takeoff.json
// and, where it is asked for, the sheets tell.
func (r ruleTable) tells(t *testing.T, sheets bool, changes ...map[string]any) (found []told, text string) {
	t.Helper()
	data := r.with(t, changes...)
	out, only := t.TempDir(), "takeoff.json"
	if sheets {
		only += ",layout.pdf"
	}
	var stderr bytes.Buffer
	if code := run([]string{"-quiet", "-only", only, "-out", out, "-"}, bytes.NewReader(data), &bytes.Buffer{}, &stderr); code != 0 {
		t.Fatalf("%v: exit code %d: %s", changes, code, stderr.String())
	}
	var file struct{ Findings, Day []told }
	data, err := os.ReadFile(filepath.Join(out, "takeoff.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	if sheets {
		read, err := exec.Command("pdftotext", "-raw", filepath.Join(out, "layout.pdf"), "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		text = plain(string(read))
	}
	return append(file.Findings, file.Day...), text
}

// plain gives a text as it reads wherever its lines end.
func plain(s string) string { return strings.Join(strings.Fields(s), "") }

// near tells whether something is told at a place.
func (f told) near(t *testing.T, at []string) bool {
	t.Helper()
	value := func(s string) float64 {
		l, err := geometry.ParseWritten(s)
		if err != nil {
			t.Fatal(err)
		}
		return float64(l)
	}
	return slices.ContainsFunc(append([][]string{f.At}, f.Also...), func(p []string) bool {
		return len(p) == 2 && math.Hypot(value(p[0])-value(at[0]), value(p[1])-value(at[1])) <= float64(geometry.Inch)/4
	})
}

// Every rule is told once where it is broken, at its place, with its source, in
// takeoff.json and on the sheets; where it is held at its limit it is not, and a job in
// order is told nothing.
func TestRulesAreTold(t *testing.T) {
	table, pdf := rules(t), reads(t)
	if found, text := table.tells(t, pdf); len(found) > 0 || strings.Contains(text, plain("To check")) || strings.Contains(text, "LIMIT") {
		t.Errorf("of the job in order is told: %v", found)
	}
	for i, r := range table.Rules {
		t.Run(fmt.Sprintf("%d %s", i, r.Rule), func(t *testing.T) {
			t.Parallel()
			of := func(found []told) (of []told) {
				for _, f := range found {
					if f.Rule == r.Rule && f.Severity == r.Severity {
						of = append(of, f)
					}
				}
				return of
			}
			for _, kept := range r.Kept {
				found, _ := table.tells(t, false, r.With, kept)
				if of := of(found); len(of) > 0 {
					t.Errorf("%v breaks nothing, and is told %v", kept, of)
				}
			}
			for _, b := range r.Broken {
				found, text := table.tells(t, pdf, r.With, b.Set)
				of := of(found)
				if len(of) != max(1, b.Times) || !strings.Contains(of[0].Text, b.Says) || of[0].Source != r.Source || b.At != nil && !of[0].near(t, b.At) {
					t.Errorf("%v is told %v of %v, want %q at %v by %s", b.Set, of, found, b.Says, b.At, r.Source)
				}
				if n := strings.Count(text, plain(b.Says)); pdf && (n == 0) != r.Planning {
					t.Errorf("%v: the sheets say %d times %q", b.Set, n, b.Says)
				}
			}
		})
	}
	for _, name := range ruleNames(t) {
		if !slices.ContainsFunc(table.Rules, func(r ruleJobs) bool { return r.Rule == name }) && !slices.Contains(unbroken, name) {
			t.Errorf("no job breaks the rule %q", name)
		}
	}
}

// unbroken is the rules that no job file can break, with which Rule it is of: the order
// is rounded up from the slab's own volume, trucks are asked for as they are emptied, laps
// name the rule they follow, and a day is unplanned beyond sizes that take long to lay out.
var unbroken = []string{"Order", "Truck waits", "Plan of the pour", "Lap of 40 bar diameters", "Lap as typed", "Class B tension lap",
	"Saw cut spacing by thickness, slump and aggregate", "Saw cuts at most 18 ft apart"}

// ruleNames gives the names of all rules in the program's source: those of rule.Rule
// literals, and what findings of the day are called.
func ruleNames(t *testing.T) []string {
	t.Helper()
	var names []string
	add := func(e ast.Expr) {
		if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			if name, err := strconv.Unquote(lit.Value); err == nil && name != "" && !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	for _, root := range []string{"../../geometry/layout", "../../app/takeoff", "../../app/pour"} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.CompositeLit:
					if s, ok := n.Type.(*ast.SelectorExpr); ok && s.Sel.Name == "Rule" {
						for _, e := range n.Elts {
							if kv, ok := e.(*ast.KeyValueExpr); ok && kv.Key.(*ast.Ident).Name == "Name" {
								add(kv.Value)
							}
						}
					}
				case *ast.CallExpr:
					if f, ok := n.Fun.(*ast.Ident); ok && (f.Name == "found" || f.Name == "add") && len(n.Args) > 2 {
						add(n.Args[0])
					}
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return names
}
