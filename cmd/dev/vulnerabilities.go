package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"strings"
)

// govulncheck is pinned as staticcheck is; what it knows comes from a database on the
// network.
const govulncheck = "golang.org/x/vuln/cmd/govulncheck@v1.9.0"

// leftOut is why a step was not done. It fails nothing, and is said.
type leftOut string

func (l leftOut) Error() string { return string(l) }

// checkVulnerabilities fails where a vulnerability is known of what is called.
func checkVulnerabilities(r *runner) error {
	var told bytes.Buffer
	c := goTool("run", govulncheck, headless, "./...").with(withoutC...)
	run := *r
	run.stderr = io.MultiWriter(r.stderr, &told)
	err := run.execute(c, io.MultiWriter(r.stdout, &told))
	return vulnerable(told.String(), err)
}

// vulnerable says what came of govulncheck. go run has an exit code of its own, so that
// words tell: those of the database being out of reach, and those of the list that was
// found.
func vulnerable(told string, err error) error {
	var exit *exec.ExitError
	switch {
	case err == nil:
		return nil
	case strings.Contains(told, "Your code is affected by"):
		return fmt.Errorf("vulnerabilities are known of what is linked: %w", err)
	case errors.As(err, &exit) && (strings.Contains(told, "fetching vulnerabilities") || strings.Contains(told, "vuln.go.dev")):
		return leftOut("the database of known vulnerabilities cannot be reached from here")
	}
	return err
}
