package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// runner carries out what the pure parts decide.
type runner struct {
	root           string
	dry            bool
	env            []string // added to the environment of every command
	stdout, stderr io.Writer
	of             string // the step it is for, where others run beside it
}

func (r *runner) say(format string, args ...any) { fmt.Fprintf(r.stderr, format+"\n", args...) }

// do carries out one of dev's commands.
func (r *runner) do(c call, sys system) error {
	needs := downloadNeeds
	var steps []step
	switch c.command {
	case "run":
		steps = runSteps(sys.hasDisplay())
		if sys.hasDisplay() {
			needs = join(needs, windowNeeds)
		} else {
			r.say("No display: neither DISPLAY nor WAYLAND_DISPLAY is set, so no window can open. Writing the demo job's sheets to out instead.")
		}
	case "test":
		steps, needs = testSteps(), join(needs, windowNeeds, toolNeeds)
	case "bench":
		steps, needs = benchSteps(), join(needs, referenceNeeds())
	case "notices":
		steps = []step{{name: "the licenses of what is linked", inside: writeNotices}}
	case "package":
		steps, needs = packageSteps(), join(needs, windowNeeds, packageNeeds)
	case "check":
		var err error
		if steps, err = checkSteps(c.checks); err != nil {
			return err
		}
		needs = join(needs, needed("poppler's tools", "openpyxl", "ezdxf", "numpy", "shapely"))
	}
	if err := r.provide(needs, sys); err != nil {
		return err
	}
	if sys.os == "windows" {
		os.Setenv("PATH", os.Getenv("PATH")+string(os.PathListSeparator)+msysBin)
	}
	return r.runAll(steps)
}

func join(lists ...[]need) []need {
	var out []need
	for _, l := range lists {
		out = append(out, l...)
	}
	return out
}

// provide installs what is missing, and says so before it does.
func (r *runner) provide(needs []need, sys system) error {
	lacking := missing(needs, sys.os, machine{})
	if len(lacking) == 0 {
		return nil
	}
	m, known := sys.packageManager()
	packages, rest := packagesFor(lacking, m)
	if known && len(packages) > 0 {
		commands := sys.installing(m, packages)
		if sys.mayInstall(m) {
			r.say("Missing: %s. To install them, this runs:", names(lacking))
		} else {
			r.say("Missing: %s. There is no sudo here; as root, run", names(lacking))
		}
		for _, c := range commands {
			r.say("  %s", c)
		}
		for _, c := range commands {
			switch {
			case r.dry:
				continue
			case !sys.mayInstall(m):
				return errors.New("run the commands above as root, then this again")
			case !sys.has(c.args[0]):
				return fmt.Errorf("there is no %s here; run the commands above by hand, then this again", c.args[0])
			}
			if err := r.persist(c); err != nil && m.failing != "" {
				return fmt.Errorf("%s: %w; %s", c, err, m.failing)
			} else if err != nil {
				return fmt.Errorf("%s: %w", c, err)
			}
		}
	}
	if r.dry {
		return r.explain(rest)
	}
	if err := r.explain(rest); err != nil {
		return err
	}
	for _, n := range missing(lacking, sys.os, machine{}) {
		if !n.optional {
			return fmt.Errorf("%s is still missing: %s", n.name, n.byHand)
		}
	}
	return nil
}

// explain names what no package manager here provides. It fails where dev cannot
// go on without.
func (r *runner) explain(rest []need) error {
	var blocked bool
	for _, n := range rest {
		r.say("Missing: %s. No package manager known here has it: %s.", n.name, n.byHand)
		blocked = blocked || !n.optional
	}
	if blocked && !r.dry {
		return errors.New("cannot go on without these")
	}
	return nil
}

// persist runs c, and again a few times if it fails, as downloads and the locks
// of package managers do.
func (r *runner) persist(c command) error {
	var err error
	for try := range 4 {
		if try > 0 {
			r.say("That failed (%v); trying again.", err)
			time.Sleep(time.Duration(try) * 10 * time.Second)
		}
		// Installers talk much and are no result: all of it goes to stderr.
		if err = r.execute(c, r.stderr); err == nil {
			return nil
		}
	}
	return err
}

// runAll runs the steps, all of them even where one fails, and then says how
// each went.
func (r *runner) runAll(steps []step) error {
	var failed []string
	var summary bytes.Buffer
	began, ran := time.Now(), 0
	for len(steps) > 0 {
		n := 1
		for steps[0].beside && n < len(steps) && steps[n].beside {
			n++
		}
		next, err := r.expand(steps[:n])
		if err != nil {
			return err
		}
		steps = steps[n:]
		for _, d := range r.runBeside(next) {
			verdict, err := "ok", d.err
			var left leftOut
			switch {
			case errors.As(err, &left):
				verdict, err = "LEFT OUT: "+left.Error(), nil
			case err != nil:
				verdict = "FAILED: " + err.Error()
				failed = append(failed, d.step.name)
			}
			ran++
			fmt.Fprintf(&summary, "  %6.1f s  %s: %s\n", d.took.Seconds(), d.step.name, verdict)
			if err != nil && d.step.window && len(steps) > 0 && steps[len(steps)-1].alone {
				steps = nil // nothing to open
			}
		}
	}
	if ran > 2 {
		r.say("\n%s\n  %6.1f s  in all", strings.TrimRight(summary.String(), "\n"), time.Since(began).Seconds())
	}
	if len(failed) > 0 && ran <= 2 {
		return errors.New(strings.TrimSpace(summary.String())) // of few steps there is no other account
	}
	if len(failed) > 0 {
		return fmt.Errorf("failed: %s", strings.Join(failed, ", "))
	}
	return nil
}

func (s step) describe() string {
	if s.inside != nil {
		return "in this program"
	}
	return s.command.String()
}

func (r *runner) runStep(s step) error {
	if s.inside != nil {
		return s.inside(r)
	}
	if slices.Contains(s.args, "-json") {
		return r.test(s.command)
	}
	return r.execute(s.command, r.stdout)
}

func (r *runner) execute(c command, stdout io.Writer) error {
	name := c.args[0]
	if strings.ContainsRune(name, filepath.Separator) && !filepath.IsAbs(name) {
		name = filepath.Join(r.root, name)
	}
	args := telling(c.args)
	cmd := exec.Command(name, args[1:]...)
	cmd.Dir = r.root
	if c.dir != "" {
		cmd.Dir = c.dir
	}
	cmd.Env = slices.Concat(os.Environ(), r.env, c.env)
	cmd.Stdin = os.Stdin // sudo may ask for a password
	if c.args[0] != "go" {
		cmd.Stdout, cmd.Stderr = stdout, r.stderr
		return cmd.Run()
	}
	p := &progress{to: r.stderr, of: r.of}
	cmd.Stdout, cmd.Stderr = heardWriter{stdout, p}, p
	defer p.watch()()
	return cmd.Run()
}
