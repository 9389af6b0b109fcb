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
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"haunchbook.example/storage/office"
)

// Server is a PostgreSQL of a test's own.
type Server struct {
	dir     string
	args    []string
	cmd     *exec.Cmd
	bin     string
	as      *syscall.SysProcAttr
	started sync.Mutex
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
	init := exec.Command(filepath.Join(bin, "initdb"), "-D", s.data(), "-U", "boss", "--auth-local=trust", "--auth-host=scram-sha-256", "--no-sync", "-E", "UTF8", "--locale=C")
	init.SysProcAttr, init.Dir = s.as, s.dir
	if out, err := init.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("initdb: %w\n%s", err, out)
	}
	return s, s.Start()
}

func (s *Server) data() string { return filepath.Join(s.dir, "data") }

// Start starts the server, and waits until it answers.
func (s *Server) Start() error {
	s.started.Lock()
	defer s.started.Unlock()
	args := append([]string{"-D", s.data(), "-k", s.dir, "-c", "listen_addresses=", "-c", "max_connections=260", "-c", "unix_socket_permissions=0777"}, s.args...)
	log, err := os.OpenFile(filepath.Join(s.dir, "log"), os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	defer log.Close()
	s.cmd = exec.Command(filepath.Join(s.bin, "postgres"), args...)
	s.cmd.Dir, s.cmd.Stdout, s.cmd.Stderr = s.dir, log, log
	s.cmd.SysProcAttr = s.as
	if err := s.cmd.Start(); err != nil {
		return err
	}
	for range 600 {
		c, err := pgx.Connect(context.Background(), s.URL("boss", "postgres"))
		if err == nil {
			return c.Close(context.Background())
		}
		time.Sleep(50 * time.Millisecond)
	}
	text, _ := os.ReadFile(filepath.Join(s.dir, "log"))
	return fmt.Errorf("the server does not answer:\n%s", text)
}

// Kill ends the server at once, with all that works for it.
func (s *Server) Kill() {
	_ = s.cmd.Process.Kill()
	_ = s.cmd.Wait()
	// What works for it sees that, and ends; the next start waits for that.
	for range 200 {
		if exec.Command("pgrep", "-f", s.data()).Run() != nil {
			break
		}
		time.Sleep(10 * time.Millisecond)
	}
}

// Stop ends the server as for an update: at once, and in order.
func (s *Server) Stop() {
	_ = s.cmd.Process.Signal(syscall.SIGINT)
	_ = s.cmd.Wait()
}

func (s *Server) remove() {
	s.Stop()
	_ = os.RemoveAll(s.dir)
}

// Main runs the tests of a package, and ends the server that they shared.
func Main(m *testing.M) {
	// Nothing here measures or trusts a disk: a folder in memory waits for none.
	if info, err := os.Stat("/dev/shm"); err == nil && info.IsDir() && os.Getenv("TMPDIR") == "" {
		_ = os.Setenv("TMPDIR", "/dev/shm")
	}
	code := m.Run()
	if shared.Server != nil {
		shared.remove()
	}
	os.Exit(code)
}

// URL gives the address of a database for somebody.
func (s *Server) URL(user, database string) string {
	return "postgres://" + user + "@/" + database + "?host=" + url.QueryEscape(s.dir) + "&port=" + s.Port()
}

var databases atomic.Int64

// NewBook makes an office book, and people in it: olga its owner, ed and eve estimators,
// frank a foreman, fay a foreman who may see prices, and stan, who has no part.
func (s *Server) NewBook(t testing.TB) string {
	t.Helper()
	db := fmt.Sprintf("shop%d", databases.Add(1))
	s.Exec(t, "boss", "postgres", "CREATE DATABASE "+db)
	ctx := context.Background()
	setup, err := office.Prepare(ctx, s.Address(t, "boss", db), nil, t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer setup.Close()
	if _, err := setup.Do(ctx); err != nil {
		t.Fatal(err)
	}
	s.People(t, db)
	return db
}

// People makes the people of NewBook, and gives them their parts.
func (s *Server) People(t testing.TB, db string) {
	for who, part := range map[string]string{"olga": "owner", "ed": "estimator", "eve": "estimator", "frank": "foreman", "fay": "foreman", "stan": ""} {
		s.Exec(t, "boss", db, fmt.Sprintf("DO $$ BEGIN CREATE ROLE %s LOGIN; EXCEPTION WHEN duplicate_object THEN NULL; END $$", who))
		if part != "" {
			s.Exec(t, "boss", db, fmt.Sprintf("GRANT %s_%s TO %s", db, part, who))
		}
	}
	s.Exec(t, "boss", db, fmt.Sprintf("GRANT %s_prices TO fay", db))
}

// Exec runs SQL for somebody.
func (s *Server) Exec(t testing.TB, user, db, sql string) {
	t.Helper()
	c, err := pgx.Connect(context.Background(), s.URL(user, db))
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close(context.Background())
	if _, err := c.Exec(context.Background(), sql); err != nil {
		t.Fatalf("%s: %v", sql, err)
	}
}

// Count gives the number that a query counts, for the server's boss.
func (s *Server) Count(ctx context.Context, sql string) (n int, err error) {
	c, err := pgx.Connect(ctx, s.URL("boss", "postgres"))
	if err != nil {
		return 0, err
	}
	defer c.Close(ctx)
	return n, c.QueryRow(ctx, sql).Scan(&n)
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

// Address gives what URL gives, as an address.
func (s *Server) Address(t testing.TB, user, db string) office.Address {
	t.Helper()
	a, err := office.ParseAddress(s.URL(user, db))
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// CountIn gives the number that a query counts in a database.
func (s *Server) CountIn(t testing.TB, db, sql string) (n int) {
	t.Helper()
	c, err := pgx.Connect(context.Background(), s.URL("boss", db))
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close(context.Background())
	if err := c.QueryRow(context.Background(), sql).Scan(&n); err != nil {
		t.Fatal(err)
	}
	return n
}

// Dir is the folder of the server's socket.
func (s *Server) Dir() string { return s.dir }
