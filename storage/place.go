package storage

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"

	"haunchbook.example/storage/wholefile"
)

// A book is a file under a name, and other programs can move, replace or delete it
// while it is open; then what is written goes to a file that nobody will find. So
// each change looks whether the file still has the name, before and after.

// errElsewhere marks a change that is stored, but in a file that lost the book's
// name meanwhile: PutBack brings it back with the rest.
var errElsewhere = errors.New("stored in a file that no longer has the book's name")

// IsElsewhere tells whether err, a Fault of kind Displaced, is of a change that had
// its effect, so that it must not be made a second time once the book is put back.
func IsElsewhere(err error) bool { return errors.Is(err, errElsewhere) }

const displacedWay = "put it back, or save the job as a job file; if a program that keeps folders in step did this, keep the book in a folder that it leaves alone"

// InPlace gives a Fault if the file of the open book no longer has its name.
func (b *Book) InPlace() error {
	b.swap.RLock()
	defer b.swap.RUnlock()
	if b.db == nil || b.readOnly {
		return nil
	}
	return b.inPlace(nil)
}

func (b *Book) inPlace(cause error) error {
	named, err := os.Stat(b.path)
	if errors.Is(err, os.ErrNotExist) {
		return &Fault{Displaced, b.path, "the job book is gone from its place: it was moved, renamed or deleted", displacedWay, cause}
	}
	var mine os.FileInfo
	if err == nil {
		mine, err = b.opened.Stat()
	}
	switch {
	case err != nil:
		return explain(b.path, errors.Join(err, cause))
	case !os.SameFile(named, mine):
		return &Fault{Displaced, b.path, "another file has taken the job book's place", displacedWay, cause}
	}
	return nil
}

// PutBack gives the open book, which another program moved, replaced or deleted,
// its name again, with all that was stored in it. A file that took its place is
// kept under the name that it gives.
func (b *Book) PutBack() (aside string, err error) {
	if b.readOnly {
		return "", explain(b.path, errReadOnly)
	}
	b.write.Lock()
	defer b.write.Unlock()
	if err := b.usable(&b.lost); err != nil {
		return "", err
	}
	if b.inPlace(nil) == nil {
		return "", nil
	}
	file, _, err := wholefile.Target(b.path)
	if err == nil {
		err = wholefile.MkdirAll(filepath.Dir(file))
	}
	if err != nil {
		return "", explain(b.path, err)
	}
	if _, err := os.Lstat(file); err == nil {
		if err := unused(file); err != nil {
			return "", err
		}
		aside = wholefile.FreeName(file+replacedBy, "")
		if err := setAside(file, aside); err != nil {
			return "", explain(b.path, err)
		}
	}
	b.file = file
	return aside, b.renew(b.copyWhole)
}

// The ends of the names under which the program keeps a file that was in a book's
// place.
const (
	beforeRestore = ".before-restore"
	replacedBy    = ".replaced"
)

// copyWhole writes the open file as it is to a new one.
func (b *Book) copyWhole(temp string) error {
	m, err := readMeta(b.opened)
	if err != nil {
		return err
	}
	f, err := os.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, wholefile.Mode)
	if err != nil {
		return err
	}
	_, err = io.Copy(f, io.NewSectionReader(b.opened, 0, m.size()))
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// Copies gives the files beside the book that hold the same book at some other
// time, apart from those that this program makes: as programs leave them that keep
// folders in step and found two versions.
func (b *Book) Copies() ([]string, error) {
	var mine about
	if err := b.view(func(t *tx) error { return t.getJSON(inMeta, aboutKey, &mine) }); err != nil {
		return nil, err
	}
	dir, base := filepath.Split(b.file)
	files, err := os.ReadDir(filepath.Clean(dir))
	if err != nil {
		return nil, explain(dir, err)
	}
	var found []string
	for _, f := range files {
		name := f.Name()
		if !f.Type().IsRegular() || name == base || strings.HasPrefix(name, base+".") || strings.HasPrefix(name, "."+base) || strings.Contains(name, salvagedMark) {
			continue
		}
		if a, err := inspect(filepath.Join(dir, name)); err == nil && a.Created.Equal(mine.Created) {
			found = append(found, filepath.Join(dir, name))
		}
	}
	return found, nil
}

// salvagedMark is in the name of a book that was salvaged from another.
const salvagedMark = "-salvaged"

// SalvagedName gives a new name beside a book for what is salvaged of it.
func SalvagedName(path string) string {
	return wholefile.FreeName(strings.TrimSuffix(path, ".book")+salvagedMark, ".book")
}

// UsualPath gives the file of the job book where none is named.
func UsualPath() (string, error) {
	dir, err := os.UserConfigDir()
	if err != nil {
		return "", err
	}
	return filepath.Join(dir, "haunchbook", "jobs.book"), nil
}
