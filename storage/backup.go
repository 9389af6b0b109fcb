package storage

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"haunchbook.example/storage/wholefile"
)

// Keep says which backups are kept: the Count newest, and all younger than Age.
type Keep struct {
	Count int
	Age   time.Duration
}

// DefaultKeep keeps ten backups, and all of the last two weeks.
var DefaultKeep = Keep{10, 14 * 24 * time.Hour}

// backupEvery is how old the newest backup may be when a book is opened.
const backupEvery = 24 * time.Hour

// BackupFile is one backup of a book.
type BackupFile struct {
	Path string
	Time time.Time
	Note string // "daily", "form1", …
	Size int64
}

const backupTime = "20060102-150405"

// backupDir is the folder of a book's backups, beside it.
func backupDir(path string) string { return path + ".backups" }

// Backups lists the backups of the book at path, newest first. The book itself
// need not be readable.
func Backups(path string) ([]BackupFile, error) {
	files, err := os.ReadDir(backupDir(path))
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, explain(path, err)
	}
	var list []BackupFile
	for _, f := range files {
		stamp, rest, ok := strings.Cut(strings.TrimSuffix(f.Name(), ".book"), "_")
		at, err := time.Parse(backupTime, stamp)
		info, infoErr := f.Info()
		if !ok || err != nil || infoErr != nil || !strings.HasSuffix(f.Name(), ".book") {
			continue
		}
		list = append(list, BackupFile{filepath.Join(backupDir(path), f.Name()), at, rest, info.Size()})
	}
	slices.SortFunc(list, func(a, b BackupFile) int { return strings.Compare(b.Path, a.Path) })
	return list, nil
}

// Backup writes a backup beside the book, with a word for its reason, and gives
// its file. Old automatic backups go by the rule in Options.Keep.
func (b *Book) Backup(note string) (string, error) {
	now := b.o.Now().UTC()
	dir := backupDir(b.path)
	if err := os.MkdirAll(dir, wholefile.DirMode); err != nil {
		return "", explain(dir, err)
	}
	name := filepath.Join(dir, now.Format(backupTime)+"_"+fileWord(note)+".book")
	err := wholefile.Write(name, func(w io.Writer) error {
		return b.view(func(t *tx) error {
			_, err := t.WriteTo(w)
			return err
		})
	})
	if err != nil {
		return "", explain(name, err)
	}
	return name, b.prune(now)
}

// BackupIfDue makes the daily backup, if the newest is a day old and the book was
// changed since, and gives its file; "" if none is due. Opening a book does so
// unless Options.NoBackup says that the caller will.
func (b *Book) BackupIfDue() (string, error) {
	list, err := Backups(b.path)
	if err != nil {
		return "", err
	}
	if len(list) > 0 {
		last := list[0]
		info, err := os.Stat(b.path)
		if err != nil || b.o.Now().Sub(last.Time) < backupEvery || !info.ModTime().After(last.Time) {
			return "", err
		}
	}
	return b.Backup("daily")
}

func (b *Book) prune(now time.Time) error {
	list, err := Backups(b.path)
	if err != nil {
		return err
	}
	var errs []error
	for i, f := range list {
		if i >= b.o.Keep.Count && now.Sub(f.Time) > b.o.Keep.Age {
			errs = append(errs, os.Remove(f.Path))
		}
	}
	return explain(b.path, errors.Join(errs...))
}

// Restore puts a backup in the place of the book at path, which no window may
// have open. The book that was there is kept under the name it gives.
func Restore(path, backup string) (aside string, err error) {
	if err := verifyPages(backup); err != nil {
		return "", damaged(backup, "the backup is damaged ("+err.Error()+")", err)
	}
	if err := unused(path); err != nil {
		return "", err
	}
	src, err := os.Open(backup)
	if err != nil {
		return "", explain(backup, err)
	}
	defer src.Close()
	temp := path + ".restoring"
	if err := wholefile.Write(temp, func(w io.Writer) error {
		_, err := io.Copy(w, src)
		return err
	}); err != nil {
		return "", explain(temp, err)
	}
	if _, err := os.Stat(path); err == nil {
		aside = wholefile.FreeName(path + ".before-restore")
		if err := setAside(path, aside); err != nil {
			return "", explain(path, errors.Join(err, os.Remove(temp)))
		}
	}
	return aside, explain(path, errors.Join(os.Rename(temp, path), wholefile.SyncDir(filepath.Dir(path))))
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
	b := &Book{path: path, o: Options{Wait: 100 * time.Millisecond}}
	err := explain(path, b.attach(path, false))
	if IsKind(err, Busy) {
		return err
	}
	return b.Close() // damaged or missing, as may be
}

// fileWord gives the letters and digits of s, for a file name.
func fileWord(s string) string {
	w := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9':
			return r
		}
		return '-'
	}, s)
	w = strings.Trim(w[:min(len(w), 40)], "-")
	if w == "" {
		return "asked"
	}
	return w
}
