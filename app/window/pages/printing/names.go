package printing

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"haunchbook.example/app/window/form"
	"haunchbook.example/export/sheet"
	"haunchbook.example/storage/wholefile"
)

// prefix is how the names of a job's files begin: its number in the book if it has one,
// its name, and its revision mark; without a mark, the number of the revision that the
// print keeps.
func (p *Page) prefix(from source) string {
	var parts []string
	j, id := from.Job(), p.shelf.ID()
	if p.shelf.Kept() && id != 0 {
		parts = append(parts, id.String())
	}
	parts = append(parts, form.FileName(j.Name))
	switch {
	case strings.TrimSpace(j.Revision) != "":
		parts = append(parts, "rev-"+form.FileName(j.Revision))
	case p.shelf.Kept() && id != 0:
		n := 1
		if kept, err := p.shelf.Book().Revisions(id); err == nil && len(kept) > 0 {
			n += kept[len(kept)-1].Number
		}
		parts = append(parts, fmt.Sprint("r", n))
	}
	return strings.Join(parts, "-")
}

// named gives the files their names.
func named(prefix string, files []wholefile.File) []wholefile.File {
	out := slices.Clone(files)
	for i := range out {
		out[i].Name = prefix + "-" + out[i].Name
	}
	return out
}

// there gives those of the names that a folder has.
func there(folder string, files []wholefile.File) (names []string) {
	for _, f := range files {
		if _, err := os.Lstat(filepath.Join(folder, f.Name)); err == nil {
			names = append(names, f.Name)
		}
	}
	return names
}

// free gives a prefix under which a folder has none of the files.
func free(folder, prefix string, files []wholefile.File) string {
	for i, try := 2, prefix; ; i++ {
		if len(there(folder, named(try, files))) == 0 {
			return try
		}
		try = fmt.Sprintf("%s-%d", prefix, i)
	}
}

// printedSo tells whether the last revision of the job is the job as it is to be
// printed, and was printed to files of those names: then they are the same again.
func (p *Page) printedSo(from source, names []string) bool {
	if !p.shelf.Kept() {
		return false
	}
	kept, err := p.shelf.Book().Revisions(p.shelf.ID())
	if err != nil || len(kept) == 0 {
		return false
	}
	last := kept[len(kept)-1]
	for _, n := range names {
		if !strings.Contains(last.Note, n) {
			return false
		}
	}
	j, err := p.shelf.Book().Revision(p.shelf.ID(), last.Number)
	return err == nil && bytes.Equal(j.Encode(), from.Job().Encode())
}

// marks gives the revision marks that the book has of the job, each with the day it was
// last kept.
func (p *Page) marks() (out []sheet.Revision) {
	if !p.shelf.Kept() {
		return nil
	}
	kept, err := p.shelf.Book().Revisions(p.shelf.ID())
	if err != nil {
		return nil // the sheets are as good without
	}
	for _, k := range kept {
		r := sheet.Revision{Mark: strings.TrimSpace(k.Name), Why: k.Note, Date: k.Time.Local()}
		if r.Mark == "" {
			continue
		}
		if strings.HasPrefix(k.Note, printedAs) {
			r.Why = "printed"
		}
		out = slices.DeleteFunc(out, func(o sheet.Revision) bool { return o.Mark == r.Mark })
		out = append(out, r)
	}
	return out
}

// standing says what is in a folder under the names.
func standing(folder string, names []string) string {
	var b strings.Builder
	b.WriteString("There already, of another job or as this one was before, and not replaced unless you say so:")
	for _, n := range names {
		b.WriteString("\n· " + n)
		if info, err := os.Stat(filepath.Join(folder, n)); err == nil {
			b.WriteString(", of " + info.ModTime().Local().Format("2006-01-02 15:04"))
		}
	}
	return b.String()
}
