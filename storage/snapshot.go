package storage

import (
	"errors"
	"fmt"
	"io"
	"os"
)

// openToRead opens a book without changing it. While another window has it open
// the database cannot be shared, so a copy of this moment is opened.
func (b *Book) openToRead() (*Book, error) {
	err := explain(b.path, b.attach(b.file, true))
	if IsKind(err, Busy) {
		err = explain(b.path, b.attachSnapshot())
	}
	if err == nil {
		err = b.check()
	}
	if err != nil {
		return nil, errors.Join(err, b.Close())
	}
	return b, nil
}

func (b *Book) attachSnapshot() error {
	temp, err := snapshot(b.file)
	if err != nil {
		return err
	}
	b.snapshot, b.asOf = temp, b.o.Now()
	if err := b.attach(temp, true); err != nil {
		return err
	}
	// Where the system lets go of the name of an open file, nothing is left behind
	// even by a process that is killed.
	if os.Remove(temp) == nil {
		b.snapshot = ""
	}
	return nil
}

// snapshot copies the file of a book that may be written meanwhile and gives
// the name of the copy. A commit writes only pages that the last committed state
// does not use, and its meta page last: if the meta pages are the same before
// and after copying, the copy holds that state whole.
func snapshot(path string) (string, error) {
	for range 50 {
		temp, same, err := copyOnce(path)
		if err != nil {
			return "", err
		}
		if same {
			return temp, nil
		}
		if err := os.Remove(temp); err != nil {
			return "", err
		}
	}
	return "", &Fault{Busy, path, "another window is writing to this book without pause", "try again in a moment", nil}
}

func copyOnce(path string) (temp string, same bool, err error) {
	src, err := os.Open(path)
	if err != nil {
		return "", false, err
	}
	defer src.Close()
	before, err := readMeta(src)
	if err != nil {
		return "", false, damaged(path, "the file is damaged", err)
	}
	dst, err := os.CreateTemp("", "haunchbook-view-*")
	if err != nil {
		return "", false, err
	}
	defer func() {
		if err = errors.Join(err, dst.Close()); err != nil {
			err = errors.Join(fmt.Errorf("copying the book: %w", err), os.Remove(dst.Name()))
		}
	}()
	if _, err := io.Copy(dst, src); err != nil {
		return "", false, err
	}
	after, err := readMeta(src)
	if err != nil {
		return "", false, damaged(path, "the file is damaged", err)
	}
	return dst.Name(), before == after, nil
}
