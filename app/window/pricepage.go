package window

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
)

// pricePage is what the job costs, line by line, and the bid.
type pricePage struct {
	w        *Window
	estimate estimate.Estimate
	ready    bool

	state  *widget.Label
	lines  *fyne.Container
	rows   []*priceRow
	keys   string
	open   map[string]bool
	whole  *wholeList
	totals *totals
	form   *pageForm
	wants  *fyne.Container
	wanted string
	root   fyne.CanvasObject
}

func newPricePage(w *Window) pageView {
	p := &pricePage{w: w, open: map[string]bool{}, lines: container.NewVBox(), wants: container.NewVBox(), state: widget.NewLabel("")}
	p.state.Wrapping = fyne.TextWrapWord
	p.whole = newWholeList(w)
	p.totals = newTotals(w)
	p.form = p.fields()
	p.root = twoParts(
		container.NewVBox(p.state, p.lines, divider(), p.whole.box),
		container.NewVBox(p.totals.box, p.wants, p.form.box),
		340)
	return p
}

func (p *pricePage) object() fyne.CanvasObject { return p.root }

// show prices the job as it is now.
func (p *pricePage) show() {
	t, stale := p.w.doc.Takeoff()
	p.ready = t != nil && !p.w.doc.Blank()
	say := ""
	switch {
	case p.w.doc.Blank():
		say = "Draw an outline first: then the job is priced here."
	case t == nil:
		say = "! No figures yet: see Checks beside the plan."
	case len(p.w.doc.Faults()) > 0:
		say = "! As of the last sound plan: see Checks beside the plan."
	}
	set(p.state, say)
	if say == "" {
		p.state.Hide()
	} else {
		p.state.Show()
	}
	p.form.sync()
	p.whole.sync()
	if !p.ready {
		p.keys = ""
		p.rows = nil
		p.lines.RemoveAll()
		p.totals.box.Hide()
		p.wants.Hide()
		return
	}
	p.totals.box.Show()
	p.wants.Show()
	j := p.w.doc.Job()
	if stale && p.keys != "" && t.Units != j.Units {
		return // the takeoff in the new units is under way
	}
	p.estimate = estimate.Of(*t, j.Price, p.w.prices())
	p.fill()
	p.totals.show(p.estimate)
	p.showWants()
}

// fill sets the rows; they are made anew only when there are others.
func (p *pricePage) fill() {
	e := p.estimate
	var keys strings.Builder
	for _, l := range e.Lines {
		fmt.Fprintln(&keys, l.Kind, l.ID, l.Name, l.Unit)
	}
	if keys.String() != p.keys {
		p.keys = keys.String()
		p.rows = nil
		p.lines.RemoveAll()
		head := ""
		for i, l := range e.Lines {
			if h := headingOf(l); h != head {
				head = h
				p.lines.Add(headings(headingsOf(l), priceColumns()))
			}
			r := newPriceRow(p, i)
			p.rows = append(p.rows, r)
			p.lines.Add(r.box)
		}
	}
	for i, r := range p.rows {
		r.show(e.Lines[i])
	}
}

func headingOf(l estimate.Line) string {
	if l.Kind == estimate.Material && !l.ID.IsZero() {
		return string(l.Group)
	}
	switch l.Kind {
	case estimate.Labor:
		return "Labor"
	case estimate.Charge, estimate.Equipment:
		return "Fees and equipment"
	}
	return "Extras of this job"
}

func headingsOf(l estimate.Line) []string {
	h := headingOf(l)
	if l.Kind == estimate.Labor {
		return []string{h, "Rate", "", ">Amount"}
	}
	return []string{h, "Price", "per", ">Amount"}
}

func priceColumns() *columns { return &columns{widths: []float32{0, 84, 136, 92}, gap: 4} }

// showWants lists what stands between this and a bid.
func (p *pricePage) showWants() {
	text := fmt.Sprint(p.estimate.Wants)
	if text == p.wanted {
		return
	}
	p.wanted = text
	p.wants.RemoveAll()
	if p.estimate.Ready() {
		l := widget.NewLabel("Every line has a price of your own.")
		l.Importance = widget.SuccessImportance
		l.Wrapping = fyne.TextWrapWord
		p.wants.Add(l)
		return
	}
	for _, want := range p.estimate.Wants {
		l := widget.NewLabel("! " + want.Text)
		l.Importance = widget.WarningImportance
		l.Wrapping = fyne.TextWrapWord
		l.SizeName = theme.SizeNameCaptionText
		p.wants.Add(l)
	}
	unfit := func(o takeoff.ID) bool { return o.Kind == takeoff.Unknown }
	if slices.ContainsFunc(p.w.doc.Job().Price.Others, unfit) {
		p.wants.Add(newPageButton(p.w, "Remove what others supply and nothing fits", func() {
			p.report(p.w.changePricing("Remove what others supply and nothing fits", func(s *estimate.Spec) {
				s.Others = slices.DeleteFunc(s.Others, unfit)
			}))
		}))
	}
}

// totals is the way from cost to bid, a row for each step, each opening how it
// was computed.
type totals struct {
	w     *Window
	box   *fyne.Container
	rows  []*lineRow
	notes []*fyne.Container
	open  map[int]bool
	steps []takeoff.Step
	bid   *widget.Label
}

func newTotals(w *Window) *totals {
	t := &totals{w: w, box: container.NewVBox(), open: map[int]bool{}}
	head := widget.NewLabelWithStyle("Bid", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	head.SizeName = theme.SizeNameSubHeadingText
	t.bid = widget.NewLabelWithStyle("", fyne.TextAlignTrailing, fyne.TextStyle{Bold: true})
	t.bid.SizeName = theme.SizeNameHeadingText
	t.box.Add(container.NewBorder(nil, nil, head, t.bid))
	return t
}

func (t *totals) show(e estimate.Estimate) {
	text := money(e, e.Bid)
	if e.Prices.Invented {
		text += " *"
	}
	set(t.bid, text)
	t.steps = append(t.steps[:0], e.Working...)
	t.steps = append(t.steps, takeoff.Step{
		Text: "Labor hours", Work: fmt.Sprintf("%s h of one person, %s h with %d at work, who cost %s an hour together", e.Hours, e.CrewHours, e.Prices.Crew, money(e, e.Prices.Wage.Mul(decimal.NewFromInt(int64(e.Prices.Crew))))), Result: e.Hours.String() + " h",
	})
	for len(t.rows) < len(t.steps) {
		i := len(t.rows)
		note := container.NewVBox()
		note.Hide()
		var r *lineRow
		r = newLineRow(t.w, func() {
			t.open[i] = !t.open[i]
			r.open = t.open[i]
			r.Refresh()
			t.fill(i)
		})
		t.rows, t.notes = append(t.rows, r), append(t.notes, note)
		t.box.Add(container.NewVBox(r, note))
	}
	for i, s := range t.steps {
		result := s.Result
		if d, err := decimal.NewFromString(strings.TrimPrefix(result, e.Prices.Currency)); err == nil {
			result = money(e, d)
		}
		t.rows[i].set(s.Text, result, false)
		t.fill(i)
	}
}

func (t *totals) fill(i int) {
	n := t.notes[i]
	if !t.open[i] {
		n.Hide()
		return
	}
	n.RemoveAll()
	n.Add(caption(t.steps[i].Work+" = "+t.steps[i].Result, false))
	n.Show()
}

// fields is the form beside the lines.
func (p *pricePage) fields() *pageForm {
	w := p.w
	f := newPageForm(w)
	spec := func() estimate.Spec { return w.doc.Base().Price }
	percent := func(label string, at func(*estimate.Spec) *decimal.Decimal) {
		f.text(label, func() string { s := spec(); return at(&s).String() }, amountSetter(func(d decimal.Decimal) error {
			return w.changePricing("Set "+strings.ToLower(label), func(s *estimate.Spec) { *at(s) = d })
		}))
	}
	f.heading("From cost to bid")
	percent("Overhead, % of cost", func(s *estimate.Spec) *decimal.Decimal { return &s.Overhead })
	percent("Profit, %", func(s *estimate.Spec) *decimal.Decimal { return &s.Profit })
	const markup, margin = "markup: % of cost", "margin: % of price"
	f.choice("Profit as", []string{markup, margin}, func() string {
		if spec().ProfitAs == estimate.Margin {
			return margin
		}
		return markup
	}, func(v string) {
		as := estimate.Markup
		if v == margin {
			as = estimate.Margin
		}
		p.report(w.changePricing("Profit as "+as.String(), func(s *estimate.Spec) { s.ProfitAs = as }))
	})
	percent("Sales tax, %", func(s *estimate.Spec) *decimal.Decimal { return &s.Tax })
	f.choice("Tax on", []string{"materials", "all", "none"}, func() string { return spec().TaxOn.String() }, func(v string) {
		var on estimate.TaxOn
		if on.UnmarshalText([]byte(v)) == nil {
			p.report(w.changePricing("Tax on "+v, func(s *estimate.Spec) { s.TaxOn = on }))
		}
	})
	percent("Mobilization", func(s *estimate.Spec) *decimal.Decimal { return &s.Mobilization })

	f.heading("Labor")
	f.text("Wage per hour", func() string { return w.prices().Wage.StringFixed(2) }, amountSetter(func(d decimal.Decimal) error {
		return w.changePrices("Set the wage", func(l *estimate.PriceList) { l.Wage = d })
	}))
	f.text("Crew", func() string { return strconv.Itoa(w.prices().Crew) }, func(s string) error {
		n, err := strconv.Atoi(strings.TrimSpace(s))
		if err != nil || n < 1 || n > 100 {
			return fmt.Errorf("found %q; write the number of people, 1 to 100", s)
		}
		return w.changePrices("Set the crew", func(l *estimate.PriceList) { l.Crew = n })
	})
	f.note("The wage is what an hour costs you: with taxes and insurance.")

	f.heading("Extras of this job")
	f.add(extras(w))

	f.heading("On the bid")
	terms := func(label string, at func(*estimate.Terms) *string) {
		f.text(label, func() string { s := spec(); return *at(&s.Terms) }, func(v string) error {
			return w.changePricing("Set "+strings.ToLower(label), func(s *estimate.Spec) { *at(&s.Terms) = strings.TrimSpace(v) })
		})
	}
	list := func(label string, at func(*estimate.Terms) *[]string) {
		f.text(label, func() string { s := spec(); return strings.Join(*at(&s.Terms), "; ") }, func(v string) error {
			return w.changePricing("Set what is "+strings.ToLower(label), func(s *estimate.Spec) {
				items := []string{}
				for _, it := range strings.Split(v, ";") {
					if it = strings.TrimSpace(it); it != "" {
						items = append(items, it)
					}
				}
				*at(&s.Terms) = items
			})
		})
	}
	list("Also included", func(t *estimate.Terms) *[]string { return &t.Included })
	list("Not included", func(t *estimate.Terms) *[]string { return &t.Excluded })
	f.text("Good for, days", func() string { return strconv.Itoa(spec().Terms.Days) }, func(v string) error {
		n, err := strconv.Atoi(strings.TrimSpace(v))
		if err != nil {
			return fmt.Errorf("found %q; write a number of days, 0 for a blank", v)
		}
		return w.changePricing("Set how long the bid is good", func(s *estimate.Spec) { s.Terms.Days = n })
	})
	terms("Payment terms", func(t *estimate.Terms) *string { return &t.Payment })
	terms("Start of work", func(t *estimate.Terms) *string { return &t.Start })
	terms("Finished by", func(t *estimate.Terms) *string { return &t.Finish })
	f.note("Items with ; between them. What is empty is a blank line on the bid, to fill in by hand.")

	f.heading("Price list")
	f.text("Name", func() string { return w.prices().Name }, func(s string) error {
		return w.changePrices("Name the price list", func(l *estimate.PriceList) { l.Name = strings.TrimSpace(s) })
	})
	f.text("Date", func() string { return w.prices().Date }, func(s string) error {
		return w.changePrices("Date the price list", func(l *estimate.PriceList) { l.Date = strings.TrimSpace(s) })
	})
	f.text("Sign", func() string { return w.prices().Currency }, func(s string) error {
		if s = strings.TrimSpace(s); len([]rune(s)) > 4 || strings.ContainsAny(s, "0123456789.,-") {
			return fmt.Errorf("found %q; write a sign such as $", s)
		}
		return w.changePrices("Set the sign of amounts", func(l *estimate.PriceList) { l.Currency = s })
	})
	f.check("These prices are my own", func() bool { return !w.prices().Invented }, func(v bool) {
		p.report(w.changePrices("Mark the price list", func(l *estimate.PriceList) {
			l.Invented = !v
			if v && strings.Contains(l.Name, "invented") {
				l.Name = "My prices"
			}
		}))
	})
	f.note("The starting prices and rates are invented. Put in your own, then tick the box: until then what comes out is no bid. The job keeps the list it was priced with.")
	f.add(container.NewVBox(
		newPageButton(w, "Use this list for new jobs", w.keepPrices),
		newPageButton(w, "Price with the list for new jobs", func() {
			p.report(w.changePricing("Price with the list for new jobs", func(s *estimate.Spec) { s.Prices = estimate.PriceList{} }))
		}),
		newPageButton(w, "Price with the starting list", func() {
			p.report(w.changePricing("Price with the starting list", func(s *estimate.Spec) { s.Prices = estimate.Starting(w.doc.Units()) }))
		}),
	), nil)
	return f
}

// report says an error that belongs to no field.
func (p *pricePage) report(err error) {
	if err != nil {
		p.w.say(err.Error())
	}
}
