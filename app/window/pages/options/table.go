package options

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/look"
	"haunchbook.example/app/window/words"
)

func money(o estimate.Outcome, d decimal.Decimal) string {
	return words.Money(o.Estimate.Prices.Currency, d)
}

// columns are the labels, what is drawn, and the options. They share the width as if
// all options there may be stood there, so that they stay in place as options come
// and go.
var columns = append(form.Table{128}, make(form.Table, 1+estimate.MaxOptions)...)

// all is the list of options.
func (p *Page) all() bind.Items[estimate.Option] {
	return bind.Items[estimate.Option]{Get: p.options, Put: func(what string, change func(*[]estimate.Option)) error {
		return p.frame.ChangePricing(what, func(s *estimate.Spec) { change(&s.Options) })
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
	p.table.Add(p.buttons(n))
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
	p.table.Add(form.Rule())
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
	p.result(result{label: "Findings", text: func(o estimate.Outcome) string {
		if o.Broken == 0 {
			return o.Findings()
		}
		return "! " + o.Findings()
	}}, n)
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
	p.table.Add(cells.Row(columns))
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
			case i == 0 && r.label == "Difference":
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

// buttons is the row below the names: what to do with an option.
func (p *Page) buttons(n int) fyne.CanvasObject {
	os := []fyne.CanvasObject{form.Strut(1, 1), form.Strut(1, 1)}
	for i := range n {
		use := form.Do("Use this", p.form.Act(func() error { return p.choose(i) }))
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

// The chart's bars, from zero, one below the other.
const (
	barHeight = 22
	barPitch  = 32
	barTop    = 30
)

func chartSize(bars int) fyne.Size {
	return fyne.NewSize(320, barTop+barPitch*float32(max(1, bars))+12)
}

// draw draws the chart: the first bar is what the others are measured against.
func (p *Page) draw(c *form.Chart) {
	all := results()
	r := all[max(0, slices.IndexFunc(all, func(r result) bool { return r.label == p.measure }))]
	c.Write(form.Label(p.measure, true), fyne.NewPos(0, 2))
	value := func(o estimate.Outcome) (v float64, text string) {
		if o.Err != nil {
			return 0, "cannot be built"
		}
		return max(0, r.value(o)), r.text(o)
	}
	most, names, ends := 0.0, float32(0), float32(0)
	for i, o := range p.outcomes {
		v, text := value(o)
		most = max(most, v)
		names, ends = max(names, form.Label(o.Name, i == 0).MinSize().Width), max(ends, form.Label(text, false).MinSize().Width)
	}
	left := min(names, c.Size().Width*0.35) + 8
	room := max(20, c.Size().Width-left-ends-12)
	foot := barTop + barPitch*float32(len(p.outcomes))
	faint, accent := look.Shade(theme.ColorNamePlaceHolder), look.Shade(theme.ColorNamePrimary)
	mark := func(x float32) { c.Line(fyne.NewPos(x, barTop-4), fyne.NewPos(x, foot), 1, faint) }
	length := func(v float64) float32 { return room * float32(v/max(most, 1e-9)) }
	mark(left)
	for i, o := range p.outcomes {
		v, text := value(o)
		if i == 0 {
			mark(left + length(v))
		}
		y, w := barTop+barPitch*float32(i), length(v)
		name, end := form.Label("", i == 0), form.Label(text, false)
		form.Shorten(name, o.Name, left-8)
		down := (barHeight - end.MinSize().Height) / 2
		c.Write(name, fyne.NewPos(0, y+down))
		// What is drawn is solid; options are an outline over a tint.
		fill := look.Shade(theme.ColorNameSelection)
		if i == 0 {
			fill = accent
		}
		c.Bar(fyne.NewPos(left, y), fyne.NewSize(w, barHeight), fill, accent)
		// The mark does not strike the figure through.
		c.Bar(fyne.NewPos(left+w+2, y), fyne.NewSize(end.MinSize().Width+8, barHeight), look.Shade(theme.ColorNameBackground), nil)
		c.Write(end, fyne.NewPos(left+w+6, y+down))
	}
}
