package main

import (
	"bytes"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/account"
	"haunchbook.example/app/date"
	"haunchbook.example/app/job"
	"haunchbook.example/assets"
)

// anyAccount makes an account of whole cents, by chance.
func anyAccount(r *rand.Rand) account.Account {
	cents := func(most int64) decimal.Decimal { return decimal.New(r.Int64N(most), -2) }
	day := func() date.Day { return date.Of(2026, 1, 1).Plus(r.IntN(300)) }
	a := account.Account{Contract: account.Contract{Date: day(), Amount: cents(9_999_999), Tax: cents(99_999)}, Retainage: cents(1500)}
	for n := range r.IntN(5) {
		c := account.Change{Number: n + 1, Date: day(), Title: "Step", Amount: cents(999_999).Sub(cents(499_999)), State: account.State(r.IntN(3))}
		if r.IntN(3) > 0 {
			c.Decided = day()
		}
		a.Changes = append(a.Changes, c)
	}
	for n := range 1 + r.IntN(6) {
		i := account.Invoice{Number: 41 + n, Date: day(), Kind: account.Kind(r.IntN(4)), Amount: cents(5_000_000), Held: cents(99_999).Sub(cents(49_999))}
		a.Invoices = append(a.Invoices, i)
		if r.IntN(2) == 0 {
			a.Payments = append(a.Payments, account.Payment{Date: day(), Invoice: i.Number, Amount: cents(3_000_000), How: "check"})
		}
	}
	return a
}

// Invoices and the file for whoever keeps the books are reconciled to the cent by a program
// that shares nothing with this one, from the job file and the rule; and it sees a cent that
// is wrong.
func TestAccountsReconcile(t *testing.T) {
	python := interpreter(t, "csv", "pdftotext")
	check := filepath.Join("..", "..", "testdata", "account", "reconcile.py")
	hangsOn(t, filepath.Dir(check))
	r := rand.New(rand.NewPCG(7, 11))
	for n := range 12 {
		j, err := job.Read(bytes.NewReader(assets.Demo()))
		if err != nil {
			t.Fatal(err)
		}
		j.Account = anyAccount(r)
		dir := t.TempDir()
		file := filepath.Join(dir, "job.json")
		if err := os.WriteFile(file, j.Encode(), 0o600); err != nil {
			t.Fatal(err)
		}
		var errs bytes.Buffer
		if code := run([]string{"-quiet", "-only", "invoices.pdf,account.csv", "-out", dir, file}, nil, &errs, &errs); code != 0 && code != isDraft {
			t.Fatalf("exit %d: %s", code, errs.String())
		}
		if out, err := exec.Command(python, check, file, dir).CombinedOutput(); err != nil {
			t.Errorf("job %d: %v\n%s", n, err, out)
		}
		list := filepath.Join(dir, "account.csv")
		data, err := os.ReadFile(list)
		if err != nil {
			t.Fatal(err)
		}
		wrong := strings.Replace(string(data), j.Account.Contract.Amount.StringFixed(2), j.Account.Contract.Amount.Add(decimal.New(1, -2)).StringFixed(2), 1)
		if err := os.WriteFile(list, []byte(wrong), 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command(python, check, file, dir).CombinedOutput(); err == nil {
			t.Errorf("job %d: a cent more goes unseen:\n%s", n, out)
		}
	}
}

// Papers of the office are written where the job has what they are about, and of an earlier
// state the change order; a job without is as it was.
func TestOfficeFiles(t *testing.T) {
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	written := func(j job.Job, more ...string) string {
		file, out := filepath.Join(dir, "job.json"), t.TempDir()
		if err := os.WriteFile(file, j.Encode(), 0o600); err != nil {
			t.Fatal(err)
		}
		var errs bytes.Buffer
		if code := run(append([]string{"-quiet", "-out", out, file}, more...), nil, &errs, &errs); code != 0 && code != isDraft {
			t.Fatalf("exit %d: %s", code, errs.String())
		}
		all, err := filepath.Glob(filepath.Join(out, "*"))
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		for _, f := range all {
			names = append(names, filepath.Base(f))
		}
		return strings.Join(names, " ")
	}
	const usual = "bid.pdf layout.dxf layout.pdf layout.svg materials.xlsx phone.html takeoff.json"
	if got := written(j); got != usual {
		t.Errorf("a job without records: %s", got)
	}
	before := filepath.Join(dir, "before.json")
	if err := os.WriteFile(before, j.Encode(), 0o600); err != nil {
		t.Fatal(err)
	}
	j.Account = anyAccount(rand.New(rand.NewPCG(1, 1)))
	j.Account.Papers = []account.Paper{{Name: "Notice", Text: "In words of one's own."}}
	j.Slabs[0].Field += 25_400_000
	j.Pour.Date = date.Of(2026, 12, 10)
	if got := written(j, "-since", before); got != "account.csv bid.pdf change-order.pdf invoices.pdf layout.dxf layout.pdf layout.svg materials.xlsx papers.pdf phone.html pour.ics takeoff.json" {
		t.Errorf("a job with records: %s", got)
	}
	var errs bytes.Buffer
	if code := run([]string{"-quiet", "-out", dir, "-only", "change-order.pdf", before}, nil, &errs, &errs); code != atFault || !strings.Contains(errs.String(), "-since") {
		t.Errorf("a change order against nothing: exit %d, %s", code, errs.String())
	}
}
