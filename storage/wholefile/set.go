package wholefile

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// File is one of several files that appear together.
type File struct {
	Name string // without a folder
	Data []byte
}

// stage is the name of a folder of files in the making, but for its end.
const stage = "haunchbook-files"

// WriteAll writes files to a folder, made if it is missing, in place of those of
// the same names. They appear together or, with an error that names what is at
// fault and what would do, not at all: all are whole and synced in a folder of
// their own before the first is renamed, and if one cannot be, the old ones are
// put back. After a kill between two renames the next WriteAll into the folder, or
// Finish, renames the rest.
func WriteAll(dir string, files []File) error {
	if err := MkdirAll(dir); err != nil {
		return explained(dir, err)
	}
	if err := Finish(dir); err != nil {
		return err
	}
	making := tempName(filepath.Join(dir, stage))
	if err := os.Mkdir(making+writing, DirMode); err != nil {
		return explained(dir, err)
	}
	clean(making+writing, "."+stage+"-")
	if path, err := fill(making+writing, dir, files); err != nil {
		return explained(path, errors.Join(err, os.RemoveAll(making+writing)))
	}
	if err := rename(making+writing, making+ready); err != nil {
		return explained(dir, errors.Join(err, os.RemoveAll(making+writing)))
	}
	_ = SyncDir(dir) // the files are whole in any case
	return place(making+ready, dir)
}

// fill writes the files to the folder in the making. With an error it tells the
// file at fault.
func fill(making, dir string, files []File) (path string, err error) {
	for _, f := range files {
		path = filepath.Join(dir, f.Name)
		if filepath.Base(f.Name) != f.Name {
			return path, fs.ErrInvalid
		}
		_, mode, err := Target(path)
		if err != nil {
			return path, err
		}
		if err := writeSynced(filepath.Join(making, f.Name), f.Data, mode); err != nil {
			return path, err
		}
	}
	return dir, SyncDir(making)
}

func writeSynced(name string, data []byte, mode fs.FileMode) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, Mode)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = errors.Join(f.Chmod(mode), f.Sync())
	}
	return errors.Join(err, f.Close())
}

// Finish gives the files of a run that was killed on the way their names. A folder
// where nothing was left is as it was.
func Finish(dir string) error {
	files, err := os.ReadDir(dir)
	if err != nil {
		return explained(dir, err)
	}
	for _, f := range files {
		if f.IsDir() && strings.HasPrefix(f.Name(), "."+stage+"-") && strings.HasSuffix(f.Name(), ready) {
			if err := place(filepath.Join(dir, f.Name()), dir); err != nil {
				return err
			}
		}
	}
	return nil
}

// aside is where, in a folder of whole files, the old ones wait until all new ones
// have their names.
const aside = ".old"

// place renames the files of a folder that is ready into dir.
func place(from, dir string) error {
	files, err := os.ReadDir(from)
	if err != nil {
		return explained(dir, err)
	}
	old := filepath.Join(from, aside)
	if err := MkdirAll(old); err != nil {
		return explained(dir, err)
	}
	var placed []string
	for _, f := range files {
		if f.Name() == aside {
			continue
		}
		name := filepath.Join(dir, f.Name())
		err := replace(filepath.Join(from, f.Name()), name, filepath.Join(old, f.Name()))
		if err == nil {
			placed = append(placed, f.Name())
			continue
		}
		if backErr := putBack(old, dir, append(placed, f.Name())); backErr != nil {
			return explained(name, errors.Join(err, backErr)) // what was there waits beside it
		}
		return explained(name, errors.Join(err, os.RemoveAll(from)))
	}
	// All have their names; what cannot be removed is in nobody's way.
	_ = SyncDir(dir)
	_ = os.RemoveAll(from)
	return nil
}

// replace renames a file to name, once the one that is there has a second name, as;
// where the system has no such names, another one.
func replace(from, name, as string) error {
	to, _, err := Target(name)
	if err != nil {
		return err
	}
	_, kept := os.Lstat(as)
	if _, err := os.Lstat(to); err == nil && kept != nil { // else the run that was killed kept it
		if os.Link(to, as) != nil {
			if err := os.Rename(to, as); err != nil {
				return err
			}
		}
	}
	return rename(from, to)
}

// putBack undoes the renames of the named files.
func putBack(old, dir string, names []string) error {
	var errs []error
	for _, n := range names {
		name, _, err := Target(filepath.Join(dir, n))
		if err == nil {
			err = os.Rename(filepath.Join(old, n), name)
		}
		if errors.Is(err, fs.ErrNotExist) { // there was none
			if err = os.Remove(name); errors.Is(err, fs.ErrNotExist) {
				err = nil
			}
		}
		errs = append(errs, err)
	}
	return errors.Join(errs...)
}

// Bytes gives the writer of a file that is in memory.
func Bytes(data []byte) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	}
}
