package office

import (
	"fmt"
	"net"
	"net/url"
	"os"
	"slices"
	"strings"

	"github.com/jackc/pgx/v5"

	"haunchbook.example/storage"
)

// Address is where an office book is: the URL of a PostgreSQL database, such as
// postgres://anna@office.example/shop. It has no password in it.
type Address struct {
	url   *url.URL
	local bool // on this machine
}

// String gives the URL.
func (a Address) String() string { return a.url.String() }

// User gives the name to log in with; "" for that of the system's user.
func (a Address) User() string { return a.url.User.Username() }

// Database gives the name of the database.
func (a Address) Database() string { return strings.TrimPrefix(a.url.Path, "/") }

// asked are the parameters that an address may have.
var asked = []string{"host", "port", "sslmode", "sslrootcert"}

// ParseAddress reads an address. One with a password in it is refused, since addresses are
// kept in files and seen on screens; so is one off this machine that gives up encryption or
// the check of the server's certificate.
func ParseAddress(text string) (Address, error) {
	wrong := func(found, way string) (Address, error) {
		return Address{}, &storage.Fault{Kind: storage.Invalid, Text: "the address of the office book: " + found, Way: way}
	}
	u, err := url.Parse(strings.TrimSpace(text))
	if err != nil || u.Scheme != "postgres" && u.Scheme != "postgresql" {
		return wrong("found no URL of a PostgreSQL database", "write it as postgres://NAME@HOST/DATABASE")
	}
	q := u.Query()
	if _, has := u.User.Password(); has || q.Has("password") {
		return wrong("found a password in it", "leave it out: the program asks for it, or has it from the system's keyring")
	}
	for name := range q {
		if !slices.Contains(asked, name) {
			return wrong(fmt.Sprintf("found %q", name), "what may stand behind the ? is "+strings.Join(asked, ", "))
		}
	}
	a := Address{url: u}
	if a.Database() == "" || strings.Contains(a.Database(), "/") || len(a.Database()) > 50 {
		return wrong(fmt.Sprintf("found the database %q", a.Database()), "end it with the database's name, of 50 letters at most")
	}
	hosts := strings.Split(q.Get("host")+","+u.Hostname(), ",")
	hosts = slices.DeleteFunc(hosts, func(h string) bool { return h == "" })
	if len(hosts) > 1 {
		return wrong("found several hosts", "name one")
	}
	a.local = len(hosts) == 0 || strings.HasPrefix(hosts[0], "/") || isLoopback(hosts[0])
	mode := q.Get("sslmode")
	if !a.local && mode != "" && mode != "verify-full" || a.local && mode != "" && mode != "verify-full" && mode != "disable" {
		return wrong("found sslmode="+mode, "leave it out: off this machine the connection is encrypted, and the server's certificate is checked")
	}
	return a, nil
}

func isLoopback(host string) bool {
	ip := net.ParseIP(host)
	return host == "localhost" || ip != nil && ip.IsLoopback()
}

// full gives the URL with all that is usual in it: a verified certificate, unless the
// connection stays on this machine, and no password from a file.
func (a Address) full() string {
	u := *a.url
	q := u.Query()
	if q.Get("sslmode") == "" {
		mode := "verify-full"
		if a.local {
			mode = "disable"
		}
		q.Set("sslmode", mode)
	}
	if q.Get("host") == "" && u.Host == "" {
		q.Set("host", socketDir())
	}
	q.Set("passfile", os.DevNull) // a password never comes from a file
	u.RawQuery = q.Encode()
	return u.String()
}

// config gives how to connect.
func (a Address) config(password string) (*pgx.ConnConfig, error) {
	c, err := pgx.ParseConfig(a.full())
	if err != nil {
		return nil, &storage.Fault{Kind: storage.Invalid, Text: "the address of the office book: " + err.Error(), Way: "write it as postgres://NAME@HOST/DATABASE", Err: err}
	}
	c.Password, c.Fallbacks = password, nil
	// Works behind what shares connections between clients, which knows no statement twice.
	c.DefaultQueryExecMode = pgx.QueryExecModeExec
	return c, nil
}

// socketDir is where PostgreSQL listens on this machine: as Debian has it, else as it is
// built by itself.
func socketDir() string {
	for _, dir := range []string{"/var/run/postgresql", "/run/postgresql"} {
		if _, err := os.Stat(dir); err == nil {
			return dir
		}
	}
	return "/tmp"
}
