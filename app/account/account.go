// Package account is the money of one job between bid and paid: the contract, changes to
// it, invoices with what is retained, and payments; every amount exact, to the cent. It is
// no bookkeeping: what keeps books takes it from a file.
package account

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/date"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
)

// Account is what was agreed, billed and paid. Amounts are in the currency of the price
// list, with sales tax.
type Account struct {
	Contract  Contract        `json:"contract,omitzero"`
	Retainage decimal.Decimal `json:"retainage,omitzero"` // percent kept back of progress and final invoices
	Changes   []Change        `json:"changes,omitzero"`
	Invoices  []Invoice       `json:"invoices,omitzero"`
	Payments  []Payment       `json:"payments,omitzero"`
	Papers    []Paper         `json:"papers,omitzero"`
}

// Contract is the bid that was accepted.
type Contract struct {
	Date   date.Day        `json:"date,omitzero"`
	Amount decimal.Decimal `json:"amount,omitzero"`
	Tax    decimal.Decimal `json:"tax,omitzero"` // sales tax in the amount
}

// Change is a change order: what it adds to the contract counts once it is accepted.
type Change struct {
	Number  int             `json:"number"`
	Date    date.Day        `json:"date,omitzero"`
	Title   string          `json:"title,omitzero"`
	Amount  decimal.Decimal `json:"amount,omitzero"` // less than 0 for what is taken off
	Days    int             `json:"days,omitzero"`   // by which the work is done later
	State   State           `json:"state,omitzero"`
	Decided date.Day        `json:"decided,omitzero"`
	From    int             `json:"from,omitzero"` // the revisions that it lies between, by their numbers in the book
	To      int             `json:"to,omitzero"`
}

// State is how far a change order has come.
type State = geometry.Choice[states]

type states struct{}

// Names implements geometry.Named.
func (states) Names() []string { return []string{"open", "accepted", "declined"} }

// The states.
const (
	Open State = iota
	Accepted
	Declined
)

// Invoice asks for a part of the contract.
type Invoice struct {
	Number int             `json:"number"` // runs through all jobs of a book
	Date   date.Day        `json:"date,omitzero"`
	Kind   Kind            `json:"kind,omitzero"`
	For    string          `json:"for,omitzero"`    // what it is for, in words
	Amount decimal.Decimal `json:"amount,omitzero"` // of the contract that it bills
	Held   decimal.Decimal `json:"held,omitzero"`   // of it kept back as retainage; less than 0 where that is asked for
	Due    date.Day        `json:"due,omitzero"`
}

// Kind is what an invoice is.
type Kind = geometry.Choice[kinds]

type kinds struct{}

// Names implements geometry.Named.
func (kinds) Names() []string { return []string{"deposit", "progress", "final", "retainage"} }

// The kinds.
const (
	Deposit Kind = iota
	Progress
	Final
	Retainage // asks for what was kept back
)

// Payment is money that came.
type Payment struct {
	Date    date.Day        `json:"date,omitzero"`
	Invoice int             `json:"invoice"` // by its number
	Amount  decimal.Decimal `json:"amount,omitzero"`
	How     string          `json:"how,omitzero"`
}

// Paper is a text of the user's own, such as a waiver or a notice. The program has none.
type Paper struct {
	Name string `json:"name,omitzero"`
	Text string `json:"text,omitzero"`
}

// Empty tells whether there is no money in the account yet.
func (a Account) Empty() bool {
	return a.Contract == (Contract{}) && len(a.Changes)+len(a.Invoices)+len(a.Payments) == 0
}

// Usual gives what of an account holds for other jobs too.
func (a Account) Usual() Account { return Account{Retainage: a.Retainage, Papers: a.Papers} }

// Highest gives the highest number of an invoice; 0 for none.
func (a Account) Highest() int {
	n := 0
	for _, i := range a.Invoices {
		n = max(n, i.Number)
	}
	return n
}

// Billed is an invoice with what came of it.
type Billed struct {
	Invoice
	Changes []Change        // accepted by its day
	Sum     decimal.Decimal // the contract with these
	Before  decimal.Decimal // billed of the contract by the invoices before
	SoFar   decimal.Decimal // with this one
	Left    decimal.Decimal // Sum less SoFar
	Asked   decimal.Decimal // Amount less Held
	Paid    decimal.Decimal
	Open    decimal.Decimal // Asked less Paid
}

// Statement is how an account stands.
type Statement struct {
	Account
	Accepted decimal.Decimal // changes, together
	Days     int             // by which accepted changes put the work off
	Sum      decimal.Decimal // the contract with its accepted changes
	Bills    []Billed        // in the order of the account
	Billed   decimal.Decimal // of Sum
	Left     decimal.Decimal // Sum less Billed
	Held     decimal.Decimal // kept back so far and not asked for
	Asked    decimal.Decimal // by all invoices
	Paid     decimal.Decimal
	Open     decimal.Decimal // Asked less Paid
	Findings []rule.Finding
}

// Of gives how an account stands. Sums of amounts in cents are exact.
func Of(a Account) Statement {
	s := Statement{Account: a, Sum: a.Contract.Amount}
	for _, c := range a.Changes {
		if c.State == Accepted {
			s.Accepted, s.Days = s.Accepted.Add(c.Amount), s.Days+c.Days
		}
	}
	s.Sum = s.Sum.Add(s.Accepted)
	paid := map[int]decimal.Decimal{}
	for _, p := range a.Payments {
		paid[p.Invoice] = paid[p.Invoice].Add(p.Amount)
		s.Paid = s.Paid.Add(p.Amount)
	}
	for _, i := range a.Invoices {
		b := Billed{Invoice: i, Before: s.Billed, Asked: i.Amount.Sub(i.Held), Paid: paid[i.Number]}
		b.Open = b.Asked.Sub(b.Paid)
		b.Changes, b.Sum = a.by(i.Date)
		b.SoFar = b.Before.Add(i.Amount)
		b.Left = b.Sum.Sub(b.SoFar)
		s.Billed, s.Held, s.Asked = s.Billed.Add(i.Amount), s.Held.Add(i.Held), s.Asked.Add(b.Asked)
		s.Bills = append(s.Bills, b)
	}
	s.Left, s.Open = s.Sum.Sub(s.Billed), s.Asked.Sub(s.Paid)
	s.look()
	return s
}

// by gives the changes that were accepted by a day, and the contract with them, so that an
// invoice that is printed again says what it said. One whose day nobody wrote down counts.
func (a Account) by(day date.Day) (changes []Change, sum decimal.Decimal) {
	sum = a.Contract.Amount
	for _, c := range a.Changes {
		if c.State == Accepted && !day.Before(c.Decided) {
			changes, sum = append(changes, c), sum.Add(c.Amount)
		}
	}
	return changes, sum
}

// accountRule is what a finding of the account goes against.
var accountRule = rule.Rule{Name: "Account"}

// look finds what does not go together.
func (s *Statement) look() {
	add := func(format string, args ...any) {
		s.Findings = append(s.Findings, rule.Finding{Rule: accountRule, Severity: rule.Limit, Text: field.Upper(fmt.Sprintf(format, args...))})
	}
	money := func(d decimal.Decimal) string { return estimate.Money("", d) }
	if s.Left.IsNegative() {
		add("more is billed than the contract and its accepted changes come to, by %s.", money(s.Left.Neg()))
	}
	if s.Held.IsNegative() {
		add("more retainage is asked for than was kept back, by %s.", money(s.Held.Neg()))
	}
	known := map[int]bool{}
	for _, b := range s.Bills {
		if known[b.Number] {
			add("invoice %d stands here twice.", b.Number)
		} else if b.Open.IsNegative() {
			add("invoice %d is overpaid by %s.", b.Number, money(b.Open.Neg()))
		}
		known[b.Number] = true
	}
	for _, p := range s.Payments {
		if !known[p.Invoice] {
			add("payment of %s for invoice %d: no such invoice is here.", money(p.Amount), p.Invoice)
		}
	}
}

// Next gives the invoice that comes next, by the steps of paying that the bid has: the
// first of several is the deposit, the last what is left, whatever changed; after that
// what was kept back. It has no number and no day yet; false where nothing is left to ask
// for.
func (s Statement) Next(steps estimate.Terms) (Invoice, bool) {
	n := 0
	for _, b := range s.Bills {
		if b.Kind != Retainage {
			n++
		}
	}
	switch {
	case s.Left.IsPositive() && n < len(steps.Steps)-1:
		i := Invoice{Kind: Progress, For: steps.Steps[n].When, Amount: decimal.Min(steps.Amounts(s.Sum)[n], s.Left)}
		if n == 0 {
			i.Kind = Deposit
		}
		return s.keeping(i), true
	case s.Left.IsPositive():
		i := Invoice{Kind: Final, Amount: s.Left}
		if len(steps.Steps) > 0 {
			i.For = steps.Steps[len(steps.Steps)-1].When
		}
		return s.keeping(i), true
	case s.Held.IsPositive():
		return Invoice{Kind: Retainage, Held: s.Held.Neg()}, true
	}
	return Invoice{}, false
}

// keeping keeps retainage back of an invoice.
func (s Statement) keeping(i Invoice) Invoice {
	i.Held = i.kept(s.Retainage)
	return i
}

// kept gives what is kept back of a progress or final invoice at a percentage, to the cent;
// nothing of others.
func (i Invoice) kept(percent decimal.Decimal) decimal.Decimal {
	if i.Kind == Progress || i.Kind == Final {
		return i.Amount.Mul(percent).Shift(-2).Round(2)
	}
	return decimal.Zero
}

// Follow has what is kept back of the account's invoices follow where they are not as they
// were: as long as it was what the percentage made of it, and was not changed itself.
func (a *Account) Follow(were []Invoice) {
	if len(were) != len(a.Invoices) {
		return
	}
	a.Invoices = slices.Clone(a.Invoices)
	for n, was := range were {
		i := &a.Invoices[n]
		if i.Held.Equal(was.Held) && was.Held.Equal(was.kept(a.Retainage)) {
			i.Held = i.kept(a.Retainage)
		}
	}
}

// NextChange gives the number of the change order that comes next in a job.
func (a Account) NextChange() int {
	n := 0
	for _, c := range a.Changes {
		n = max(n, c.Number)
	}
	return n + 1
}

// NextPayment gives what of the first open invoice is open, as a payment.
func (s Statement) NextPayment() Payment {
	for _, b := range s.Bills {
		if b.Open.IsPositive() {
			return Payment{Invoice: b.Number, Amount: b.Open}
		}
	}
	return Payment{Invoice: cmp.Or(s.Highest(), 1)}
}
