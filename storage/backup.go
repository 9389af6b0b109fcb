package storage

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
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

// keptAhead is how many backups are kept that have a time yet to come, from a clock
// that was wrong, or is.
const keptAhead = 50

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
func Backups(path string) ([]BackupFile, error) { return backupsIn(backupDir(path)) }

// numbered is at the end of the note of a backup that is not the first of its
// second.
var numbered = regexp.MustCompile(`-\d+$`)

func backupsIn(dir string) ([]BackupFile, error) {
	files, err := os.ReadDir(dir)
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, explain(dir, err)
	}
	var list []BackupFile
	for _, f := range files {
		stamp, rest, ok := strings.Cut(strings.TrimSuffix(f.Name(), ".book"), "_")
		at, err := time.Parse(backupTime, stamp)
		info, infoErr := f.Info()
		if !ok || err != nil || infoErr != nil || !strings.HasSuffix(f.Name(), ".book") {
			continue
		}
		list = append(list, BackupFile{filepath.Join(dir, f.Name()), at, numbered.ReplaceAllString(rest, ""), info.Size()})
	}
	slices.SortFunc(list, func(a, b BackupFile) int { return strings.Compare(b.Path, a.Path) })
	return list, nil
}

// Backup writes a backup beside the book, with a word for its reason, reads it back
// to see that it is whole, and gives its file. If there is a second place for
// backups, it goes there too. Old automatic backups go by the rule in Options.Keep.
func (b *Book) Backup(note string) (string, error) {
	name, err := b.backup(note, verifyRecords)
	if err != nil {
		return "", err
	}
	return name, b.copyToSecond(name)
}

func (b *Book) backup(note string, verify func(file string) error) (string, error) {
	now := b.o.Now().UTC()
	dir := backupDir(b.path)
	if err := wholefile.MkdirAll(dir); err != nil {
		return "", explain(dir, err)
	}
	name := wholefile.FreeName(filepath.Join(dir, now.Format(backupTime)+"_"+fileWord(note)), ".book")
	err := writeVerified(name, verify, func(w io.Writer) error {
		return b.view(func(t *tx) error {
			_, err := t.WriteTo(w)
			return err
		})
	})
	if err != nil {
		return "", explain(name, err)
	}
	return name, prune(dir, b.o.Keep, now)
}

// writeVerified writes a backup that appears under its name once it is verified.
func writeVerified(name string, verify func(file string) error, write func(io.Writer) error) error {
	temp, err := wholefile.Temp(name, write)
	if err != nil {
		return err
	}
	if err = verify(temp); err == nil {
		err = os.Rename(temp, name)
	}
	if err != nil {
		return errors.Join(err, os.Remove(temp))
	}
	return wholefile.SyncDir(filepath.Dir(name))
}

// verifyRecords reads every record of the book in a file and gives a Fault for the
// first that is not as it was written.
func verifyRecords(file string) error {
	b := &Book{path: file, file: file, o: Options{Wait: time.Second}}
	err := b.attach(file, true)
	if err == nil {
		err = b.check()
	}
	if err == nil {
		err = b.view(func(t *tx) error { return t.eachOf(func(_ bucket, _ key, err error) error { return err }) })
	}
	return errors.Join(err, b.Close())
}

// BackupIfDue makes the daily backup in each of the places where the newest is a
// day old and the book was changed since, and gives its file beside the book; "" if
// none is due there. Opening a book does so unless Options.NoBackup says that the
// caller will. A damaged book is not backed up: it would take the place of sound
// ones.
func (b *Book) BackupIfDue() (string, error) {
	now := b.o.Now().UTC()
	list, err := Backups(b.path)
	if err != nil {
		return "", err
	}
	name := ""
	due, err := b.isDue(list, now)
	if due && err == nil {
		name, err = b.backup("daily", verifyRecords)
	}
	if err != nil {
		return "", err
	}
	return name, b.secondIfDue(now)
}

// isDue tells whether a backup is due in a place that has these. Backups of a time
// yet to come are of a clock that was wrong: they say nothing.
func (b *Book) isDue(list []BackupFile, now time.Time) (bool, error) {
	for _, f := range list {
		if f.Time.After(now) {
			continue
		}
		if now.Sub(f.Time) < backupEvery {
			return false, nil
		}
		var mine about
		if err := b.view(func(t *tx) error { return t.getJSON(inMeta, aboutKey, &mine) }); err != nil {
			return false, err
		}
		was, err := inspect(f.Path)
		return err != nil || was.Stamp != mine.Stamp || !was.Created.Equal(mine.Created), nil
	}
	return true, nil
}

// prune removes what the rule does not keep.
func prune(dir string, keep Keep, now time.Time) error {
	list, err := backupsIn(dir)
	if err != nil {
		return err
	}
	var errs []error
	ahead, old := 0, 0
	for _, f := range list {
		if f.Time.After(now) {
			if ahead++; ahead > keptAhead {
				errs = append(errs, os.Remove(f.Path))
			}
			continue
		}
		if old++; old > keep.Count && now.Sub(f.Time) > keep.Age {
			errs = append(errs, os.Remove(f.Path))
		}
	}
	return explain(dir, errors.Join(errs...))
}

// second is what the book remembers of the second place for its backups.
const secondPlace = "second place for backups"

// SecondPlace gives the folder where backups are kept a second time, "" for none.
func (b *Book) SecondPlace() (string, error) {
	var dir string
	_, err := b.Recall(secondPlace, &dir)
	return dir, err
}

// SetSecondPlace keeps backups a second time in a folder, best on another disk; "" for
// no second place.
func (b *Book) SetSecondPlace(dir string) error {
	if dir != "" {
		if !filepath.IsAbs(dir) {
			return errInvalid("second place for backups", fmt.Sprintf("%q", dir), "name the whole path of a folder")
		}
		if info, err := os.Stat(dir); err != nil || !info.IsDir() {
			return errInvalid("second place for backups", fmt.Sprintf("%q, which is no folder that can be reached", dir), "choose a folder that is there")
		}
	}
	return b.Remember(secondPlace, dir)
}

// secondDir is the folder of this book's backups in the second place, "" for none.
// It has the day the book was made in its name: several books may share a place.
func (b *Book) secondDir() (string, error) {
	place, err := b.SecondPlace()
	if err != nil || place == "" {
		return "", err
	}
	var a about
	if err := b.view(func(t *tx) error { return t.getJSON(inMeta, aboutKey, &a) }); err != nil {
		return "", err
	}
	return filepath.Join(place, filepath.Base(b.path)+"-"+a.Created.UTC().Format(backupTime)+".backups"), nil
}

// SecondBackups lists the backups in the second place, newest first.
func (b *Book) SecondBackups() ([]BackupFile, error) {
	dir, err := b.secondDir()
	if err != nil || dir == "" {
		return nil, err
	}
	if _, err := os.Stat(filepath.Dir(dir)); err != nil {
		return nil, secondFault(dir, err)
	}
	return backupsIn(dir)
}

// backupDirs are the folders of the book's backups that it knows of.
func (b *Book) backupDirs() []string {
	dirs := []string{backupDir(b.path)}
	if dir, err := b.secondDir(); err == nil && dir != "" {
		dirs = append(dirs, dir)
	}
	return dirs
}

// secondIfDue brings the newest backup to the second place if that is due.
func (b *Book) secondIfDue(now time.Time) error {
	dir, err := b.secondDir()
	if err != nil || dir == "" {
		return err
	}
	list, err := b.SecondBackups()
	if err != nil {
		return err
	}
	first, err := Backups(b.path)
	if err != nil {
		return err
	}
	due, err := b.isDue(list, now)
	i := slices.IndexFunc(first, func(f BackupFile) bool { return !f.Time.After(now) })
	if err != nil || !due || i < 0 {
		return err
	}
	return b.copyToSecond(first[i].Path)
}

// copyToSecond copies a backup to the second place, if there is one, and reads it
// back.
func (b *Book) copyToSecond(backup string) error {
	dir, err := b.secondDir()
	if err != nil || dir == "" {
		return err
	}
	if _, err = os.Stat(filepath.Dir(dir)); err == nil { // else it is not plugged in
		err = wholefile.MkdirAll(dir)
	}
	name := filepath.Join(dir, filepath.Base(backup))
	if err == nil {
		err = writeVerified(name, verifyRecords, copyOf(backup))
	}
	if err != nil {
		return secondFault(dir, err)
	}
	return prune(dir, b.o.Keep, b.o.Now())
}

func secondFault(dir string, err error) error {
	f := &Fault{Path: dir, Text: err.Error(), Err: err}
	_ = errors.As(explain(dir, err), &f)
	return &Fault{f.Kind, dir, "the second place for backups: " + f.Text, f.Way, err}
}

// copyOf gives the writer of a copy of a file.
func copyOf(file string) func(io.Writer) error {
	return func(w io.Writer) error {
		src, err := os.Open(file)
		if err != nil {
			return err
		}
		defer src.Close()
		_, err = io.Copy(w, src)
		return err
	}
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
