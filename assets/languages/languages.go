// Package languages holds what the sheets say in other languages than English, a file
// for each: package language says how they are read.
package languages

import (
	"embed"
	"path"
)

//go:embed *.json
var files embed.FS

const dir = "."

// Files gives the files, by their names.
func Files() [][]byte {
	entries, err := files.ReadDir(dir)
	if err != nil {
		panic("languages: " + err.Error()) // embedded
	}
	var out [][]byte
	for _, e := range entries {
		data, err := files.ReadFile(path.Join(dir, e.Name()))
		if err != nil {
			panic("languages: " + err.Error())
		}
		out = append(out, data)
	}
	return out
}
