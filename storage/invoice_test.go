package storage

import (
	"bytes"
	"testing"

	"haunchbook.example/app/account"
)

// Numbers of invoices run through all jobs of a book, also over its closing, and go on
// from those that are typed or imported; none is given twice.
func TestInvoiceNumbersRun(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	for want := 1; want < 4; want++ {
		if n := must(b.InvoiceNumber(account.Account{}))(t); n != want {
			t.Errorf("number %d, want %d", n, want)
		}
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	b = open(t, path)
	typed := account.Account{Invoices: []account.Invoice{{Number: 1001}, {Number: 7}}}
	if n := must(b.InvoiceNumber(typed))(t); n != 1002 {
		t.Errorf("number %d after 1001 was typed", n)
	}
	if n := must(b.InvoiceNumber(account.Account{}))(t); n != 1003 {
		t.Errorf("number %d in another job", n)
	}
	j := shop(1)
	j.Account = account.Account{Invoices: []account.Invoice{{Number: 2044}}}
	other := open(t, newPath(t))
	id := must(other.Create(j))(t)
	var out bytes.Buffer
	if err := other.ExportJob(&out, id, ExportOptions{}); err != nil {
		t.Fatal(err)
	}
	got := must(b.ImportBytes(t.Context(), out.Bytes()))(t)
	if in := must(b.Get(got.Jobs[0]))(t); in.Account.Highest() != 2044 {
		t.Errorf("the account came in as %+v", in.Account)
	}
	if n := must(b.InvoiceNumber(account.Account{}))(t); n != 2045 {
		t.Errorf("number %d after 2044 was imported", n)
	}
}
