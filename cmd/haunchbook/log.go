package main

import (
	"fmt"
	"io"
	"log"
	"os"
	"path/filepath"
	"runtime"

	"haunchbook.example/app/guard"
	"haunchbook.example/app/job"
)

// mostLog is how large the log grows before it is begun anew; the one before is kept.
const mostLog = 1 << 20 // bytes

// keepLog writes what the toolkit reports, and faults of the program with where in it they
// arose, to haunchbook.log in a folder, for a report. What is said of jobs is not in it. It
// gives the file's name, "" where it can't be written: then the terminal alone has it.
func keepLog(dir string) (name string, done func()) {
	name = filepath.Join(dir, "haunchbook.log")
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return "", func() {}
	}
	if i, err := os.Stat(name); err == nil && i.Size() > mostLog {
		_ = os.Rename(name, name+".before") // else it grows on
	}
	f, err := os.OpenFile(name, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	if err != nil {
		return "", func() {}
	}
	was := log.Writer()
	log.SetOutput(io.MultiWriter(f, was))
	fmt.Fprintf(f, "%s, %s/%s\n", job.Build(), runtime.GOOS, runtime.GOARCH)
	still := guard.Hear(func(what string, fault any, stack []byte) { log.Printf("%s failed: %v\n%s", what, fault, stack) })
	return name, func() {
		still()
		log.SetOutput(was)
		f.Close()
	}
}
