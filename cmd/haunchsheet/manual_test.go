package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"testing"
)

// The manual names every flag that there is, and no other.
func TestManualNamesEveryFlag(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "assets", "linux", "haunchsheet.1"))
	if err != nil {
		t.Fatal(err)
	}
	manual := map[string]bool{}
	for _, m := range regexp.MustCompile(`(?m)^\.B(?:I)? \\-([a-z]+)`).FindAllStringSubmatch(string(text), -1) {
		manual[m[1]] = true
	}
	var help bytes.Buffer
	parse([]string{"-h"}, &help)
	for _, m := range regexp.MustCompile(`(?m)^  -([a-z]+)`).FindAllStringSubmatch(help.String(), -1) {
		if !manual[m[1]] {
			t.Errorf("the manual lacks -%s", m[1])
		}
		delete(manual, m[1])
	}
	for name := range manual {
		t.Errorf("the manual has -%s, which is no flag", name)
	}
}
