package storage

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"time"

	bolt "go.etcd.io/bbolt"

	"haunchbook.example/storage/wholefile"
)

// Erased tells how far a deleted job is gone.
type Erased struct {
	Files int     // backups and other copies of the book that were written anew without it
	Left  []error // the files that may still hold it, each with the reason
}

// Erase deletes a job for good: from the book, whose file is then written anew, and
// from the backups and the files that restoring and salvaging set aside. What was
// exported, printed or copied by other programs it does not know. With an error the
// job is in the book as before.
func (b *Book) Erase(ctx context.Context, id ID) (Erased, error) {
	var done Erased
	s, err := b.Summary(id)
	if err != nil {
		return done, err
	}
	if err := b.Delete(id); err != nil {
		return done, err
	}
	if err := b.Compact(); err != nil {
		done.Left = append(done.Left, err)
	}
	for _, file := range b.otherFiles(&done) {
		if err := ctx.Err(); err != nil {
			done.Left = append(done.Left, &Fault{Path: file, Text: "not looked into: stopped", Err: err})
			continue
		}
		switch changed, err := eraseFrom(file, id, s.Created); {
		case err != nil:
			done.Left = append(done.Left, err)
		case changed:
			done.Files++
		}
	}
	return done, nil
}

// otherFiles gives the files besides the book that may hold what it held: its
// backups, and what restoring, putting back and salvaging set aside.
func (b *Book) otherFiles(done *Erased) []string {
	var files []string
	first, err := Backups(b.path)
	if err != nil {
		done.Left = append(done.Left, err)
	}
	second, err := b.SecondBackups()
	if err != nil {
		done.Left = append(done.Left, err)
	}
	for _, f := range append(first, second...) {
		files = append(files, f.Path)
	}
	dir, base := filepath.Split(b.file)
	beside, err := os.ReadDir(filepath.Clean(dir))
	if err != nil {
		done.Left = append(done.Left, explain(dir, err))
	}
	for _, f := range beside {
		name := f.Name()
		if f.Type().IsRegular() && (strings.HasPrefix(name, base+beforeRestore) || strings.HasPrefix(name, base+replacedBy) || strings.HasPrefix(name, strings.TrimSuffix(base, ".book")+salvagedMark)) {
			files = append(files, filepath.Join(dir, name))
		}
	}
	return files
}

// eraseFrom writes a copy of a book anew without a job, if it may have had it. A job
// of the same number that was made at another time is another one: a restored book
// numbers on from where its backup stood.
func eraseFrom(file string, id ID, made time.Time) (changed bool, err error) {
	a, err := inspect(file)
	if err != nil || a.NextJob <= uint64(id) {
		return false, err
	}
	b := &Book{path: file, file: file, o: Options{Wait: time.Second}}
	err = b.attach(file, true)
	if err == nil {
		var s Summary
		s, err = b.Summary(id)
		if err = errors.Join(ignore(err, Missing), b.Close()); err == nil && s.ID != 0 && !s.Created.Equal(made) {
			return false, nil
		}
	}
	if err != nil {
		return false, explain(file, err)
	}
	temp, err := wholefile.Temp(file, copyOf(file))
	if err == nil {
		if err = without(temp, id); err == nil {
			err = verifyRecords(temp)
		}
		if err == nil {
			err = os.Rename(temp, file)
		}
		if err != nil {
			err = errors.Join(err, os.Remove(temp))
		}
	}
	if err != nil {
		return false, &Fault{Path: file, Text: "the job is still in it: " + err.Error(), Way: "delete the file if the job must be gone", Err: err}
	}
	return true, explain(file, wholefile.SyncDir(filepath.Dir(file)))
}

// ignore gives err unless it is a Fault of kind k.
func ignore(err error, k Kind) error {
	if IsKind(err, k) {
		return nil
	}
	return err
}

// without takes a job out of the book in a file, and its bytes with it.
func without(file string, id ID) error {
	db, f, err := openDatabase(file, &bolt.Options{Timeout: time.Second})
	if err != nil {
		return err
	}
	b := &Book{path: file, file: file, db: db, opened: f, o: Options{Wait: time.Second, Now: time.Now}}
	err = b.update(func(t *tx) error {
		if t.has(inEntries, key{uint64(id), 0}) {
			t.about.Jobs--
		}
		return t.remove(id)
	})
	if err == nil {
		err = b.Compact()
	}
	return errors.Join(err, b.Close())
}
