package office_test

import (
	"context"
	"errors"
	"regexp"
	"strings"
	"testing"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// drawnName is a name that is drawn by chance, or a hash.
var drawnName = regexp.MustCompile(`^[0-9a-f-]{32,36}$`)

// What somebody may is decided by the database: a client that goes round the program, with
// SQL of its own, gets no further.
func TestRightsRoundTheProgram(t *testing.T) {
	s := trial.Shared(t)
	db := s.NewBook(t)
	ed, frank := newPerson(t, s, "ed", db), newPerson(t, s, "frank", db)
	id := ed.create(shop())
	for _, note := range []string{"printed", "as sent, 97537 in all"} {
		if _, err := ed.book.Revise(id, note); err != nil {
			t.Fatal(err)
		}
	}
	if err := ed.book.SetPrices(estimate.Starting(geometry.FeetInches)); err != nil {
		t.Fatal(err)
	}
	ed.edit("Set the amount of Drain to 97539", func(j *job.Job) { j.Price.Extras[0].Amount = decimal.NewFromInt(97539) })
	if err := ed.book.SetSettings(storage.Settings{Start: job.New()}); err != nil {
		t.Fatal(err)
	}
	ed.sync()
	frank.sync()
	frank.edit("Note", func(j *job.Job) { j.Notes = "Frank" })
	frank.sync()
	s.Exec(t, "boss", db, "ANALYZE")
	ctx := context.Background()
	const (
		device = "'00000000000000000000000000000001'"
		again  = "'00000000000000000000000000000002'"
	)
	someJob := "(SELECT id FROM haunchbook.jobs LIMIT 1)"
	next := "(SELECT head + 1 FROM haunchbook.jobs LIMIT 1)"
	editAs := "INSERT INTO haunchbook.edits (id, job, version, device, label, open, state, archived, form"
	for name, c := range map[string]struct{ who, sql, code string }{
		"a foreman reads the prices of edits":       {"frank", "SELECT * FROM haunchbook.edit_money", "42501"},
		"a foreman counts them":                     {"frank", "SELECT count(*) FROM haunchbook.edit_money", "42501"},
		"a foreman reads the prices of revisions":   {"frank", "SELECT money FROM haunchbook.revision_money", "42501"},
		"a foreman joins them to edits":             {"frank", "SELECT m.label, m.record FROM haunchbook.edits e JOIN haunchbook.edit_money m USING (job, version)", "42501"},
		"a foreman copies them out":                 {"frank", "COPY haunchbook.edit_money TO STDOUT", "42501"},
		"a foreman asks whether there are any":      {"frank", "SELECT EXISTS (SELECT 1 FROM haunchbook.edit_money WHERE money > '')", "42501"},
		"a foreman has the server explain them":     {"frank", "EXPLAIN ANALYZE SELECT * FROM haunchbook.edit_money", "42501"},
		"a foreman writes prices of revisions":      {"frank", "INSERT INTO haunchbook.revision_money (job, number, money) VALUES (" + someJob + ", 1, '')", "42501"},
		"a record is changed":                       {"frank", "UPDATE haunchbook.edits SET record = ''", "42501"},
		"a revision is changed":                     {"ed", "UPDATE haunchbook.revisions SET note = 'x'", "42501"},
		"a revision is deleted":                     {"olga", "DELETE FROM haunchbook.revisions", "42501"},
		"a revision takes another's number":         {"frank", "INSERT INTO haunchbook.revisions (id, job, number, at, note, open, form) VALUES (" + again + ", " + someJob + ", 1, now(), '', '', 1)", "HB001"},
		"a revision in another's name":              {"frank", "INSERT INTO haunchbook.revisions (id, job, number, at, note, open, form, author) VALUES (" + again + ", " + someJob + ", 9, now(), '', '', 1, 'ed')", "42501"},
		"a picture is changed":                      {"frank", "UPDATE haunchbook.pictures SET file = ''", "42501"},
		"a picture is deleted":                      {"ed", "DELETE FROM haunchbook.pictures", "42501"},
		"all edits are cut away":                    {"olga", "TRUNCATE haunchbook.edits CASCADE", "42501"},
		"the numbers are held fast":                 {"frank", "SELECT * FROM haunchbook.clock FOR UPDATE", "42501"},
		"a job is held fast":                        {"frank", "SELECT * FROM haunchbook.jobs FOR UPDATE", "42501"},
		"a table is locked":                         {"frank", "DO $$ BEGIN LOCK TABLE haunchbook.edits IN ACCESS EXCLUSIVE MODE; END $$", "42501"},
		"a trigger of one's own":                    {"ed", "CREATE TRIGGER mine BEFORE INSERT ON haunchbook.edits FOR EACH ROW EXECUTE FUNCTION haunchbook.take_revision()", "42501"},
		"the form is set":                           {"olga", "UPDATE haunchbook.about SET form = 99", "42501"},
		"a foreman draws numbers for invoices":      {"frank", "SELECT haunchbook.draw_invoices(1, 1)", "42501"},
		"a foreman says what is billed":             {"frank", "SELECT haunchbook.bill('x', ARRAY[1])", "42501"},
		"a foreman reads what is billed":            {"frank", "SELECT * FROM haunchbook.invoices", "42501"},
		"numbers are drawn without end":             {"ed", "SELECT haunchbook.draw_invoices(1, 2000000000)", "22023"},
		"numbers are moved far away":                {"ed", "SELECT haunchbook.draw_invoices(2000000000, 1)", "22023"},
		"the numbers are set":                       {"ed", "UPDATE haunchbook.numbers SET last = 0", "42501"},
		"a job's number is changed":                 {"ed", "UPDATE haunchbook.jobs SET number = 7", "42501"},
		"a foreman deletes a job for good":          {"frank", "SELECT haunchbook.erase(" + someJob + ")", "42501"},
		"an estimator deletes a job for good":       {"ed", "SELECT haunchbook.erase(" + someJob + ")", "42501"},
		"a job is said to be deleted":               {"ed", "INSERT INTO haunchbook.erased VALUES (" + someJob + ", 'ed', now(), 9)", "42501"},
		"a deletion is taken back":                  {"olga", "DELETE FROM haunchbook.erased", "42501"},
		"what a picture belongs to is deleted":      {"ed", "DELETE FROM haunchbook.shown", "42501"},
		"a picture is said to be of before":         {"frank", "INSERT INTO haunchbook.pictures (hash, file, known) VALUES (sha256('b'), 'b', false)", "42501"},
		"a foreman reads price lists":               {"frank", "SELECT list FROM haunchbook.prices", "42501"},
		"a foreman reads the money of settings":     {"frank", "SELECT money FROM haunchbook.settings_money", "42501"},
		"a foreman writes settings":                 {"frank", "INSERT INTO haunchbook.settings (id, version, aside, open, form) VALUES (" + again + ", 2, false, '', 1)", "42501"},
		"a foreman writes a price list":             {"frank", "INSERT INTO haunchbook.prices (id, units, number, stored, list, form) VALUES (" + again + ", 'ft-in', 9, now(), '', 1)", "42501"},
		"a foreman writes prices":                   {"frank", "INSERT INTO haunchbook.edit_money (job, version, label, money) VALUES (" + someJob + ", 1, '', '')", "42501"},
		"a foreman with prices writes a price list": {"fay", "INSERT INTO haunchbook.prices (id, units, number, stored, list, form) VALUES (" + again + ", 'ft-in', 9, now(), '', 1)", "42501"},
		"an edit is changed":                        {"ed", "UPDATE haunchbook.edits SET label = 'x'", "42501"},
		"an edit is deleted":                        {"olga", "DELETE FROM haunchbook.edits", "42501"},
		"a job's version is set":                    {"ed", "UPDATE haunchbook.jobs SET head = 0", "42501"},
		"a job is made with a version":              {"ed", "INSERT INTO haunchbook.jobs (id, made, head) VALUES (" + again + ", now(), 9)", "42501"},
		"an edit in another's name":                 {"frank", editAs + ", author) VALUES (" + again + ", " + someJob + ", " + next + ", " + device + ", '', '', 'won', false, 1, 'ed')", "42501"},
		"an edit of another time":                   {"frank", editAs + ", at) VALUES (" + again + ", " + someJob + ", " + next + ", " + device + ", '', '', 'won', false, 1, '2000-01-01')", "42501"},
		"an edit out of order":                      {"frank", editAs + ", change) VALUES (" + again + ", " + someJob + ", " + next + ", " + device + ", '', '', 'won', false, 1, 1)", "42501"},
		"an edit on an old version":                 {"frank", editAs + ") VALUES (" + again + ", " + someJob + ", 1, " + device + ", '', '', 'won', false, 1)", "HB001"},
		"an edit of the future":                     {"frank", editAs + ") VALUES (" + again + ", " + someJob + ", 99, " + device + ", '', '', 'won', false, 1)", "HB001"},
		"an edit of no job":                         {"frank", editAs + ") VALUES (" + again + ", 'x', 1, " + device + ", '', '', 'won', false, 1)", "HB001"},
		"money for another's edit":                  {"ed", "INSERT INTO haunchbook.edit_money (job, version, label, money) VALUES (" + someJob + ", (SELECT head FROM haunchbook.jobs LIMIT 1), '', '')", "42501"},
		"a picture under another's hash":            {"frank", "INSERT INTO haunchbook.pictures VALUES (sha256('a'), 'b')", "23514"},
		"presence in another's name":                {"frank", "INSERT INTO haunchbook.presence (device, job, who) VALUES (" + device + ", 'x', 'ed')", "42501"},
		"the clock is turned":                       {"frank", "UPDATE haunchbook.clock SET last = 0", "42501"},
		"a number is drawn":                         {"frank", "SELECT haunchbook.next_change()", "42501"},
		"the rules are switched off":                {"olga", "ALTER TABLE haunchbook.edits DISABLE ROW LEVEL SECURITY", "42501"},
		"the office book is dropped":                {"ed", "DROP SCHEMA haunchbook CASCADE", "42501"},
		"a foreman becomes an estimator":            {"frank", "SET ROLE " + db + "_estimator", "42501"},
		"a foreman gives himself prices":            {"frank", "GRANT " + db + "_prices TO frank", "42501"},
		"a stranger looks in":                       {"stan", "SELECT * FROM haunchbook.about", "42501"},
		"a function in a search path of his own":    {"frank", "CREATE FUNCTION haunchbook.may(int) RETURNS boolean LANGUAGE sql AS 'SELECT true'", "42501"},
	} {
		t.Run(name, func(t *testing.T) {
			raw, err := pgx.Connect(ctx, s.URL(c.who, db))
			if err != nil {
				t.Fatal(err)
			}
			defer raw.Close(ctx)
			_, err = raw.Exec(ctx, c.sql)
			var refused *pgconn.PgError
			if !errors.As(err, &refused) || refused.Code != c.code {
				t.Errorf("%s: %v; want it refused with %s", c.sql, err, c.code)
			}
		})
	}
	raw, err := pgx.Connect(ctx, s.URL("frank", db))
	if err != nil {
		t.Fatal(err)
	}
	defer raw.Close(ctx)
	var seen int // what the server keeps for its planner shows values too
	if err := raw.QueryRow(ctx, "SELECT count(*) FROM pg_stats WHERE schemaname = 'haunchbook' AND tablename IN ('edit_money', 'revision_money', 'settings_money', 'prices')").Scan(&seen); err != nil || seen > 0 {
		t.Errorf("a foreman sees %d statistics of money, %v", seen, err)
	}
	if _, err := raw.Exec(ctx, "INSERT INTO haunchbook.presence (device, job) VALUES ("+device+", 'x')"); err != nil {
		t.Fatal(err)
	}
	other, err := pgx.Connect(ctx, s.URL("ed", db))
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close(ctx)
	for _, sql := range []string{"UPDATE haunchbook.presence SET job = 'y'", "DELETE FROM haunchbook.presence WHERE who = 'frank'"} {
		if tag, err := other.Exec(ctx, sql); err != nil || tag.RowsAffected() != 0 {
			t.Errorf("%s: %d of another's rows, %v", sql, tag.RowsAffected(), err)
		}
	}
	// Functions of one's own under the names of the system's change nothing.
	s.Exec(t, "boss", db, "GRANT CREATE ON DATABASE "+db+" TO frank, stan")
	for _, who := range []string{"frank", "stan"} {
		own, err := pgx.Connect(ctx, s.URL(who, db))
		if err != nil {
			t.Fatal(err)
		}
		defer own.Close(ctx)
		for _, sql := range []string{
			"CREATE SCHEMA mine_" + who,
			"CREATE FUNCTION mine_" + who + ".pg_has_role(name, text, text) RETURNS boolean LANGUAGE sql AS 'SELECT true'",
			"CREATE FUNCTION mine_" + who + ".pg_has_role(name, name, text) RETURNS boolean LANGUAGE sql AS 'SELECT true'",
			"SET search_path = mine_" + who + ", pg_catalog",
		} {
			if _, err := own.Exec(ctx, sql); err != nil {
				t.Fatal(err)
			}
		}
		var may bool
		if err := own.QueryRow(ctx, "SELECT haunchbook.may('prices')").Scan(&may); err == nil && may {
			t.Errorf("%s may see prices by a function of his own", who)
		}
	}
	// Nothing that a foreman can read tells a figure: every column of every table he may
	// read is searched for those of the sample.
	rows, err := raw.Query(ctx, `SELECT relname::text FROM pg_class WHERE relnamespace = 'haunchbook'::regnamespace AND relkind = 'r' AND has_table_privilege(oid, 'SELECT')`)
	if err != nil {
		t.Fatal(err)
	}
	tables, err := pgx.CollectRows(rows, pgx.RowTo[string])
	if err != nil || len(tables) < 7 {
		t.Fatalf("%v, %v", tables, err)
	}
	for _, table := range tables {
		rows, err := raw.Query(ctx, "SELECT * FROM haunchbook."+table)
		if err != nil {
			t.Fatal(err)
		}
		for rows.Next() {
			values, err := rows.Values()
			if err != nil {
				t.Fatal(err)
			}
			for _, v := range values {
				text := office.Unpacked(v)
				if drawnName.MatchString(text) { // may have any digits by chance
					continue
				}
				for _, secret := range []string{"9753", "Drain"} {
					if strings.Contains(text, secret) {
						t.Errorf("%s tells a foreman %q: %s", table, secret, text)
					}
				}
			}
		}
		if rows.Err() != nil {
			t.Error(rows.Err())
		}
	}
}
