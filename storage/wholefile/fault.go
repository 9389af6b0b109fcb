package wholefile

import (
	"errors"
	"io/fs"
	"strings"
	"syscall"
)

// Fault is a file that could not be written or read.
type Fault struct {
	Path string
	Text string // what was found
	Way  string // what would do
	Err  error
}

// Error gives one line: file, finding, way out.
func (f *Fault) Error() string { return f.Path + ": " + f.Text + "; " + f.Way }

// Unwrap gives the cause.
func (f *Fault) Unwrap() error { return f.Err }

// explained turns an error on the way to a file into a Fault. What somebody else
// has explained stays as it is.
func explained(path string, err error) error {
	if err == nil || errors.As(err, new(*Fault)) {
		return err
	}
	text, way, ok := Explain(err)
	if !ok {
		var p *fs.PathError
		if !errors.As(err, &p) {
			return err // the writer's own
		}
		text, way = p.Err.Error(), "choose another name or folder"
	}
	return &Fault{path, text, way, err}
}

// Explain says in plain words what an error of the file system means and what
// would do; false for one that it does not know.
func Explain(err error) (text, way string, ok bool) {
	switch {
	case NoRoom(err):
		return "the disk is full", "free some space and try again; what was there before is as it was", true
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return "the file or its folder may not be read or written", "change its permissions, or choose another folder", true
	case errors.Is(err, fs.ErrNotExist):
		return "there is no such file or folder", "check the folder and the name, and that the drive is there", true
	case errors.Is(err, syscall.ENOTDIR):
		return "a part of its folder's name is a file", "choose another folder", true
	case errors.Is(err, syscall.ENAMETOOLONG):
		return "the name is too long", "choose a shorter one", true
	case errors.Is(err, syscall.EIO), errors.Is(err, syscall.ENXIO), errors.Is(err, syscall.ENODEV):
		return "the disk reported an error (" + errno(err) + ")", "look at the disk and its cable; copy what matters to another one before anything else", true
	case errors.Is(err, errStale), errors.Is(err, syscall.ETIMEDOUT), errors.Is(err, errHostDown):
		return "the drive in the network does not answer", "see to the connection and try again, or choose another folder", true
	case errors.Is(err, errInUse), errors.Is(err, errLocked):
		return "another program has the file open", "close it there and try again", true
	case errors.Is(err, syscall.EMFILE), errors.Is(err, syscall.ENFILE):
		return "too many files are open", "close other programs and try again", true
	}
	return "", "", false
}

// errno gives what the system itself said.
func errno(err error) string {
	var n syscall.Errno
	if errors.As(err, &n) {
		return n.Error()
	}
	return err.Error()
}

// NoRoom tells whether err says that the disk, a quota or the size a file may have
// is used up. The database passes some errors on as text alone.
func NoRoom(err error) bool {
	for _, e := range []error{syscall.ENOSPC, syscall.EDQUOT, syscall.EFBIG} {
		if errors.Is(err, e) || err != nil && strings.HasSuffix(err.Error(), ": "+e.Error()) {
			return true
		}
	}
	return isDiskFull(err)
}
