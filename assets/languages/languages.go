// Package languages holds what the sheets say in other languages than English, a file
// for each: package language says how they are read.
package languages

import (
	"embed"
	"path"
	"strings"
)

//go:embed *.json
var files embed.FS

const dir = "."

// Codes gives the codes of the languages, which the files are named by, in order.
func Codes() (out []string) {
	entries, err := files.ReadDir(dir)
	if err != nil {
		panic("languages: " + err.Error()) // embedded
	}
	for _, e := range entries {
		out = append(out, strings.TrimSuffix(e.Name(), ".json"))
	}
	return out
}

// Files gives the files, in the order of their codes.
func Files() [][]byte {
	var out [][]byte
	for _, code := range Codes() {
		data, err := files.ReadFile(path.Join(dir, code+".json"))
		if err != nil {
			panic("languages: " + err.Error())
		}
		out = append(out, data)
	}
	return out
}
