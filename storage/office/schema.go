package office

import (
	"context"
	"embed"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"
	"time"

	"github.com/jackc/pgx/v5"

	"haunchbook.example/storage"
	"haunchbook.example/storage/wholefile"
)

//go:embed schema/*.sql
var schemas embed.FS

// form is the form of office book that this program knows: the number of files in schema.
func form() int {
	files, err := schemas.ReadDir("schema")
	if err != nil {
		panic(err) // they are built in
	}
	return len(files)
}

// schemaOf gives the SQL that brings a database to a form from the one before.
func schemaOf(n int, database string) string {
	text, err := schemas.ReadFile(fmt.Sprintf("schema/%d.sql", n))
	if err != nil {
		panic(err) // it is built in
	}
	sql := string(text)
	for _, p := range parts {
		sql = strings.ReplaceAll(sql, "@"+strings.ToUpper(p)+"@", name(database, p))
	}
	return sql
}

// parts are the roles of an office book, each called as its database and the part.
var parts = []string{"owner", "estimator", "foreman", "prices"}

// name gives the name of a role, quoted.
func name(database, part string) string { return pgx.Identifier{database + "_" + part}.Sanitize() }

// Setup is what making an office book, or bringing it up to date, comes to.
type Setup struct {
	admin  *Conn
	from   int    // its form; 0 where there is none
	Backup string // the file that a dump goes to first; "" for none
	why    string // why there is none
}

// Prepare looks at a database and finds what is to be done to it; nothing is changed yet.
// Where there is something already, it is dumped into the folder dir first.
func Prepare(ctx context.Context, a Address, password Password, dir string) (*Setup, error) {
	c := &Conn{address: a}
	if err := c.login(ctx, password); err != nil {
		return nil, err
	}
	s := &Setup{admin: c}
	var there bool
	err := c.pg.QueryRow(ctx, `SELECT session_user, to_regclass('haunchbook.about') IS NOT NULL`).Scan(&c.User, &there)
	if err == nil && there {
		err = c.pg.QueryRow(ctx, `SELECT form, epoch FROM haunchbook.about`).Scan(&s.from, &c.Epoch)
	}
	if err == nil && s.from > form() {
		err = &storage.Fault{Kind: storage.Newer, Text: fmt.Sprintf("the office book is of form %d, and this program knows up to %d", s.from, form()), Way: "update this program"}
	}
	if err != nil {
		return nil, errors.Join(explain(err), c.Close())
	}
	switch {
	case s.from == 0:
		s.why = "there is nothing to back up yet"
	case !hasDump():
		s.why = "pg_dump is not installed here: make a backup of the database by other means first"
	default:
		s.Backup = wholefile.FreeName(dir+string(os.PathSeparator)+"office-"+a.Database()+"-"+time.Now().Format("2006-01-02-150405"), ".dump")
	}
	return s, nil
}

// Close ends the connection.
func (s *Setup) Close() error { return s.admin.Close() }

func hasDump() bool {
	_, err := exec.LookPath("pg_dump")
	return err == nil
}

// Due tells whether anything is to be done.
func (s *Setup) Due() bool { return s.from < form() }

// Exists tells whether there is an office book.
func (s *Setup) Exists() bool { return s.from > 0 }

// Plan says what Do will do, a sentence a line.
func (s *Setup) Plan() []string {
	db := s.admin.address.Database()
	var lines []string
	switch {
	case !s.Due():
		return []string{fmt.Sprintf("The office book in the database %s is up to date (form %d): nothing is to be done.", db, s.from)}
	case s.from == 0:
		roles := make([]string, len(parts))
		for i, p := range parts {
			roles[i] = name(db, p)
		}
		lines = append(lines,
			fmt.Sprintf("Makes an office book in the database %s: the schema haunchbook, with its tables and rules (form %d). Other schemas are left alone.", db, form()),
			fmt.Sprintf("Makes the roles %s, where they are missing, and makes %s an owner.", strings.Join(roles, ", "), s.admin.User))
	default:
		lines = append(lines, fmt.Sprintf("Brings the office book in the database %s from form %d to form %d. People with an older program go on with their own books until they have the new one.", db, s.from, form()))
	}
	return append(lines, s.backedUp(), "All of it is done, or nothing. It can be undone in the window at the same place, or by haunchsheet office drop "+s.admin.address.String())
}

func (s *Setup) backedUp() string {
	if s.Backup == "" {
		return "No backup is made: " + s.why + "."
	}
	return "First writes a backup of the database to " + s.Backup + " (pg_restore reads it)."
}

// Do does it, and gives how people get a part in it.
func (s *Setup) Do(ctx context.Context) (told []string, err error) {
	if err := s.backup(ctx); err != nil {
		return nil, err
	}
	db := s.admin.address.Database()
	tx, err := s.admin.pg.Begin(ctx)
	if err != nil {
		return nil, explain(err)
	}
	defer func() { _ = tx.Rollback(context.WithoutCancel(ctx)) }()
	if s.from == 0 {
		if err := makeRoles(ctx, tx, db, s.admin.User); err != nil {
			return nil, err
		}
	}
	for n := s.from + 1; n <= form(); n++ {
		if _, err := tx.Exec(ctx, schemaOf(n, db), pgx.QueryExecModeSimpleProtocol); err != nil {
			return nil, explain(err)
		}
	}
	if err := tx.Commit(ctx); err != nil {
		return nil, explain(err)
	}
	return []string{
		"People get a part in it by SQL, each with a name and a password of his own:",
		"  CREATE ROLE anna LOGIN; \\password anna",
		fmt.Sprintf("  GRANT %s TO anna;   -- or %s, or %s", name(db, "estimator"), name(db, "foreman"), name(db, "owner")),
		fmt.Sprintf("  GRANT %s TO anna;      -- a foreman who may see prices", name(db, "prices")),
	}, nil
}

// makeRoles makes the roles that are missing.
func makeRoles(ctx context.Context, tx pgx.Tx, db, user string) error {
	for _, p := range parts {
		var there bool
		if err := tx.QueryRow(ctx, `SELECT EXISTS (SELECT 1 FROM pg_roles WHERE rolname = $1)`, db+"_"+p).Scan(&there); err != nil {
			return explain(err)
		}
		if there {
			continue
		}
		if _, err := tx.Exec(ctx, "CREATE ROLE "+name(db, p)+" NOLOGIN"); err != nil {
			if codeOf(err) == codeDenied {
				return &storage.Fault{Kind: storage.Forbidden, Text: user + " may not make roles on this server", Way: "log in as one who may (CREATEROLE)", Err: err}
			}
			return explain(err)
		}
	}
	_, err := tx.Exec(ctx, fmt.Sprintf("GRANT %s TO %s, %s", name(db, "prices"), name(db, "owner"), name(db, "estimator")))
	if err == nil {
		_, err = tx.Exec(ctx, fmt.Sprintf("GRANT %s TO %s", name(db, "owner"), pgx.Identifier{user}.Sanitize()))
	}
	return explain(err)
}

// backup dumps the database, whole or not at all.
func (s *Setup) backup(ctx context.Context) error {
	if s.Backup == "" {
		return nil
	}
	err := wholefile.Write(s.Backup, func(w io.Writer) error {
		cmd := exec.CommandContext(ctx, "pg_dump", "--format=custom", "--schema=haunchbook", s.admin.address.full())
		cmd.Env = append(os.Environ(), "PGPASSWORD="+s.admin.password)
		var complaint strings.Builder
		cmd.Stdout, cmd.Stderr = w, &complaint
		if err := cmd.Run(); err != nil {
			return &storage.Fault{Text: "the backup of the office book failed: " + strings.TrimSpace(complaint.String()), Way: "nothing was changed", Err: err}
		}
		return nil
	})
	return err
}

// PlanDrop says what Drop will do.
func (s *Setup) PlanDrop() []string {
	db := s.admin.address.Database()
	if !s.Exists() {
		return []string{"There is no office book in the database " + db + ": nothing is to be done."}
	}
	return []string{
		"Removes the office book from the database " + db + ": the schema haunchbook with all jobs in it, and its roles. People keep what is in their own books; what they have not sent yet stays there too.",
		s.backedUp(),
	}
}

// Drop removes the office book.
func (s *Setup) Drop(ctx context.Context) error {
	if !s.Exists() {
		return nil
	}
	if err := s.backup(ctx); err != nil {
		return err
	}
	tx, err := s.admin.pg.Begin(ctx)
	if err != nil {
		return explain(err)
	}
	defer func() { _ = tx.Rollback(context.WithoutCancel(ctx)) }()
	if _, err := tx.Exec(ctx, "DROP SCHEMA haunchbook CASCADE"); err != nil {
		return explain(err)
	}
	for _, p := range parts {
		if _, err := tx.Exec(ctx, "DROP ROLE IF EXISTS "+name(s.admin.address.Database(), p)); err != nil {
			return explain(err)
		}
	}
	return explain(tx.Commit(ctx))
}
