// Package price has the page of what the job costs, line by line, and of the bid.
package price

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Frame is what the page needs of the window.
type Frame interface {
	form.Desk
	Base() job.Job
	Job() job.Job
	Blank() bool
	Faults() plan.Faults
	Takeoff() (t *takeoff.Takeoff, stale bool)
	Handover() (h *handover.Handover, stale bool)
	Prices() estimate.PriceList
	ChangePrices(label string, change func(*estimate.PriceList)) error
	ChangePricing(label string, change func(*estimate.Spec)) error
	KeepPrices() // makes the job's list the one for new jobs
	Today() string
	Now() time.Time
	Window() fyne.Window
}

// Page is the page.
type Page struct {
	frame    Frame
	root     fyne.CanvasObject
	estimate estimate.Estimate

	state  *widget.Label
	asked  *fyne.Container // what is to be answered first
	lines  *fyne.Container
	rows   []*row
	keys   string
	open   form.Open
	whole  *wholeList
	totals *totals
	form   *form.Form
	wants  *fyne.Container
	wanted string
	quotes []estimate.Quote // that are looked at

	starting map[geometry.Units]estimate.PriceList // as they were asked for
}

// startingList gives the built-in list, which prices are held against.
func (p *Page) startingList() estimate.PriceList {
	u := p.frame.Units()
	l, ok := p.starting[u]
	if !ok {
		l = estimate.Starting(u)
		p.starting[u] = l
	}
	return l
}

// New gives the page.
func New(f Frame) *Page {
	p := &Page{frame: f, open: form.Open{}, lines: container.NewVBox(), wants: container.NewVBox(), asked: container.NewVBox(), state: form.Wrapped(""), starting: map[geometry.Units]estimate.PriceList{}}
	p.whole = newWholeList(p)
	p.totals = newTotals()
	p.form = p.fields()
	p.root = form.Halves(
		container.NewVBox(p.state, p.asked, p.lines, form.Rule(), p.whole.head.Box),
		container.NewVBox(p.totals.box, p.wants, p.form.Box),
		340)
	return p
}

// Object gives what is shown.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Update prices the job as it is now.
func (p *Page) Update() {
	h, stale := p.frame.Handover()
	blank := p.frame.Blank()
	say := ""
	switch {
	case blank:
		say = "Draw an outline first: then the job is priced here."
	case h == nil:
		say = "! No figures yet: see Checks beside the plan."
	case len(p.frame.Faults()) > 0:
		say = "! As of the last sound plan: see Checks beside the plan."
	}
	form.State(p.state, say)
	p.form.Sync()
	p.whole.sync()
	ready := h != nil && !blank
	form.Seen(p.totals.box, ready)
	form.Seen(p.wants, ready)
	switch {
	case !ready:
		p.keys, p.rows = "", nil
		form.Refill(p.lines)
	case stale && p.keys != "" && h.Units() != p.frame.Units(): // the takeoff in the new units is under way
	default:
		e, err := h.Estimate(context.Background()) // its takeoff is there
		if err != nil {
			form.State(p.state, "! "+err.Error())
			return
		}
		p.estimate = e
		p.fill()
		p.totals.show(p.estimate)
		p.showWants()
	}
}

// fill sets the rows; they are made anew only when there are others.
func (p *Page) fill() {
	e := p.estimate
	var keys strings.Builder
	for _, l := range e.Lines {
		fmt.Fprintln(&keys, l.Kind, l.ID, l.Name, l.Unit)
	}
	if keys.String() != p.keys {
		p.keys, p.rows = keys.String(), nil
		var os []fyne.CanvasObject
		head := ""
		for _, l := range e.Lines {
			if h := headingOf(l); h != head {
				head = h
				os = append(os, columns.Head(headingsOf(l)...))
			}
			r := newRow(p, l)
			p.rows = append(p.rows, r)
			os = append(os, r.box)
		}
		form.Refill(p.lines, os...)
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
	if l.Kind == estimate.Labor {
		return []string{headingOf(l), "Rate", "", ">Amount"}
	}
	return []string{headingOf(l), bind.Row("price.prices.items[]", "price").Label, "per", ">Amount"}
}

// columns are those of the lines: what, its price, what for, the amount.
var columns = form.Table{0, 84, 136, 92}

// showWants lists what stands between this and a bid.
func (p *Page) showWants() {
	reasons := p.estimate.Draft(p.frame.Now())
	confirmed := p.frame.Base().Price.Confirmed != "" || slices.ContainsFunc(reasons, estimate.Reason.MayBeMeant)
	none := p.none()
	text := fmt.Sprint(reasons, confirmed, none)
	if text == p.wanted {
		return
	}
	p.wanted = text
	var os []fyne.CanvasObject
	if len(reasons) == 0 {
		os = append(os, form.Weighted(form.Wrapped("Every line has a price of your own."), widget.SuccessImportance))
	}
	for _, r := range reasons {
		os = append(os, form.Weighted(form.Small("! "+r.Text), widget.WarningImportance))
	}
	if p.estimate.Prices.Invented {
		os = append(os, container.NewVBox(p.importing(), form.Do("These prices are my own", form.Act(p.frame, func() error { return p.own(true) }))))
	}
	unfit := func(o takeoff.ID) bool { return o.Kind == takeoff.Unknown }
	if slices.ContainsFunc(p.frame.Job().Price.Others, unfit) {
		label := "Remove what others supply and nothing fits"
		os = append(os, form.NewButton(label, nil, form.Act(p.frame, func() error {
			return p.frame.ChangePricing(label, func(s *estimate.Spec) { s.Others = slices.DeleteFunc(s.Others, unfit) })
		})))
	}
	for _, l := range none {
		label := "Take " + l.Name + " by the rule again"
		os = append(os, form.Small(l.Name+": none, by your own figure."), form.NewButton(label, nil, form.Act(p.frame, func() error {
			return p.frame.ChangePricing(label, func(s *estimate.Spec) { s.SetFigure(l, decimalOf(0), false) })
		})))
	}
	if confirmed {
		f := form.New(p.frame)
		p.pricing(f).Rows("confirmed")
		os = append(os, f.Box)
	}
	form.Refill(p.wants, os...)
}

// none gives what no drawing shows and the job takes none of, by its own figure: it has no
// row.
func (p *Page) none() (out []takeoff.Line) {
	t, _ := p.frame.Takeoff()
	if t == nil {
		return nil
	}
	for _, l := range t.Besides {
		if own, ok := p.estimate.Spec.OwnFigure(l.ID.Kind); ok && own.Amount.IsZero() {
			out = append(out, l)
		}
	}
	return out
}

// totals is the way from cost to bid, a row for each step, each opening how it
// was computed.
type totals struct {
	box   *fyne.Container
	rows  []*form.Fold
	open  form.Open
	steps []takeoff.Step
	bid   *widget.Label
}

func newTotals() *totals {
	t := &totals{open: form.Open{}}
	t.bid = widget.NewLabelWithStyle("", fyne.TextAlignTrailing, fyne.TextStyle{Bold: true})
	t.bid.SizeName = theme.SizeNameHeadingText
	t.box = container.NewVBox(container.NewBorder(nil, nil, form.Title("Bid"), t.bid))
	return t
}

func (t *totals) show(e estimate.Estimate) {
	bid := money(e, e.Bid)
	if e.Prices.Invented {
		bid += " *"
	}
	form.Set(t.bid, bid)
	t.steps = append(t.steps[:0], e.Working...)
	together := e.Prices.Wage.Mul(decimalOf(e.Prices.Crew))
	t.steps = append(t.steps, takeoff.Step{
		Text:   "Labor hours",
		Work:   fmt.Sprintf("%s h of one person, %s h with %d at work, who cost %s an hour together", e.Hours, e.CrewHours, e.Prices.Crew, money(e, together)),
		Result: e.Hours.String() + " h",
	})
	for i := len(t.rows); i < len(t.steps); i++ {
		t.rows = append(t.rows, form.NewFold(t.open, func() string { return fmt.Sprint(i) }, func(below *fyne.Container) func() {
			return func() { form.Refill(below, form.Caption(t.steps[i].Work+" = "+t.steps[i].Result)) }
		}))
		t.box.Add(t.rows[i].Box)
	}
	for i, s := range t.steps {
		result := s.Result
		if d, err := bind.ReadAmount(strings.TrimPrefix(result, e.Prices.Currency)); err == nil {
			result = money(e, d)
		}
		t.rows[i].Show(s.Text, result, false)
	}
}
