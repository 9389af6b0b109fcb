package storage

import (
	"encoding/json"
	"errors"
	"slices"

	"haunchbook.example/app/account"
)

// lastInvoice is where the book keeps the highest number that an invoice was given.
const lastInvoice = "last invoice"

// InvoiceNumber gives the next number for an invoice of any job of the book. It is given
// once: an invoice that is taken back leaves a gap. Numbers go on from those of the
// account, which may have been typed. A book that has an office book takes those that it
// was given of it, as long as there are some: also without a network nobody else has them.
func (b *Book) InvoiceNumber(of account.Account) (int, error) {
	n := 0
	err := b.update(func(t *tx) error {
		var err error
		if n, err = t.heldInvoice(of); err != nil || n > 0 {
			return err
		}
		last, err := t.lastInvoice()
		if err != nil {
			return err
		}
		n = max(last, of.Highest()) + 1
		return t.setLastInvoice(n)
	})
	return n, err
}

// heldInvoice takes the first of the numbers that the office book gave this one, but for
// those that an account has; 0 for none.
func (t *tx) heldInvoice(of account.Account) (n int, err error) {
	o, ok, err := t.office()
	if err != nil || !ok || len(o.Invoices) == 0 {
		return 0, err
	}
	o.Invoices = unbilled(o.Invoices, of)
	if len(o.Invoices) > 0 {
		n, o.Invoices = o.Invoices[0], o.Invoices[1:]
	}
	last, err := t.lastInvoice()
	return n, errors.Join(err, t.putOffice(o), t.setLastInvoice(max(last, n)))
}

// unbilled gives the numbers that no invoice of an account has.
func unbilled(numbers []int, of account.Account) []int {
	return slices.DeleteFunc(slices.Clone(numbers), func(n int) bool {
		return slices.ContainsFunc(of.Invoices, func(i account.Invoice) bool { return i.Number == n })
	})
}

// LastInvoice gives the highest number that an invoice of the book has; 0 for none.
func (b *Book) LastInvoice() (n int, err error) {
	err = b.view(func(t *tx) error {
		n, err = t.lastInvoice()
		return err
	})
	return n, err
}

// HoldInvoices adds numbers that the office book gave this one alone.
func (b *Book) HoldInvoices(numbers []int) error {
	return b.changeOffice(func(o *Office) { o.Invoices = append(o.Invoices, numbers...) })
}

func (t *tx) lastInvoice() (int, error) {
	var n note
	err := t.getJSON(inNotes, noteKey(lastInvoice), &n)
	if IsKind(err, Missing) {
		return 0, nil
	}
	last := 0
	if err == nil {
		err = json.Unmarshal(n.Value, &last)
	}
	return last, err
}

func (t *tx) setLastInvoice(n int) error {
	value, err := json.Marshal(n)
	if err != nil {
		return err
	}
	return t.putJSON(inNotes, noteKey(lastInvoice), note{lastInvoice, value})
}

// invoiced has numbers go on from those of a job that comes into the book.
func (t *tx) invoiced(a account.Account) error {
	if o, ok, err := t.office(); err != nil {
		return err
	} else if left := unbilled(o.Invoices, a); ok && len(left) < len(o.Invoices) {
		o.Invoices = left
		if err := t.putOffice(o); err != nil {
			return err
		}
	}
	last, err := t.lastInvoice()
	if err != nil || a.Highest() <= last {
		return err
	}
	return t.setLastInvoice(a.Highest())
}
