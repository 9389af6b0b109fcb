// Package guide holds the user's guide: pages of Markdown with pictures that the program
// made of itself, shown in the window and readable as they are.
package guide

import (
	"embed"
	"strings"
)

//go:generate go test -tags ci -count=1 -run ^TestGuidePictures$ haunchbook.example/app/window -update

//go:embed *.md pictures/*.png
var files embed.FS

// A Page is a page of the guide.
type Page struct {
	File  string // by which other pages refer to it: "prices.md"
	Title string
	Text  string // Markdown, the title first
}

// Pages gives the pages in the order they are read.
func Pages() []Page {
	var out []Page
	for _, name := range []string{"sketch", "into", "prices", "options", "ground", "book", "office", "haunchsheet", "trouble"} {
		text := read(name + ".md")
		title, _, _ := strings.Cut(text, "\n")
		out = append(out, Page{name + ".md", strings.TrimPrefix(title, "# "), text})
	}
	return out
}

// Picture gives a picture of the guide, a PNG, by the path that a page names; nil for
// none.
func Picture(path string) []byte {
	data, err := files.ReadFile(path)
	if err != nil {
		return nil
	}
	return data
}

func read(name string) string {
	data, err := files.ReadFile(name)
	if err != nil {
		panic(err) // it is built in
	}
	return string(data)
}
