package book

import (
	"context"
	"fmt"
	"io"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/account"
	"haunchbook.example/app/date"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/revision"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/look"
	"haunchbook.example/export/sheet"
	"haunchbook.example/storage"
)

// The fields of the account's lists, and how wide they are.
var (
	changeLines   = [][]string{{"number", "title", "amount"}, {"date", "days", "state", "decided"}}
	changeWidths  = []form.Table{{64, 0, 110, 68}, {110, 64, 120, 110, 0}}
	invoiceLines  = [][]string{{"number", "kind", "for", "amount"}, {"date", "due", "held"}}
	invoiceWidths = []form.Table{{70, 130, 0, 110, 68}, {110, 110, 110, 0}}
	paymentLines  = [][]string{{"invoice", "date", "amount", "how"}}
	paymentWidths = []form.Table{{70, 110, 110, 0, 68}}
	paperLines    = [][]string{{"name"}, {"text"}}
	paperWidths   = []form.Table{{0, 68}, {0}}
)

// now gives the open job as it is.
func (p *Page) now() *handover.Handover {
	return handover.Of(handover.From{Job: p.Base(), Prices: p.Prices()})
}

// changeAccount changes the account of the open job, as a step of its history.
func (p *Page) changeAccount(what string, change func(*account.Account)) error {
	return p.Change(what, func(j *job.Job) { change(&j.Account) })
}

// account edits what was agreed, billed and paid.
func (p *Page) account(f *form.Form) {
	f.Heading("Money")
	a := bind.Of(f, func() account.Account { return p.Base().Account }, p.changeAccount).At("account")
	a.Rows("contract.date", "contract.amount", "contract.tax", "retainage")
	f.Buttons(form.Do("Take the bid as the contract", f.Act(p.agree)))
	f.Heading("Change orders")
	changes := ofJob(p, func(j *job.Job) *[]account.Change { return &j.Account.Changes })
	rows[account.Change]{path: "account.changes[]", remove: "Remove the change", all: changes, lines: changeLines, widths: changeWidths, more: func(i int) fyne.CanvasObject {
		return form.Do("Page to file…", func() { p.saveChange(changes.Get()[i]) })
	}}.add(p, f)
	f.Buttons(form.Do("Add a change", f.Act(func() error {
		return changes.Append("Add a change", account.Change{Number: p.Base().Account.NextChange(), Date: date.On(p.Now())})
	})))
	f.Explain("Two revisions make a change order too: compare them under Revisions. Only what is accepted counts.")
	p.invoiced(f)
	f.Heading("Papers of your own")
	papers := ofJob(p, func(j *job.Job) *[]account.Paper { return &j.Account.Papers })
	rows[account.Paper]{path: "account.papers[]", remove: "Remove the paper", all: papers, lines: paperLines, widths: paperWidths}.add(p, f)
	f.Buttons(
		form.Do("Add a paper", f.Act(func() error { return papers.Append("Add a paper", account.Paper{}) })),
		form.Do("Papers to file…", func() {
			p.save("papers.pdf", func(w io.Writer) error {
				return sheet.WritePapers(context.Background(), w, p.now(), p.officeOptions())
			})
		}),
	)
	f.Explain("Such as waivers and notices, in your own words: the program has none. State law says which forms hold; ask a lawyer.")
}

// invoiced edits invoices and payments, and says how the account stands.
func (p *Page) invoiced(f *form.Form) {
	f.Heading("Invoices")
	invoices := ofJob(p, func(j *job.Job) *[]account.Invoice { return &j.Account.Invoices })
	invoices.Put = func(what string, change func(*[]account.Invoice)) error {
		return p.changeAccount(what, func(a *account.Account) {
			were := slices.Clone(a.Invoices)
			change(&a.Invoices)
			a.Follow(were)
		})
	}
	rows[account.Invoice]{path: "account.invoices[]", remove: "Remove the invoice", all: invoices, lines: invoiceLines, widths: invoiceWidths, more: func(i int) fyne.CanvasObject {
		return form.Do("Page to file…", func() { p.saveInvoices(invoices.Get()[i].Number) })
	}}.add(p, f)
	f.Buttons(form.Do("Next invoice", p.nextInvoice))
	f.Heading("Payments")
	payments := ofJob(p, func(j *job.Job) *[]account.Payment { return &j.Account.Payments })
	stand := container.NewVBox()
	rows[account.Payment]{path: "account.payments[]", remove: "Remove the payment", all: payments, lines: paymentLines, widths: paymentWidths, show: func() {
		form.Refill(stand, p.standing()...)
	}}.add(p, f)
	f.Buttons(form.Do("Add a payment", f.Act(func() error {
		pay := p.now().Account().NextPayment()
		pay.Date = date.On(p.Now())
		return payments.Append("Add a payment", pay)
	})))
	f.Add(stand, nil)
}

// agree takes the bid as it is now as the contract.
func (p *Page) agree() error {
	e, err := p.now().Estimate(context.Background())
	if err != nil {
		return err
	}
	return p.changeAccount("Take the bid as the contract", func(a *account.Account) {
		a.Contract = account.Contract{Date: date.On(p.Now()), Amount: e.Bid, Tax: e.Tax}
	})
}

// nextInvoice adds the invoice that comes next, under the book's next number.
func (p *Page) nextInvoice() {
	h := p.now()
	i, ok := h.Account().Next(h.Job().Price.Terms)
	if !ok {
		p.Say("Nothing is left to ask for: set the contract first, or accept a change")
		return
	}
	id := p.shelf.ID()
	p.do(func(b *storage.Book) (err error) {
		i.Number, err = b.InvoiceNumber(h.Job().Account)
		return err
	}, func() {
		if p.shelf.ID() != id { // another job was opened meanwhile: the number is left out
			return
		}
		i.Date = date.On(p.Now())
		if err := p.changeAccount("Add an invoice", func(a *account.Account) { a.Invoices = append(a.Invoices, i) }); err != nil {
			p.say(err)
			return
		}
		p.Update()
	})
}

// standing says how the account stands.
func (p *Page) standing() (os []fyne.CanvasObject) {
	h := p.now()
	s := h.Account()
	if s.Empty() {
		return nil
	}
	table := form.Table{0, 130}
	for _, r := range []struct {
		name string
		text string
	}{
		{"Contract with accepted changes", h.Money(s.Sum)}, {"Billed", h.Money(s.Billed)}, {"Left to bill", h.Money(s.Left)},
		{"Kept back", h.Money(s.Held)}, {"Paid", h.Money(s.Paid)}, {"Still open", h.Money(s.Open)},
	} {
		os = append(os, table.Figures(r.name, r.text))
	}
	for _, f := range s.Findings {
		os = append(os, form.Signed(look.Caution, form.Weighted(form.Wrapped(f.Text), widget.WarningImportance)))
	}
	return os
}

// officeOptions are those of papers for the customer.
func (p *Page) officeOptions() sheet.Options {
	o := p.recordOptions()
	set, err := p.shelf.Settings()
	p.say(err)
	o.Company.Lines = set.Company.Lines
	if o.Company.Logo, err = set.Company.Picture(); err != nil {
		p.say(err)
	}
	return o
}

func (p *Page) saveInvoices(number int) {
	p.save(fmt.Sprintf("invoice-%d.pdf", number), func(w io.Writer) error {
		return sheet.WriteInvoices(context.Background(), w, p.now(), number, p.officeOptions())
	})
}

// numbered gives the state of a job at a revision by its number; 0 for as it is now.
func (p *Page) numbered(id storage.ID, number int) (revision.State, error) {
	all, err := p.book.Revisions(id)
	if err != nil {
		return revision.State{}, err
	}
	i := slices.IndexFunc(all, func(r storage.Revision) bool { return r.Number == number })
	if number > 0 && i < 0 {
		return revision.State{}, fmt.Errorf("revision %d is not in the book", number)
	}
	return p.state(id, all, i+1)
}

// saveChange writes the change order.
func (p *Page) saveChange(c account.Change) {
	id := p.shelf.ID()
	was, err := p.numbered(id, c.From)
	if err != nil {
		p.say(err)
		return
	}
	is, err := p.numbered(id, c.To)
	if err != nil {
		p.say(err)
		return
	}
	p.save(fmt.Sprintf("change-order-%d.pdf", c.Number), func(w io.Writer) error {
		h := p.now()
		order, err := h.ChangeOrder(context.Background(), c, was, is)
		if err != nil {
			return err
		}
		return sheet.WriteChangeOrder(context.Background(), w, h, order, p.officeOptions())
	})
}

// offerChange makes a change order of two states of the open job, of which the later may be
// the job as it is now: that is kept as a revision first.
func (p *Page) offerChange(from, to int) {
	id := p.shelf.ID()
	offer := func() {
		was, err := p.numbered(id, from)
		if err != nil {
			p.say(err)
			return
		}
		is, err := p.numbered(id, to)
		if err != nil {
			p.say(err)
			return
		}
		c, err := handover.Offered(context.Background(), was, is)
		if err == nil {
			c.Number, c.Date, c.From, c.To = p.Base().Account.NextChange(), date.On(p.Now()), from, to
			err = p.changeAccount("Add a change", func(a *account.Account) { a.Changes = append(a.Changes, c) })
		}
		if err != nil {
			p.say(err)
			return
		}
		p.turnTo(officeName)
		p.Tell(fmt.Sprintf("Change order %d: write what it is, and have it signed", c.Number))
	}
	if to > 0 {
		offer()
		return
	}
	p.do(func(b *storage.Book) (err error) {
		to, err = b.Revise(id, "change order")
		return err
	}, func() {
		if p.shelf.ID() == id {
			offer()
		}
	})
}

// accountsToFile writes the accounts of all jobs of the book.
func (p *Page) accountsToFile(w io.Writer) error {
	all, err := p.book.List()
	if err != nil {
		return err
	}
	storage.Sort(all, storage.ByNumber)
	var kept []sheet.Kept
	for _, s := range all {
		j, err := p.book.Get(s.ID)
		if err != nil {
			return err
		}
		kept = append(kept, sheet.Kept{ID: s.ID.String(), Job: handover.Of(handover.From{Job: j})})
	}
	return sheet.WriteAccounts(w, kept)
}
