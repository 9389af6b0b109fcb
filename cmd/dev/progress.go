package main

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"
	"time"
)

const (
	// pulse is how often it is said what is being compiled.
	pulse = 5 * time.Second
	// patience is after how many pulses without a word a command is said to go on.
	patience = 6
)

// progress passes on what a command writes to its standard error, but for the names of
// packages that go is compiling: those are counted, and said now and then, so that nobody
// waits minutes before a terminal that says nothing.
type progress struct {
	to       io.Writer
	of       string // what the command is for, if others run beside it
	mu       sync.Mutex
	rest     []byte // a line that is not at its end yet
	packages int
	last     string // of them
	said     int    // packages when it was said last
	silent   int    // pulses without a word
}

// Write implements io.Writer.
func (p *progress) Write(b []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.rest = append(p.rest, b...)
	for {
		end := bytes.IndexByte(p.rest, '\n')
		if end < 0 {
			return len(b), nil
		}
		line := string(p.rest[:end])
		p.rest = p.rest[end+1:]
		if isPackage(line) {
			p.packages++
			p.last = line
			continue
		}
		if err := p.pass(line + "\n"); err != nil {
			return len(b), err
		}
	}
}

// isPackage tells a package's name, as go build -v writes it, from a message: it is one
// word, and no path to a file with a place in it.
func isPackage(line string) bool {
	return line != "" && !strings.ContainsAny(line, " \t:#")
}

func (p *progress) pass(text string) error {
	p.silent = 0
	_, err := io.WriteString(p.to, text)
	return err
}

// heard notes that the command wrote elsewhere.
func (p *progress) heard() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.silent = 0
}

// beat says what there is to say after another pulse, with how long the command has run.
func (p *progress) beat(since time.Duration) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.silent++
	switch {
	case p.packages > p.said:
		p.said = p.packages
		p.pass("   " + p.who() + fmt.Sprintf("compiling, %d packages so far; now %s\n", p.packages, p.last))
	case p.silent >= patience && p.last != "":
		p.pass("   " + p.who() + fmt.Sprintf("still compiling after %s; last begun: %s\n", since.Round(time.Second), p.last))
	case p.silent >= patience:
		p.pass("   " + p.who() + fmt.Sprintf("still at it after %s\n", since.Round(time.Second)))
	}
}

func (p *progress) who() string {
	if p.of == "" {
		return ""
	}
	return p.of + ": "
}

// flush passes on what has no end of line.
func (p *progress) flush() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if len(p.rest) > 0 {
		p.pass(string(p.rest))
		p.rest = nil
	}
}

// watch has p speak until what it returns is called.
func (p *progress) watch() (stop func()) {
	done, ended := make(chan struct{}), make(chan struct{})
	began := time.Now()
	go func() {
		defer close(ended)
		t := time.NewTicker(pulse)
		defer t.Stop()
		for {
			select {
			case <-t.C:
				p.beat(time.Since(began))
			case <-done:
				return
			}
		}
	}()
	return func() {
		close(done)
		<-ended
		p.flush()
	}
}

// telling gives a command of go that names the packages it compiles.
func telling(args []string) []string {
	if len(args) > 1 && args[0] == "go" && (args[1] == "build" || args[1] == "run") {
		return slices.Insert(slices.Clone(args), 2, "-v")
	}
	return args
}

// heardWriter tells progress of what goes elsewhere.
type heardWriter struct {
	io.Writer
	p *progress
}

func (h heardWriter) Write(b []byte) (int, error) {
	h.p.heard()
	return h.Writer.Write(b)
}
