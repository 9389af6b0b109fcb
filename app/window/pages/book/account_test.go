package book

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/account"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// One job from bid to paid: the bid becomes the contract, a wider door a change order that
// is accepted, the invoices follow, numbered through the book, and what is paid leaves
// nothing open. What keeps books gets the same cents.
func TestAccount(t *testing.T) {
	d, p := opened(t)
	b, id := d.Shelf.Book(), d.Shelf.ID()
	must[int](t)(b.InvoiceNumber(account.Account{Invoices: []account.Invoice{{Number: 1040}}})) // an earlier job had 1041
	if err := d.Change("Terms", func(j *job.Job) {
		j.Price.Terms.Steps = []estimate.Step{{When: "on signing", Percent: decimal.NewFromInt(30)}, {When: "when done", Percent: decimal.NewFromInt(70)}}
		j.Account.Retainage = decimal.NewFromInt(5)
	}); err != nil {
		t.Fatal(err)
	}
	f := p.shown(t, officeName)
	f.ReadsNot("Left to bill")
	f.Press("Take the bid as the contract")
	bid := d.Base().Account.Contract.Amount
	if !bid.IsPositive() || d.Base().Account.Contract.Date.String() != d.Today() {
		t.Fatalf("the contract is %+v", d.Base().Account.Contract)
	}
	f.Press("Next invoice")
	must[int](t)(b.Revise(id, "before the door"))
	if err := d.Change("Wider door", func(j *job.Job) {
		j.Slabs[0].Outline[0].Doors[0].Width += 2 * geometry.Foot
		j.Slabs[0].Field += geometry.Inch
	}); err != nil {
		t.Fatal(err)
	}
	p.shown(t, "Revisions").Press("Make a change order of it")
	f = hands.On(t, p.body)
	f.Reads("What changes", "Page to file…")
	c := d.Base().Account.Changes
	if len(c) != 1 || c[0].From != 1 || c[0].To != 2 || !c[0].Amount.IsPositive() {
		t.Fatalf("the changes are %+v", c)
	}
	e := must[estimate.Estimate](t)(p.now().Estimate(t.Context()))
	if !bid.Add(c[0].Amount).Equal(e.Bid) {
		t.Errorf("a contract of %s with a change of %s, and the bid is %s now", bid, c[0].Amount, e.Bid)
	}
	if err := d.Change("Accept", func(j *job.Job) { j.Account.Changes[0].State = account.Accepted }); err != nil {
		t.Fatal(err)
	}
	p.Update()
	f.Press("Next invoice")
	f.Press("Next invoice")
	f.Press("Next invoice") // nothing is left
	if !strings.Contains(d.Told, "Nothing is left to ask for") {
		t.Errorf("told %q", d.Told)
	}
	var numbers []int
	for _, i := range d.Base().Account.Invoices {
		numbers = append(numbers, i.Number)
	}
	if len(numbers) != 3 || numbers[0] != 1042 || numbers[2] != 1044 {
		t.Errorf("the invoices are %v", numbers)
	}
	for range 3 {
		f.Press("Add a payment")
	}
	s := p.now().Account()
	if !s.Sum.Equal(e.Bid) || !s.Left.IsZero() || !s.Open.IsZero() || !s.Paid.Equal(e.Bid) || len(s.Findings) > 0 {
		t.Errorf("%+v", s)
	}
	f.Reads("Left to bill", estimate.Money("$", e.Bid))
	p.scroll.ScrollToBottom()
	pictured(t, d, "account.png")
	var out bytes.Buffer
	if err := p.accountsToFile(&out); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if last := rows[len(rows)-1]; err != nil || len(rows) != 10 || last[0] != id.String() || last[11] != e.Bid.StringFixed(2) || last[12] != "0.00" {
		t.Errorf("%d rows, %v: %v", len(rows), rows, err)
	}
	d.Undo()
	if n := len(d.Base().Account.Payments); n != 2 {
		t.Errorf("%d payments after the last is taken back", n)
	}
	was := must[job.Job](t)(b.Revision(id, 1))
	p.bringBack(id, "1", was)
	if a := d.Base().Account; len(a.Invoices) != 3 || d.Base().Slabs[0].Field != was.Slabs[0].Field {
		t.Errorf("an earlier plan is back with %d invoices", len(a.Invoices))
	}
	other := must[storage.ID](t)(b.Copy(id))
	if j := must[job.Job](t)(b.Get(other)); !j.Account.Empty() {
		t.Errorf("a copy has the account %+v", j.Account)
	}
}
