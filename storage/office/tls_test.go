package office_test

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"errors"
	"math/big"
	"net"
	"net/url"
	"os"
	"path/filepath"
	"testing"
	"time"

	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// authority signs certificates, as an office's own does.
type authority struct {
	t    *testing.T
	cert *x509.Certificate
	key  *ecdsa.PrivateKey
}

func pemFile(t *testing.T, path, kind string, der []byte) string {
	t.Helper()
	if err := os.WriteFile(path, pem.EncodeToMemory(&pem.Block{Type: kind, Bytes: der}), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func newAuthority(t *testing.T) authority {
	t.Helper()
	key := must(ecdsa.GenerateKey(elliptic.P256(), rand.Reader))(t)
	c := &x509.Certificate{SerialNumber: big.NewInt(1), Subject: pkix.Name{CommonName: "The office's own"}, NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour), IsCA: true, BasicConstraintsValid: true, KeyUsage: x509.KeyUsageCertSign}
	der := must(x509.CreateCertificate(rand.Reader, c, c, &key.PublicKey, key))(t)
	return authority{t, must(x509.ParseCertificate(der))(t), key}
}

// file gives a file with the authority's certificate.
func (a authority) file() string {
	return pemFile(a.t, filepath.Join(a.t.TempDir(), "authority.pem"), "CERTIFICATE", a.cert.Raw)
}

// sign puts a certificate for hosts, until a time, and its key into a folder.
func (a authority) sign(dir string, until time.Time, names []string, ips ...net.IP) {
	a.t.Helper()
	key := must(ecdsa.GenerateKey(elliptic.P256(), rand.Reader))(a.t)
	c := &x509.Certificate{SerialNumber: big.NewInt(2), NotBefore: until.Add(-24 * time.Hour), NotAfter: until, DNSNames: names, IPAddresses: ips, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}}
	pemFile(a.t, filepath.Join(dir, "server.crt"), "CERTIFICATE", must(x509.CreateCertificate(rand.Reader, c, a.cert, &key.PublicKey, a.key))(a.t))
	pemFile(a.t, filepath.Join(dir, "server.key"), "EC PRIVATE KEY", must(x509.MarshalECPrivateKey(key))(a.t))
}

// outside gives an address of this machine that is not only its own; nil for none.
func outside() net.IP {
	addrs, _ := net.InterfaceAddrs()
	for _, a := range addrs {
		if n, ok := a.(*net.IPNet); ok && n.IP.To4() != nil && n.IP.IsGlobalUnicast() {
			return n.IP
		}
	}
	return nil
}

// Off the machine a connection is encrypted and the server's certificate is verified, by
// the system's authorities or one that the address names: before a password is asked for,
// and before anything is sent.
func TestEncryptedAndVerified(t *testing.T) {
	t.Parallel()
	s := trial.Own(t, "-c", "fsync=off", "-c", "listen_addresses=*", "-c", "port="+trial.FreePort(t))
	db := s.NewBook(t)
	s.Exec(t, "boss", db, "ALTER ROLE ed PASSWORD 'right words'")
	s.Admit(t, "host all all all scram-sha-256")
	own, other := newAuthority(t), newAuthority(t)
	off := outside()
	// tried connects, and gives how often a password was asked for.
	tried := func(host string, query url.Values) (int, error) {
		t.Helper()
		a, err := office.ParseAddress("postgres://ed@" + net.JoinHostPort(host, s.Port()) + "/" + db + "?" + query.Encode())
		if err != nil {
			t.Fatal(err)
		}
		asked := 0
		c, err := office.Connect(t.Context(), a, func(office.Address, bool) (string, error) {
			asked++
			return "right words", nil
		})
		if err == nil {
			err = c.Close()
		}
		return asked, err
	}
	refused := func(what, host string, query url.Values, says string) {
		t.Helper()
		asked, err := tried(host, query)
		if !storage.IsKind(err, storage.Forbidden) || !contains(err.Error(), says) || asked > 0 {
			t.Errorf("%s: %v, and a password was asked for %d times; want it refused with %q", what, err, asked, says)
		}
	}
	accepted := func(what, host string, query url.Values) {
		t.Helper()
		if asked, err := tried(host, query); err != nil || asked != 1 {
			t.Errorf("%s: %v, and a password was asked for %d times", what, err, asked)
		}
	}
	verified := url.Values{"sslmode": {"verify-full"}}
	with := func(a authority) url.Values {
		return url.Values{"sslmode": {"verify-full"}, "sslrootcert": {a.file()}}
	}

	refused("a server that does not encrypt", "localhost", verified, "the server does not encrypt")
	if off != nil {
		refused("such a one off the machine, with nothing said of it", off.String(), nil, "the server does not encrypt")
	} else {
		t.Log("SKIPPED: this machine has no address but its own, so that none is off it")
	}

	ips := []net.IP{}
	if off != nil {
		ips = append(ips, off)
	}
	own.sign(s.Data(), time.Now().Add(time.Hour), []string{"localhost"}, ips...)
	s.Encrypt(t)
	accepted("with the authority", "localhost", with(own))
	refused("without the authority", "localhost", verified, "the server's certificate does not hold")
	refused("with another authority", "localhost", with(other), "the server's certificate does not hold")
	refused("under a name that is not the certificate's", "127.0.0.1", with(own), "the server's certificate does not hold")
	if off != nil {
		accepted("off the machine with the authority", off.String(), url.Values{"sslrootcert": {own.file()}})
		refused("off the machine without it", off.String(), nil, "the server's certificate does not hold")
	}
	own.sign(s.Data(), time.Now().Add(-time.Minute), []string{"localhost"})
	s.Encrypt(t)
	refused("with a certificate that has run out", "localhost", with(own), "the server's certificate does not hold")
	var unread *storage.Fault
	if _, err := tried("localhost", url.Values{"sslmode": {"verify-full"}, "sslrootcert": {"/nowhere.pem"}}); !errors.As(err, &unread) || !contains(err.Error(), "/nowhere.pem") {
		t.Errorf("an authority's file that is not there: %v", err)
	}
}
