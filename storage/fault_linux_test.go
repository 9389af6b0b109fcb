package storage

import (
	"bufio"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"testing"
)

// asNobody runs f without root's rights over files.
func asNobody(t *testing.T, f func()) {
	t.Helper()
	if os.Geteuid() != 0 {
		f()
		return
	}
	const nobody = 65534
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	// Of this thread alone, and given back; setfsuid reports no error.
	_, _, _ = syscall.RawSyscall(syscall.SYS_SETFSUID, nobody, 0, 0)
	defer syscall.RawSyscall(syscall.SYS_SETFSUID, 0, 0, 0)
	f()
}

func TestReadOnlyFolder(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "jobs.book")
	b := open(t, path)
	id := must(b.Create(shop(1)))(t)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	for name, mode := range map[string]os.FileMode{filepath.Dir(dir): 0o755, dir: 0o555, path: 0o444} {
		if err := os.Chmod(name, mode); err != nil {
			t.Fatal(err)
		}
	}
	defer os.Chmod(dir, 0o755)
	before := must(os.ReadFile(path))(t)
	asNobody(t, func() {
		for _, p := range []string{filepath.Join(dir, "new.book"), filepath.Join(dir, "sub", "new.book"), path} {
			if _, err := Open(p, Options{}); !IsKind(err, Denied) || !strings.Contains(err.Error(), "read only") {
				t.Errorf("%s: %v, want Denied", p, err)
			}
		}
		r, err := Open(path, Options{ReadOnly: true})
		if err != nil {
			t.Fatalf("to read only: %v", err)
		}
		if j := must(r.Get(id))(t); j.Name != "Shop addition 1" {
			t.Errorf("reads %q", j.Name)
		}
		r.Close()
	})
	if string(must(os.ReadFile(path))(t)) != string(before) {
		t.Error("the book was changed")
	}
}

// limitFile bounds the size of files that this process may write.
func limitFile(size uint64) error {
	signal.Ignore(syscall.SIGXFSZ)
	return syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: size, Max: size})
}

func init() {
	if size, err := strconv.ParseUint(os.Getenv("JOB_BOOK_FILE_LIMIT"), 10, 64); err == nil {
		if err := limitFile(size); err != nil {
			panic(err)
		}
	}
}

// TestFileMayNotGrow lets the file of a book grow no further at many sizes.
func TestFileMayNotGrow(t *testing.T) {
	t.Parallel()
	for limit := 200_000; limit < 420_000; limit += 33_333 {
		path := newPath(t)
		b := open(t, path)
		id := must(b.Create(shop(0)))(t)
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), "JOB_BOOK_EDIT_UNTIL_KILLED="+path, "JOB_BOOK_FILE_LIMIT="+strconv.Itoa(limit))
		var complaint strings.Builder
		cmd.Stderr = &complaint
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		acknowledged := 0
		for lines := bufio.NewScanner(out); lines.Scan(); {
			acknowledged, _ = strconv.Atoi(lines.Text())
		}
		if err := cmd.Wait(); err == nil || !strings.Contains(complaint.String(), "disk is full") {
			t.Errorf("limit %d: %v, it said %q; want that the disk is full", limit, err, complaint.String())
		}
		b, err = Open(path, Options{NoBackup: true})
		if err != nil {
			t.Fatalf("limit %d: %v", limit, err)
		}
		if err := b.Verify(); err != nil {
			t.Error(err)
		}
		j := must(b.Get(id))(t)
		if got, _ := strconv.Atoi(j.Notes); got != acknowledged {
			t.Errorf("limit %d: edit %d was acknowledged, the book holds %d", limit, acknowledged, got)
		}
		if acknowledged < 5 {
			t.Errorf("limit %d: only %d edits before the limit", limit, acknowledged)
		}
		b.Close()
	}
}
