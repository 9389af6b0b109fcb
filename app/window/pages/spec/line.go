package spec

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
)

// line is a field with what there is to say below it.
type line struct {
	g    *group
	row  *field.Row
	form *form.Form
	box  *fyne.Container

	unused fyne.CanvasObject
	usual  *fyne.Container // what is usual instead
	said   string          // of that
}

func newLine(g *group, r *field.Row) *line {
	l := &line{g: g, row: r, form: form.New(g.panel.frame)}
	l.unused = form.Caption("Not used as the job is.")
	l.usual = container.NewVBox()
	if r.Kind == field.List {
		g.panel.rows(l.form)
	} else {
		g.panel.fields(l.form).Rows(below(r))
	}
	l.box = container.NewVBox(l.form.Box, l.unused, l.usual)
	return l
}

// sync shows the field as it is, if it is to be seen.
func (l *line) sync() {
	p := l.g.panel
	on := p.wanted(l.g, l.row)
	form.Seen(l.box, on)
	if !on {
		return
	}
	l.form.Sync()
	form.Seen(l.unused, !p.used(l.row))
	differs := p.differs && l.row.Kind != field.List
	form.Seen(l.usual, differs)
	if said := l.row.Say(l.row.Of(p.usual, below(l.row)), p.frame.Units()); differs && said != l.said {
		l.said = said
		l.offer(said)
	}
}

// offer says what is usual, to go back to it or to make what is here the usual.
func (l *line) offer(said string) {
	p, b := l.g.panel, below(l.row)
	take := form.Do("Back to it", l.form.Act(func() error {
		usual := l.row.Of(p.frame.Usual(), b)
		return p.frame.Change("Set "+field.Lower(l.row.Label), func(j *job.Job) { _ = field.Set(&j.Spec, b, usual) }) // it is a value of that field
	})).Faint()
	keep := form.Do("Make this my usual", l.form.Act(func() error {
		is := l.row.Of(p.frame.Job().Spec, b)
		err := p.frame.MakeUsual(func(s *takeoff.Spec) { _ = field.Set(s, b, is) })
		p.sync()
		return err
	})).Faint()
	form.Refill(l.usual, form.Caption("Usual: "+said), container.NewGridWithColumns(2, take, keep))
}

// rows adds the continuous bars of the edges, one after the other.
func (p *Panel) rows(f *form.Form) {
	all := bind.Items[bars.Row]{
		Get: func() []bars.Row { return p.frame.Job().Spec.Place.Bars.Rows },
		Put: func(what string, change func(*[]bars.Row)) error {
			return p.frame.Change(what, func(j *job.Job) { change(&j.Spec.Place.Bars.Rows) })
		},
	}
	list := form.NewList(func() int { return len(all.Get()) }, func(i int) (fyne.CanvasObject, func()) {
		r := form.New(p.frame)
		p.bar(r, all, i)
		return r.Box, r.Sync
	})
	list.None = form.Caption("No bars round the edge.")
	f.Add(list.Box, list.Sync)
	f.Buttons(form.Do("Add a bar round the edge", f.Act(func() error {
		r := bars.Row{Face: 3 * geometry.Inch, Bottom: 3 * geometry.Inch} // cover against earth
		if rows := all.Get(); len(rows) > 0 {
			last := rows[len(rows)-1]
			r.Face, r.Size = last.Face, last.Size
		}
		return all.Append("Add an edge bar", r)
	})))
}

// bar adds the fields of one of them.
func (p *Panel) bar(f *form.Form, all bind.Items[bars.Row], i int) {
	name := fmt.Sprintf("edge bar %d", i+1)
	get, put := all.Item(i)
	of := func(in bind.Holder) bind.Fields[bars.Row] {
		return bind.Of(in, get, func(what string, change func(*bars.Row)) error {
			return put(field.Lower(what)+" of "+name, change)
		}).At("spec.place.bars.rows[]")
	}
	f.Heading(fmt.Sprintf("Bar %d round the edge", i+1))
	of(f).Rows("face")
	// One of the two rules; the other is 0.
	bind.OneOf(f, field.CoverOf.Label, []string{field.CoverOf.Names[0].Words, field.CoverOf.Names[1].Words}, []bool{false, true}, func() bool { return get().Top > 0 }, func(top bool) error {
		return put("Side of "+name, func(r *bars.Row) {
			cover := max(r.Bottom, r.Top)
			r.Bottom, r.Top = cover, 0
			if top {
				r.Bottom, r.Top = 0, cover
			}
		})
	})
	for _, top := range []bool{false, true} {
		one := form.New(p.frame)
		of(one).Rows(map[bool]string{false: "bottom", true: "top"}[top])
		f.Add(one.Box, func() {
			form.Seen(one.Box, get().Top > 0 == top)
			one.Sync()
		})
	}
	of(f).Rows("size")
	f.Buttons(form.Do("Remove this bar", f.Act(func() error { return all.Remove("Remove an edge bar", i) })))
}
