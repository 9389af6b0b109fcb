package storage

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"haunchbook.example/storage/wholefile"
)

// Restore puts a backup in the place of the book at path, which no window may
// have open. The book that was there is kept under the name it gives. A file that
// is no job book, or none that this program can read, is refused.
func Restore(path, backup string) (aside string, err error) {
	if _, err := inspect(backup); err != nil {
		return "", notToRestore(backup, err)
	}
	file, _, err := wholefile.Target(path)
	if err != nil {
		return "", explain(path, err)
	}
	// While this has the book open, no window opens it. A damaged one opens for
	// nobody.
	b := &Book{path: file, file: file, o: Options{Wait: 100 * time.Millisecond}}
	if err := explain(path, b.attach(file, false)); IsKind(err, Busy) {
		return "", err
	}
	temp, err := wholefile.Temp(file, copyOf(backup))
	if err == nil {
		_, err = inspect(temp)
	}
	if err == nil {
		if _, there := os.Lstat(file); there == nil {
			aside = wholefile.FreeName(file+beforeRestore, "")
			err = setAside(file, aside)
		}
	}
	if err == nil {
		if err = os.Rename(temp, file); err != nil { // a system that renames over no open file
			err = errors.Join(b.Close(), os.Rename(temp, file))
		}
	}
	if err != nil {
		return "", explain(path, errors.Join(err, removeIfThere(temp), b.Close()))
	}
	return aside, explain(path, errors.Join(wholefile.SyncDir(filepath.Dir(file)), b.Close()))
}

// notToRestore says of which file a fault is, and what else would do.
func notToRestore(backup string, err error) error {
	var f *Fault
	if !errors.As(err, &f) {
		return explain(backup, err)
	}
	switch f.Kind {
	case Damaged:
		return &Fault{Damaged, backup, "the backup is damaged: " + f.Text, "take another one, or salvage what reads of it", err}
	case Foreign:
		return &Fault{Foreign, backup, f.Text, "choose a backup of a job book", err}
	}
	return err
}

// setAside gives the file at path a second name, so that there is a file under
// path at every instant; where the system has no such names, it is renamed.
func setAside(path, aside string) error {
	if err := os.Link(path, aside); err == nil {
		return nil
	}
	return os.Rename(path, aside)
}

// unused gives a Fault if a window has the book at path open.
func unused(path string) error {
	b := &Book{path: path, file: path, o: Options{Wait: 100 * time.Millisecond}}
	err := explain(path, b.attach(path, false))
	if IsKind(err, Busy) {
		return err
	}
	return b.Close() // damaged or missing, as may be
}

// mayBegin gives a Fault if there is no book to open but there are backups of one:
// it was lost, and a new one would hide that.
func (b *Book) mayBegin() error {
	if b.o.Fresh {
		return nil
	}
	list, err := Backups(b.path)
	if err != nil || len(list) == 0 {
		return err
	}
	return &Fault{Lost, b.path, fmt.Sprintf("there is no job book here any more, but %d of its backups are, the newest of %s", len(list), list[0].Time.Local().Format("2006-01-02 15:04")),
		"look for the book where it may have been moved to, restore a backup, or begin a new book", nil}
}
