// Command haunchbook opens the drawing and estimating window.
//
// Usage:
//
//	haunchbook [-book FILE] [JOB.json]
//
// Without a job file it opens the job that was changed last in the job book, and
// on the first run a sample job.
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"haunchbook/app/job"
	"haunchbook/app/window"
	"haunchbook/assets"
	"haunchbook/geometry/plan"
	"haunchbook/storage"
)

func main() {
	path := flag.String("book", "", "file of the job book; \"none\" for no book (default: in the user's settings folder)")
	flag.Usage = func() {
		fmt.Fprintf(flag.CommandLine.Output(), "Usage: haunchbook [-book FILE] [JOB.json]\n\n")
		flag.PrintDefaults()
	}
	flag.Parse()
	if err := run(*path, flag.Args()); err != nil {
		fmt.Fprintln(os.Stderr, "haunchbook:", err)
		os.Exit(1)
	}
}

func run(path string, args []string) error {
	if len(args) > 1 {
		return errors.New("one job file at a time")
	}
	o, err := options(path)
	if err != nil {
		return err
	}
	if len(args) == 1 {
		if o.Job, err = read(args[0]); err != nil {
			return err
		}
		o.ID, o.Welcome = 0, false
	}
	a := app.NewWithID("haunchbook")
	a.SetIcon(fyne.NewStaticResource("icon.png", assets.Icon()))
	w, err := window.New(a, o)
	if err != nil {
		return err
	}
	w.Show()
	a.Run()
	return nil
}

// options opens the job book and picks the job to start with.
func options(path string) (o window.Options, err error) {
	if path == "" {
		if path, err = window.DefaultBook(); err != nil {
			return o, err
		}
	}
	if path != "none" {
		if o.Book, err = storage.Open(path, storage.Options{}); err != nil {
			return o, err
		}
		all, err := o.Book.List()
		if err == nil && len(all) > 0 {
			o.ID = all[0].ID
			o.Job, err = o.Book.Get(o.ID)
			return o, err
		}
	}
	o.Welcome = true
	o.Job, err = window.Demo()
	return o, err
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
