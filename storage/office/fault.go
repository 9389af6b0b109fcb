package office

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"io"
	"net"
	"strings"

	"github.com/jackc/pgx/v5/pgconn"

	"haunchbook.example/storage"
)

// Codes of PostgreSQL (its manual, appendix A), and our own.
const (
	codeStale      = "HB001" // another edit came first
	codeDenied     = "42501"
	codePassword   = "28P01"
	codeLogin      = "28000"
	codeNoDatabase = "3D000"
	codeFull       = "53100"
	codeMany       = "53300"
	codeReadOnly   = "25006"
)

// isStale tells whether an edit was refused since another came first.
func isStale(err error) bool { return codeOf(err) == codeStale }

// isPassword tells whether the server wants another password.
func isPassword(err error) bool {
	return codeOf(err) == codePassword || codeOf(err) == codeLogin && strings.Contains(err.Error(), "password")
}

func codeOf(err error) string {
	var p *pgconn.PgError
	if errors.As(err, &p) {
		return p.Code
	}
	return ""
}

// says is before what the server or the system says, which is in its own language.
const says = "it says: "

const safe = "your own book has everything, and sends it when the office book is there again"

// explain turns an error of the connection or the server into a fault.
func explain(err error) error {
	var f *storage.Fault
	fault := func(kind storage.Kind, text, way string) error {
		return &storage.Fault{Kind: kind, Text: text, Way: way, Err: err}
	}
	code := codeOf(err)
	switch {
	case err == nil:
		return nil
	case errors.As(err, &f), isStale(err), errors.Is(err, context.Canceled):
		return err
	case code == codeDenied:
		return fault(storage.Forbidden, "the office book does not allow that; "+says+messageOf(err), "ask its owner; your own book has everything")
	case code == codePassword, code == codeLogin:
		return fault(storage.Forbidden, "the office book does not let you in; "+says+messageOf(err), "check the name and the password")
	case code == codeNoDatabase:
		return fault(storage.Missing, "there is no such database; "+says+messageOf(err), "check the address")
	case code == codeFull:
		return fault(storage.Full, "the disk of the office book's server is full", safe)
	case code == codeMany:
		return fault(storage.Offline, "the office book has too many connections", safe)
	case code == codeReadOnly:
		return fault(storage.Offline, "the office book can only be read at the moment", safe)
	case strings.HasPrefix(code, "57P"): // shut down, crashed, or starting
		return fault(storage.Offline, "the office book's server is restarting", safe)
	case strings.HasPrefix(code, "08"):
		return fault(storage.Offline, "the connection to the office book is lost", safe)
	case code != "":
		return fault(0, "the office book refuses; "+says+messageOf(err)+" ("+code+")", "please report it; your own book has everything")
	}
	var certificate *tls.CertificateVerificationError
	var unknown x509.UnknownAuthorityError
	var named x509.HostnameError
	switch {
	case errors.As(err, &certificate), errors.As(err, &unknown), errors.As(err, &named):
		return fault(storage.Forbidden, "the server's certificate does not hold; "+says+lastOf(err), "nothing was sent; where the office has an authority of its own, name its file in the address with ?sslrootcert=")
	case strings.Contains(err.Error(), "server refused TLS connection"):
		return fault(storage.Forbidden, "the server does not encrypt", "nothing was sent; have TLS switched on there, with a certificate for its name")
	case isLost(err):
		return fault(storage.Offline, "the office book cannot be reached; "+says+lastOf(err), safe)
	}
	return err
}

// isLost tells whether an error is of the connection.
func isLost(err error) bool {
	var n net.Error
	var c *pgconn.ConnectError
	return errors.As(err, &n) || errors.As(err, &c) || errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) ||
		errors.Is(err, net.ErrClosed) || errors.Is(err, context.DeadlineExceeded) || pgconn.Timeout(err) || strings.Contains(err.Error(), "conn closed") || strings.Contains(err.Error(), "closed pool")
}

func messageOf(err error) string {
	var p *pgconn.PgError
	if errors.As(err, &p) {
		return p.Message
	}
	return err.Error()
}

// lastOf gives the innermost cause, without the parameters of the connection before it.
func lastOf(err error) string {
	text := err.Error()
	for e := err; e != nil; e = errors.Unwrap(e) {
		text = e.Error()
		if many, ok := e.(interface{ Unwrap() []error }); ok && len(many.Unwrap()) > 0 {
			return lastOf(many.Unwrap()[len(many.Unwrap())-1])
		}
	}
	return text
}

// Sentence gives what was found and what would do.
func Sentence(err error) string {
	var f *storage.Fault
	if errors.As(err, &f) && f.Way != "" {
		return f.Text + "; " + f.Way
	}
	return err.Error()
}
