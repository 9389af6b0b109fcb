package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// namedCheck goes through more than a test has time for. Its steps run in order;
// the tests run a small sample of it.
type namedCheck struct {
	name  string
	steps []step
}

// namedChecks lists what `dev check` knows.
func namedChecks() []namedCheck {
	sheet := step{
		name:    "build haunchsheet without C",
		command: goTool("build", "-o", filepath.Join("out", exe("haunchsheet")), "./cmd/haunchsheet").with(withoutC...),
	}
	// independent runs a program of testdata over many jobs.
	independent := func(what, folder, program, count string) step {
		dir := filepath.Join("testdata", folder)
		return step{name: what, command: command{args: []string{
			python, filepath.Join(dir, program), "--program", filepath.Join("out", exe("haunchsheet")),
			"--count", count, "--known", filepath.Join(dir, "known-large.txt"),
		}}}
	}
	// tried runs tests of a package with many tries, and prints how many there were.
	tried := func(what, dir, tests string, tries int) step {
		return step{name: what, command: goTool("test", headless, "-count=1", "-timeout=120m", "-v", "-run=^("+tests+")$", dir).
			with("CI=true", fmt.Sprintf("HAUNCHBOOK_TRIES=%d", tries))}
	}
	return []namedCheck{
		{"documents", []step{sheet, independent("the documents of many jobs agree with each other and with the job", "reader", "read.py", "300")}},
		{"placed", []step{sheet, independent("what is placed on many jobs keeps the rules or is told", "checker", "check.py", "1000")}},
		{"kill", []step{tried("a book is whole whenever its program is killed", "./storage", "TestKilledAtAnyInstantLosesNothing|TestKilledWhileMigratingOrRestoring", 1000)}},
		{"powercut", []step{tried("what was acknowledged is there whenever the power fails", "./storage", "TestPowerCut|TestPowerCutWhileWritingDocuments", 3000)}},
		{"damage", []step{tried("damage is said, never passed on, and salvaged around", "./storage", "TestDamage|TestFlippedBytes", 3000)}},
		{"office", []step{
			tried("what people wrote is in the office book whatever breaks, and their books are equal", "./storage/office", "TestSimulatedOffice", 50),
			tried("no edit is lost or there twice whenever a program is killed", "./storage/office", "TestKilledClients", 1000),
			tried("what the server took is there whenever it is killed", "./storage/office", "TestKilledServer", 1000),
			{name: "an office book with 100,000 jobs and 200 people", command: goTool("test", headless, "-run=^$", "-bench=^BenchmarkOffice$", "-benchtime=1x", "-timeout=120m", "./storage/office").
				with("HAUNCHBOOK_JOBS=100000", "HAUNCHBOOK_PEOPLE=200")},
		}},
		{"ground", []step{tried("what shots tell of the ground holds, and the order made by it", "./app/order", "TestSimulatedGrounds", 1000)}},
		{"growth", []step{{
			name:    "how the documents' time grows with what is on the plan",
			command: goTool("test", headless, "-run=^$", "-bench=^BenchmarkGrowth$", "-benchtime=1x", "-timeout=120m", "./cmd/haunchsheet"),
		}}},
		{"races", []step{{name: "all tests of what starts goroutines, with the race detector", parts: func(r *runner) ([]step, error) {
			packages, err := concurrent(os.DirFS(r.root))
			if err != nil {
				return nil, err
			}
			return r.testing(packages, nil, "race", []string{"-race", "-short"}, "CGO_ENABLED=1")
		}, beside: true}}},
		{"monkey", []step{tried("the window is used at random", "./app/window", "TestMonkey", 20000)}},
		{"mutation", []step{tried("a job file changed anyhow is read or refused, and ends no program", "./cmd/haunchsheet", "TestMutations", 3000)}},
	}
}

// python is the system's own interpreter, which has the distribution's packages.
const python = "/usr/bin/python3"

// checkSteps gives the steps of the checks of those names, of all without any.
func checkSteps(wanted []string) ([]step, error) {
	var out []step
	var known []string
	found := map[string]bool{}
	for _, c := range namedChecks() {
		known = append(known, c.name)
		if len(wanted) > 0 && !slices.Contains(wanted, c.name) {
			continue
		}
		found[c.name] = true
		out = append(out, c.steps...)
	}
	for _, w := range wanted {
		if !found[w] {
			return nil, fmt.Errorf("%q is no check; there are %s", w, strings.Join(known, ", "))
		}
	}
	return out, nil
}
