package book

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/words"
)

// invoices edits what was paid, each for a line of the estimate or for all of a kind of
// work.
func (p *Page) invoices(f *form.Form, r bind.Fields[actual.Record], e estimate.Estimate) {
	all := bind.Items[actual.Invoice]{
		Get: func() []actual.Invoice { return r.Get().Invoices },
		Put: func(what string, change func(*[]actual.Invoice)) error {
			return r.Put(what, func(r *actual.Record) {
				r.Invoices = slices.Clone(r.Invoices)
				change(&r.Invoices)
			})
		},
	}
	things := actual.Works(e)
	for _, l := range e.Lines {
		if l.Kind != estimate.Labor && !l.ByOthers && !slices.Contains(things, l.Name) {
			things = append(things, l.Name)
		}
	}
	table := form.Table{0, 90, 120, 70}
	var rows *form.List
	rows = form.NewList(func() int { return len(all.Get()) }, func(i int) (fyne.CanvasObject, func()) {
		get, put := all.Item(i)
		cells := form.NewCells(p)
		v := bind.Of(cells, get, put)
		cells.Choice("Invoice for", func() []string { return things }, func() string { return get().For }, func(s string) error {
			return put("Invoice", func(v *actual.Invoice) { v.For = s })
		})
		v.Money("Invoice amount", func(v *actual.Invoice) *decimal.Decimal { return &v.Amount })
		v.Words("Invoice from", func(v *actual.Invoice) *string { return &v.Supplier })
		cells.Add(form.Do("Remove", f.Act(func() error { defer func() { rows.Sync() }(); return all.Remove("Remove the invoice", i) })).Faint(), nil)
		return cells.Row(table), cells.Sync
	})
	rows.Head = table.Head("For", ">Amount", "From", "")
	f.Heading("Invoices")
	f.Add(rows.Box, rows.Sync)
	if len(things) > 0 {
		f.Buttons(form.Do("Add an invoice", f.Act(func() error {
			defer rows.Sync()
			return all.Append("Add an invoice", actual.Invoice{For: things[0]})
		})))
	}
	f.Explain("Before tax, each for a line of the estimate or for all of a kind of work. Hours count at the wage.")
}

// costs shows what lines cost against the estimate.
func costs(all []actual.Cost, currency string) (os []fyne.CanvasObject) {
	table := form.Table{0, 100, 100, 110}
	for i, c := range all {
		if i == 0 {
			os = append(os, table.Head("Cost by line", ">Estimated", ">Actual", ">Difference"))
		}
		os = append(os, table.Figures(c.Name, estimate.Money(currency, c.Estimated), estimate.Money(currency, c.Took), estimate.Money(currency, c.Off())))
	}
	return os
}

// farOff says which jobs lie far from the others.
func farOff(lessons []actual.Lesson) (os []fyne.CanvasObject) {
	for _, n := range lessons {
		for _, o := range n.Far {
			os = append(os, form.Small(fmt.Sprintf("! %s: %s %s at %s lies far from the other jobs. It is counted; look at its notes before you take the mean.", n.Name, o.Value, n.Unit, words.Dash(o.Job))))
		}
	}
	return os
}
