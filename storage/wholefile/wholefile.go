// Package wholefile writes files that are whole or not there: under a temporary
// name, synced, and then renamed in one step. Whenever the program or the machine
// stops, the old file or the new one is under the name, never half of one.
//
// Files are for their owner alone (mode 0600, folders 0700); one that replaces
// another keeps its mode, and a symbolic link stays one.
package wholefile

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"time"
)

// The modes of what is made new.
const (
	Mode    fs.FileMode = 0o600
	DirMode fs.FileMode = 0o700
)

// The ends of the names of what is in the making.
const (
	writing = ".writing" // not whole yet: of no use if its writer ended
	ready   = ".ready"   // a folder whose files are whole and on their way to their names
)

// leftFor is how long after its last change something in the making counts as left
// behind by a writer that was killed.
const leftFor = time.Hour

// rename is replaced by tests.
var rename = os.Rename

// Write writes the file at path with what write gives, in place of one that is
// there. With an error, which names the file and what would do, everything is as
// it was.
func Write(path string, write func(io.Writer) error) error {
	return explained(path, func() error {
		name, mode, err := Target(path)
		if err != nil {
			return err
		}
		temp, err := Temp(name, write)
		if err != nil {
			return err
		}
		err = os.Chmod(temp, mode)
		if err == nil {
			err = rename(temp, name)
		}
		if err != nil {
			return errors.Join(err, os.Remove(temp))
		}
		return SyncDir(filepath.Dir(name))
	}())
}

// Temp writes a file on its way to a name: in the same folder, whole and synced.
// What killed writers left on their way to the same name it removes. The caller
// renames the file or removes it.
func Temp(name string, write func(io.Writer) error) (temp string, err error) {
	f, err := os.OpenFile(tempName(name)+writing, os.O_RDWR|os.O_CREATE|os.O_EXCL, Mode)
	if err != nil {
		return "", err
	}
	clean(f.Name(), "."+filepath.Base(name)+"-")
	err = write(f)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return "", errors.Join(err, os.Remove(f.Name()))
	}
	return f.Name(), nil
}

// tempName gives a hidden name beside name that nobody else has.
func tempName(name string) string {
	return filepath.Join(filepath.Dir(name), "."+filepath.Base(name)+"-"+strings.ToLower(rand.Text()[:8]))
}

// clean removes what killed writers left beside mine, under names that start with
// prefix. The clock is that of the file system.
func clean(mine, prefix string) {
	now, err := os.Lstat(mine)
	if err != nil {
		return
	}
	dir := filepath.Dir(mine)
	files, _ := os.ReadDir(dir)
	for _, f := range files {
		if !strings.HasPrefix(f.Name(), prefix) || !strings.HasSuffix(f.Name(), writing) {
			continue
		}
		if info, err := f.Info(); err == nil && now.ModTime().Sub(info.ModTime()) > leftFor {
			_ = os.RemoveAll(filepath.Join(dir, f.Name())) // of no use; the next writer tries again
		}
	}
}

// Target gives the file that path stands for, through symbolic links, and the mode
// it has, or is to have where there is none yet.
func Target(path string) (name string, mode fs.FileMode, err error) {
	name = path
	for range 40 {
		info, err := os.Lstat(name)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return name, Mode, nil
		case err != nil:
			return "", 0, err
		case info.Mode()&fs.ModeSymlink != 0:
			to, err := os.Readlink(name)
			if err != nil {
				return "", 0, err
			}
			if !filepath.IsAbs(to) {
				to = filepath.Join(filepath.Dir(name), to)
			}
			name = to
		case info.IsDir():
			return "", 0, &fs.PathError{Op: "write", Path: path, Err: errDir}
		case !info.Mode().IsRegular():
			return "", 0, &fs.PathError{Op: "write", Path: path, Err: errSpecial}
		default:
			return name, info.Mode().Perm(), nil
		}
	}
	return "", 0, &fs.PathError{Op: "write", Path: path, Err: errLoop}
}

var (
	errDir     = errors.New("a folder has this name")
	errSpecial = errors.New("this is a device or a pipe, no file")
	errLoop    = errors.New("its links lead in a circle")
)

// SyncDir makes the names in a folder durable, where the system can.
func SyncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	_ = d.Sync() // not every system syncs folders
	return d.Close()
}

// MkdirAll makes a folder, and those above it, for their owner alone, where they are
// missing. Their names are durable when it returns.
func MkdirAll(dir string) error {
	if info, err := os.Stat(dir); err == nil && info.IsDir() {
		return nil
	}
	if up := filepath.Dir(dir); up != dir {
		if err := MkdirAll(up); err != nil {
			return err
		}
	}
	if err := os.Mkdir(dir, DirMode); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	info, err := os.Stat(dir)
	if err == nil && !info.IsDir() {
		err = &fs.PathError{Op: "mkdir", Path: dir, Err: syscall.ENOTDIR}
	}
	if err != nil {
		return err
	}
	return SyncDir(filepath.Dir(dir))
}

// FreeName gives name and end, with the first number between them that makes it
// new: for "jobs" and ".book", "jobs.book" or "jobs-2.book".
func FreeName(name, end string) string {
	for i, try := 2, name+end; ; i++ {
		if _, err := os.Lstat(try); errors.Is(err, fs.ErrNotExist) {
			return try
		}
		try = fmt.Sprintf("%s-%d%s", name, i, end)
	}
}
