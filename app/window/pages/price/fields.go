package price

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
)

// fields is the form beside the lines.
func (p *Page) fields() *form.Form {
	f := form.New(p.frame)
	s := p.pricing(f)
	list := p.list(f)
	f.Heading("From cost to bid")
	s.Rows("overhead", "profit", "profitas", "tax", "taxon", "mobilization")

	f.Heading("Labor")
	list.Asking(func(l estimate.PriceList) string { return estimate.Doubt(l.Wage, p.startingList().Wage) }).Rows("wage")
	list.Rows("crew")
	f.Explain("The wage is what an hour costs you: with taxes and insurance.")

	f.Heading("Extras of this job")
	f.Add(p.extras(f))

	f.Heading("On the bid")
	items := func(below string, at func(*estimate.Terms) *[]string) {
		label := s.Label(below)
		f.Text(label, bind.Text{Get: func() string { s := s.Get(); return strings.Join(*at(&s.Terms), "; ") }, Set: func(v string) error {
			return s.Put("what is "+lower(label), func(s *estimate.Spec) { *at(&s.Terms) = parts(v) })
		}})
	}
	items("terms.included", func(t *estimate.Terms) *[]string { return &t.Included })
	items("terms.excluded", func(t *estimate.Terms) *[]string { return &t.Excluded })
	s.Rows("terms.days", "terms.payment", "terms.start", "terms.finish")
	f.Explain("Items with ; between them. What is empty is a blank line on the bid, to fill in by hand.")
	more := form.NewFold(p.open, func() string { return "more terms" }, p.moreTerms)
	more.Show("More for the bid", "markups, least charge, payments, alternates, notices", true)
	f.Add(more.Box, more.Sync)

	f.Heading("Price list")
	list.Rows("name", "date", "days")
	f.Text(list.Label("currency"), bind.Text{Get: func() string { return p.frame.Prices().Currency }, Set: func(v string) error {
		if v = strings.TrimSpace(v); len([]rune(v)) > 4 || strings.ContainsAny(v, "0123456789.,-") {
			return fmt.Errorf("found %q; write a sign such as $", v)
		}
		return list.Put("the sign of amounts", func(l *estimate.PriceList) { l.Currency = v })
	}})
	f.Check("These prices are my own", func() bool { return !p.frame.Prices().Invented }, p.own)
	f.Explain("The starting prices and rates are invented. Put in your own, then tick the box: until then what comes out is no bid. The job keeps the list it was priced with.")
	with := func(what string, get func() estimate.PriceList) *form.Button {
		return form.Do(what, f.Act(func() error {
			return p.frame.ChangePricing(what, func(s *estimate.Spec) { s.Prices = get() })
		}))
	}
	f.Add(container.NewVBox(
		p.importing(),
		form.Do("Use this list for new jobs", p.frame.KeepPrices),
		with("Price with the list for new jobs", func() estimate.PriceList { return estimate.PriceList{} }),
		with("Price with the starting list", func() estimate.PriceList { return estimate.Starting(p.frame.Units()) }),
	), nil)
	return f
}

// moreTerms are the terms that many a bid does without.
func (p *Page) moreTerms(below *fyne.Container) (sync func()) {
	f := form.New(p.frame)
	s := p.pricing(f)
	s.Rows("markupmaterials", "markuplabor", "markupfees", "least", "round")
	p.list(f).Rows("crewday")
	s.Label("terms.steps") // its hint
	f.Text("Payment steps", bind.Text{Get: func() string { return stepsText(s.Get().Terms.Steps) }, Set: func(v string) error {
		steps, err := readSteps(v)
		if err != nil {
			return err
		}
		return s.Put("payment steps", func(s *estimate.Spec) { s.Terms.Steps = steps })
	}})
	s.Rows("terms.taxshown", "terms.alternates", "terms.extraconcrete", "terms.extradepth", "terms.concealed", "terms.notices")
	f.Explain("The law differs from place to place, on what a bid must say and on how much a deposit may be: ask what yours asks for.")
	below.Add(f.Box)
	return f.Sync
}

// stepsText writes payments as they are typed: "30 on signing; 70 when it is done".
func stepsText(steps []estimate.Step) string {
	var parts []string
	for _, s := range steps {
		parts = append(parts, s.Percent.String()+" "+s.When)
	}
	return strings.Join(parts, "; ")
}

func readSteps(text string) ([]estimate.Step, error) {
	var out []estimate.Step
	sum := decimalOf(0)
	for _, part := range parts(text) {
		number, when, _ := strings.Cut(part, " ")
		d, err := bind.ReadAmount(strings.TrimSuffix(number, "%"))
		when = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(when), "%"))
		if err != nil || when == "" || !d.IsPositive() {
			return nil, fmt.Errorf("found %q; write how many percent, and when: 30 on signing; 70 when it is done", part)
		}
		out, sum = append(out, estimate.Step{When: when, Percent: d}), sum.Add(d)
	}
	if len(out) > 0 && !sum.Equal(decimalOf(100)) {
		return nil, fmt.Errorf("found %s %% in all; the steps must add up to 100", sum)
	}
	return out, nil
}

// pricing is how the job is priced.
func (p *Page) pricing(in bind.Holder) bind.Fields[estimate.Spec] {
	return bind.Of(in, func() estimate.Spec { return p.frame.Base().Price }, func(what string, change func(*estimate.Spec)) error {
		return p.frame.ChangePricing("Set "+lower(what), change)
	}).At("price")
}

// list is the price list.
func (p *Page) list(in bind.Holder) bind.Fields[estimate.PriceList] {
	return bind.Of(in, p.frame.Prices, func(what string, change func(*estimate.PriceList)) error {
		return p.frame.ChangePrices("Set "+lower(what), change)
	}).At("price.prices")
}

func lower(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// parts gives the items of a text with ; between them.
func parts(text string) []string {
	out := []string{}
	for _, it := range strings.Split(text, ";") {
		if it = strings.TrimSpace(it); it != "" {
			out = append(out, it)
		}
	}
	return out
}

// extras edits the amounts that this job has besides.
func (p *Page) extras(f *form.Form) (fyne.CanvasObject, func()) {
	all := bind.Items[estimate.Extra]{
		Get: func() []estimate.Extra { return p.frame.Base().Price.Extras },
		Put: func(what string, change func(*[]estimate.Extra)) error {
			return p.frame.ChangePricing(what, func(s *estimate.Spec) { change(&s.Extras) })
		},
	}
	rows := form.NewList(func() int { return len(all.Get()) }, func(i int) (fyne.CanvasObject, func()) {
		get, put := all.Item(i)
		cells, below := form.NewCells(p.frame), form.New(p.frame)
		named := func(what string, change func(*estimate.Extra)) error { return put(what+" of "+get().Name, change) }
		x := bind.Of(cells, get, named).At("price.extras[]")
		x.Name(x.Label("name"), func(x *estimate.Extra) *string { return &x.Name }, "write what it is")
		x.Rows("amount")
		bind.Of(below, get, named).At("price.extras[]").Rows("material", "allowance", "hidden")
		remove := form.Do("Remove", f.Act(func() error { return all.Remove("Remove "+get().Name, i) })).Faint()
		return cells.Row(form.Table{0, 90}, container.NewBorder(nil, nil, nil, remove, below.Box)), func() { cells.Sync(); below.Sync() }
	})
	add := form.Do("Add an extra", f.Act(func() error {
		return all.Append("Add an extra", estimate.Extra{Name: fmt.Sprintf("Extra %d", len(all.Get())+1)})
	}))
	return container.NewVBox(rows.Box, add), rows.Sync
}
