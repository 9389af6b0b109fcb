package storage

import (
	"encoding/json"

	"haunchbook.example/app/account"
)

// lastInvoice is where the book keeps the highest number that an invoice was given.
const lastInvoice = "last invoice"

// InvoiceNumber gives the next number for an invoice of any job of the book. It is given
// once: an invoice that is taken back leaves a gap. Numbers go on from those of the
// account, which may have been typed.
func (b *Book) InvoiceNumber(of account.Account) (int, error) {
	n := 0
	err := b.update(func(t *tx) error {
		last, err := t.lastInvoice()
		if err != nil {
			return err
		}
		n = max(last, of.Highest()) + 1
		return t.setLastInvoice(n)
	})
	return n, err
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
	last, err := t.lastInvoice()
	if err != nil || a.Highest() <= last {
		return err
	}
	return t.setLastInvoice(a.Highest())
}
