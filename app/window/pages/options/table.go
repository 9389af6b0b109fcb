package options

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
)

func money(o estimate.Outcome, d decimal.Decimal) string {
	return estimate.Money(o.Estimate.Prices.Currency, d)
}

// columns are the labels, what is drawn, and the options. They share the width as if
// all options there may be stood there, so that they stay in place as options come
// and go.
var columns = append(form.Table{128}, make(form.Table, 1+estimate.MaxOptions)...)

// all is the list of options.
func (p *Page) all() bind.Items[estimate.Option] {
	return bind.Items[estimate.Option]{Get: p.options, Put: func(what string, change func(*[]estimate.Option)) error {
		all := p.options()
		return p.frame.ChangePricing(what, func(s *estimate.Spec) {
			s.Options = all
			change(&s.Options)
		})
	}}
}

// build makes the table for n options.
func (p *Page) build(n int) {
	p.syncs = nil
	p.table.RemoveAll()
	p.row(n, "", func() string { return "As drawn" }, func(i int) bind.Text {
		get, put := p.all().Item(i)
		return bind.Text{Get: func() string { return get().Name }, Set: func(s string) error {
			if s = strings.TrimSpace(s); s == "" || len(s) > 60 {
				return fmt.Errorf("give the option a name of up to 60 letters")
			}
			return put("Name an option", func(o *estimate.Option) { o.Name = s })
		}}
	}, "")
	p.pictures(n)
	p.table.Add(p.buttons(n))
	for _, r := range results() {
		p.result(r, n)
	}
	p.result(result{label: field.Frost.Label, text: func(o estimate.Outcome) string {
		switch {
		case p.frame.Frost() == 0:
			return "–"
		case o.Frost:
			return "reached"
		}
		return "! not reached"
	}}, n)
	p.result(result{label: "Limits broken", text: func(o estimate.Outcome) string {
		if o.Broken == 0 {
			return "0"
		}
		return "! " + strconv.Itoa(o.Broken)
	}}, n)
	p.result(result{label: "To know", text: func(o estimate.Outcome) string { return strconv.Itoa(o.Noted) }}, n)
	p.table.Add(form.Rule())
	for _, v := range variables() {
		r := v.row()
		p.row(n, r.Label, func() string { j := p.frame.Base(); return r.Say(v.drawn(j.Slabs, j.Spec), j.Units) }, func(i int) bind.Text {
			get, put := p.all().Item(i)
			return bind.ByRow(r, p.frame.Units, func() any { return v.get(get()) }, func(to any) error {
				o := get()
				if err := field.Set(&o, v.below, to); err != nil {
					return err
				}
				return put(field.Lower(r.Label)+" of "+o.Name, func(at *estimate.Option) { *at = o })
			})
		}, "as drawn")
	}
	p.table.Add(form.Caption(estimate.Checked))
	p.table.Refresh()
}

// row adds a row of fields, one for each option, beside what is drawn.
func (p *Page) row(n int, label string, drawn func() string, field func(i int) bind.Text, hint string) {
	cells := form.NewCells(p.frame)
	cells.Add(form.Figure(label, fyne.TextAlignLeading), nil)
	cells.Figure(fyne.TextAlignTrailing, drawn).TextStyle.Bold = label == ""
	for i := range n {
		f := cells.Field(fmt.Sprintf("Option %d", i+1), field(i))
		f.SetPlaceHolder(hint)
		f.TextStyle.Bold = label == ""
	}
	p.syncs = append(p.syncs, cells.Sync)
	p.table.Add(form.Ruled(cells.Row(columns)))
}

// result adds a row of figures.
func (p *Page) result(r result, n int) {
	os := []fyne.CanvasObject{form.Figure(r.label, fyne.TextAlignLeading)}
	for i := range n + 1 {
		f := form.Figure("", fyne.TextAlignTrailing)
		f.TextStyle.Bold = r.bold
		p.syncs = append(p.syncs, func() {
			text, importance := "…", widget.MediumImportance
			switch {
			case i >= len(p.outcomes):
			case p.outcomes[i].Err != nil:
				text = "–"
			case i == 0 && r.label == differs:
				text = ""
			default:
				text = r.text(p.outcomes[i])
			}
			switch {
			case p.stale():
				importance = widget.LowImportance
			case strings.HasPrefix(text, "!"):
				importance = widget.WarningImportance
			}
			form.Weigh(f, text, importance)
		})
		os = append(os, f)
	}
	p.table.Add(columns.Tight(os...))
}

// pictures adds the row of edge sections, all to one scale.
func (p *Page) pictures(n int) {
	if _, ok := estimate.MainSection(p.frame.Base().Slabs); !ok {
		return
	}
	os := []fyne.CanvasObject{form.Figure("Edge section", fyne.TextAlignLeading)}
	for i := range n + 1 {
		pic := form.NewPicture(p.fonts, fyne.NewSize(60, 96), func(d form.Drawing) { p.drawSection(d, i) })
		p.syncs = append(p.syncs, pic.Refresh)
		os = append(os, pic)
	}
	p.table.Add(columns.Row(os...))
}

// buttons is the row below the names: what to do with an option.
func (p *Page) buttons(n int) fyne.CanvasObject {
	os := []fyne.CanvasObject{form.Strut(1, 1), form.Strut(1, 1)}
	for i := range n {
		use := form.Do("Use this", p.form.Act(func() error { return p.choose(p.options(), i) }))
		remove := form.NewRemove(p.form.Act(func() error { return p.all().Remove("Remove an option", i) }))
		os = append(os, container.NewBorder(nil, nil, nil, remove, use))
	}
	return columns.Row(os...)
}

// sync shows the present values.
func (p *Page) sync() {
	for _, s := range p.syncs {
		s()
	}
	var faults []fyne.CanvasObject
	if p.failed != nil {
		faults = append(faults, form.Grave("! "+p.failed.Error()))
	}
	for _, o := range p.outcomes {
		if o.Err != nil {
			faults = append(faults, form.Grave("! "+o.Name+" cannot be built: "+o.Err.Error()))
		}
	}
	form.Refill(p.faults, faults...)
}
