package office_test

import (
	"io"
	"net"
	"net/url"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// line is a network between somebody and the server that can be cut at any byte: what was
// written by then arrives, and nobody is told.
type line struct {
	dir    string
	listen net.Listener
	to     string

	mu     sync.Mutex
	up     int // bytes that still pass towards the server; less than 0 for any number
	down   int // and from it
	broken bool
	open   map[net.Conn]bool
}

// newLine lays a line to a server.
func newLine(t testing.TB, s *trial.Server) *line {
	t.Helper()
	dir, err := os.MkdirTemp("", "line-")
	if err != nil {
		t.Fatal(err)
	}
	l := &line{dir: dir, to: filepath.Join(s.Dir(), ".s.PGSQL.5432"), up: -1, down: -1, open: map[net.Conn]bool{}}
	if l.listen, err = net.Listen("unix", filepath.Join(dir, ".s.PGSQL.5432")); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = l.listen.Close(); l.cut(); _ = os.RemoveAll(dir) })
	go l.run()
	return l
}

func (l *line) address(t testing.TB, user, db string) office.Address {
	t.Helper()
	a, err := office.ParseAddress("postgres://" + user + "@/" + db + "?host=" + url.QueryEscape(l.dir))
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// after has the line break once so many bytes have passed one way, and stay broken.
func (l *line) after(up, down int) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.up, l.down = up, down
}

// mend has everything pass again.
func (l *line) mend() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.up, l.down, l.broken = -1, -1, false
}

// cut breaks all that passes, at once.
func (l *line) cut() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.broken = true
	for c := range l.open {
		_ = c.Close()
	}
	clear(l.open)
}

func (l *line) run() {
	for {
		c, err := l.listen.Accept()
		if err != nil {
			return
		}
		s, err := net.Dial("unix", l.to)
		l.mu.Lock()
		broken := l.broken
		if err == nil {
			l.open[c], l.open[s] = true, true
		}
		l.mu.Unlock()
		if err != nil || broken {
			_ = c.Close()
			if s != nil {
				_ = s.Close()
			}
			continue
		}
		go l.pass(c, s, &l.up)
		go l.pass(s, c, &l.down)
	}
}

// pass passes bytes on while there are some left.
func (l *line) pass(from, to net.Conn, left *int) {
	defer from.Close()
	defer to.Close()
	b := make([]byte, 8192)
	for {
		n, err := from.Read(b)
		l.mu.Lock()
		end := *left >= 0 && n >= *left
		if end {
			n = *left
		}
		if *left >= 0 {
			*left -= n
		}
		l.mu.Unlock()
		if _, werr := to.Write(b[:n]); werr != nil || err == io.EOF || err != nil {
			return
		}
		if end {
			l.cut()
			return
		}
	}
}
