package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// The volumes of generated plans, computed by a program that shares nothing with
// the project's own: see testdata/solids/reference.cpp.
const solids = "testdata/solids"

// hasReference tells whether the reference program can be built here.
func hasReference(string) bool {
	i := slices.IndexFunc(toolNeeds, func(n need) bool { return n.name == "CGAL" })
	return toolNeeds[i].found.met(machine{})
}

// runReference builds and runs the reference program on the kept plans. It gives
// the volumes it prints, and the time it says it took for each plan.
func runReference(r *runner) (volumes, report string, err error) {
	dir, err := os.MkdirTemp("", "haunchbook-reference")
	if err != nil {
		return "", "", err
	}
	defer os.RemoveAll(dir)
	program := filepath.Join(dir, "reference")
	build := command{args: []string{"g++", "-O2", "-o", program, filepath.Join(solids, "reference.cpp"), "-lgmp", "-lmpfr"}}
	if err := r.execute(build, r.stdout); err != nil {
		return "", "", fmt.Errorf("building the reference: %w", err)
	}
	plans, err := os.Open(filepath.Join(r.root, solids, "plans.txt"))
	if err != nil {
		return "", "", err
	}
	defer plans.Close()
	var out, log bytes.Buffer
	cmd := exec.Command(program)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = plans, &out, &log
	if err := cmd.Run(); err != nil {
		return "", "", fmt.Errorf("running the reference: %w: %s", err, &log)
	}
	return out.String(), log.String(), nil
}

// checkReference computes the reference volumes afresh and fails where they are
// not those that the tests compare with.
func checkReference(r *runner) error {
	fresh, _, err := runReference(r)
	if err != nil {
		return err
	}
	kept, err := os.ReadFile(filepath.Join(r.root, solids, "volumes.txt"))
	if err != nil {
		return err
	}
	n, err := compareVolumes(fresh, string(kept))
	if err != nil {
		return err
	}
	fmt.Fprintf(r.stdout, "reference volumes of %d plans: as kept\n", n)
	return nil
}

// compareVolumes compares two lists of volumes and gives how many there are.
// They come from one program on one input; another processor or library may
// round the last digits otherwise.
func compareVolumes(fresh, kept string) (int, error) {
	a, err := volumesOf(fresh)
	if err != nil {
		return 0, fmt.Errorf("computed: %w", err)
	}
	b, err := volumesOf(kept)
	if err != nil {
		return 0, fmt.Errorf("kept: %w", err)
	}
	if len(a) != len(b) || len(a) == 0 {
		return 0, fmt.Errorf("%d volumes computed, %d kept", len(a), len(b))
	}
	for i := range a {
		if !(math.Abs(a[i]-b[i]) <= 1e-12*math.Abs(b[i])) {
			return 0, fmt.Errorf("plan %d: the reference now gives %v m³, the kept volume is %v", i, a[i], b[i])
		}
	}
	return len(a), nil
}

func volumesOf(text string) ([]float64, error) {
	var out []float64
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		v, err := strconv.ParseFloat(line, 64)
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	return out, nil
}

// timeReference solves the same plans with the project's code and with the
// reference, and prints the two side by side.
func timeReference(r *runner) error {
	var out bytes.Buffer
	ours := goTool("test", headless, "-run=^$", "-bench=^BenchmarkCorpus$", "./geometry/solid")
	if err := r.execute(ours, io.MultiWriter(r.stdout, &out)); err != nil {
		return err
	}
	mine, err := firstNumber(out.String(), `([0-9.]+(?:e-?\d+)?) ms/plan`)
	if err != nil {
		return err
	}
	_, report, err := runReference(r)
	if err != nil {
		return err
	}
	theirs, err := firstNumber(report, `([0-9.]+) ms each`)
	if err != nil {
		return err
	}
	fmt.Fprintf(r.stdout, "volume of a plan, mean of testdata/solids/plans.txt:\n  haunchbook %10.4f ms\n  reference  %10.4f ms\n  ratio      %10.0f\n",
		mine, theirs, theirs/mine)
	return nil
}

func firstNumber(text, pattern string) (float64, error) {
	m := regexp.MustCompile(pattern).FindStringSubmatch(text)
	if m == nil {
		return 0, errors.New("no " + pattern + " in " + strconv.Quote(text))
	}
	return strconv.ParseFloat(m[1], 64)
}
