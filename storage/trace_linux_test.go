package storage

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// deed is what a process did to files, as the system was asked for it.
type deed struct {
	what string // create, write, size, sync, syncdir, rename, link, unlink, mkdir, rmdir, said
	file int    // the file, by the order in which files were first met
	name string // of create, rename, link, unlink, mkdir, rmdir; the folder of syncdir; the text of said
	to   string // of rename and link
	at   int64  // of write; the size of size
	data []byte // of write
}

// traced runs this test binary with an environment and gives what it did to the files
// in a folder, and what it said on standard output, in order.
func traced(t *testing.T, dir string, env ...string) []deed {
	t.Helper()
	strace, err := exec.LookPath("strace")
	if err != nil {
		missing(t, "strace is not installed")
	}
	log := filepath.Join(t.TempDir(), "log")
	cmd := exec.Command(strace, "-f", "-xx", "-s", "16777216", "-o", log, "-e", "signal=none",
		"-e", "trace=openat,close,dup,dup2,dup3,lseek,write,pwrite64,copy_file_range,sendfile,ftruncate,fsync,fdatasync,rename,renameat,renameat2,link,linkat,unlink,unlinkat,rmdir,mkdirat,mkdir,writev,pwritev,pwritev2",
		os.Args[0])
	cmd.Env = append(os.Environ(), env...)
	if out, err := cmd.CombinedOutput(); err != nil {
		if bytes.Contains(out, []byte("ptrace")) && bytes.Contains(out, []byte("not permitted")) {
			t.Skipf("this machine lets nobody trace: %s", out)
		}
		t.Fatalf("%v: %s", err, out)
	}
	data, err := os.ReadFile(log)
	if err != nil {
		t.Fatal(err)
	}
	r := recorder{dir: dir, fds: map[string]*description{}, files: map[string]int{}, calls: map[string]string{}, bytes: map[int][]byte{}}
	for line := range strings.Lines(string(data)) {
		if err := r.line(strings.TrimSuffix(line, "\n")); err != nil {
			t.Fatalf("%v in %.200s", err, line)
		}
	}
	return r.deeds
}

// missing leaves a test out where a tool is missing, and fails it where all tools are
// there to be.
func missing(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("CI") != "" {
		t.Fatal(what)
	}
	t.Skip(what)
}

// description is an open file.
type description struct {
	file   int // -1 for a folder
	name   string
	offset int64
}

type recorder struct {
	dir   string
	deeds []deed
	fds   map[string]*description
	files map[string]int // by their names now
	next  int
	calls map[string]string // begun and not ended, by process
	bytes map[int][]byte    // what files hold now
}

var (
	callLine    = regexp.MustCompile(`^(\d+) +(\w+)\((.*)\) += (-?\d+)`)
	unfinished  = regexp.MustCompile(`^(\d+) +(.*?) <unfinished \.\.\.>$`)
	resumedLine = regexp.MustCompile(`^(\d+) +<\.\.\. \w+ resumed>(.*)$`)
)

func (r *recorder) line(s string) error {
	if m := unfinished.FindStringSubmatch(s); m != nil {
		r.calls[m[1]] = m[2]
		return nil
	}
	if m := resumedLine.FindStringSubmatch(s); m != nil {
		s = m[1] + " " + r.calls[m[1]] + m[2]
	}
	m := callLine.FindStringSubmatch(s)
	if m == nil {
		return nil // the end of a process, and the like
	}
	result, _ := strconv.ParseInt(m[4], 10, 64)
	if result < 0 {
		return nil // it failed, and did nothing
	}
	return r.call(m[2], arguments(m[3]), result)
}

// arguments takes the arguments of a call apart; texts come without quotes, unpacked.
func arguments(s string) []string {
	var args []string
	for len(s) > 0 {
		s = strings.TrimLeft(s, ", ")
		if strings.HasPrefix(s, `"`) {
			end := strings.IndexByte(s[1:], '"') + 1
			args = append(args, unhex(s[1:end]))
			s = strings.TrimPrefix(s[end+1:], "...")
			continue
		}
		end := strings.IndexByte(s, ',')
		if end < 0 {
			end = len(s)
		}
		args = append(args, s[:end])
		s = s[end:]
	}
	return args
}

// unhex reads text that is all \x41.
func unhex(s string) string {
	b := make([]byte, 0, len(s)/4)
	for i := 0; i+4 <= len(s); i += 4 {
		n, _ := strconv.ParseUint(s[i+2:i+4], 16, 8)
		b = append(b, byte(n))
	}
	return string(b)
}

var errUnknownCall = errors.New("a call that is not followed")

func (r *recorder) inside(name string) bool { return strings.HasPrefix(name, r.dir) }

func (r *recorder) do(d deed) { r.deeds = append(r.deeds, d) }

func (r *recorder) call(name string, a []string, result int64) error {
	number := func(s string) int64 {
		n, _ := strconv.ParseInt(s, 0, 64)
		return n
	}
	switch name {
	case "openat":
		r.open(a[1], a[2], fmt.Sprint(result))
		return nil
	case "close":
		delete(r.fds, a[0])
		return nil
	case "rename", "link", "unlink", "rmdir", "mkdir":
		return r.names(name, a...)
	case "renameat", "renameat2":
		return r.names("rename", a[1], a[3])
	case "linkat":
		return r.names("link", a[1], a[3])
	case "mkdirat":
		return r.names("mkdir", a[1])
	case "unlinkat":
		if strings.Contains(a[2], "AT_REMOVEDIR") {
			return r.names("rmdir", a[1])
		}
		return r.names("unlink", a[1])
	case "write":
		if a[0] == "1" {
			r.do(deed{what: "said", name: strings.TrimSpace(a[1])})
			return nil
		}
	case "copy_file_range":
		from, to := r.fds[a[0]], r.fds[a[2]]
		if to == nil {
			return nil
		}
		if from == nil || a[1] != "NULL" || a[3] != "NULL" {
			return errUnknownCall
		}
		r.write(to, to.offset, bytes.Clone(r.bytes[from.file][from.offset:from.offset+result]))
		from.offset += result
		to.offset += result
		return nil
	}
	f := r.fds[a[0]]
	if f == nil {
		return nil
	}
	switch name {
	case "fsync", "fdatasync":
		if f.file < 0 {
			r.do(deed{what: "syncdir", name: f.name})
		} else {
			r.do(deed{what: "sync", file: f.file})
		}
	case "lseek":
		f.offset = result
	case "ftruncate":
		r.size(f.file, number(a[1]))
	case "pwrite64":
		r.write(f, number(a[3]), []byte(a[1])[:result])
	case "write":
		r.write(f, f.offset, []byte(a[1])[:result])
		f.offset += result
	default:
		return errUnknownCall
	}
	return nil
}

func (r *recorder) write(f *description, at int64, data []byte) {
	d := deed{what: "write", file: f.file, at: at, data: data}
	r.bytes[f.file] = d.on(r.bytes[f.file])
	r.do(d)
}

func (r *recorder) size(file int, n int64) {
	d := deed{what: "size", file: file, at: n}
	r.bytes[file] = d.on(r.bytes[file])
	r.do(d)
}

// on gives what a file holds after a write or a change of its size.
func (d deed) on(was []byte) []byte {
	size := d.at
	if d.what == "write" {
		size = max(int64(len(was)), d.at+int64(len(d.data)))
	}
	is := make([]byte, size)
	copy(is, was)
	copy(is[min(d.at, size):], d.data)
	return is
}

func (r *recorder) open(name, flags, fd string) {
	delete(r.fds, fd)
	if !r.inside(name) {
		return
	}
	id, known := r.files[name]
	switch {
	case known:
	case strings.Contains(flags, "O_CREAT"):
		id = r.next
		r.next++
		r.files[name] = id
		r.do(deed{what: "create", file: id, name: name})
	default:
		r.fds[fd] = &description{file: -1, name: name}
		return
	}
	if strings.Contains(flags, "O_TRUNC") && known {
		r.size(id, 0)
	}
	r.fds[fd] = &description{file: id, name: name}
}

func (r *recorder) names(what string, names ...string) error {
	if !r.inside(names[0]) {
		return nil
	}
	d := deed{what: what, name: names[0]}
	if len(names) > 1 && (what == "rename" || what == "link") {
		d.to = names[1]
		d.rename(r.files)
	}
	if what == "unlink" {
		delete(r.files, names[0])
	}
	r.do(d)
	return nil
}

// rename gives files the names that they have after a rename or a link. A folder takes
// along what is in it.
func (d deed) rename(files map[string]int) {
	moved := map[string]int{}
	for name, id := range files {
		if name == d.name || strings.HasPrefix(name, d.name+"/") {
			moved[d.to+strings.TrimPrefix(name, d.name)] = id
			if d.what == "rename" {
				delete(files, name)
			}
		}
	}
	maps.Copy(files, moved)
}
