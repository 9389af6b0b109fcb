// Command dev installs what a bare machine lacks and then runs, tests or
// measures the project. It needs nothing but Go.
//
//	go run ./cmd/dev run     build the window and open it on the demo job
//	go run ./cmd/dev test    every check there is
//	go run ./cmd/dev bench   the benchmarks
//	go run ./cmd/dev check   what goes through more than a test has time for;
//	                         check NAME for one of them
//	go run ./cmd/dev notices collect the licenses of what is linked
//	go run ./cmd/dev package make packages to install
//
// With -n it says what it would do and does nothing. It installs through the
// system's own package manager (apt, dnf, pacman, brew, winget), says first what
// and how, and asks for sudo only where it is not root. Where nothing is
// missing it installs nothing and says nothing of it.
//
// It exits 0 when all went well, 1 when something failed, 2 when it was called
// wrongly.
package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
)

const usage = `usage: go run ./cmd/dev [-n] COMMAND

  run     install what the window needs, build it, open it on the demo job;
          without a display, write the demo job's sheets to out
  test    install what the tests need and run every check
  bench   run the benchmarks
  check   run what goes through more than a test has time for, all of it or
          what is named, such as documents; an unknown name tells them all
  notices collect the licenses of what is linked into assets/notices
  package make packages to install, with checksums, in out/packages

  -n      say what would be done, and do nothing
`

func main() { os.Exit(dev(os.Args[1:], os.Stdout, os.Stderr)) }

func dev(args []string, stdout, stderr io.Writer) int {
	c, err := parse(args)
	if err == errHelp {
		fmt.Fprint(stdout, usage)
		return 0
	}
	if err != nil {
		fmt.Fprintf(stderr, "dev: %v\n\n%s", err, usage)
		return 2
	}
	root, err := moduleRoot()
	if err != nil {
		fmt.Fprintln(stderr, "dev:", err)
		return 1
	}
	r := &runner{root: root, dry: c.dry, env: language(os.Getenv), stdout: stdout, stderr: stderr}
	sys := system{
		os:        runtime.GOOS,
		osRelease: readOSRelease(),
		root:      os.Geteuid() == 0, // -1 on Windows, which asks by itself
		display:   os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != "",
		has:       onPath,
	}
	if err := r.do(c, sys); err != nil {
		fmt.Fprintln(stderr, "dev:", err)
		return 1
	}
	return 0
}

var errHelp = fmt.Errorf("help asked for")

var commands = []string{"run", "test", "bench", "check", "notices", "package"}

// call is what the command line asks for.
type call struct {
	command string
	checks  []string // of the command check; none for all
	dry     bool
}

// parse reads the command line.
func parse(args []string) (call, error) {
	var c call
	for _, a := range args {
		switch {
		case a == "-h" || a == "-help" || a == "--help" || a == "help":
			return call{}, errHelp
		case a == "-n" || a == "--n":
			c.dry = true
		case c.command == "check":
			c.checks = append(c.checks, a)
		case !slices.Contains(commands, a):
			return call{}, fmt.Errorf("%q is none of %s and -n", a, strings.Join(commands, ", "))
		case c.command != "":
			return call{}, fmt.Errorf("one command at a time, not %s and %s", c.command, a)
		default:
			c.command = a
		}
	}
	if c.command == "" {
		return call{}, fmt.Errorf("say what to do")
	}
	_, err := checkSteps(c.checks)
	return c, err
}

// moduleRoot finds the folder of go.mod, from the working directory upward.
func moduleRoot() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for d := dir; ; d = filepath.Dir(d) {
		if _, err := os.Stat(filepath.Join(d, "go.mod")); err == nil {
			return d, nil
		}
		if d == filepath.Dir(d) {
			return "", fmt.Errorf("no go.mod in %s or above it; run this from the project's folder", dir)
		}
	}
}

func readOSRelease() string {
	data, err := os.ReadFile("/etc/os-release")
	if err != nil {
		return ""
	}
	return string(data)
}
