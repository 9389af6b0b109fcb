package wholefile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
)

func must[T any](v T, err error) func(*testing.T) T {
	return func(t *testing.T) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// holds gives the files of a folder with what is in them, "hidden" ones too.
func holds(t *testing.T, dir string) map[string]string {
	t.Helper()
	m := map[string]string{}
	for _, f := range must(os.ReadDir(dir))(t) {
		if f.IsDir() {
			m[f.Name()] = "a folder"
			continue
		}
		m[f.Name()] = string(must(os.ReadFile(filepath.Join(dir, f.Name())))(t))
	}
	return m
}

func TestWriteReplacesWhole(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "job.json")
	if err := Write(name, Bytes([]byte("new"))); err != nil {
		t.Fatal(err)
	}
	if m := must(os.Stat(name))(t).Mode().Perm(); m != 0o600 {
		t.Errorf("a new file has mode %o", m)
	}
	if err := os.Chmod(name, 0o644); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(dir, "link")
	if err := os.Symlink("job.json", link); err != nil {
		t.Fatal(err)
	}
	if err := Write(link, Bytes([]byte("newer"))); err != nil {
		t.Fatal(err)
	}
	if m := must(os.Stat(name))(t).Mode().Perm(); m != 0o644 {
		t.Errorf("a file that was there has mode %o", m)
	}
	if to := must(os.Readlink(link))(t); to != "job.json" {
		t.Errorf("the link leads to %q", to)
	}
	if got := holds(t, dir); len(got) != 2 || got["job.json"] != "newer" {
		t.Errorf("the folder holds %v", got)
	}
}

// What fails on the way leaves the old file and nothing else.
func TestWriteThatFailsLeavesTheOldFile(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "job.json")
	if err := os.WriteFile(name, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	full := &fs.PathError{Op: "write", Path: "x", Err: syscall.ENOSPC}
	err := Write(name, func(w io.Writer) error {
		_, err := io.WriteString(w, "half of the n")
		return errors.Join(err, full)
	})
	var f *Fault
	if !errors.As(err, &f) || f.Path != name || !strings.Contains(err.Error(), "the disk is full; free some space") {
		t.Errorf("%v", err)
	}
	own := errors.New("nothing to write")
	if err := Write(name, func(io.Writer) error { return own }); !errors.Is(err, own) || err.Error() != own.Error() {
		t.Errorf("the writer's error came back as %v", err)
	}
	if got := holds(t, dir); len(got) != 1 || got["job.json"] != "old" {
		t.Errorf("the folder holds %v", got)
	}
	if err := Write(dir, Bytes(nil)); err == nil || !strings.Contains(err.Error(), "a folder has this name") {
		t.Errorf("over a folder: %v", err)
	}
	if err := Write(filepath.Join(name, "below"), Bytes(nil)); err == nil || !strings.Contains(err.Error(), "is a file") {
		t.Errorf("below a file: %v", err)
	}
	if err := Write(filepath.Join(dir, "none", "x"), Bytes(nil)); err == nil || !strings.Contains(err.Error(), "no such file or folder") {
		t.Errorf("into no folder: %v", err)
	}
}

func TestLeftoversGo(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "job.json")
	old, fresh, other := filepath.Join(dir, ".job.json-abc.writing"), filepath.Join(dir, ".job.json-def.writing"), filepath.Join(dir, ".plan.json-abc.writing")
	for _, f := range []string{old, fresh, other} {
		if err := os.WriteFile(f, []byte("half"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	past := time.Now().Add(-2 * time.Hour)
	for _, f := range []string{old, other} {
		if err := os.Chtimes(f, past, past); err != nil {
			t.Fatal(err)
		}
	}
	if err := Write(name, Bytes(nil)); err != nil {
		t.Fatal(err)
	}
	got := holds(t, dir)
	if _, there := got[filepath.Base(old)]; there || len(got) != 3 {
		t.Errorf("left: %v; want all but %s", got, filepath.Base(old))
	}
}

var errCut = errors.New("the machine stops here")

// stopAt lets the nth rename, and all after it, fail; or end all at once.
func stopAt(n int, dead bool) {
	rename = func(from, to string) error {
		if n--; n >= 0 {
			return os.Rename(from, to)
		}
		if dead {
			panic(errCut)
		}
		return &os.LinkError{Op: "rename", Old: from, New: to, Err: syscall.EBUSY}
	}
}

// Files of one run appear together, whichever step fails; and after a kill at any
// step the next run finishes what was whole.
func TestWriteAllTogetherOrNotAtAll(t *testing.T) {
	defer func() { rename = os.Rename }()
	was := map[string]string{"a.pdf": "old a", "c.pdf": "old c", "mine.txt": "not of the run"}
	files := []File{{"a.pdf", []byte("new a")}, {"b.pdf", []byte("new b")}, {"c.pdf", []byte("new c")}}
	is := map[string]string{"a.pdf": "new a", "b.pdf": "new b", "c.pdf": "new c", "mine.txt": "not of the run"}
	for n := range 5 {
		for _, dead := range []bool{false, true} {
			t.Run(fmt.Sprint(n, dead), func(t *testing.T) {
				dir := t.TempDir()
				for name, text := range was {
					if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o640); err != nil {
						t.Fatal(err)
					}
				}
				stopAt(n, dead)
				err := func() (err error) {
					defer func() {
						if r := recover(); r != nil {
							err = r.(error)
						}
					}()
					return WriteAll(dir, files)
				}()
				rename = os.Rename
				want := was
				switch {
				case n == 4: // one for the folder and three for the files
					want = is
					if err != nil {
						t.Fatal(err)
					}
				case err == nil:
					t.Fatal("nothing failed")
				case !dead:
					if !strings.Contains(err.Error(), "another program has the file open") {
						t.Error(err)
					}
				default:
					for name := range is {
						if got, err := os.ReadFile(filepath.Join(dir, name)); err == nil && string(got) != was[name] && string(got) != is[name] {
							t.Errorf("%s holds %q", name, got)
						}
					}
					if err := Finish(dir); err != nil {
						t.Fatal(err)
					}
					if n > 0 {
						want = is
					}
				}
				got := holds(t, dir)
				for name, text := range got {
					if strings.HasSuffix(name, writing) {
						delete(got, name) // not whole, and young
					} else if text != want[name] {
						t.Errorf("%s holds %q", name, text)
					}
				}
				if len(got) != len(want) {
					t.Errorf("the folder holds %v", got)
				}
				if m := must(os.Stat(filepath.Join(dir, "a.pdf")))(t).Mode().Perm(); m != 0o640 {
					t.Errorf("mode %o", m)
				}
			})
		}
	}
}

func TestWriteAllRefusesBeforeItBegins(t *testing.T) {
	dir := t.TempDir()
	if err := os.MkdirAll(filepath.Join(dir, "out", "b.pdf"), 0o700); err != nil {
		t.Fatal(err)
	}
	err := WriteAll(filepath.Join(dir, "out"), []File{{"a.pdf", nil}, {"b.pdf", nil}})
	if err == nil || !strings.Contains(err.Error(), "b.pdf: a folder has this name") {
		t.Error(err)
	}
	if err := WriteAll(filepath.Join(dir, "out"), []File{{"../a.pdf", nil}}); err == nil {
		t.Error("a file outside the folder was written")
	}
	if got := holds(t, filepath.Join(dir, "out")); len(got) != 1 {
		t.Errorf("the folder holds %v", got)
	}
	if err := WriteAll(filepath.Join(dir, "made", "here"), []File{{"a.pdf", []byte("a")}}); err != nil {
		t.Error(err)
	}
	if m := must(os.Stat(filepath.Join(dir, "made")))(t).Mode().Perm(); m != 0o700 {
		t.Errorf("a new folder has mode %o", m)
	}
}

// A link among the files of a run stays one.
func TestWriteAllThroughLinks(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "out")
	if err := os.Mkdir(out, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(filepath.Join("..", "elsewhere.pdf"), filepath.Join(out, "a.pdf")); err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"one", "two"} {
		if err := WriteAll(out, []File{{"a.pdf", []byte(text)}}); err != nil {
			t.Fatal(err)
		}
		if got := string(must(os.ReadFile(filepath.Join(dir, "elsewhere.pdf")))(t)); got != text {
			t.Errorf("found %q", got)
		}
	}
	if got := must(os.ReadDir(out))(t); len(got) != 1 || got[0].Type()&fs.ModeSymlink == 0 {
		t.Errorf("the folder holds %v", got)
	}
}

func TestFreeName(t *testing.T) {
	dir := t.TempDir()
	var got []string
	for range 3 {
		name := FreeName(filepath.Join(dir, "jobs"), ".book")
		if err := os.WriteFile(name, nil, 0o600); err != nil {
			t.Fatal(err)
		}
		got = append(got, filepath.Base(name))
	}
	if want := []string{"jobs.book", "jobs-2.book", "jobs-3.book"}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}
