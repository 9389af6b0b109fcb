package actual

import (
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
)

// Invoice is what one thing cost: a line of the estimate, or all of a kind of work.
type Invoice struct {
	For      string          `json:"for"` // the line's name, or that of the kind of work: see Works
	Amount   decimal.Decimal `json:"amount"`
	Supplier string          `json:"supplier,omitzero"`
	Number   string          `json:"number,omitzero"`
}

// Margin is what is left of a price.
type Margin struct {
	Name    string
	Price   decimal.Decimal // before tax
	Cost    decimal.Decimal
	Unknown decimal.Decimal // of Cost, as it was estimated, since nobody wrote it down
}

// Percent gives the margin in percent of the price; false without a price.
func (m Margin) Percent() (decimal.Decimal, bool) {
	if !m.Price.IsPositive() {
		return decimal.Zero, false
	}
	return m.Price.Sub(m.Cost).Shift(2).Div(m.Price).Round(1), true
}

func (m *Margin) add(o Margin) {
	m.Price, m.Cost, m.Unknown = m.Price.Add(o.Price), m.Cost.Add(o.Cost), m.Unknown.Add(o.Unknown)
}

// workOf names the kind of work of a line: its supplier's group, or labor, fees or extras.
func workOf(l estimate.Line) string {
	switch {
	case l.Kind == estimate.Labor:
		return "Labor"
	case l.Kind == estimate.Charge || l.Kind == estimate.Equipment:
		return "Fees and equipment"
	case l.Kind == estimate.Material && l.Group != "":
		return string(l.Group)
	}
	return "Extras"
}

// Works gives the kinds of work of an estimate, in the order of its lines.
func Works(e estimate.Estimate) []string {
	var out []string
	for _, l := range e.Lines {
		if w := workOf(l); !slices.Contains(out, w) && !l.ByOthers {
			out = append(out, w)
		}
	}
	return out
}

// Margins gives the margin of every job that has an invoice or hours, and that of every
// kind of work over all of them. A kind of work has its share of the price by its share of
// the estimated cost. An invoice for what serves several jobs counts by the job's share;
// one for a kind of work stands for all its lines without one of their own; of what is
// not written down the estimate counts, and it is told how much that is.
func Margins(jobs []Job) (byJob, byWork []Margin) {
	for _, j := range jobs {
		if len(j.Record.Invoices) == 0 && len(j.Record.Hours) == 0 || !j.Estimate.Cost.IsPositive() {
			continue
		}
		all := Margin{Name: j.Name}
		for _, m := range j.works() {
			all.add(m)
			i := slices.IndexFunc(byWork, func(o Margin) bool { return o.Name == m.Name })
			if i < 0 {
				i, byWork = len(byWork), append(byWork, Margin{Name: m.Name})
			}
			byWork[i].add(m)
		}
		byJob = append(byJob, all)
	}
	return byJob, byWork
}

// works gives the margin of every kind of work of a job.
func (j Job) works() []Margin {
	out := make([]Margin, 0, 8)
	left := j.Estimate.Price // to the last cent among the kinds
	names := Works(j.Estimate)
	for k, name := range names {
		m := Margin{Name: name}
		estimated, open := decimal.Zero, decimal.Zero
		for _, l := range j.Estimate.Lines {
			if workOf(l) != name || l.ByOthers {
				continue
			}
			estimated = estimated.Add(l.Extended)
			if cost, known := j.took(l); known {
				m.Cost = m.Cost.Add(cost)
			} else {
				open = open.Add(l.Extended)
			}
		}
		if whole, known := j.invoiced(name); known {
			open = decimal.Zero
			m.Cost = m.Cost.Add(whole)
		}
		m.Cost, m.Unknown = m.Cost.Add(open), open
		m.Price = left
		if k < len(names)-1 {
			m.Price = j.Estimate.Price.Mul(estimated).Div(j.Estimate.Cost).Round(2)
		}
		left = left.Sub(m.Price)
		out = append(out, m)
	}
	return out
}

// took gives what a line cost, as far as it is written down.
func (j Job) took(l estimate.Line) (decimal.Decimal, bool) {
	if cost, known := j.invoiced(l.Name); known {
		return cost.Div(decimal.NewFromInt(int64(max(1, l.Uses)))).Round(2), true
	}
	for _, h := range j.Record.Hours {
		if l.Kind == estimate.Labor && h.Task == l.Name {
			return h.Hours.Mul(l.Price).Round(2), true
		}
	}
	return decimal.Zero, false
}

// invoiced adds up the invoices for one thing.
func (j Job) invoiced(what string) (sum decimal.Decimal, known bool) {
	for _, i := range j.Record.Invoices {
		if i.For == what {
			sum, known = sum.Add(i.Amount), true
		}
	}
	return sum, known
}
