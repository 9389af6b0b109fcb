package window

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/revision"
)

// builtIn names the list that applies before one is kept.
const builtIn = "built in: invented prices"

// pricesPart is the price lists that were kept, each against another.
func (p *bookPage) pricesPart() (fyne.CanvasObject, func()) {
	w := p.w
	f := newPageForm(w)
	f.add(title("Price lists"), nil)
	units := w.doc.Units()
	history, err := w.book.PriceHistory(units)
	p.say(err)
	f.note("Lists for jobs in " + units.String() + ". Jobs that keep no list of their own are priced with the newest. Change prices on the page Price and keep them there for new jobs: that makes a new list here, and the old ones stay.")
	if len(history) == 0 {
		f.note("None is kept yet: the built-in list of invented prices applies.")
		return f.box, f.sync
	}
	names, lists := []string{}, map[string]estimate.PriceList{builtIn: estimate.Starting(units)}
	for i := len(history) - 1; i >= 0; i-- {
		v := history[i]
		name := fmt.Sprintf("%d · %s · %s", v.Number, v.Stored.Local().Format(minute), orDash(v.List.Name))
		if i == len(history)-1 {
			name += " (applies now)"
		}
		names, lists[name] = append(names, name), v.List
	}
	names = append(names, builtIn)
	is, was := names[0], names[1]
	result := container.NewVBox()
	show := func() { showPriceChanges(result, lists[was], lists[is]) }
	f.choice("List", names, func() string { return is }, func(v string) { is = v; show() })
	f.choice("Against", names, func() string { return was }, func(v string) { was = v; show() })
	again := newPageButton(w, "Let this list apply again", func() {
		if is == names[0] {
			w.say("It applies already")
			return
		}
		if err := w.book.SetPrices(lists[is]); err != nil {
			p.say(err)
			return
		}
		w.kept = nil
		p.turn(p.part)
		w.tell("Jobs without a list of their own are priced with it again")
	})
	f.buttons(again)
	f.add(result, nil)
	show()
	return f.box, f.sync
}

// showPriceChanges lists the prices that differ.
func showPriceChanges(box *fyne.Container, was, is estimate.PriceList) {
	box.RemoveAll()
	defer box.Refresh()
	changes := revision.Prices(was, is)
	if len(changes) == 0 {
		box.Add(widget.NewLabel("No price differs."))
		return
	}
	l := func() *columns { return &columns{widths: []float32{0, 90, 90, 90, 90}, gap: 4, tight: true} }
	box.Add(headings([]string{"Price", ">Against", ">List", ">Per", ">Date"}, l()))
	for _, c := range changes {
		amount := func(none bool, s string) string {
			if none {
				return "–"
			}
			return is.Currency + thousands(s)
		}
		box.Add(tableRow(l(), c.Name, amount(c.Was.IsZero(), c.Was.StringFixed(2)), amount(c.Is.IsZero(), c.Is.StringFixed(2)), orDash(c.Unit), orDash(c.Date)))
	}
}
