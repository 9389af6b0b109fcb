// Package notices holds the licenses of everything that is linked into the programs, as
// `go run ./cmd/dev notices` collects them: a list of the modules with the kind of each
// license, and then the texts.
package notices

import (
	_ "embed"
	"strings"
)

//go:embed notices.txt
var text string

// Text gives the list and all texts.
func Text() string { return text }

// List gives the modules, each with its version and the kind of its license:
// "github.com/yuin/goldmark v1.7.11" and "MIT".
func List() (out [][2]string) {
	list, _, _ := strings.Cut(text, "\n\n")
	for _, line := range strings.Split(strings.TrimSpace(list), "\n") {
		name, kind, _ := strings.Cut(line, ": ")
		out = append(out, [2]string{name, kind})
	}
	return out
}
