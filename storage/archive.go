package storage

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"
)

// Bounds of an archive from elsewhere, far beyond any export of a book. What it
// unpacks to is known from its list before anything is unpacked.
const (
	maxEntries  = 500_000
	maxEntry    = maxPayload // bytes, unpacked
	maxUnpacked = 4 << 30    // bytes, of all entries
	maxRatio    = 100        // unpacked to packed, beyond the first
	ratioFree   = 16 << 20   // bytes, unpacked
)

// archive is a ZIP archive that anybody may have made. Its entries are unpacked one
// at a time, when they are asked for.
type archive struct {
	entries map[string]*zip.File
	names   []string // in order
}

// openArchive reads the list of an archive. Entries that share bytes, or that unpack
// to far more than is there, are no export of anybody's: they are refused.
func openArchive(r io.ReaderAt, size int64) (*archive, error) {
	z, err := zip.NewReader(r, size)
	if err != nil {
		return nil, fmt.Errorf("the file is no export of a job book: %w", err)
	}
	if len(z.File) > maxEntries {
		return nil, fmt.Errorf("the archive has %d files; %d are the most", len(z.File), maxEntries)
	}
	a := &archive{entries: make(map[string]*zip.File, len(z.File))}
	var spans [][2]int64
	all := uint64(0)
	for _, f := range z.File {
		if strings.HasSuffix(f.Name, "/") {
			continue
		}
		if _, twice := a.entries[f.Name]; twice || path.Clean(f.Name) != f.Name || strings.HasPrefix(f.Name, "/") || strings.HasPrefix(f.Name, "..") {
			return nil, fmt.Errorf("%q: a name twice, or outside the archive", f.Name)
		}
		if f.UncompressedSize64 > maxEntry {
			return nil, fmt.Errorf("%s: unpacked it has %d MB; %d are the most", f.Name, f.UncompressedSize64>>20, maxEntry>>20)
		}
		if all += f.UncompressedSize64; all > maxUnpacked || all > ratioFree+maxRatio*uint64(size) {
			return nil, fmt.Errorf("the archive has %d kB and unpacks to more than %d MB: no export does", size>>10, (all-1)>>20)
		}
		at, err := f.DataOffset()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", f.Name, err)
		}
		spans = append(spans, [2]int64{at, at + int64(f.CompressedSize64)})
		a.entries[f.Name], a.names = f, append(a.names, f.Name)
	}
	slices.SortFunc(spans, func(a, b [2]int64) int { return int(min(1, max(-1, a[0]-b[0]))) })
	for i := 1; i < len(spans); i++ {
		if spans[i][0] < spans[i-1][1] {
			return nil, errors.New("files of the archive overlap: no program packs them so")
		}
	}
	slices.Sort(a.names)
	return a, nil
}

// has tells whether there is a file.
func (a *archive) has(name string) bool { return a.entries[name] != nil }

// read unpacks a file; nil if it is not there. A byte order mark is left out.
func (a *archive) read(name string) (data []byte, err error) {
	f := a.entries[name]
	if f == nil {
		return nil, nil
	}
	r, err := f.Open()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	defer func() { err = errors.Join(err, r.Close()) }()
	data, err = io.ReadAll(io.LimitReader(r, maxEntry+1))
	if err == nil && len(data) > maxEntry {
		err = errors.New("the file is too large")
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return bytes.TrimPrefix(data, []byte("\ufeff")), nil
}
