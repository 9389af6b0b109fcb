package office_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// An office book of the first form is brought to the newest with what is in it, once a
// backup is there; a newer one than the program knows is left alone.
func TestForms(t *testing.T) {
	s := trial.Shared(t)
	ctx := context.Background()
	s.Exec(t, "boss", "postgres", "CREATE DATABASE forms")
	for _, p := range office.Parts {
		s.Exec(t, "boss", "forms", "CREATE ROLE forms_"+p)
	}
	s.Exec(t, "boss", "forms", "GRANT forms_owner TO boss; CREATE ROLE forma LOGIN; GRANT forms_estimator TO forma; GRANT forms_prices TO forms_estimator")
	s.Exec(t, "boss", "forms", office.FirstSchema("forms"))
	s.Exec(t, "forma", "forms", "INSERT INTO haunchbook.jobs (id, made) VALUES ('00000000000000000000000000000001', now())")
	a, err := office.ParseAddress(s.URL("forma", "forms"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := office.Connect(ctx, a, nil); !storage.IsKind(err, storage.Invalid) || !strings.Contains(err.Error(), fmt.Sprintf("of an older form (1; this program writes %d)", office.Form())) {
		t.Errorf("an older form: %v", err)
	}
	boss, err := office.ParseAddress(s.URL("boss", "forms"))
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	setup, err := office.Prepare(ctx, boss, nil, dir)
	if err != nil {
		t.Fatal(err)
	}
	defer setup.Close()
	if !setup.Due() || !strings.Contains(fmt.Sprint(setup.Plan()), fmt.Sprintf("from form 1 to form %d", office.Form())) {
		t.Errorf("the plan is %q", setup.Plan())
	}
	if _, err := setup.Do(ctx); err != nil {
		t.Fatal(err)
	}
	if dumps, _ := filepath.Glob(filepath.Join(dir, "*.dump")); len(dumps) != 1 || setup.Backup != dumps[0] {
		t.Errorf("backups %v, told %q", dumps, setup.Backup)
	} else if head, err := os.ReadFile(dumps[0]); err != nil || !strings.HasPrefix(string(head), "PGDMP") {
		t.Errorf("%v, begins with %q", err, head[:min(5, len(head))])
	}
	c, err := office.Connect(ctx, a, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if n := s.CountIn(t, "forms", "SELECT number FROM haunchbook.jobs"); n != 1 {
		t.Errorf("the job has the number %d", n)
	}
	if n := s.CountIn(t, "forms", "SELECT count(*) FROM haunchbook.jobs"); n != 1 || c.Form != office.Form() {
		t.Errorf("%d jobs, form %d", n, c.Form)
	}
	s.Exec(t, "boss", "forms", "UPDATE haunchbook.about SET form = 99")
	if _, err := office.Connect(ctx, a, nil); !storage.IsKind(err, storage.Newer) {
		t.Errorf("a newer form: %v", err)
	}
	if _, err := office.Prepare(ctx, boss, nil, dir); !storage.IsKind(err, storage.Newer) {
		t.Errorf("a newer form is set up: %v", err)
	}
}

// Somebody who may make no roles is told so, and nothing is left of the attempt.
func TestSetUpWithoutTheRight(t *testing.T) {
	s := trial.Shared(t)
	s.Exec(t, "boss", "postgres", "CREATE ROLE nobody LOGIN")
	s.Exec(t, "boss", "postgres", "CREATE DATABASE noright OWNER nobody")
	a, err := office.ParseAddress(s.URL("nobody", "noright"))
	if err != nil {
		t.Fatal(err)
	}
	setup, err := office.Prepare(t.Context(), a, nil, t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer setup.Close()
	if _, err := setup.Do(t.Context()); !storage.IsKind(err, storage.Forbidden) || !strings.Contains(err.Error(), "nobody may not make roles") {
		t.Errorf("%v", err)
	}
	if n := s.CountIn(t, "noright", "SELECT count(*) FROM pg_namespace WHERE nspname = 'haunchbook'"); n != 0 {
		t.Error("something is left")
	}
}
