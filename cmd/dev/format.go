package main

import (
	"bytes"
	"fmt"
	"go/format"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// checkFormat fails where a Go file below root is not as gofmt writes it.
func checkFormat(root string) error {
	unformatted, err := misformatted(os.DirFS(root))
	if err != nil {
		return err
	}
	if len(unformatted) > 0 {
		return fmt.Errorf("run gofmt -w on %s", strings.Join(unformatted, " "))
	}
	return nil
}

// misformatted lists the Go files that gofmt would change.
func misformatted(files fs.FS) ([]string, error) {
	var out []string
	err := eachGoFile(files, func(path string, source []byte) error {
		formatted, err := format.Source(source)
		if err != nil || !bytes.Equal(source, formatted) {
			out = append(out, path)
		}
		return nil
	})
	return out, err
}

// eachGoFile visits the project's Go files. Folders whose name starts with a dot,
// testdata and out are not ours to look at.
func eachGoFile(files fs.FS, visit func(path string, source []byte) error) error {
	return fs.WalkDir(files, ".", func(path string, d fs.DirEntry, err error) error {
		switch name := d.Name(); {
		case err != nil:
			return err
		case d.IsDir():
			if path != "." && (name[0] == '.' || name == "testdata" || name == "out") {
				return fs.SkipDir
			}
			return nil
		case filepath.Ext(name) != ".go":
			return nil
		}
		source, err := fs.ReadFile(files, path)
		if err != nil {
			return err
		}
		return visit(path, source)
	})
}
