package handover

import (
	"context"
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/account"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/app/revision"
	"haunchbook.example/app/takeoff"
)

// Account gives how the job's account stands.
func (h *Handover) Account() account.Statement { return account.Of(h.from.Job.Account) }

// Money prints an amount in the currency of the job's prices.
func (h *Handover) Money(d decimal.Decimal) string { return estimate.Money(h.from.Prices.Currency, d) }

// ChangeOrder is what a change order says.
type ChangeOrder struct {
	account.Change
	Changes    []revision.Change // on the plan and in what goes in
	Quantities []revision.Amount // that change
	Untaken    error             // why quantities are not compared
	Before     decimal.Decimal   // the contract with the changes accepted before this one
	After      decimal.Decimal   // with this one
}

// Offered gives the change order between two states of the job, as it would be offered: by
// as much as the bid changes. The error tells that the bids cannot be compared.
func Offered(ctx context.Context, was, is revision.State) (account.Change, error) {
	d := revision.Compare(ctx, was, is)
	switch {
	case ctx.Err() != nil:
		return account.Change{}, ctx.Err()
	case d.Untaken != nil:
		return account.Change{}, fmt.Errorf("the bids cannot be compared: %w", d.Untaken)
	case was.Job.Units != is.Job.Units:
		return account.Change{}, fmt.Errorf("the bids cannot be compared: the units differ")
	}
	c := account.Change{Number: is.Job.Account.NextChange()}
	if i := slices.IndexFunc(d.Price, func(a revision.Amount) bool { return a.Name == "Bid" }); i >= 0 {
		c.Amount = d.Price[i].Diff()
	}
	return c, nil
}

// inside tells whether a quantity is a figure of the estimate, not a thing that is built.
func inside(a revision.Amount) bool {
	return slices.ContainsFunc([]takeoff.Kind{takeoff.ConcreteWaste, takeoff.ConcreteByLength, takeoff.ConcreteToBoard, takeoff.ConcreteToDepth}, func(k takeoff.Kind) bool {
		return a.Name == k.Noun()
	})
}

// ChangeOrder gives what a change order of the job says that lies between two states.
func (h *Handover) ChangeOrder(ctx context.Context, c account.Change, was, is revision.State) (ChangeOrder, error) {
	was.Job = was.Job.Keeping(is.Job)
	was.Job.Pour = is.Job.Pour // who comes, and when, is no matter of the contract
	d := revision.Compare(ctx, was, is)
	out := ChangeOrder{Change: c, Quantities: slices.DeleteFunc(d.Quantities, inside), Untaken: d.Untaken, Before: h.from.Job.Account.Contract.Amount}
	for _, w := range slices.Concat(d.Plan, d.Spec) {
		w.Where = field.Upper(w.Where)
		out.Changes = append(out.Changes, w)
	}
	for _, other := range h.from.Job.Account.Changes {
		if other.State == account.Accepted && other.Number < c.Number {
			out.Before = out.Before.Add(other.Amount)
		}
	}
	out.After = out.Before.Add(c.Amount)
	return out, ctx.Err()
}
