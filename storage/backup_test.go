package storage

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"haunchbook.example/storage/wholefile"
)

// A book that is gone while its backups are there is no first run.
func TestLostBookIsNoFirstRun(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	id := must(b.Create(shop(1)))(t)
	backup := must(b.Backup("asked"))(t)
	if err := errors.Join(b.Close(), os.Remove(path)); err != nil {
		t.Fatal(err)
	}
	_, err := Open(path, Options{})
	if !IsKind(err, Lost) || !strings.Contains(err.Error(), "backup") || isThere(path) {
		t.Fatalf("%v, want Lost, and nothing made", err)
	}
	if _, err := Restore(path, backup); err != nil {
		t.Fatal(err)
	}
	b = open(t, path)
	must(b.Get(id))(t)
	if err := errors.Join(b.Close(), os.Remove(path)); err != nil {
		t.Fatal(err)
	}
	if b, err = Open(path, Options{Fresh: true}); err != nil {
		t.Fatal(err)
	}
	b.Close()
}

// A clock that was wrong once, forward or back, stops no daily backup and removes
// no good one.
func TestWrongClock(t *testing.T) {
	path := newPath(t)
	now := time.Date(2031, 5, 1, 8, 0, 0, 0, time.UTC)
	o := Options{Now: func() time.Time { return now }, Keep: Keep{3, 5 * 24 * time.Hour}}
	day := func(n int) (made string) {
		t.Helper()
		b, err := Open(path, Options{Now: o.Now, Keep: o.Keep, NoBackup: true})
		if err != nil {
			t.Fatal(err)
		}
		defer b.Close()
		must(b.Create(shop(n)))(t)
		return must(b.BackupIfDue())(t)
	}
	if day(0) == "" {
		t.Fatal("no backup on the first day")
	}
	now = time.Date(2026, 5, 1, 8, 0, 0, 0, time.UTC) // five years back
	var sound []string
	for n := range 8 {
		now = now.Add(25 * time.Hour)
		if name := day(n + 1); name == "" {
			t.Errorf("no backup on day %d after the clock was put right", n+1)
		} else {
			sound = append(sound, name)
		}
	}
	kept := 0
	for _, f := range must(Backups(path))(t) {
		if f.Time.Before(now.Add(time.Hour)) {
			kept++
		}
	}
	if kept < 4 || kept > 6 {
		t.Errorf("%d backups are kept, want those of five days", kept)
	}
	now = time.Date(1970, 1, 1, 0, 5, 0, 0, time.UTC) // a dead battery
	if day(20) == "" {
		t.Error("no backup in 1970")
	}
	if newest := sound[len(sound)-1]; !isThere(newest) {
		t.Errorf("%s was removed by a wrong clock", newest)
	}
}

func TestPricesOfAWrongClock(t *testing.T) {
	now := time.Date(2031, 5, 1, 8, 0, 0, 0, time.UTC)
	b, err := Open(newPath(t), Options{Now: func() time.Time { return now }})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	p := must(b.Prices(0))(t)
	p.Name = "of the wrong clock"
	if err := b.SetPrices(p); err != nil {
		t.Fatal(err)
	}
	now = time.Date(2026, 5, 1, 8, 0, 0, 0, time.UTC)
	if got := must(b.PricesAt(0, now))(t); got.Name != p.Name {
		t.Errorf("today's prices are %q, want the last ones stored", got.Name)
	}
	p.Name = "of the right clock"
	if err := b.SetPrices(p); err != nil {
		t.Fatal(err)
	}
	if got := must(b.PricesAt(0, now.Add(time.Hour)))(t); got.Name != p.Name {
		t.Errorf("today's prices are %q, want the last ones stored", got.Name)
	}
}

func TestTwoBackupsInOneSecond(t *testing.T) {
	path := newPath(t)
	now := time.Date(2026, 5, 1, 8, 0, 0, 0, time.UTC)
	b, err := Open(path, Options{Now: func() time.Time { return now }, NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	must(b.Create(shop(1)))(t)
	one := must(b.Backup("asked"))(t)
	must(b.Create(shop(2)))(t)
	two := must(b.Backup("asked"))(t)
	list := must(Backups(path))(t)
	if one == two || len(list) != 2 || list[0].Note != "asked" || list[1].Note != "asked" {
		t.Errorf("the backups are %+v", list)
	}
}

// A backup that does not read back as it was written is none.
func TestBackupIsReadBack(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	must(b.Create(shop(1)))(t)
	name := filepath.Join(backupDir(path), "x.book")
	if err := os.MkdirAll(filepath.Dir(name), 0o700); err != nil {
		t.Fatal(err)
	}
	data := must(os.ReadFile(path))(t)
	for what, change := range map[string]func([]byte) []byte{
		"cut":    func(d []byte) []byte { return d[:3*4096] },
		"record": func(d []byte) []byte { d[newestRecord(d, inJobs, 1)+recordHeader+3] ^= 1; return d },
		"page":   func(d []byte) []byte { d[4096*3+8] ^= 0xff; return d },
	} {
		bad := change(bytes.Clone(data))
		err := writeVerified(name, verifyRecords, wholefile.Bytes(bad))
		if err == nil || isThere(name) {
			t.Errorf("%s: %v; the backup is there: %v", what, err, isThere(name))
		}
	}
	if files, _ := os.ReadDir(filepath.Dir(name)); len(files) != 1 { // the one of the opening
		t.Errorf("left: %v", files)
	}
}

func TestRestoreRefusesWhatIsNoBook(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "jobs.book")
	b := open(t, path)
	id := must(b.Create(shop(1)))(t)
	b.Close()
	other := filepath.Join(dir, "other.db")
	db, err := bolt.Open(other, 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	err = db.Update(func(tx *bolt.Tx) error {
		bk, err := tx.CreateBucket([]byte("songs"))
		return errors.Join(err, bk.Put([]byte("a"), []byte("b")))
	})
	if err := errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
	text := filepath.Join(dir, "text")
	if err := os.WriteFile(text, []byte("no book"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, f := range []string{other, text} {
		if _, err := Restore(path, f); !IsKind(err, Foreign) {
			t.Errorf("%s: %v, want Foreign", f, err)
		}
	}
	if _, err := Restore(path, filepath.Join(dir, "none")); !IsKind(err, Missing) {
		t.Errorf("%v, want Missing", err)
	}
	must(open(t, path).Get(id))(t)
}

func TestLeftoversOfTheKilledGo(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	must(b.Create(shop(1)))(t)
	must(b.Backup("asked"))(t)
	b.Close()
	dir := filepath.Dir(path)
	left := []string{
		path + compacting, path + ".restoring", filepath.Join(dir, ".jobs.book-new-12"), filepath.Join(dir, ".jobs.book-abcdefgh.writing"),
		filepath.Join(backupDir(path), ".writing-123"), filepath.Join(backupDir(path), ".20260101-000000_daily-abcdefgh.writing"),
		filepath.Join(backupDir(path), ".20260101-000000_daily.book-abcdefgh.writing.compacting"),
	}
	kept := []string{filepath.Join(dir, ".other.book-abcdefgh.writing"), filepath.Join(dir, "plan.writing"), path + ".before-restore"}
	for _, f := range append(left, kept...) {
		if err := os.WriteFile(f, []byte("half"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	open(t, path)
	for _, f := range left {
		if isThere(f) {
			t.Errorf("%s is left", f)
		}
	}
	for _, f := range kept {
		if !isThere(f) {
			t.Errorf("%s is gone", f)
		}
	}
}

func TestSecondPlace(t *testing.T) {
	path := newPath(t)
	now := time.Date(2026, 5, 1, 8, 0, 0, 0, time.UTC)
	b, err := Open(path, Options{Now: func() time.Time { return now }, NoBackup: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	id := must(b.Create(shop(1)))(t)
	if list, err := b.SecondBackups(); err != nil || len(list) != 0 {
		t.Errorf("without a second place: %v, %v", list, err)
	}
	for _, bad := range []string{"relative", filepath.Join(t.TempDir(), "none"), path} {
		if err := b.SetSecondPlace(bad); !IsKind(err, Invalid) {
			t.Errorf("%s: %v, want Invalid", bad, err)
		}
	}
	disk := filepath.Join(t.TempDir(), "stick")
	if err := errors.Join(os.Mkdir(disk, 0o700), b.SetSecondPlace(disk)); err != nil {
		t.Fatal(err)
	}
	must(b.Backup("asked"))(t)
	list := must(b.SecondBackups())(t)
	if len(list) != 1 || !strings.HasPrefix(list[0].Path, disk) {
		t.Fatalf("the second place has %+v", list)
	}
	if err := verifyRecords(list[0].Path); err != nil {
		t.Error(err)
	}
	// The stick is not there for some days: it is told, and the first place has its
	// backups; later it gets the newest.
	if err := os.Rename(disk, disk+" in a drawer"); err != nil {
		t.Fatal(err)
	}
	for n := range 3 {
		now = now.Add(25 * time.Hour)
		if err := edited(b, id, n); err != nil {
			t.Fatal(err)
		}
		name, err := b.BackupIfDue()
		var f *Fault
		if !errors.As(err, &f) || !strings.Contains(f.Error(), "second place") || !isThere(name) {
			t.Errorf("day %d: %q, %v; want that the second place is not there", n, name, err)
		}
	}
	if err := os.Rename(disk+" in a drawer", disk); err != nil {
		t.Fatal(err)
	}
	if _, err := b.BackupIfDue(); err != nil {
		t.Fatal(err)
	}
	list = must(b.SecondBackups())(t)
	if len(list) != 2 || !list[0].Time.Equal(must(Backups(path))(t)[0].Time) {
		t.Errorf("the second place has %+v", list)
	}
	if err := b.SetSecondPlace(""); err != nil {
		t.Error(err)
	}
}

// What is deleted for good is in no file that the program owns.
func TestEraseLeavesNoBytes(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "book", "jobs.book")
	disk := filepath.Join(dir, "stick")
	if err := os.Mkdir(disk, 0o700); err != nil {
		t.Fatal(err)
	}
	b := open(t, path)
	if err := b.SetSecondPlace(disk); err != nil {
		t.Fatal(err)
	}
	first := must(b.Backup("before"))(t) // does not have it
	secret := shop(1)
	secret.Customer = "Wilhelmina Underhill"
	secret.Sketch = sketchOf(3, 20_000)
	id := must(b.Create(secret))(t)
	other := must(b.Create(shop(2)))(t)
	for n := range 40 {
		secret.Notes = strings.Repeat("Underhill ", n)
		if err := b.Edit(id, "Notes", secret); err != nil {
			t.Fatal(err)
		}
	}
	must(b.Revise(id, "printed"))(t)
	must(b.Backup("asked"))(t)
	b.Close()
	aside := must(Restore(path, must(Backups(path))(t)[0].Path))(t)
	b = open(t, path)
	must(Salvage(path, SalvagedName(path)))(t)
	holding := func() (names []string) {
		t.Helper()
		err := filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			data, err := os.ReadFile(name)
			if bytes.Contains(data, []byte("Underhill")) || len(carveJob(data, id)) > 0 {
				names = append(names, name)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		return names
	}
	if n := len(holding()); n < 5 {
		t.Fatalf("%d files hold the job: the test hardly tests", n)
	}
	done := must(b.Erase(context.Background(), id))(t)
	if len(done.Left) != 0 || done.Files < 4 {
		t.Errorf("erased: %+v", done)
	}
	if left := holding(); len(left) > 0 {
		t.Errorf("left in %v", left)
	}
	must(b.Get(other))(t)
	for _, f := range append(must(Backups(path))(t), must(b.SecondBackups())(t)...) {
		if err := verifyRecords(f.Path); err != nil {
			t.Errorf("%s: %v", f.Path, err)
		}
	}
	r, err := Open(aside, Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if list := must(r.List())(t); len(list) != 1 || list[0].ID != other {
		t.Errorf("the book set aside lists %+v", list)
	}
	if !isThere(first) {
		t.Error("a backup is gone")
	}
}

// carveJob finds what is of a job in a file, sound or not, whatever holds it.
func carveJob(data []byte, id ID) (at []int) {
	for i := 0; i+recordHeader <= len(data); i++ {
		if string(data[i:i+4]) == recordMagic && bucket(data[i+4]) != inGone {
			if k, _ := keyOf(data[i+24 : i+40]); k.a == uint64(id) && bucket(data[i+4]) != inMeta && bucket(data[i+4]) != inPrices {
				at = append(at, i)
			}
		}
	}
	return at
}

// What cannot be reached is said.
func TestEraseSaysWhatIsLeft(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	disk := t.TempDir()
	if err := b.SetSecondPlace(disk); err != nil {
		t.Fatal(err)
	}
	id := must(b.Create(shop(1)))(t)
	backup := must(b.Backup("asked"))(t)
	data := must(os.ReadFile(backup))(t)
	if err := errors.Join(os.WriteFile(backup, data[:3*4096], 0o600), os.RemoveAll(disk)); err != nil {
		t.Fatal(err)
	}
	done := must(b.Erase(context.Background(), id))(t)
	if len(done.Left) != 2 {
		t.Fatalf("%+v", done)
	}
	if text := errors.Join(done.Left...).Error(); !strings.Contains(text, backup) || !strings.Contains(text, "second place") {
		t.Errorf("it says %s", text)
	}
}
