// Command haunchbook opens the drawing and estimating window.
//
// Usage:
//
//	haunchbook [-book FILE] [JOB.json]
//	haunchbook -version
//
// Without a job file it opens the job that was open last in the job book, and on
// the first run a sample job. A job file that is opened while a window runs on the same job
// book is opened there. Where the job book cannot be opened, a window says
// why and offers the ways out.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"haunchbook.example/app/job"
	"haunchbook.example/app/portal"
	"haunchbook.example/app/window"
	"haunchbook.example/app/window/form"
	"haunchbook.example/assets"
	_ "haunchbook.example/cmd/haunchbook/spoken"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/storage"
)

func main() {
	path := flag.String("book", "", "file of the job book; \"none\" for no book (default: in the user's settings folder)")
	version := flag.Bool("version", false, "print the version, and do nothing")
	flag.Usage = func() {
		fmt.Fprintf(flag.CommandLine.Output(), "Usage: haunchbook [-book FILE] [JOB.json]\n\n")
		flag.PrintDefaults()
	}
	flag.Parse()
	if *version {
		fmt.Println("haunchbook of " + job.Build())
		return
	}
	if err := run(*path, flag.Args()); err != nil {
		fmt.Fprintln(os.Stderr, "haunchbook:", err)
		os.Exit(1)
	}
}

func run(path string, args []string) error {
	if err := displayed(runtime.GOOS, os.Getenv, dialed); err != nil {
		return err
	}
	book := path
	if book == "" {
		book, _ = storage.UsualPath() // without one the window says why
	}
	socket := socketBeside(book)
	if len(args) == 1 && handedOver(socket, args[0]) {
		return nil
	}
	start := window.Start{Book: path}
	dir, err := os.UserConfigDir()
	if err == nil {
		dir = filepath.Join(dir, "haunchbook")
		name, done := keepLog(dir)
		defer done()
		start.Log = name
	}
	var listening io.Closer
	if socket != "" {
		start.Ready = func(open func(file string)) {
			// Where it cannot listen, a file opens in a window of its own.
			if l, err := listen(socket, func(file string) { fyne.Do(func() { open(file) }) }); err == nil {
				listening = l
			}
		}
	}
	switch len(args) {
	case 0:
	case 1: // what does not open of it is said in the window: a terminal may be out of sight
		j, err := read(args[0])
		if start.Err = err; err == nil {
			start.Job = &j
		}
	default:
		start.Err = errors.New("found several job files; open one at a time")
	}
	form.Desktop = portal.Session
	a := app.NewWithID("haunchbook")
	a.SetIcon(fyne.NewStaticResource("icon.png", assets.Icon()))
	if err == nil {
		window.KeepHabits(a.Preferences(), filepath.Join(dir, "window.json"))
	}
	if err := window.Begin(a, start); err != nil {
		return err
	}
	a.Run()
	if listening != nil {
		listening.Close()
	}
	return nil
}

func read(name string) (job.Job, error) {
	f, err := os.Open(name)
	if err != nil {
		return job.Job{}, err
	}
	defer f.Close()
	j, err := job.Read(f)
	if faults := (plan.Faults)(nil); err != nil && !errors.As(err, &faults) {
		return job.Job{}, fmt.Errorf("%s: %w", name, err)
	}
	return j, nil
}
