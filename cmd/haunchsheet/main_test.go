package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"syscall"
	"testing"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/storage/office/trial"
)

// build makes the program without C, as users build it, once for all tests.
func build(t *testing.T) string {
	t.Helper()
	exe, err := built()
	if err != nil {
		t.Fatal(err)
	}
	return exe
}

var built = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "haunchsheet-")
	if err != nil {
		return "", err
	}
	builtIn = dir
	exe := filepath.Join(dir, "haunchsheet")
	if runtime.GOOS == "windows" {
		exe += ".exe"
	}
	cmd := exec.Command("go", "build", "-o", exe, ".")
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0")
	if out, err := cmd.CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w\n%s", err, out)
	}
	return exe, nil
})

// builtIn is the folder of what was built; "" for none.
var builtIn string

func TestMain(m *testing.M) {
	trial.Main(m, func() { _ = os.RemoveAll(builtIn) })
}

func TestCommand(t *testing.T) {
	exe := build(t)
	dir := t.TempDir()
	path := func(name, content string) string {
		p := filepath.Join(dir, name)
		if err := os.WriteFile(p, []byte(content), 0o666); err != nil {
			t.Fatal(err)
		}
		return p
	}
	demo := string(assets.Demo())
	good := path("good.json", demo)
	unknown := path("unknown.json", strings.Replace(demo, `"customer"`, `"custommer"`, 1))
	bare := path("bare.json", strings.Replace(demo, `"field": "6\""`, `"field": 6`, 1))
	shallow := path("shallow.json", strings.Replace(demo, `"depth": "16\""`, `"depth": "2\""`, 1))
	cut := path("cut.json", demo[:len(demo)/2])
	var sign bytes.Buffer
	if err := png.Encode(&sign, image.NewGray(image.Rect(0, 0, 40, 20))); err != nil {
		t.Fatal(err)
	}
	logo := path("logo.png", sign.String())
	priced := func(name string, change func(*estimate.PriceList)) string {
		j, err := job.Read(strings.NewReader(demo))
		if err != nil {
			t.Fatal(err)
		}
		j.Price.Prices = estimate.Starting(j.Units)
		j.Price.Prices.Invented, j.Price.Prices.Days = false, 300
		change(&j.Price.Prices)
		return path(name, string(j.Encode()))
	}
	own := priced("own.json", func(*estimate.PriceList) {})
	unpriced := priced("unpriced.json", func(p *estimate.PriceList) { p.Items[0].Price = estimate.Amount{} })
	unpaid := priced("unpaid.json", func(p *estimate.PriceList) { p.Wage = estimate.Amount{}.To })
	programs := map[int]string{}

	for _, c := range []struct {
		name   string
		args   []string
		stdin  string
		code   int
		stdout string // what it holds
		stderr string
		files  bool
	}{
		{"demo job", []string{"-out", "OUT"}, "", 0, "Concrete to order", "", true},
		{"file then flags", []string{good, "-out", "OUT"}, "", 0, "Shop addition", "", true},
		{"flags then file", []string{"-out", "OUT", good}, "", 0, "Shop addition", "", true},
		{"standard input", []string{"-", "-out", "OUT"}, demo, 0, "Shop addition", "", true},
		{"quiet", []string{"-quiet", "-out=OUT"}, "", 0, "", "", true},
		{"paper and date", []string{"-paper", "letter", "-date", "2024-04-12", "-out", "OUT"}, "", 0, "Trucks", "", true},
		{"large paper", []string{"-paper", "Arch D", "-quiet", "-out", "OUT"}, "", 0, "", "", true},
		{"company", []string{"-company", "Example Concrete", "-line", "1 Sample Lane", "-line", "555 0100", "-logo", logo, "-frost", "36\"", "-out", "OUT", "-quiet"}, "", 0, "", "", true},
		{"several slabs", []string{"-out", "OUT", "-"}, twoSlabs(t), 0, "Concrete to order", "", true},
		{"own prices", []string{own, "-date", "2026-03-01", "-out", "OUT"}, "", 0, "Concrete to order", "", true},
		{"no price of concrete", []string{unpriced, "-date", "2026-03-01", "-out", "OUT"}, "", 3, "Concrete to order", "haunchsheet: the bid is a draft: price.prices.items: No price: Concrete to order", true},
		{"no wage, quiet", []string{unpaid, "-date", "2026-03-01", "-out", "OUT", "-quiet"}, "", 3, "", "haunchsheet: the bid is a draft: price.prices.wage: The wage is $0.00 an hour", true},
		{"old prices", []string{own, "-date", "2027-01-01", "-out", "OUT", "-quiet"}, "", 3, "", "haunchsheet: the bid is a draft: price.prices.date: Prices of 2026-01-01 are older than the 300 days", true},
		{"wrong logo", []string{"-logo", good, "-out", "OUT"}, "", 2, "", "haunchsheet: -logo: ", false},
		{"no logo", []string{"-logo", filepath.Join(dir, "none.png"), "-out", "OUT"}, "", 2, "", "name a PNG or JPEG picture", false},
		{"wrong frost", []string{"-frost", "36", "-out", "OUT"}, "", 2, "", `haunchsheet: -frost: found "36"; write a depth`, false},
		{"frost above the ground", []string{"-frost", "-3'", "-out", "OUT"}, "", 2, "", `haunchsheet: -frost: found "-3'"`, false},
		{"wrong part", []string{"-sheets", "half", "-out", "OUT"}, "", 2, "", `haunchsheet: -sheets: found "half"; `, false},
		{"help", []string{"-h"}, "", 0, "", "usage: haunchsheet", false},
		{"no such file", []string{filepath.Join(dir, "none.json"), "-out", "OUT"}, "", 1, "", "none.json", false},
		{"unknown field", []string{unknown, "-out", "OUT"}, "", 1, "", "haunchsheet: custommer: found an unknown field; ", false},
		{"bare number", []string{bare, "-out", "OUT"}, "", 1, "", "haunchsheet: slabs[0].field: found 6; ", false},
		{"shallow section", []string{shallow, "-out", "OUT"}, "", 1, "", "haunchsheet: slabs[0].sections[1].depth: found ", false},
		{"cut short", []string{cut, "-out", "OUT"}, "", 1, "", "haunchsheet: line ", false},
		{"empty input", []string{"-", "-out", "OUT"}, "", 1, "", "haunchsheet: line 1: found the end of the file; ", false},
		{"unknown flag", []string{"-nope"}, "", 2, "", "flag provided but not defined", false},
		{"one job twice", []string{good, good, "-out", "OUT"}, "", 2, "", "found two jobs called \"good\"", false},
		{"wrong paper", []string{"-paper", "napkin", "-out", "OUT"}, "", 2, "", `haunchsheet: -paper: found "napkin"; write one of letter, legal, `, false},
		{"wrong date", []string{"-date", "today", "-out", "OUT"}, "", 2, "", `haunchsheet: -date: found "today"; write a day`, false},
		{"folder is a file", []string{"-out", good}, "", 1, "", "a part of its folder's name is a file; choose another folder", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			out := filepath.Join(t.TempDir(), "made", "here")
			args := make([]string, len(c.args))
			for i, a := range c.args {
				args[i] = strings.Replace(a, "OUT", out, 1)
			}
			var stdout, stderr bytes.Buffer
			code := 0
			if programs[c.code] == "" { // the first of each outcome as users run it, the others within
				programs[c.code] = c.name
				code = started(t, exe, args, c.stdin, &stdout, &stderr)
			} else {
				code = run(args, strings.NewReader(c.stdin), &stdout, &stderr)
			}
			if code != c.code {
				t.Errorf("exit code %d, want %d; %s", code, c.code, stderr.String())
			}
			if !strings.Contains(stdout.String(), c.stdout) || c.stdout == "" && stdout.Len() > 0 {
				t.Errorf("standard output %q, want %q", stdout.String(), c.stdout)
			}
			if !strings.Contains(stderr.String(), c.stderr) || c.stderr == "" && stderr.Len() > 0 {
				t.Errorf("standard error %q, want %q", stderr.String(), c.stderr)
			}
			if c.code == 1 && strings.Count(stderr.String(), "\n") != 1 {
				t.Errorf("a fault takes one line: %q", stderr.String())
			}
			for _, name := range fileNames {
				data, err := os.ReadFile(filepath.Join(out, name))
				if !c.files {
					if err == nil {
						t.Errorf("%s was written", name)
					}
					continue
				}
				if err != nil {
					t.Error(err)
					continue
				}
				if magic := magics[filepath.Ext(name)]; !bytes.HasPrefix(data, []byte(magic)) {
					t.Errorf("%s starts with %q, want %q", name, data[:min(8, len(data))], magic)
				}
			}
		})
	}
}

// started runs the program and gives its exit code.
func started(t *testing.T, exe string, args []string, stdin string, stdout, stderr *bytes.Buffer) int {
	t.Helper()
	cmd := exec.Command(exe, args...)
	cmd.Dir = t.TempDir()
	cmd.Stdin, cmd.Stdout, cmd.Stderr = strings.NewReader(stdin), stdout, stderr
	err := cmd.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	return cmd.ProcessState.ExitCode()
}

// twoSlabs gives the demo job with an apron before its door.
func twoSlabs(t *testing.T) string {
	t.Helper()
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	apron := plan.Plan{Name: "Apron", Field: 4 * geometry.Inch}
	for _, c := range [][2]geometry.Length{{4, -8}, {18, -8}, {18, 0}, {4, 0}} {
		apron.Outline = append(apron.Outline, plan.Edge{At: geometry.Point{X: c[0] * geometry.Foot, Y: c[1] * geometry.Foot}})
	}
	j.Slabs = append(j.Slabs, apron)
	return string(j.Encode())
}

// magics are the first bytes of each kind of file.
var magics = map[string]string{".pdf": "%PDF-1.", ".xlsx": "PK\x03\x04", ".json": "{\n", ".svg": "<svg", ".dxf": "999\n"}

func TestSameJobSameFiles(t *testing.T) {
	read := func() map[string][]byte {
		dir := t.TempDir()
		var out, errs bytes.Buffer
		if code := run([]string{"-date", "2024-04-12", "-out", dir}, nil, &out, &errs); code != 0 {
			t.Fatal(code, errs.String())
		}
		files := map[string][]byte{}
		for _, name := range fileNames {
			data, err := os.ReadFile(filepath.Join(dir, name))
			if err != nil {
				t.Fatal(err)
			}
			files[name] = data
		}
		return files
	}
	a, b := read(), read()
	for _, name := range fileNames {
		if !bytes.Equal(a[name], b[name]) {
			t.Errorf("%s differs between two runs", name)
		}
	}
	var f struct {
		Units string
		Lines []struct {
			Name    string
			Working []map[string]string
		}
	}
	if err := json.Unmarshal(a["takeoff.json"], &f); err != nil {
		t.Fatal(err)
	}
	if len(f.Lines) == 0 || f.Units != "ft-in" {
		t.Errorf("takeoff.json: %d lines in %q", len(f.Lines), f.Units)
	}
	for _, l := range f.Lines {
		if len(l.Working) == 0 {
			t.Errorf("%s has no working", l.Name)
		}
	}
}

// What cannot be written as a whole leaves the files of the last run.
func TestAllFilesOrNone(t *testing.T) {
	dir := t.TempDir()
	old := map[string]string{"layout.pdf": "the last run's", "takeoff.json": "the last run's"}
	for name, text := range old {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir(filepath.Join(dir, "materials.xlsx"), 0o755); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	if code := run([]string{"-out", dir}, nil, &out, &errs); code != 1 || !strings.Contains(errs.String(), "materials.xlsx: a folder has this name; choose") {
		t.Errorf("exit code %d, %q", code, errs.String())
	}
	files, err := os.ReadDir(dir)
	if err != nil || len(files) != 3 {
		t.Errorf("%v: the folder holds %v", err, files)
	}
	for name, text := range old {
		if got, err := os.ReadFile(filepath.Join(dir, name)); err != nil || string(got) != text {
			t.Errorf("%s holds %.20q, %v", name, got, err)
		}
	}
}

// fails is a standard output that takes no more.
type fails struct{}

func (fails) Write([]byte) (int, error) { return 0, syscall.EPIPE }

func TestStandardOutputThatFailsIsAFault(t *testing.T) {
	var errs bytes.Buffer
	if code := run([]string{"-out", t.TempDir()}, nil, fails{}, &errs); code != 1 || !strings.Contains(errs.String(), "standard output: ") {
		t.Errorf("exit code %d, %q", code, errs.String())
	}
}
