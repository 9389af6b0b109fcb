package storage

import (
	"errors"
	"fmt"
	"io/fs"
	"runtime/debug"
	"syscall"

	bolterrors "go.etcd.io/bbolt/errors"

	"haunchbook.example/storage/wholefile"
)

// Kind tells faults apart.
type Kind uint8

const (
	// Busy: another window has the book open.
	Busy Kind = iota + 1
	// Full: no room left on the disk. What was stored before is intact.
	Full
	// Denied: the file or its folder may not be read or written.
	Denied
	// Damaged: the file does not hold what was written to it.
	Damaged
	// Newer: the book was written by a newer version of this program.
	Newer
	// Foreign: the file is no job book.
	Foreign
	// Missing: there is no such job, revision or list.
	Missing
	// ReadOnly: the book was opened to read only.
	ReadOnly
	// Invalid: an imported file, or a value to store, is not as it must be.
	Invalid
	// Lost: there is no book under the name, but there are backups of it.
	Lost
	// Displaced: the file of an open book no longer has the book's name.
	Displaced
	// Unreadable: the file of an open book reads no more.
	Unreadable
	// Offline: the office book cannot be reached, or not written to, at the moment.
	Offline
	// Forbidden: the office book does not let one in, or does not allow that.
	Forbidden
)

// Fault is an error that a person can do something about.
type Fault struct {
	Kind Kind
	Path string // the file, where one is concerned
	Text string // what was found
	Way  string // what would do
	Err  error  // the cause; may be nil
}

// Error gives one line: file, finding, way out.
func (f *Fault) Error() string {
	s := f.Text
	if f.Path != "" {
		s = f.Path + ": " + s
	}
	if f.Way != "" {
		s += "; " + f.Way
	}
	return s
}

// Unwrap gives the cause.
func (f *Fault) Unwrap() error { return f.Err }

// IsKind tells whether err is, or wraps, a Fault of kind k.
func IsKind(err error, k Kind) bool {
	var f *Fault
	return errors.As(err, &f) && f.Kind == k
}

// explain turns an error of the database or the file system into a Fault.
func explain(path string, err error) error {
	var f *Fault
	switch {
	case err == nil:
		return nil
	case errors.As(err, &f):
		return err
	case errors.Is(err, bolterrors.ErrTimeout):
		return &Fault{Busy, path, "another window has this job book open", "close the other window, or open the book to read only", err}
	case wholefile.NoRoom(err):
		return &Fault{Full, path, "the disk is full; what was saved before is safe, this change is not saved", "free some space and save again", err}
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return &Fault{Denied, path, "the file or its folder may not be written", "change its permissions, choose another folder, or open the book to read only", err}
	case errors.Is(err, fs.ErrNotExist):
		return &Fault{Missing, path, "there is no such file", "check the folder and the name", err}
	case errors.Is(err, bolterrors.ErrInvalid), errors.Is(err, bolterrors.ErrVersionMismatch), errors.Is(err, bolterrors.ErrChecksum):
		return &Fault{Foreign, path, "the file is not a job book, or its start is damaged", wayOut, err}
	case errors.Is(err, bolterrors.ErrDatabaseReadOnly):
		return &Fault{ReadOnly, path, "the book is open to read only", "close the other window and open the book again", err}
	}
	text, way, ok := wholefile.Explain(err)
	if !ok {
		text = err.Error()
	}
	var p *wholefile.Fault
	if errors.As(err, &p) {
		path = p.Path
	}
	return &Fault{0, path, text, way, err}
}

const wayOut = "it is left untouched: restore a backup, or salvage what still reads"

func damaged(path, text string, err error) *Fault {
	return &Fault{Damaged, path, text, wayOut, err}
}

// guard runs f so that a panic of the database on a damaged or cut file,
// including a fault in its mapped memory, comes back as an error.
func guard(path string, f func() error) (err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if r := recover(); r != nil {
			err = damaged(path, "the file is damaged or cut short", fmt.Errorf("%w: %v", errTripped, r))
		}
	}()
	return f()
}
