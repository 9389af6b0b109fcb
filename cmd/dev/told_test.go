package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// Of go test -json what go test prints without it is passed on, and the tests that were
// left out are named with their reasons.
func TestTold(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"go.mod":    "module sample.example\n\ngo 1.24\n",
		"fine/a.go": "package fine\n",
		"off/a_test.go": `package off

import "testing"

func TestRight(t *testing.T) { t.Log("not said") }

func TestWrong(t *testing.T) {
	t.Run("inner", func(t *testing.T) { t.Error("said: 3 is not 4") })
}

func TestLeft(t *testing.T) { t.Skip("glue is not installed: install it") }
`,
		"ends/a_test.go":   "package ends\n\nimport \"testing\"\n\nfunc TestEnd(t *testing.T) { panic(\"the end\") }\n",
		"broken/a_test.go": "package broken\n\nvar x int = \"text\"\n",
	} {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	var out strings.Builder
	told := &told{to: &out}
	cmd := exec.Command("go", "test", "-json", "-vet=off", "./...")
	cmd.Dir, cmd.Stdout, cmd.Stderr = dir, told, told
	cmd.Env = append(os.Environ(), "GOFLAGS=", "GOWORK=off")
	if err := cmd.Run(); err == nil {
		t.Error("tests that fail are passed")
	}
	for _, want := range []string{"said: 3 is not 4", "--- FAIL: TestWrong/inner", "FAIL\tsample.example/off", "panic: the end", "FAIL\tsample.example/ends", "broken/a_test.go:3"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not passed on", want)
		}
	}
	for _, not := range []string{"not said", "=== RUN", "TestRight", "Action"} {
		if strings.Contains(out.String(), not) {
			t.Errorf("%q is passed on", not)
		}
	}
	if got, want := told.report(), "Tests left out, 1:\n  sample.example/off, TestLeft: glue is not installed: install it"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if t.Failed() {
		t.Log(out.String())
	}
}
