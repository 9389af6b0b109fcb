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

// misformatted lists the Go files of files that gofmt would change. Folders whose
// name starts with a dot, testdata and out are not ours to format.
func misformatted(files fs.FS) ([]string, error) {
	var out []string
	err := fs.WalkDir(files, ".", func(path string, d fs.DirEntry, err error) error {
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
		formatted, err := format.Source(source)
		if err != nil || !bytes.Equal(source, formatted) {
			out = append(out, path)
		}
		return nil
	})
	return out, err
}
