package window

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// prices gives the list that the job is priced with: its own, or the one kept in
// the book, or the starting list.
func (w *Window) prices() estimate.PriceList {
	j := w.doc.Job()
	if len(j.Price.Prices.Items) > 0 {
		return j.Price.Prices
	}
	if w.kept == nil {
		w.kept = map[geometry.Units]estimate.PriceList{}
	}
	p, ok := w.kept[j.Units]
	if !ok {
		p = w.keptPrices(j.Units)
		w.kept[j.Units] = p
	}
	return p
}

func (w *Window) keptPrices(u geometry.Units) estimate.PriceList {
	if w.book == nil {
		return estimate.Starting(u)
	}
	p, err := w.book.Prices(u)
	if err != nil {
		w.say(err.Error())
		return estimate.Starting(u)
	}
	return p
}

// keepPrices makes the job's list the one for new jobs.
func (w *Window) keepPrices() {
	if w.book == nil || w.book.ReadOnly() {
		w.say("This window has no job book to keep the list in")
		return
	}
	p := w.prices()
	if err := w.book.SetPrices(p); err != nil {
		w.say(err.Error())
		return
	}
	w.kept = nil
	w.tell("Kept: jobs without a list of their own are priced with this one")
	w.refresh()
}

// changePrices changes the job's list; a job without one gets its own.
func (w *Window) changePrices(label string, change func(*estimate.PriceList)) error {
	p := w.prices()
	p.Items, p.Tasks, p.Fees = slices.Clone(p.Items), slices.Clone(p.Tasks), slices.Clone(p.Fees)
	change(&p)
	var faults plan.Faults
	if errors.As(p.Validate(), &faults) {
		return fmt.Errorf("found %s; %s", faults[0].Found, faults[0].Want)
	}
	return w.change(label, func(j *job.Job) { j.Price.Prices = p })
}

// changeItem changes the item that prices a line; a line without one gets it.
func (w *Window) changeItem(l estimate.Line, label string, change func(*estimate.Item)) error {
	return w.changePrices(label, func(p *estimate.PriceList) {
		it, ok := p.Item(l.ID)
		if !ok || it.Of != "" && it.Of != l.Of {
			it = estimate.Item{What: l.ID, Name: l.Name, Group: l.Group, Unit: string(l.Of), Of: l.Of, Loose: l.Loose}
		}
		change(&it)
		if i := slices.IndexFunc(p.Items, func(o estimate.Item) bool { return o.What == it.What }); i >= 0 {
			p.Items[i] = it
		} else {
			p.Items = append(p.Items, it)
		}
	})
}

// changeTask changes the task of a line of labor.
func (w *Window) changeTask(name, label string, change func(*estimate.Task)) error {
	return w.changePrices(label, func(p *estimate.PriceList) {
		if i := slices.IndexFunc(p.Tasks, func(t estimate.Task) bool { return t.Name == name }); i >= 0 {
			change(&p.Tasks[i])
		}
	})
}

// changeFee changes a fee of the list.
func (w *Window) changeFee(name, label string, change func(*estimate.Fee)) error {
	return w.changePrices(label, func(p *estimate.PriceList) {
		if i := slices.IndexFunc(p.Fees, func(f estimate.Fee) bool { return f.Name == name }); i >= 0 {
			change(&p.Fees[i])
		}
	})
}

// amount reads a number of money, hours or rates.
func amount(s string) (decimal.Decimal, error) {
	t := strings.TrimSpace(strings.ReplaceAll(strings.TrimLeft(strings.TrimSpace(s), "$€£"), ",", ""))
	d, err := decimal.NewFromString(t)
	if err != nil || len(t) > 24 || strings.ContainsAny(t, "eE") {
		return decimal.Zero, fmt.Errorf("found %q; write a number such as 7.50", s)
	}
	return d, nil
}

// amountSetter makes a setter of text from one of an amount.
func amountSetter(set func(decimal.Decimal) error) func(string) error {
	return func(s string) error {
		d, err := amount(s)
		if err != nil {
			return err
		}
		return set(d)
	}
}

// money prints an amount with commas: "$12,345.60".
func money(e estimate.Estimate, d decimal.Decimal) string {
	c := e.Prices.Currency
	s := thousands(strings.TrimPrefix(e.Money(d.Abs()), c))
	if d.IsNegative() {
		return "-" + c + s
	}
	return c + s
}

// today is the date that a price gets when it is changed.
func today() string { return now().Format("2006-01-02") }
