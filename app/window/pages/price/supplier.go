package price

import (
	"fmt"
	"io"

	"fyne.io/fyne/v2"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/words"
	"haunchbook.example/export/workbook"
)

// maxTable bounds the size of a supplier's list.
const maxTable = 8 << 20

// importing gives the button that brings prices in.
func (p *Page) importing() *form.Button {
	return form.Do("Import a supplier's list…", p.importList)
}

// importList asks for a supplier's list and shows what it says.
func (p *Page) importList() {
	form.OpenFile(p.frame.Window(), func(err error) {
		if err != nil {
			p.frame.Say(err.Error())
		}
	}, []string{".csv", ".xlsx", ".txt"}, func(f fyne.URIReadCloser) {
		defer f.Close()
		name := f.URI().Name()
		data, err := io.ReadAll(io.LimitReader(f, maxTable+1))
		if err == nil && len(data) > maxTable {
			err = fmt.Errorf("%s: the most is %d MB", name, maxTable>>20)
		}
		if err == nil {
			err = p.LookAt(name, data)
		}
		if err != nil {
			p.frame.Say(err.Error())
		}
	})
}

// LookAt shows what a supplier's list would change, and offers to take it.
func (p *Page) LookAt(name string, data []byte) error {
	rows, err := workbook.ReadTable(name, data)
	if err != nil {
		return err
	}
	o, err := p.frame.Prices().Match(rows)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	list := p.frame.Prices()
	changed := 0
	table := form.Table{0, 90, 90, 80}
	var lines, left []fyne.CanvasObject
	for _, f := range o.Found {
		by := "new"
		if c, ok := f.Change(); ok {
			by = percent(c)
		}
		if !f.Was.Equal(estimate.Costs(f.Is)) {
			changed++
		}
		was := "–"
		if f.Was.Set {
			was = words.Money(list.Currency, f.Was.To)
		}
		lines = append(lines, table.Figures(fmt.Sprintf("%s, per %s", f.Name, f.Per), was, words.Money(list.Currency, f.Is), by))
	}
	for _, u := range o.Unmatched {
		left = append(left, form.Small(fmt.Sprintf("Row %d, %s: %s.", u.Row, words.Dash(u.Said), u.Why)))
	}
	os := []fyne.CanvasObject{
		form.Title(name),
		form.Wrapped(fmt.Sprintf("%s found, of which %d change. %s not taken.", words.Capital(words.Plural(len(o.Found), "price")), changed, words.Plural(len(o.Unmatched), "row"))),
	}
	if len(o.Found) > 0 {
		take := form.Do("Take these prices", form.Act(p.frame, func() error {
			err := p.frame.ChangePrices("Take the prices of "+name, func(l *estimate.PriceList) { *l = l.Take(o, p.frame.Today()) })
			if err == nil && p.frame.Prices().Invented {
				p.show()
				p.Update()
				err = p.own(true) // what is left of the starting list
			} else if err == nil {
				p.show()
			}
			return err
		})).Strong()
		os = append(os, take, table.Head("Price", ">Was", ">Is", ">Change"))
	}
	os = append(os, lines...)
	if len(left) > 0 {
		os = append(append(os, table.Head("Not taken")), left...)
	}
	p.show(append(os, form.Do("Leave the prices as they are", func() { p.show() }), form.Rule())...)
	return nil
}

func percent(d decimal.Decimal) string {
	if d.IsPositive() {
		return "+" + d.String() + " %"
	}
	return d.String() + " %"
}

// show puts something to be answered above the lines; nothing takes it away.
func (p *Page) show(os ...fyne.CanvasObject) {
	form.Refill(p.asked, os...)
	p.asked.Refresh()
}

// own makes the list one's own, once each line that the job uses was changed or is
// confirmed.
func (p *Page) own(is bool) error {
	lines := p.estimate.Unconfirmed(p.startingList())
	confirm := func() error {
		return p.frame.ChangePrices("These prices are my own", func(l *estimate.PriceList) { *l = l.Confirm(lines, p.frame.Today()) })
	}
	switch {
	case !is:
		return p.frame.ChangePrices("These prices are not my own", func(l *estimate.PriceList) { l.Invented = true })
	case len(lines) == 0:
		return confirm()
	}
	e := p.estimate
	table := form.Table{0, 190}
	os := []fyne.CanvasObject{
		form.Title("Are these yours?"),
		form.Wrapped(fmt.Sprintf("%s of this job still from the starting list, which is invented. Change below what is not right; then confirm the rest.", words.Capital(words.Plural(len(lines), "figure"))+map[bool]string{true: " is", false: " are"}[len(lines) == 1])),
		form.Do("They are right: these prices are my own", form.Act(p.frame, func() error {
			lines = p.estimate.Unconfirmed(p.startingList())
			err := confirm()
			if err == nil {
				p.show()
			}
			return err
		})).Strong(),
	}
	for _, l := range lines {
		os = append(os, table.Figures(l.Name, p.figure(e, l)))
	}
	os = append(os, table.Figures("Wage per hour", money(e, e.Prices.Wage)))
	p.show(append(os, form.Do("Not yet", func() { p.show() }), form.Rule())...)
	p.form.Sync() // the box is not ticked yet
	return nil
}

// figure says what the list has for a line.
func (p *Page) figure(e estimate.Estimate, l estimate.Line) string {
	if l.Kind != estimate.Labor {
		return money(e, l.Price) + " per " + l.Unit
	}
	for _, t := range e.Prices.Tasks {
		if t.Name == l.Name {
			if t.What.IsZero() {
				return t.Each.String() + " h a job"
			}
			return t.Rate.String() + " " + string(t.Of) + " an hour"
		}
	}
	return ""
}
