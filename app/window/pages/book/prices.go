package book

import (
	"errors"
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/revision"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/words"
	"haunchbook.example/storage"
)

// pricesPart is the price lists that were kept, each against another.
func (p *Page) pricesPart() (fyne.CanvasObject, func()) {
	f := form.New(p)
	f.Title("Price lists")
	u := p.Units()
	history, err := p.book.PriceHistory(u)
	p.say(err)
	f.Explain("Lists for jobs in " + u.String() + ". Jobs that keep no list of their own are priced with the newest. Change prices on the page Price and keep them there for new jobs: that makes a new list here, and the old ones stay.")
	if len(history) == 0 {
		f.Explain("None is kept yet: the built-in list of invented prices applies.")
		return f.Box, f.Sync
	}
	var names []string
	var lists []estimate.PriceList
	slices.Reverse(history)
	for i, v := range history {
		name := fmt.Sprintf("%d · %s · %s", v.Number, v.Stored.Local().Format(minute), words.Dash(v.List.Name))
		if i == 0 {
			name += " (applies now)"
		}
		names, lists = append(names, name), append(lists, v.List)
	}
	names, lists = append(names, "built in: invented prices"), append(lists, estimate.Starting(u))
	is, was := 0, 1
	result := container.NewVBox()
	show := func() { form.Refill(result, priceChanges(lists[was], lists[is])...) }
	pick := func(label string, at *int) {
		f.Choice(label, func() []string { return names }, func() string { return names[*at] }, func(v string) error {
			*at = max(0, slices.Index(names, v))
			show()
			return nil
		})
	}
	pick("List", &is)
	pick("Against", &was)
	f.Buttons(form.Do("Let this list apply again", f.Act(func() error {
		if is == 0 {
			return errors.New("it applies already")
		}
		if err := p.shelf.SetPrices(lists[is]); err != nil {
			return err
		}
		p.Tell("Jobs without a list of their own are priced with it again")
		p.do(func(*storage.Book) error { return nil }, func() { p.turn(p.part) }) // once it is in the book
		return nil
	})))
	f.Add(result, nil)
	show()
	return f.Box, f.Sync
}

// priceChanges lists the prices that differ.
func priceChanges(was, is estimate.PriceList) []fyne.CanvasObject {
	changes := revision.Prices(was, is)
	if len(changes) == 0 {
		return []fyne.CanvasObject{form.Wrapped("No price differs.")}
	}
	amount := func(a estimate.Amount) string {
		if !a.Set {
			return "–"
		}
		return estimate.Money(is.Currency, a.To)
	}
	table := form.Table{0, 90, 90, 90, 90}
	os := []fyne.CanvasObject{table.Head("Price", ">Against", ">List", ">Per", ">Date")}
	for _, c := range changes {
		os = append(os, table.Figures(c.Name, amount(c.Was), amount(c.Is), words.Dash(c.Unit), words.Dash(c.Date)))
	}
	return os
}
