package sheet

import (
	"encoding/csv"
	"fmt"
	"io"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/date"
	"haunchbook.example/app/handover"
)

// Kept is the account of a job as a book keeps it.
type Kept struct {
	ID  string // its number in the book; "" for none
	Job *handover.Handover
}

// WriteAccounts writes accounts as CSV (RFC 4180) for whoever keeps the books: a row for
// each contract, change, invoice and payment, amounts with a point and two places, days as
// 2026-12-03. The names of columns are the same in every language, so that a program may
// read them.
func WriteAccounts(w io.Writer, all []Kept) error {
	c := csv.NewWriter(w)
	rows := [][]string{{"job", "name", "customer", "record", "number", "date", "kind", "text", "amount", "retainage", "asked", "paid", "open", "due"}}
	for _, k := range all {
		j, s := k.Job.Job(), k.Job.Account()
		add := func(record string, number int, on date.Day, kind, text string, due date.Day, amounts ...decimal.Decimal) {
			row := []string{k.ID, plainCell(j.Name), plainCell(j.Customer), record, some(number), on.String(), kind, plainCell(text)}
			for i := range 5 {
				cell := ""
				if i < len(amounts) {
					cell = amounts[i].StringFixed(2)
				}
				row = append(row, cell)
			}
			rows = append(rows, append(row, due.String()))
		}
		if s.Empty() {
			continue
		}
		add("contract", 0, s.Contract.Date, "", fmt.Sprintf("sales tax in it %s", s.Contract.Tax.StringFixed(2)), date.Day{}, s.Contract.Amount)
		for _, x := range s.Changes {
			add("change", x.Number, x.Date, x.State.String(), x.Title, date.Day{}, x.Amount)
		}
		for _, b := range s.Bills {
			add("invoice", b.Number, b.Date, b.Kind.String(), b.For, b.Due, b.Amount, b.Held, b.Asked, b.Paid, b.Open)
		}
		for _, p := range s.Payments {
			add("payment", p.Invoice, p.Date, "", p.How, date.Day{}, p.Amount)
		}
		add("total", 0, date.Day{}, "", "", date.Day{}, s.Billed, s.Held, s.Asked, s.Paid, s.Open)
	}
	if err := c.WriteAll(rows); err != nil {
		return err
	}
	return c.Error()
}
