package window

import (
	"testing"

	"fyne.io/fyne/v2"

	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/geometry/plan"
)

// controls counts what a person may press, type in, choose from or tick.
type controls struct{ buttons, fields, choices, ticks int }

func (c *controls) count(h hands.Hands) {
	c.buttons += len(hands.Every[*form.Button](h))
	c.fields += len(hands.Every[*form.Entry](h))
	c.choices += len(hands.Every[*form.Select](h))
	c.ticks += len(hands.Every[*form.Check](h))
}

// The window of a plain garage, a framed rectangle with one door, has so many controls
// where it opens, beside its plan and on its pages, and so many entries of menus: they
// are counted so that what is added for other jobs adds none to it. Whoever takes one
// away lowers the number; whoever adds one says why a plain garage needs it.
func TestControlsOfAPlainGarage(t *testing.T) {
	exhaustive(t)
	j := hands.Shop()
	j.Slabs[0].Outline[0].Doors = []plan.Door{{Name: "D1", Kind: plan.Overhead, From: 7 * ft, Width: 9 * ft}}
	w := open(t, Options{Job: j, Book: hands.Book(t)})
	got := map[string]controls{}
	add := func(where string, o fyne.CanvasObject) {
		c := got[where]
		c.count(hands.On(t, o))
		got[where] = c
	}
	add("at first", w.win.Content())
	for tab, item := range w.side.tabs.Items {
		w.sideTab(tab)
		add("beside the plan", item.Content)
	}
	w.showPrint()
	add("printing", w.side.sheets[editTab].Scroll)
	for i, p := range w.pages.list {
		if i == planPage {
			continue
		}
		w.pages.turn(i)
		add(p.name, p.root)
	}
	for where, want := range map[string]controls{
		"at first":        {buttons: 27, fields: 3, choices: 3},
		"beside the plan": {buttons: 17, fields: 10, choices: 4, ticks: 1},
		"printing":        {buttons: 4, fields: 1, choices: 3, ticks: 10},
		"Price":           {buttons: 7, fields: 61, choices: 2, ticks: 1},
		"Options":         {buttons: 21, fields: 45},
		"Pour":            {buttons: 6, fields: 16, choices: 4},
		"Job book":        {buttons: 14, fields: 1, choices: 2, ticks: 3},
	} {
		if got[where] != want {
			t.Errorf("%s: %+v, was %+v", where, got[where], want)
		}
	}
	menu := 0
	for _, m := range w.commands.Items {
		for _, i := range m.Items {
			if !i.IsSeparator {
				menu++
			}
		}
	}
	if len(got) != 7 {
		t.Errorf("%d places counted", len(got))
	}
	if n := len(w.pages.list); n != 5 || menu != 60 || len(tools()) != 16 || len(w.side.tabs.Items) != 5 {
		t.Errorf("%d pages, %d entries of menus, %d tools, %d parts beside the plan", n, menu, len(tools()), len(w.side.tabs.Items))
	}
}
