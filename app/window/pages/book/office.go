package book

import (
	"cmp"
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/date"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/hold"
	"haunchbook.example/app/job"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/look"
	"haunchbook.example/app/window/words"
)

// officeName is what that part is called.
const officeName = "Holds and money"

// officePart is what goes on around a job besides the slab. It stands in the job itself,
// so that a change is a step of its history: it is written in the job that is open.
func (p *Page) officePart() (fyne.CanvasObject, func()) {
	f := form.New(p)
	f.Title(officeName)
	if p.elsewhere(f) {
		return f.Box, nil
	}
	f.Buttons(p.opening(visitName))
	p.holds(f)
	p.account(f)
	return f.Box, f.Sync
}

// opening gives a button that turns to a part which has no tab.
func (p *Page) opening(name string) *form.Button {
	return form.Do(name, func() { p.turnTo(name) })
}

// turnTo turns to a part by its name.
func (p *Page) turnTo(name string) {
	p.turn(slices.IndexFunc(p.parts, func(part *part) bool { return part.name == name }))
}

// ofJob gives a list of the open job.
func ofJob[V any](p *Page, of func(*job.Job) *[]V) bind.Items[V] {
	return bind.Items[V]{
		Get: func() []V { j := p.Base(); return *of(&j) },
		Put: func(what string, change func(*[]V)) error {
			return p.Change(what, func(j *job.Job) { change(of(j)) })
		},
	}
}

// rows edits a list of the open job, each thing of it on lines of fields by their rows in
// the table of fields; Enter goes on from field to field.
type rows[V any] struct {
	path   string
	remove string // what is done to remove one
	all    bind.Items[V]
	lines  [][]string
	widths []form.Table
	more   func(i int) fyne.CanvasObject // at the end of the last line; nil for nothing
	show   func()                        // after the rows are up to date; nil for nothing
}

func (r rows[V]) add(p *Page, f *form.Form) {
	list := form.NewList(func() int { return len(r.all.Get()) }, func(i int) (fyne.CanvasObject, func()) {
		get, put := r.all.Item(i)
		box := container.NewVBox()
		var cells []*form.Cells
		for n, names := range r.lines {
			c := form.NewCells(p)
			bind.Of(c, get, put).At(r.path).Emptied().Rows(names...)
			if n == 0 {
				c.Add(form.NewTwice("Remove", "Remove it", form.Act(p, func() error { return r.all.Remove(r.remove, i) })), nil)
			}
			if n == len(r.lines)-1 && r.more != nil {
				c.Add(r.more(i), nil)
			}
			cells = append(cells, c)
			box.Add(c.Row(r.widths[n]))
		}
		box.Add(form.Strut(1, 6))
		return box, func() {
			for _, c := range cells {
				c.Sync()
			}
		}
	})
	head := container.NewVBox()
	for n, names := range r.lines {
		var labels []string
		for _, name := range names {
			labels = append(labels, bind.Row(r.path, name).Label)
		}
		head.Add(r.widths[n].Head(labels...))
	}
	list.Head = head
	f.Add(list.Box, func() {
		list.Sync()
		if r.show != nil {
			r.show()
		}
		f.Box.Refresh() // it grew, or got shorter
		p.scroll.Refresh()
	})
}

// The fields of a day of the forecast.
var (
	forecastLines  = [][]string{{"date", "low", "rain"}}
	forecastWidths = []form.Table{{120, 110, 90, 68}}
)

// forecast edits what is expected of the day of the pour and of those after it.
func (p *Page) forecast(f *form.Form) {
	all := ofJob(p, func(j *job.Job) *[]pour.Forecast { return &j.Pour.Forecast })
	rows[pour.Forecast]{path: "pour.forecast[]", remove: "Remove the day", all: all, lines: forecastLines, widths: forecastWidths}.add(p, f)
	f.Buttons(
		form.Do("Add a forecast day", f.Act(func() error {
			on := cmp.Or(p.Base().Pour.Date, date.On(p.Now()))
			return all.Append("Add a forecast day", pour.Forecast{Date: on.Plus(len(all.Get()))})
		})),
		form.Do("Paste a forecast", f.Act(func() error {
			days, err := pour.ReadForecast(fyne.CurrentApp().Clipboard().Content(), p.Units())
			if err != nil {
				return err
			}
			return all.Put("Paste a forecast", func(is *[]pour.Forecast) { *is = days })
		})),
	)
}

// The fields of a hold, which takes two lines.
var (
	holdLines  = [][]string{{"kind", "name", "number"}, {"asked", "from", "until", "result", "on", "note"}}
	holdWidths = []form.Table{{190, 0, 120, 68}, {98, 98, 98, 92, 98, 0}}
)

// holds edits the day of the pour and what holds it back.
func (p *Page) holds(f *form.Form) {
	bind.Of(f, func() pour.Spec { return p.Base().Pour }, func(what string, change func(*pour.Spec)) error {
		return p.Change(what, func(j *job.Job) { change(&j.Pour) })
	}).At("pour").Rows("date")
	p.forecast(f)
	f.Heading("What holds the pour back")
	all := ofJob(p, func(j *job.Job) *[]hold.Hold { return &j.Holds })
	found := container.NewVBox()
	rows[hold.Hold]{path: "holds[]", remove: "Remove the hold", all: all, lines: holdLines, widths: holdWidths, show: func() {
		form.Refill(found)
		held := handover.Of(handover.From{Job: p.Base()}).Held()
		for _, h := range held {
			if h.Broken() {
				found.Add(form.Signed(look.Caution, form.Weighted(form.Wrapped(h.Text), widget.WarningImportance)))
			} else {
				found.Add(form.Wrapped("• " + h.Text))
			}
		}
		if n := len(all.Get()); n > 0 && hold.Line(held) == "" {
			found.Add(form.Small(fmt.Sprintf("Nothing of %s holds the pour back, as far as it is written down.", words.Plural(n, "record"))))
		}
	}}.add(p, f)
	f.Buttons(form.Do("Add a hold", form.Act(p, func() error { return all.Append("Add a hold", hold.Hold{}) })))
	f.Add(found, nil)
	f.Explain("Told on the order, the page Pour and the first sheet until it is there. Which permits, inspections and locates are asked, and how long a ticket holds, local code and the utility notification center say (in the US call 811). Locates must hold while you dig, too.")
}
