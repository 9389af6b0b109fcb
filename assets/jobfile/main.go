// Command jobfile writes the reference of the job file and its JSON Schema, from
// the table of fields, into the folder that is named.
package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"

	"haunchbook.example/app/job"
	"haunchbook.example/assets"
)

func main() {
	if err := run(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "jobfile:", err)
		os.Exit(1)
	}
}

func run(dir string) error {
	demo, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		return err
	}
	for name, data := range map[string][]byte{"reference.md": job.Reference(demo), "schema.json": job.Schema()} {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			return err
		}
	}
	return nil
}
