package book

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/language"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/words"
	"haunchbook.example/export/sheet"
	"haunchbook.example/geometry"
)

// listOf gives a list of the record.
func listOf[V any](r bind.Fields[actual.Record], of func(*actual.Record) *[]V) bind.Items[V] {
	return bind.Items[V]{
		Get: func() []V { is := r.Get(); return *of(&is) },
		Put: func(what string, change func(*[]V)) error {
			return r.Put(what, func(r *actual.Record) {
				l := of(r)
				*l = slices.Clone(*l)
				change(l)
			})
		},
	}
}

// inUnits is the window, with the units of the job that is looked at.
type inUnits struct {
	form.Desk
	units geometry.Units
}

// Units gives the units of lengths that are typed.
func (d inUnits) Units() geometry.Units { return d.units }

// The fields of a load, which takes two lines.
var (
	loadAbove, loadBelow     = []string{"ticket", "volume", "batched", "arrived", "started", "emptied"}, []string{"temperature", "slump", "air", "water", "bay", "rejected"}
	aboveWidths, belowWidths = form.Table{22, 0, 78, 78, 78, 78, 78, 68}, form.Table{22, 0, 78, 78, 78, 78, 150}
)

// loads edits the loads that came and the cylinders made of them; of a record without any
// it shows one button. Enter goes on from field to field.
func (p *Page) loads(f *form.Form, r bind.Fields[actual.Record], h *handover.Handover) {
	desk := inUnits{p, p.Units()}
	if h != nil {
		desk.units = h.Units()
	}
	var all bind.Items[actual.Load]
	var cylinders bind.Items[actual.Cylinders]
	var rows, sets *form.List
	title, found := form.Bold("Loads"), container.NewVBox()
	add := form.Do("Add a load", nil)
	more := container.NewVBox()
	show := func() {
		rows.Sync()
		sets.Sync()
		n := len(all.Get())
		form.Seen(title, n > 0)
		form.Seen(more, n > 0 && h != nil)
		form.Refill(found)
		defer func() { // it grew, or got shorter
			f.Box.Refresh()
			p.scroll.Refresh()
		}()
		if n == 0 || h == nil {
			return
		}
		if a, err := h.After(context.Background(), r.Get()); err == nil {
			for _, f := range a.Findings {
				found.Add(form.Small("! " + f.Said()))
			}
			found.Add(form.Small(fmt.Sprintf("The loads that were not sent back come to %s %s.", a.Record.Came(), a.Unit)))
		}
	}
	put := r.Put
	r.Put = func(what string, change func(*actual.Record)) error {
		err := put(what, change)
		show()
		return err
	}
	all = listOf(r, func(r *actual.Record) *[]actual.Load { return &r.Loads })
	cylinders = listOf(r, func(r *actual.Record) *[]actual.Cylinders { return &r.Cylinders })
	rows = form.NewList(func() int { return len(all.Get()) }, func(i int) (fyne.CanvasObject, func()) {
		get, put := all.Item(i)
		above, below := form.NewCells(desk), form.NewCells(desk)
		above.Add(form.Figure(strconv.Itoa(i+1), fyne.TextAlignTrailing), nil)
		bind.Of(above, get, put).At("record.loads[]").Emptied().Rows(loadAbove...)
		above.Add(form.NewTwice("Remove", "Remove it", form.Act(p, func() error { return all.Remove("Remove the load", i) })), nil)
		below.Add(form.Strut(1, 1), nil)
		bind.Of(below, get, put).At("record.loads[]").Emptied().Rows(loadBelow...)
		return container.NewVBox(above.Row(aboveWidths), below.Row(belowWidths), form.Strut(1, 6)), func() {
			above.Sync()
			below.Sync()
		}
	})
	rows.Head = container.NewVBox(loadHead(aboveWidths, loadAbove), loadHead(belowWidths, loadBelow[:5]))
	table := form.Table{0, 120, 120, 70}
	sets = form.NewList(func() int { return len(cylinders.Get()) }, func(i int) (fyne.CanvasObject, func()) {
		get, put := cylinders.Item(i)
		cells := form.NewCells(desk)
		bind.Of(cells, get, put).At("record.cylinders[]").Emptied().Rows("ticket", "days7", "days28")
		cells.Add(form.Do("Remove", form.Act(p, func() error { return cylinders.Remove("Remove the cylinders", i) })).Faint(), nil)
		return cells.Row(table), cells.Sync
	})
	sets.Head = table.Head("Cylinders of ticket", "After 7 days", "After 28 days", "")
	add.OnTapped = form.Act(p, func() error { return all.Append("Add a load", actual.Load{}) })
	more.Objects = []fyne.CanvasObject{sets.Box, container.NewHBox(
		form.Do("Add cylinders", form.Act(p, func() error {
			loads := all.Get()
			return cylinders.Append("Add cylinders", actual.Cylinders{Ticket: cmp.Or(loads[len(loads)-1].Ticket, "1")})
		})),
		form.Do("Page to file…", func() {
			p.save("record.pdf", func(w io.Writer) error {
				return sheet.WriteRecord(context.Background(), w, h, r.Get(), p.recordOptions())
			})
		}),
		form.Do("Loads as CSV…", func() {
			p.save("loads.csv", func(w io.Writer) error {
				return sheet.WriteLoads(context.Background(), w, h, r.Get(), p.recordOptions())
			})
		}),
	)}
	f.Add(container.NewVBox(title, rows.Box, container.NewHBox(add), found, more), show)
}

func loadHead(t form.Table, names []string) fyne.CanvasObject {
	cells := []string{""}
	for _, n := range names {
		cells = append(cells, bind.Row("record.loads[]", n).Label)
	}
	return t.Head(cells...)
}

func (p *Page) recordOptions() sheet.Options {
	set, err := p.shelf.Settings()
	p.say(err)
	return sheet.Options{Date: p.Now(), Company: sheet.Company{Name: set.Company.Name}, Languages: []language.Language{words.Spoken()}}
}
