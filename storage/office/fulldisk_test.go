package office_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// disk is a small disk in memory.
type disk struct {
	t   *testing.T
	dir string
}

// smallDisk mounts one of so many kilobytes; who may not mount leaves the test out.
func smallDisk(t *testing.T, kilobytes int) disk {
	t.Helper()
	dir, err := os.MkdirTemp("", "disk-") // short, and others may be let in: the server is another user
	if err == nil {
		err = os.Chmod(dir, 0o755)
	}
	if err != nil {
		t.Fatal(err)
	}
	d := disk{t, dir}
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", fmt.Sprintf("size=%dk,mode=777", kilobytes), "none", d.dir).CombinedOutput(); err != nil {
		_ = os.Remove(dir)
		t.Skipf("mounting a small disk needs root: %v: %s", err, out)
	}
	t.Cleanup(func() {
		if out, err := exec.Command("umount", d.dir).CombinedOutput(); err != nil {
			t.Errorf("%v: %s", err, out)
		}
		_ = os.Remove(dir)
	})
	return d
}

// grow gives the disk another size.
func (d disk) grow(kilobytes int) {
	d.t.Helper()
	if out, err := exec.Command("mount", "-o", fmt.Sprintf("remount,size=%dk", kilobytes), d.dir).CombinedOutput(); err != nil {
		d.t.Fatalf("%v: %s", err, out)
	}
}

// fill fills the disk but for some kilobytes.
func (d disk) fill(left int) (empty func()) {
	d.t.Helper()
	path := filepath.Join(d.dir, "sawdust")
	f := must(os.Create(path))(d.t)
	n, err := 0, error(nil)
	for err == nil {
		_, err = f.Write(make([]byte, 4096))
		n++
	}
	if err := errors.Join(f.Truncate(int64(max(0, 4096*(n-1)-left<<10))), f.Close()); err != nil {
		d.t.Fatal(err)
	}
	return func() {
		if err := os.Remove(path); err != nil {
			d.t.Fatal(err)
		}
	}
}

// bulk is a text that packs badly.
func bulk(random *rand.Rand, bytes int) string {
	b := make([]byte, bytes)
	for i := range b {
		b[i] = byte('a' + random.IntN(26))
	}
	return string(b)
}

// fillUp has somebody write until his sync fails, and gives how.
func (p *person) fillUp(random *rand.Rand, kilobytes int) error {
	p.t.Helper()
	id, j := p.first()
	for n := range 2_000 {
		j.Notes = bulk(random, kilobytes<<10)
		if err := p.book.Edit(id, fmt.Sprint("Write ", n), j); err != nil {
			p.t.Fatal(err)
		}
		if _, err := p.conn.Sync(context.Background(), p.book, office.Options{}); err != nil {
			return err
		}
	}
	p.t.Fatal("the disk never fills")
	return nil
}

// again connects somebody anew.
func (p *person) again(s *trial.Server, db string) {
	p.t.Helper()
	_ = p.conn.Close()
	p.conn = connect(p.t, s, p.name, db)
}

// equal holds two books against each other, and against what was written last.
func equal(t *testing.T, a, b *person, last string) {
	t.Helper()
	_, x := a.first()
	_, y := b.first()
	if !x.Same(y) || x.Notes != last {
		t.Errorf("%s and %s differ: %d and %d letters, %d were written last", a.name, b.name, len(x.Notes), len(y.Notes), len(last))
	}
	for _, p := range []*person{a, b} {
		if err := p.book.Verify(); err != nil {
			t.Errorf("%s: %v", p.name, err)
		}
	}
}

// A disk of the server that is full is said, what was written stays in one's own book, and
// goes up once there is room: where the jobs lie, and where the server itself does, which
// stops then.
func TestFullDiskOfTheServer(t *testing.T) {
	if testing.Short() {
		t.Skip("fills disks, one after the other: run without -short")
	}
	t.Run("jobs", func(t *testing.T) {
		d := smallDisk(t, 12<<10)
		s := trial.Own(t, "-c", "fsync=off")
		db := s.NewBookIn(t, d.dir)
		ed, eve := newPerson(t, s, "ed", db), newPerson(t, s, "eve", db)
		ed.create(shop())
		ed.sync()
		eve.sync()
		err := ed.fillUp(rand.New(rand.NewPCG(1, 1)), 200)
		if !storage.IsKind(err, storage.Full) || !contains(err.Error(), "the disk of the office book's server is full; your own book has everything") {
			t.Fatalf("a full disk is told as %v", err)
		}
		if n, err := office.Waiting(ed.book); n == 0 || err != nil {
			t.Errorf("%d edits wait, %v", n, err)
		}
		_, j := ed.first()
		d.grow(96 << 10)
		ed.sync()
		eve.sync()
		equal(t, ed, eve, j.Notes)
	})
	t.Run("server", func(t *testing.T) {
		d := smallDisk(t, 256<<10)
		usual := os.TempDir()
		t.Setenv("TMPDIR", d.dir)
		s := trial.Own(t, "-c", "fsync=off", "-c", "max_wal_size=32MB", "-c", "restart_after_crash=on")
		t.Setenv("TMPDIR", usual)
		db := s.NewBook(t)
		ed, eve := newPerson(t, s, "ed", db), newPerson(t, s, "eve", db)
		ed.create(shop())
		ed.sync()
		eve.sync()
		for i, left := range []int{64, 1024, 4096} {
			empty := d.fill(left)
			err := ed.fillUp(rand.New(rand.NewPCG(2, uint64(i))), 200)
			if !storage.IsKind(err, storage.Full) && !storage.IsKind(err, storage.Offline) || !contains(err.Error(), "your own book has everything") {
				t.Errorf("with %d kB left it is told as %v", left, err)
			}
			t.Logf("with %d kB left: %v", left, err)
			_, j := ed.first()
			empty()
			s.Restart(t)
			ed.again(s, db)
			eve.again(s, db)
			ed.sync()
			eve.sync()
			equal(t, ed, eve, j.Notes)
		}
	})
}

// A disk of one's own that is full is said, and nothing that came is there by half; what is
// missing comes once there is room.
func TestFullDiskOfTheBook(t *testing.T) {
	if testing.Short() {
		t.Skip("fills disks, one after the other: run without -short")
	}
	t.Parallel()
	s := trial.Shared(t)
	for _, kilobytes := range []int{500, 600, 700, 900} {
		t.Run(fmt.Sprint(kilobytes), func(t *testing.T) {
			db := s.NewBook(t)
			ed := newPerson(t, s, "ed", db)
			ed.create(shop())
			ed.sync()
			d := smallDisk(t, kilobytes)
			b := must(storage.Open(filepath.Join(d.dir, "eve.book"), storage.Options{NoBackup: true}))(t)
			defer b.Close()
			eve := &person{t, "eve", b, connect(t, s, "eve", db)}
			eve.sync()
			random := rand.New(rand.NewPCG(3, uint64(kilobytes)))
			id, j := ed.first()
			for n := range 30 {
				j.Notes = bulk(random, 40<<10)
				if err := ed.book.Edit(id, fmt.Sprint("Write ", n), j); err != nil {
					t.Fatal(err)
				}
				if n%3 == 0 {
					ed.sync()
				}
			}
			ed.sync()
			_, err := eve.conn.Sync(t.Context(), b, office.Options{})
			if !storage.IsKind(err, storage.Full) || !contains(err.Error(), "disk is full") {
				t.Fatalf("a full disk is told as %v", err)
			}
			if err := b.Verify(); err != nil {
				t.Error(err)
			}
			d.grow(32 << 10)
			eve.again(s, db)
			eve.sync()
			equal(t, ed, eve, j.Notes)
		})
	}
}
