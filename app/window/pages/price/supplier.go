package price

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/words"
	"haunchbook.example/export/workbook"
)

// maxTable bounds the size of a supplier's list.
const maxTable = 8 << 20

// importing gives the button that brings prices in.
func (p *Page) importing() *form.Button {
	return form.Do("Import prices…", p.importFile)
}

// importFile asks for a supplier's list, or for a request that came back filled in, and
// shows what it says.
func (p *Page) importFile() {
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

// LookAt shows what a supplier's list, or the requests that came back so far, would
// change, and offers to take it.
func (p *Page) LookAt(name string, data []byte) error {
	if strings.EqualFold(filepath.Ext(name), ".xlsx") {
		q, err := workbook.ReadQuote(data)
		if err == nil {
			return p.lookAtQuotes(q)
		}
		if !errors.Is(err, workbook.ErrNoRequest) {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
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
			was = estimate.Money(list.Currency, f.Was.To)
		}
		lines = append(lines, table.Figures(fmt.Sprintf("%s, per %s", f.Name, f.Per), was, estimate.Money(list.Currency, f.Is), by))
	}
	for _, u := range o.Unmatched {
		left = append(left, form.Small(fmt.Sprintf("Row %d, %s: %s.", u.Row, words.Dash(u.Said), u.Why)))
	}
	os := []fyne.CanvasObject{
		form.Title(name),
		form.Wrapped(fmt.Sprintf("%s found, of which %d change. %s not taken.", field.Upper(words.Plural(len(o.Found), "price")), changed, words.Plural(len(o.Unmatched), "row"))),
	}
	if len(o.Found) > 0 {
		take := p.taking("Take these prices", "Take the prices of "+name, func(l estimate.PriceList) estimate.PriceList { return l.Take(o, p.frame.Today()) })
		os = append(os, take, table.Head("Price", ">Was", ">Is", ">Change"))
	}
	os = append(os, lines...)
	if len(left) > 0 {
		os = append(append(os, table.Head("Not taken")), left...)
	}
	p.show(append(os, form.Do("Leave the prices as they are", func() { p.show() }), form.Rule())...)
	return nil
}

// taking gives the button that takes what was looked at.
func (p *Page) taking(label, what string, with func(estimate.PriceList) estimate.PriceList) *form.Button {
	return form.Do(label, form.Act(p.frame, func() error {
		if err := p.frame.ChangePrices(what, func(l *estimate.PriceList) { *l = with(*l) }); err != nil {
			return err
		}
		p.quotes = nil
		p.show()
		if p.frame.Prices().Invented {
			p.Update()
			return p.own(true) // what is left of the starting list
		}
		return nil
	})).Strong()
}

// lookAtQuotes shows the quotes so far side by side, a supplier's newest in the place
// of the one before, and offers to take the least of each line.
func (p *Page) lookAtQuotes(q estimate.Quote) error {
	if !slices.ContainsFunc(q.Lines, func(l estimate.Quoted) bool { return l.Price.Set }) {
		return fmt.Errorf("%s: found no price; a quote has them in the column Unit price", q.Supplier)
	}
	p.quotes = append(slices.DeleteFunc(p.quotes, func(o estimate.Quote) bool { return o.Supplier == q.Supplier }), q)
	quotes := slices.Clone(p.quotes)
	compared := estimate.CompareQuotes(quotes)
	list := p.frame.Prices()
	table := form.Table{0, 150, 100, 110, 120}
	var names []string
	for _, q := range quotes {
		name := q.Supplier
		if q.Number != "" {
			name += ", quote " + q.Number
		}
		if q.Until != "" {
			name += ", good until " + q.Until
		}
		names = append(names, name)
	}
	os := []fyne.CanvasObject{
		form.Title("Quotes"),
		form.Wrapped(strings.Join(names, "; ") + ". Of several the least price of each line is taken, never a substitute."),
		container.NewHBox(
			p.taking("Take the least prices", "Take the prices of "+words.Plural(len(quotes), "quote"), func(l estimate.PriceList) estimate.PriceList { return l.With(quotes, p.frame.Today()) }),
			form.Do("Compare with another quote…", p.importFile),
		),
		table.Head("Line", "Supplier", ">For one", ">For all", "Comes in"),
	}
	for _, c := range compared {
		for i, o := range c.Offers {
			name, mark := "", ""
			if i == 0 {
				name = fmt.Sprintf("%s × %s %s", c.Quantity, c.Unit, c.Name)
			}
			if i == c.Least {
				mark = "least: "
			}
			each, all, lead := "–", "", o.Lead
			if o.Price.Set {
				each, all = estimate.Money(list.Currency, o.Price.To), estimate.Money(list.Currency, o.Extended)
			}
			if o.Substitute != "" {
				lead = strings.TrimSpace("instead: " + o.Substitute + " " + lead)
			}
			os = append(os, table.Tight(form.Figure(name, fyne.TextAlignLeading), form.Figure(mark+o.Supplier, fyne.TextAlignLeading),
				form.Figure(each, fyne.TextAlignTrailing), form.Figure(all, fyne.TextAlignTrailing), form.Figure(lead, fyne.TextAlignLeading)))
		}
		if len(c.Offers) == 0 {
			os = append(os, table.Figures(fmt.Sprintf("%s × %s %s", c.Quantity, c.Unit, c.Name), "no offer"))
		}
	}
	p.show(append(os, form.Do("Leave the prices as they are", func() { p.quotes = nil; p.show() }), form.Rule())...)
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
		form.Wrapped(fmt.Sprintf("%s of this job still from the starting list, which is invented. Change below what is not right; then confirm the rest.", field.Upper(words.Plural(len(lines), "figure"))+map[bool]string{true: " is", false: " are"}[len(lines) == 1])),
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
