// Package exact builds and runs cgal/reference.cpp, an independent program that computes
// with CGAL's exact polygon sets what the tests compare with.
package exact

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
)

//go:embed cgal/reference.cpp
var source []byte

// Program gives the built program. It is built once for its source, which takes a
// minute or two, and kept in the user's cache. Without its compiler and library the
// test is left out, unless CI is set; `go run ./cmd/dev test` installs them.
func Program(tb testing.TB) string {
	tb.Helper()
	if _, err := os.Stat("/usr/include/CGAL/version.h"); err != nil && os.Getenv("CI") == "" {
		tb.Skip("needs libcgal-dev")
	}
	dir, err := os.UserCacheDir()
	if err != nil {
		dir = os.TempDir()
	}
	dir = filepath.Join(dir, "haunchbook")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		tb.Fatal(err)
	}
	program := filepath.Join(dir, fmt.Sprintf("reference-%x", sha256.Sum256(source))[:30])
	if _, err := os.Stat(program); err == nil {
		return program
	}
	own := tb.TempDir()
	code, made := filepath.Join(own, "reference.cpp"), filepath.Join(own, "reference")
	if err := os.WriteFile(code, source, 0o644); err != nil {
		tb.Fatal(err)
	}
	if out, err := exec.Command("g++", "-O1", "-o", made, code, "-lgmp", "-lmpfr").CombinedOutput(); err != nil {
		tb.Fatalf("g++: %v\n%s", err, out)
	}
	// Whole or not at all, however many build it at once.
	whole, err := os.ReadFile(made)
	if err != nil {
		tb.Fatal(err)
	}
	part := fmt.Sprintf("%s.%d", program, os.Getpid())
	if err := os.WriteFile(part, whole, 0o755); err != nil {
		tb.Fatal(err)
	}
	if err := os.Rename(part, program); err != nil {
		tb.Fatal(err)
	}
	return program
}

// Run gives the lines that the program prints for some cases, in order, but for
// comments; it works on several at once. Each case ends with a line "end".
func Run(tb testing.TB, cases []string) []string {
	tb.Helper()
	program := Program(tb)
	n := min(runtime.NumCPU(), len(cases))
	outs, errs := make([][]byte, n), make([]error, n)
	var wait sync.WaitGroup
	for k := range n {
		wait.Go(func() {
			part := cases[k*len(cases)/n : (k+1)*len(cases)/n]
			cmd := exec.Command(program)
			cmd.Stdin = strings.NewReader(strings.Join(part, ""))
			var said bytes.Buffer
			cmd.Stderr = &said
			if outs[k], errs[k] = cmd.Output(); errs[k] != nil {
				errs[k] = fmt.Errorf("%w\n%s", errs[k], said.Bytes())
			}
		})
	}
	wait.Wait()
	var lines []string
	for k := range n {
		if errs[k] != nil {
			tb.Fatal(errs[k])
		}
		for line := range strings.Lines(string(outs[k])) {
			if !strings.HasPrefix(line, "#") {
				lines = append(lines, strings.TrimSpace(line))
			}
		}
	}
	if len(lines) != len(cases) {
		tb.Fatalf("the reference program says %d lines to %d cases", len(lines), len(cases))
	}
	return lines
}
