// Package trial starts a PostgreSQL of one's own, to try office books on. It is for tests:
// where PostgreSQL is not installed they are left out, and say so.
package trial

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/url"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
)

// Server is a PostgreSQL of a test's own.
type Server struct {
	dir     string
	args    []string
	cmd     *exec.Cmd
	bin     string
	as      *syscall.SysProcAttr
	started sync.Mutex
	ended   chan struct{} // closed once cmd is at its end
}

// shared is the server of the tests that leave it alone.
var shared struct {
	sync.Once
	*Server
	err error
}

// errNoServer tells that PostgreSQL is not installed.
var errNoServer = errors.New("PostgreSQL is not installed")

// Shared gives the server that tests share.
func Shared(t testing.TB) *Server {
	t.Helper()
	shared.Do(func() { shared.Server, shared.err = start("-c", "fsync=off") })
	return usable(t, shared.Server, shared.err)
}

// Own gives a server of a test's own.
func Own(t testing.TB, args ...string) *Server {
	t.Helper()
	s, err := start(args...)
	t.Cleanup(func() {
		if s != nil {
			s.remove()
		}
	})
	return usable(t, s, err)
}

func usable(t testing.TB, s *Server, err error) *Server {
	t.Helper()
	if errors.Is(err, errNoServer) {
		if os.Getenv("CI") != "" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// programs is the folder of PostgreSQL's programs, as Debian has it or on the path.
func programs() (string, error) {
	found, _ := filepath.Glob("/usr/lib/postgresql/*/bin/initdb")
	if len(found) > 0 {
		return filepath.Dir(found[len(found)-1]), nil
	}
	if p, err := exec.LookPath("initdb"); err == nil {
		if p, err = filepath.EvalSymlinks(p); err == nil {
			return filepath.Dir(p), nil
		}
	}
	return "", errNoServer
}

func start(args ...string) (*Server, error) {
	bin, err := programs()
	if err != nil {
		return nil, err
	}
	s := &Server{bin: bin, args: args}
	if s.dir, err = os.MkdirTemp("", "office-"); err != nil { // short: a socket's name has 107 letters at most
		return nil, err
	}
	if os.Getuid() == 0 { // the server refuses to run as root
		u, err := user.Lookup("postgres")
		if err != nil {
			return nil, errNoServer
		}
		uid, _ := strconv.Atoi(u.Uid)
		gid, _ := strconv.Atoi(u.Gid)
		s.as = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}}
		if err := os.Chown(s.dir, uid, gid); err != nil {
			return nil, err
		}
	}
	init := exec.Command(filepath.Join(bin, "initdb"), "-D", s.Data(), "-U", "boss", "--auth-local=trust", "--auth-host=scram-sha-256", "--no-sync", "-E", "UTF8", "--locale=C")
	init.SysProcAttr, init.Dir = s.as, s.dir
	if out, err := init.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("initdb: %w\n%s", err, out)
	}
	return s, s.Start()
}

// Data is the folder that the server keeps its data in.
func (s *Server) Data() string { return filepath.Join(s.dir, "data") }

// Encrypt has the server encrypt, with the server.crt and server.key that lie in Data.
func (s *Server) Encrypt(t testing.TB) {
	t.Helper()
	if s.as != nil {
		for _, name := range []string{"server.crt", "server.key"} {
			if err := os.Chown(filepath.Join(s.Data(), name), int(s.as.Credential.Uid), int(s.as.Credential.Gid)); err != nil {
				t.Fatal(err)
			}
		}
	}
	s.Exec(t, "boss", "postgres", "ALTER SYSTEM SET ssl = on")
	s.reload(t)
}

// Admit adds a line to who is let in, and how: the server's pg_hba.conf.
func (s *Server) Admit(t testing.TB, line string) {
	t.Helper()
	f, err := os.OpenFile(filepath.Join(s.Data(), "pg_hba.conf"), os.O_APPEND|os.O_WRONLY, 0)
	if err == nil {
		_, err = fmt.Fprintln(f, line)
		err = errors.Join(err, f.Close())
	}
	if err != nil {
		t.Fatal(err)
	}
	s.reload(t)
}

// reload has the server read its settings anew; who connects after that finds them.
func (s *Server) reload(t testing.TB) {
	t.Helper()
	const loaded = `SELECT extract(epoch FROM pg_conf_load_time())::text`
	read := func() (at string) {
		c, err := pgx.Connect(context.Background(), s.URL("boss", "postgres"))
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close(context.Background())
		if err := c.QueryRow(context.Background(), loaded).Scan(&at); err != nil {
			t.Fatal(err)
		}
		return at
	}
	was := read()
	s.Exec(t, "boss", "postgres", "SELECT pg_reload_conf()")
	for range 200 {
		if read() != was {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Fatal("the server does not read its settings")
}

// Start starts the server, and waits until it answers. One whose forerunner has not let go
// of everything yet ends at once: then it is started again.
func (s *Server) Start() error {
	s.started.Lock()
	defer s.started.Unlock()
	log, err := os.OpenFile(filepath.Join(s.dir, "log"), os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	defer log.Close()
	for range 600 {
		if s.ended == nil || closed(s.ended) {
			if err := s.launch(log); err != nil {
				return err
			}
		}
		c, err := pgx.Connect(context.Background(), s.URL("boss", "postgres"))
		if err == nil {
			return c.Close(context.Background())
		}
		time.Sleep(50 * time.Millisecond)
	}
	text, _ := os.ReadFile(filepath.Join(s.dir, "log"))
	return fmt.Errorf("the server does not answer:\n%s", text)
}

func (s *Server) launch(log *os.File) error {
	args := append([]string{"-D", s.Data(), "-k", s.dir, "-c", "listen_addresses=", "-c", "max_connections=260", "-c", "unix_socket_permissions=0777"}, s.args...)
	cmd := exec.Command(filepath.Join(s.bin, "postgres"), args...)
	cmd.Dir, cmd.Stdout, cmd.Stderr = s.dir, log, log
	cmd.SysProcAttr = s.as
	if err := cmd.Start(); err != nil {
		return err
	}
	ended := make(chan struct{})
	go func() { _ = cmd.Wait(); close(ended) }()
	s.cmd, s.ended = cmd, ended
	return nil
}

func closed(c chan struct{}) bool {
	select {
	case <-c:
		return true
	default:
		return false
	}
}

// Kill ends the server at once, with all that works for it.
func (s *Server) Kill() {
	_ = s.cmd.Process.Kill()
	<-s.ended
}

// Stop ends the server as for an update: at once, and in order.
func (s *Server) Stop() {
	_ = s.cmd.Process.Signal(syscall.SIGINT)
	<-s.ended
}

// Restart ends the server, if it runs, and starts it.
func (s *Server) Restart(t testing.TB) {
	t.Helper()
	s.Stop()
	if err := s.Start(); err != nil {
		t.Fatal(err)
	}
}

func (s *Server) remove() {
	s.Stop()
	_ = os.RemoveAll(s.dir)
}

// Main runs the tests of a package, and ends the server that they shared, and whatever
// else there is to end.
func Main(m *testing.M, ends ...func()) {
	// Nothing here measures or trusts a disk: a folder in memory waits for none.
	if info, err := os.Stat("/dev/shm"); err == nil && info.IsDir() && os.Getenv("TMPDIR") == "" {
		_ = os.Setenv("TMPDIR", "/dev/shm")
	}
	code := m.Run()
	if shared.Server != nil {
		shared.remove()
	}
	for _, end := range ends {
		end()
	}
	os.Exit(code)
}

// URL gives the address of a database for somebody.
func (s *Server) URL(user, database string) string {
	return "postgres://" + user + "@/" + database + "?host=" + url.QueryEscape(s.dir) + "&port=" + s.Port()
}

// FreePort gives a port of this machine that nothing listens on.
func FreePort(t testing.TB) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	_, port, err := net.SplitHostPort(l.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	return port
}

// Port gives the port that the server was told to listen on.
func (s *Server) Port() string {
	for _, a := range s.args {
		if port, ok := strings.CutPrefix(a, "port="); ok {
			return port
		}
	}
	return "5432"
}

// Dir is the folder of the server's socket.
func (s *Server) Dir() string { return s.dir }
