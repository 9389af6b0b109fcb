package main

import (
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
)

// step is one check or action, with the heading it is announced by.
type step struct {
	name string
	command
	inside func(*runner) error           // instead of a command
	ready  func(root string) bool        // nil, or tells whether there is anything to do
	window bool                          // needs what the window needs
	alone  bool                          // takes over the terminal: run last
	beside bool                          // run beside those of its kind that follow it
	waits  bool                          // of these: mostly waits, and takes no processor from the others
	parts  func(*runner) ([]step, error) // instead of a command: the steps that it is made of
}

// staticcheck is pinned so that a new release cannot turn a good tree bad.
const staticcheck = "honnef.co/go/tools/cmd/staticcheck@v0.8.2"

// Testing builds the window against the toolkit's headless driver with the tag
// ci, so that go test itself never opens a display.
const headless = "-tags=ci"

var withoutC = []string{"CGO_ENABLED=0"}

func goTool(args ...string) command { return command{args: append([]string{"go"}, args...)} }

func (c command) with(env ...string) command {
	c.env = append(slices.Clone(c.env), env...)
	return c
}

// testSteps gives every check there is. With CI set, a test whose tools are missing
// fails where it would be left out otherwise. What all of them need is compiled first, so
// that no two compile the same; then they are run beside each other, as many as there are
// processors, what takes longest first.
func testSteps() []step {
	steps := []step{
		{name: "gofmt", inside: func(r *runner) error { return checkFormat(r.root) }},
		{name: "licenses of what is linked", inside: checkNotices},
		{name: "build haunchsheet without C", command: goTool("build", "-o", filepath.Join("out", exe("haunchsheet")), "./cmd/haunchsheet").with(withoutC...)},
		{name: "build the window", command: goTool("build", "-o", windowBinary(), "./cmd/haunchbook"), window: true},
		{name: "compile the tests", command: compiling("./...")},
		{name: "compile the tests for the race detector", inside: compileRaced},
	}
	beside := []step{
		{
			name: "the window, with mouse and keys",
			command: goTool("test", headless, "-vet=off", "-count=1", "-timeout=60m", "-run=^("+strings.Join(windowTests, "|")+")$", "-v", "./cmd/haunchbook").
				with("HAUNCHBOOK_E2E="+windowBinary(), "HAUNCHBOOK_PICTURES="+filepath.Join("out", "pictures")),
			window: true,
			waits:  true,
			ready:  func(string) bool { return runtime.GOOS == "linux" },
		},
		{name: "known vulnerabilities", inside: checkVulnerabilities, waits: true},
		{name: "tests", parts: testAll},
		{name: "tests, with the race detector", parts: testRaces},
		{name: "staticcheck", command: goTool("run", staticcheck, headless, "./...")},
		{name: "vet", command: goTool("vet", "./..."), window: true},
		{name: "vet without C", command: goTool("vet", headless, "./...").with(withoutC...)},
		{name: "build haunchsheet for Windows", command: goTool("build", "-o", os.DevNull, "./cmd/haunchsheet").with("CGO_ENABLED=0", "GOOS=windows")},
		{name: "build haunchsheet for macOS", command: goTool("build", "-o", os.DevNull, "./cmd/haunchsheet").with("CGO_ENABLED=0", "GOOS=darwin")},
		{name: "build dev for Windows", command: goTool("build", "-o", os.DevNull, "./cmd/dev").with("CGO_ENABLED=0", "GOOS=windows")},
		{name: "build dev for macOS", command: goTool("build", "-o", os.DevNull, "./cmd/dev").with("CGO_ENABLED=0", "GOOS=darwin")},
	}
	for i := range beside {
		beside[i].beside = true
	}
	return append(steps, beside...)
}

// compiling compiles packages with their tests, and links nothing.
func compiling(packages ...string) command {
	return goTool(slices.Concat([]string{"list", headless, "-export", "-test", "-deps", "-f", `{{""}}`}, packages)...)
}

// windowTests are the tests that drive the built window on a virtual display.
var windowTests = []string{"TestMouseAndKeys", "TestSketch", "TestKeysAlone", "TestGarage", "TestCutCorner", "TestTwoWindowsOneOfficeBook"}

// benchSteps gives the measurements; those of the solid time the reference program
// on the same plans.
func benchSteps() []step {
	return []step{
		{name: "benchmarks", command: goTool("test", headless, "-run=^$", "-bench=.", "-benchmem", "-timeout=40m", "./...")},
	}
}

// runSteps gives what opens the window, or writes the sheets without a display.
func runSteps(display bool) []step {
	if !display {
		return []step{{
			name:    "the demo job's sheets, written to out",
			command: goTool("run", "./cmd/haunchsheet", "-out", "out").with(withoutC...),
		}}
	}
	return []step{
		{name: "build the window", command: goTool("build", "-o", windowBinary(), "./cmd/haunchbook").with("CGO_ENABLED=1"), window: true},
		// Without a job file: the demo job at first, later what was changed last.
		{name: "open the window", command: command{args: []string{windowBinary()}}, window: true, alone: true},
	}
}

// windowBinary is where the window is built, from the project's folder. A path
// with a separator, so that it is not looked up on the path.
func windowBinary() string { return filepath.Join("out", exe("haunchbook")) }

func exe(name string) string {
	if runtime.GOOS == "windows" {
		return name + ".exe"
	}
	return name
}
