package trial

import (
	"context"
	"fmt"
	"os"
	"sync/atomic"
	"testing"

	"github.com/jackc/pgx/v5"

	"haunchbook.example/storage/office"
)

var databases atomic.Int64

// NewBook makes an office book, and people in it: olga its owner, ed and eve estimators,
// frank a foreman, fay a foreman who may see prices, and stan, who has no part.
func (s *Server) NewBook(t testing.TB) string {
	t.Helper()
	return s.newBook(t, "")
}

// NewBookIn is NewBook with its jobs in a folder, of another disk, that anybody may pass to.
func (s *Server) NewBookIn(t testing.TB, dir string) string {
	t.Helper()
	if s.as != nil {
		if err := os.Chown(dir, int(s.as.Credential.Uid), int(s.as.Credential.Gid)); err != nil {
			t.Fatal(err)
		}
	}
	name := fmt.Sprintf("disk%d", databases.Load())
	s.Exec(t, "boss", "postgres", "CREATE TABLESPACE "+name+" LOCATION '"+dir+"'")
	return s.newBook(t, " TABLESPACE "+name)
}

func (s *Server) newBook(t testing.TB, where string) string {
	t.Helper()
	db := fmt.Sprintf("shop%d", databases.Add(1))
	s.Exec(t, "boss", "postgres", "CREATE DATABASE "+db+where)
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
