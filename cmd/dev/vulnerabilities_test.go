package main

import (
	"errors"
	"os/exec"
	"strings"
	"testing"
)

// A vulnerability fails, a database out of reach is said, and whatever else went wrong
// fails as well.
func TestVulnerable(t *testing.T) {
	exit := &exec.ExitError{}
	var out leftOut
	if err := vulnerable("No vulnerabilities found.\n", nil); err != nil {
		t.Error(err)
	}
	if err := vulnerable("Your code is affected by 1 vulnerability from 1 module.\n", exit); err == nil || errors.As(err, &out) {
		t.Errorf("a vulnerability: %v", err)
	}
	if err := vulnerable("govulncheck: fetching vulnerabilities: no such host\n", exit); !errors.As(err, &out) {
		t.Errorf("no database: %v", err)
	}
	if err := vulnerable("go: no required module provides package\n", exit); err == nil || errors.As(err, &out) {
		t.Errorf("no program: %v", err)
	}
}

// What was left out is said in the account of a run, and fails nothing.
func TestLeftOutIsSaid(t *testing.T) {
	var said strings.Builder
	r := &runner{stderr: &said, stdout: &said}
	good := step{name: "good", inside: func(*runner) error { return nil }}
	left := step{name: "far", inside: func(*runner) error { return leftOut("too far") }}
	if err := r.runAll([]step{good, left, good}); err != nil {
		t.Error(err)
	}
	if !strings.Contains(said.String(), "far: LEFT OUT: too far") {
		t.Errorf("said %q", said.String())
	}
}
