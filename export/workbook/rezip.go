package workbook

import (
	"archive/zip"
	"bytes"
	"cmp"
	"errors"
	"io"
	"regexp"
	"slices"
	"strings"
	"time"
)

// rezip writes the parts of a workbook in order of their names and with one
// date. The content types, whose order the library leaves to chance, are sorted.
func rezip(w io.Writer, book []byte, date time.Time) error {
	r, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	if err != nil {
		return err
	}
	files := slices.Clone(r.File)
	slices.SortFunc(files, func(a, b *zip.File) int { return cmp.Compare(partOrder(a.Name), partOrder(b.Name)) })
	out := zip.NewWriter(w)
	for _, f := range files {
		part, err := readPart(f)
		if err != nil {
			return err
		}
		if f.Name == contentTypes {
			part = sortTypes(part)
		}
		to, err := out.CreateHeader(&zip.FileHeader{Name: f.Name, Method: zip.Deflate, Modified: date.UTC()})
		if err != nil {
			return err
		}
		if _, err := to.Write(part); err != nil {
			return err
		}
	}
	return out.Close()
}

const contentTypes = "[Content_Types].xml"

// partOrder puts the content types first, as readers of the form expect.
func partOrder(name string) string {
	if name == contentTypes {
		return ""
	}
	return name
}

func readPart(f *zip.File) (data []byte, err error) {
	r, err := f.Open()
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, r.Close()) }()
	return io.ReadAll(r)
}

var typeElement = regexp.MustCompile(`<(Default|Override) [^>]*?(/>|></(Default|Override)>)`)

func sortTypes(part []byte) []byte {
	text := string(part)
	found := typeElement.FindAllString(text, -1)
	if len(found) == 0 {
		return part
	}
	start := strings.Index(text, found[0])
	end := strings.LastIndex(text, found[len(found)-1]) + len(found[len(found)-1])
	slices.Sort(found)
	return []byte(text[:start] + strings.Join(found, "") + text[end:])
}
