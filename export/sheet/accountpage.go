package sheet

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/account"
	"haunchbook.example/app/date"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/language"
)

// office is a paper of the office for the customer: the bid's head, and below it what the
// paper says, going on over pages.
type office struct {
	*paged
	bid bid
	h   *handover.Handover
}

// offices starts a paper in each of its languages.
func offices(h *handover.Handover, o Options) (out []*office) {
	for _, l := range o.languages() {
		s := &set{job: h.Job(), options: o, in: l, say: l.Speaker(own(h.Job(), o))}
		out = append(out, &office{paged: s.paged(), h: h})
	}
	return out
}

// open begins a paper with its head, on its day.
func (p *office) open(title string, on date.Day) {
	j, o := p.job, p.options
	j.Date, j.Revision, o.Date = "", "", time.Time{}
	if on.Known() {
		o.Date = on.Time()
	}
	p.bid = bid{newDraft(p.say.Word(title), p.paper.Width, p.paper.Height), title, j, p.takeoff, estimate.Estimate{}, handover.Offer{}, o, p.r, sizeBody}
	p.bid.say = p.say
	p.pages = append(p.pages, p.bid.draft)
	p.top = p.bid.head() - 1
}

// amount writes an amount with its name, and a rule over it where it is a sum.
func (p *office) amount(name string, of decimal.Decimal, sum bool) {
	size, d := p.bid.size, p.page()
	if p.top < p.r.Y0+30 {
		p.turn(p.bid.title)
	}
	if sum {
		d.line(Notes, penRule, Point{X: p.r.X0, Y: p.top}, Point{X: p.r.X1, Y: p.top})
	}
	text := p.h.Money(of)
	d.write(p.r.X0, p.top-0.45*size, size, sum, shorten(p.say.Say(name), p.r.Width()-textWidth(text, size, sum)-4, size, sum))
	d.writeRight(p.r.X1, p.top-0.45*size, size, sum, text)
	p.top -= 0.62 * size
}

// finished gives the pages, numbered where there are several.
func (p *office) finished() []Page {
	var out []Page
	for i, d := range p.pages {
		if len(p.pages) > 1 {
			d.writeRight(p.r.X1, p.r.Y0, sizeFine, false, fmt.Sprintf("%d / %d", i+1, len(p.pages)))
		}
		out = append(out, d.finish())
	}
	return out
}

// lawLine stands under papers about money.
const lawLine = "Retainage, lien rights and waivers follow the law of the state and the contract: ask a lawyer."

// foot writes a line at the foot of a page.
func (p *office) foot(text string) {
	p.page().write(p.r.X0, p.r.Y0, sizeFine, false, shorten(p.say.Say(text), p.r.Width()-12, sizeFine, false))
}

// ErrNoInvoice tells that a job has no invoice.
var ErrNoInvoice = errors.New("account.invoices: found none; add one first")

// WriteInvoices writes the invoices of a job, one on a page, or only the one of a number;
// 0 for all.
func WriteInvoices(ctx context.Context, w io.Writer, h *handover.Handover, number int, o Options) error {
	pages, err := InvoicePages(h, number, o)
	if err != nil {
		return err
	}
	return writePDF(ctx, w, pages[0].Name+": "+h.Job().Name, pages, o)
}

// InvoicePages gives the pages that WriteInvoices writes.
func InvoicePages(h *handover.Handover, number int, o Options) (out []Page, err error) {
	s := h.Account()
	for _, b := range s.Bills {
		if number != 0 && b.Number != number {
			continue
		}
		for _, p := range offices(h, o) {
			p.invoice(s, b)
			out = append(out, p.finished()...)
		}
	}
	if len(out) == 0 {
		err = ErrNoInvoice
	}
	return out, err
}

// invoice draws an invoice.
func (p *office) invoice(s account.Statement, b account.Billed) {
	p.open(fmt.Sprintf("Invoice %d", b.Number), b.Date)
	p.amount(dated("Contract", s.Contract.Date), s.Contract.Amount, false)
	for _, c := range b.Changes {
		p.amount(dated(named(fmt.Sprintf("Change order %d", c.Number), c.Title)+", accepted", c.Decided), c.Amount, false)
	}
	p.amount("Contract with accepted changes", b.Sum, true)
	if s.Contract.Tax.IsPositive() {
		p.tell("Sales tax in the contract: " + p.h.Money(s.Contract.Tax) + ".")
	}
	p.top -= 2
	p.amount("Billed before", b.Before, false)
	p.amount(named("This invoice, "+b.Kind.String(), b.For), b.Amount, false)
	p.amount("Billed so far", b.SoFar, true)
	p.amount("Left to bill", b.Left, false)
	p.top -= 2
	switch {
	case b.Held.IsPositive():
		p.amount("Kept back of this invoice as retainage", b.Held.Neg(), false)
	case b.Held.IsNegative():
		p.amount("Retainage kept back before", b.Held.Neg(), false)
	}
	due := "To be paid"
	if b.Due.Known() {
		due += " by " + b.Due.String()
	}
	p.amount(due, b.Asked, true)
	for _, pay := range s.Payments {
		if pay.Invoice == b.Number {
			p.amount(dated(named("Paid", pay.How), pay.Date), pay.Amount.Neg(), false)
		}
	}
	if !b.Paid.IsZero() {
		p.amount("Still open", b.Open, true)
	}
	p.top -= 3
	p.put("", statementTable(s, p.h, date.On(p.options.Date)), 1)
	p.foot(lawLine)
}

// statementTable lists the invoices of an account, as they stand on the day that it is
// printed: an invoice may be printed again later.
func statementTable(s account.Statement, h *handover.Handover, on date.Day) table {
	t := table{title: dated("Account of the job", on), head: []string{"Invoice", "Date", "Kind", "Amount", "Kept back", "To be paid", "Paid", "Still open"}, right: []bool{true, false, false, true, true, true, true, true}}
	for _, b := range s.Bills {
		t.rows = append(t.rows, []string{fmt.Sprint(b.Number), b.Date.String(), b.Kind.String(), h.Money(b.Amount), h.Money(b.Held), h.Money(b.Asked), h.Money(b.Paid), h.Money(b.Open)})
	}
	t.rows = append(t.rows, []string{"", "", "Together", h.Money(s.Billed), h.Money(s.Held), h.Money(s.Asked), h.Money(s.Paid), h.Money(s.Open)})
	return t
}

// dated puts a day after a name.
func dated(name string, on date.Day) string {
	if !on.Known() {
		return name
	}
	return name + ", " + on.String()
}

// named puts the user's words after a name.
func named(name, words string) string {
	if words == "" {
		return name
	}
	return name + ": " + words
}

// WriteChangeOrder writes a change order to be signed.
func WriteChangeOrder(ctx context.Context, w io.Writer, h *handover.Handover, c handover.ChangeOrder, o Options) error {
	pages := ChangeOrderPages(h, c, o)
	return writePDF(ctx, w, pages[0].Name+": "+h.Job().Name, pages, o)
}

// ChangeOrderPages gives the pages that WriteChangeOrder writes.
func ChangeOrderPages(h *handover.Handover, c handover.ChangeOrder, o Options) (out []Page) {
	for _, p := range offices(h, o) {
		p.change(c)
		out = append(out, p.finished()...)
	}
	return out
}

// change draws a change order.
func (p *office) change(c handover.ChangeOrder) {
	p.open(fmt.Sprintf("Change order %d", c.Number), c.Date)
	if c.Title != "" {
		p.top = p.bid.section(p.top, "What changes", []string{c.Title})
	}
	if len(c.Changes) > 0 {
		t := table{title: "As drawn and specified", head: []string{"What", "Was", "Is"}}
		for _, w := range c.Changes {
			t.rows = append(t.rows, []string{w.Where, cmp.Or(w.Was, "new"), cmp.Or(w.Is, "taken away")})
		}
		p.put(p.bid.title, t, 1)
	}
	if len(c.Quantities) > 0 {
		t := table{title: "Quantities", head: []string{"", "Was", "Is", "Difference", "Unit"}, right: []bool{false, true, true, true, false}}
		for _, q := range c.Quantities {
			t.rows = append(t.rows, []string{q.Name, q.Was.String(), q.Is.String(), signed(q.Diff()), q.Unit})
		}
		p.put("Quantities", t, 1)
	}
	if c.Untaken != nil {
		p.tell("Quantities are not compared: one of the plans has faults.")
	}
	if p.top < p.r.Y0+75 {
		p.turn(p.bid.title)
	}
	p.top -= 3
	p.amount("Contract with the changes accepted before", c.Before, false)
	p.amount("This change", c.Amount, false)
	p.amount("Contract with this change", c.After, true)
	p.top -= 2
	switch {
	case c.Days > 0:
		p.tell("The work is done later by " + counted(c.Days, "day") + ".")
	case c.Days < 0:
		p.tell("The work is done earlier by " + counted(-c.Days, "day") + ".")
	default:
		p.tell("The work is done as was agreed: no days are added.")
	}
	switch c.State {
	case account.Accepted:
		p.tell(dated("Accepted", c.Decided) + ".")
	case account.Declined:
		p.tell(dated("Declined", c.Decided) + ".")
	}
	p.sign("Accepted: the change, its price and its days. Signed by both, this changes the contract.")
	p.foot("All else stays as it was agreed.")
}

// sign draws where both sign.
func (p *office) sign(what string) {
	r, d := p.r, p.page()
	p.top = d.paragraph(r.X0, p.top-2, r.Width(), sizeBody, true, p.say.Say(what))
	w := (r.Width() - 12) / 2
	p.top -= 14
	for i, name := range []string{"For the contractor, date", "Accepted by the customer, date"} {
		x := r.X0 + float64(i)*(w+12)
		d.line(Notes, penRule, Point{X: x, Y: p.top}, Point{X: x + w, Y: p.top})
		d.write(x, p.top-3.5, sizeSmall, false, p.say.Say(name))
	}
	p.top -= 8
}

// signed prints an amount with its sign.
func signed(d decimal.Decimal) string {
	if d.IsPositive() {
		return "+" + d.String()
	}
	return d.String()
}

// ErrNoPaper tells that a job has no paper of the user's own.
var ErrNoPaper = errors.New("account.papers: found none; write one first")

// WritePapers writes the user's own papers, such as waivers and notices, each on a page
// with the job and a line to sign. Their words stay as they are.
func WritePapers(ctx context.Context, w io.Writer, h *handover.Handover, o Options) error {
	o.Languages = []language.Language{o.languages()[0]}
	var pages []Page
	for _, t := range h.Job().Account.Papers {
		p := offices(h, o)[0]
		p.open(t.Name, date.On(o.Date))
		for _, para := range strings.Split(t.Text, "\n") {
			if p.top < p.r.Y0+20 {
				p.turn(t.Name)
			}
			p.top = p.page().paragraph(p.r.X0, p.top, p.r.Width(), sizeBody, false, para) - 1
		}
		p.sign("Signed")
		p.foot("This text is its writer's own. " + lawLine)
		pages = append(pages, p.finished()...)
	}
	if len(pages) == 0 {
		return ErrNoPaper
	}
	return writePDF(ctx, w, pages[0].Name+": "+h.Job().Name, pages, o)
}
