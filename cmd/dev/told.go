package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
)

// told reads what go test -json tells, and passes on what go test prints without that: what
// came of each package, and what tests said that failed. It keeps which tests were left
// out, and why, so that none is without a word.
type told struct {
	to   io.Writer
	rest []byte              // a line that is not at its end yet
	said map[string][]string // by tests that are not done
	left []string            // "package, test: reason"
}

// event is a line of go test -json (go doc test2json).
type event struct{ Action, Package, Test, Output string }

// Write implements io.Writer.
func (o *told) Write(b []byte) (int, error) {
	o.rest = append(o.rest, b...)
	for {
		end := bytes.IndexByte(o.rest, '\n')
		if end < 0 {
			return len(b), nil
		}
		line := o.rest[:end+1]
		o.rest = o.rest[end+1:]
		var e event
		if json.Unmarshal(line, &e) != nil || e.Action == "" {
			e = event{Action: "output", Output: string(line)}
		}
		if err := o.take(e); err != nil {
			return len(b), err
		}
	}
}

func (o *told) take(e event) error {
	test := e.Package + ", " + e.Test
	switch e.Action {
	case "output", "build-output":
		switch {
		case strings.HasPrefix(e.Output, "=== "):
		case e.Test != "":
			if o.said == nil {
				o.said = map[string][]string{}
			}
			o.said[test] = append(o.said[test], e.Output)
		case e.Output != "PASS\n":
			return o.pass(e.Output)
		}
	case "skip":
		if e.Test != "" {
			o.left = append(o.left, test+": "+reason(o.said[test]))
		}
		delete(o.said, test)
	case "pass":
		delete(o.said, test)
	case "fail":
		for _, of := range slices.Sorted(maps.Keys(o.said)) { // of a package, those too that it did not come to the end of
			if of == test || e.Test == "" && strings.HasPrefix(of, test) {
				if err := o.pass(strings.Join(o.said[of], "")); err != nil {
					return err
				}
				delete(o.said, of)
			}
		}
	}
	return nil
}

func (o *told) pass(text string) error {
	_, err := io.WriteString(o.to, text)
	return err
}

// reason gives why a test was left out, of what it said.
func reason(said []string) string {
	for _, line := range slices.Backward(said) {
		if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "--- ") {
			if _, why, ok := strings.Cut(line, ": "); ok && strings.Contains(line, ".go:") {
				return why
			}
			return line
		}
	}
	return "no reason given"
}

// report says which tests were left out.
func (o *told) report() string {
	if len(o.left) == 0 {
		return ""
	}
	return fmt.Sprintf("Tests left out, %d:\n  %s", len(o.left), strings.Join(o.left, "\n  "))
}
