package window

import (
	"encoding"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// optionsPage sets variations of the job side by side.
type optionsPage struct {
	w          *Window
	compare    latest
	search     latest
	outcomes   []estimate.Outcome
	thresholds []estimate.Threshold
	failed     error
	asked      string // the state that outcomes are asked for
	sought     string // the state that thresholds are sought for
	frost      geometry.Length

	state  *widget.Label
	table  *fyne.Container
	made   int
	syncs  []func()
	faults *fyne.Container
	chart  *barChart
	found  *fyne.Container
	form   *pageForm
	more   *pageButton
	usual  *pageButton
	root   fyne.CanvasObject
}

func newOptionsPage(w *Window) pageView {
	s := w.pages.work.scheduler
	p := &optionsPage{
		w: w, made: -1, compare: latest{scheduler: s}, search: latest{scheduler: s},
		state: widget.NewLabel(""), table: container.NewVBox(), faults: container.NewVBox(), found: container.NewVBox(),
	}
	p.state.Wrapping = fyne.TextWrapWord
	p.chart = newBarChart()
	p.recallFrost()
	p.form = newPageForm(w)
	p.form.choice("Chart of", measureNames(), func() string { return p.chart.measure }, func(v string) {
		p.chart.measure = v
		p.draw()
	})
	p.form.text("Frost depth", func() string {
		if p.frost == 0 {
			return ""
		}
		return lengthText(p.frost, w.doc.Units())
	}, p.setFrost)
	p.form.note("How deep frost goes below the ground at the site, from the building department: edges reach it where they go that deep below the ground, over which the slab stands as the job says, its fall taken in. Empty where it does not matter.")
	p.form.heading("Depths that matter")
	p.form.add(p.found, nil)
	below := container.New(&columns{widths: []float32{0, 340}, gap: 12}, p.chart, p.form.box)
	p.more = newPageButton(w, "Add an option", p.addOne)
	p.usual = newPageButton(w, "Add the usual edge depths", p.addUsual)
	p.root = container.NewVScroll(container.NewPadded(container.NewVBox(
		container.NewHBox(p.more, p.usual), p.state, p.table, p.faults, divider(), below,
	)))
	return p
}

func (p *optionsPage) object() fyne.CanvasObject { return p.root }

// show brings the table up to date and asks for what is to be computed anew.
func (p *optionsPage) show() {
	t, _ := p.w.doc.Takeoff()
	sound := t != nil && !p.w.doc.Blank() && len(p.w.doc.Faults()) == 0
	if n := len(p.options()); n != p.made {
		p.made = n
		p.build(n)
	}
	if sound {
		p.ask()
	}
	say := ""
	switch {
	case p.w.doc.Blank():
		say = "Draw an outline first: then its variations are compared here."
	case !sound:
		say = "! No figures: see Checks beside the plan."
	case p.stale():
		say = "computing…"
	}
	set(p.state, say)
	if say == "" {
		p.state.Hide()
	} else {
		p.state.Show()
	}
	able(&p.more.Button, p.made < estimate.MaxOptions)
	able(&p.usual.Button, p.made < estimate.MaxOptions)
	p.form.sync()
	p.sync()
}

func (p *optionsPage) options() []estimate.Option { return p.w.doc.Base().Price.Options }

func (p *optionsPage) base() estimate.Base {
	j := p.w.doc.Base()
	return estimate.Base{Slabs: j.Slabs, Spec: j.Spec, Units: j.Units, Price: j.Price, Prices: p.w.prices(), Frost: p.frost}
}

// stateKey tells apart whatever the outcomes depend on.
func (p *optionsPage) stateKey() string { return fmt.Sprint(p.w.doc.Version(), " ", p.frost) }

func (p *optionsPage) stale() bool {
	return p.asked != p.stateKey() || p.outcomes == nil || p.compare.running
}

func (p *optionsPage) ask() {
	if key := p.stateKey(); key != p.asked {
		p.asked = key
		b := p.base()
		p.compare.run(func() func() {
			got, err := outcomes(b)
			return func() {
				p.outcomes, p.failed = got, err
				p.w.refresh()
				p.draw()
			}
		})
	}
	// The thresholds do not depend on prices or options.
	b := p.base()
	b.Price, b.Prices = estimate.Spec{}, estimate.PriceList{}
	j := job.Job{Slabs: b.Slabs, Spec: b.Spec, Units: b.Units}
	key := string(j.Encode()) + p.frost.Exact(b.Units)
	if key == p.sought {
		return
	}
	p.sought = key
	p.search.run(func() func() {
		got, err := thresholds(b)
		return func() { p.showThresholds(got, err) }
	})
}

// outcomes compares, and turns a fault of the program itself into an error.
func outcomes(b estimate.Base) (got []estimate.Outcome, err error) {
	defer func() {
		if r := recover(); r != nil {
			got, err = nil, fmt.Errorf("the options could not be compared (%v)", r)
		}
	}()
	return estimate.Compare(b), nil
}

func thresholds(b estimate.Base) (got []estimate.Threshold, err error) {
	defer func() {
		if r := recover(); r != nil {
			got, err = nil, fmt.Errorf("the depths could not be found (%v)", r)
		}
	}()
	return estimate.Thresholds(b)
}

// showThresholds lists the depths at which something changes, each to be taken
// as an option.
func (p *optionsPage) showThresholds(list []estimate.Threshold, err error) {
	p.thresholds = list
	p.found.RemoveAll()
	if err != nil {
		p.found.Add(caption("None: "+err.Error()+".", false))
		return
	}
	u := p.w.doc.Units()
	for _, t := range list {
		if !t.Found {
			p.found.Add(caption(fmt.Sprintf("%s: none from the field's thickness to %s", t.Text, geometry.Length(estimate.Deepest).Text(u)), false))
			continue
		}
		text := fmt.Sprintf("%s: %s", t.Text, t.Depth.Text(u))
		add := newPageButton(p.w, "Compare", func() {
			p.add(estimate.Option{Name: "Edge " + t.Depth.Text(u), Edge: estimate.To(t.Depth)})
		})
		add.Importance = widget.LowImportance
		l := widget.NewLabel(text)
		l.Wrapping = fyne.TextWrapWord
		p.found.Add(container.NewBorder(nil, nil, nil, add, l))
	}
	p.found.Refresh()
}

// add adds an option to the job.
func (p *optionsPage) add(os ...estimate.Option) {
	room := estimate.MaxOptions - len(p.options())
	if room < len(os) {
		if room <= 0 {
			p.w.say(fmt.Sprintf("There is room for %d options: remove one first", estimate.MaxOptions))
			return
		}
		os = os[:room]
	}
	p.report(p.w.changePricing("Add an option", func(s *estimate.Spec) { s.Options = append(s.Options, os...) }))
}

func (p *optionsPage) addOne() {
	p.add(estimate.Option{Name: fmt.Sprintf("Option %c", 'A'+len(p.options()))})
}

// addUsual adds the usual edge depths that are not compared yet.
func (p *optionsPage) addUsual() {
	b := p.base()
	usual := slices.DeleteFunc(estimate.EdgeOptions(b.Slabs, b.Units), func(o estimate.Option) bool {
		return slices.ContainsFunc(p.options(), func(h estimate.Option) bool { return h.Edge == o.Edge })
	})
	if len(usual) == 0 {
		p.w.say("No usual edge depth is left to add")
		return
	}
	p.add(usual...)
}

func (p *optionsPage) remove(i int) {
	if os := p.options(); i < len(os) {
		p.report(p.w.changePricing("Remove option "+os[i].Name, func(s *estimate.Spec) { s.Options = slices.Delete(s.Options, i, i+1) }))
	}
}

// choose makes an option the job's. The job as it was drawn takes its place among
// the options, if an option can say it.
func (p *optionsPage) choose(i int) {
	os := p.options()
	if i >= len(os) {
		return
	}
	o := os[i]
	err := p.w.change("Use option "+o.Name, func(j *job.Job) {
		j.Slabs, j.Spec, j.Price = j.Price.Choose(i, j.Slabs, j.Spec)
	})
	if err != nil {
		p.w.say(o.Name + ": " + err.Error())
		return
	}
	kept := "what was drawn stays as an option"
	if len(p.options()) < len(os) {
		kept = "no option can say what was drawn"
	}
	p.w.tell(o.Name + " is the job now; " + kept + ". Undo takes it back.")
	p.w.refresh()
}

func (p *optionsPage) report(err error) {
	if err != nil {
		p.w.say(err.Error())
	}
}

// recallFrost reads the frost depth, which is of the book: the site's region.
func (p *optionsPage) recallFrost() {
	if p.w.book == nil {
		return
	}
	if s, err := p.w.book.Settings(); err == nil {
		p.frost = s.Frost
	}
}

// setFrost keeps the frost depth in the book's settings.
func (p *optionsPage) setFrost(s string) error {
	l := geometry.Length(0)
	if strings.TrimSpace(s) != "" {
		var err error
		if l, err = geometry.ParseLength(s, p.w.doc.Units().Foot()); err != nil {
			return err
		}
		if l < 0 || l > 4*geometry.Meter {
			return fmt.Errorf("found %s; write a depth of up to %s", s, (4 * geometry.Meter).Text(p.w.doc.Units()))
		}
	}
	p.frost = l
	if p.w.book != nil && !p.w.book.ReadOnly() {
		s, err := p.w.book.Settings()
		if err != nil {
			return err
		}
		s.Frost = l
		if err := p.w.book.SetSettings(s); err != nil {
			return err
		}
	}
	p.w.refresh()
	return nil
}

// variable is a row of what an option may change.
type variable struct {
	label string
	drawn func(p []plan.Plan, s takeoff.Spec, u geometry.Units) string
	get   func(o estimate.Option, u geometry.Units) string
	put   func(o *estimate.Option, s string, u geometry.Units) error
}

func lengthVariable(label string, drawn func([]plan.Plan, takeoff.Spec) geometry.Length, at func(*estimate.Option) *estimate.Change) variable {
	return variable{
		label,
		func(p []plan.Plan, s takeoff.Spec, u geometry.Units) string { return lengthText(drawn(p, s), u) },
		func(o estimate.Option, u geometry.Units) string {
			if c := at(&o); c.Set {
				return lengthText(c.To, u)
			}
			return ""
		},
		func(o *estimate.Option, s string, u geometry.Units) error {
			if strings.TrimSpace(s) == "" {
				*at(o) = estimate.Change{}
				return nil
			}
			l, err := geometry.ParseLength(s, u.Foot())
			if err == nil && (l < 0 || l > 10*geometry.Meter) {
				err = fmt.Errorf("found %s; write a length of up to %s", s, (10 * geometry.Meter).Text(u))
			}
			if err == nil {
				*at(o) = estimate.To(l)
			}
			return err
		},
	}
}

func numberVariable(label string, most int, drawn func(takeoff.Spec) int, at func(*estimate.Option) *int) variable {
	return variable{
		label,
		func(_ []plan.Plan, s takeoff.Spec, _ geometry.Units) string { return strconv.Itoa(drawn(s)) },
		func(o estimate.Option, _ geometry.Units) string {
			if n := *at(&o); n != 0 {
				return strconv.Itoa(n)
			}
			return ""
		},
		func(o *estimate.Option, s string, _ geometry.Units) error {
			s = strings.TrimSpace(s)
			n, err := strconv.Atoi(s)
			if s != "" && (err != nil || n < 1 || n > most) {
				return fmt.Errorf("found %q; write a whole number from 1 to %d, or nothing", s, most)
			}
			*at(o) = n
			return nil
		},
	}
}

// spelledVariable is one that is spelled as in a job file.
func spelledVariable(label string, drawn func(takeoff.Spec) string, at func(*estimate.Option) spelled) variable {
	return variable{
		label,
		func(_ []plan.Plan, s takeoff.Spec, _ geometry.Units) string { return drawn(s) },
		func(o estimate.Option, _ geometry.Units) string {
			text, _ := at(&o).MarshalText()
			return string(text)
		},
		func(o *estimate.Option, s string, _ geometry.Units) error {
			s = strings.ToLower(strings.TrimSpace(s))
			if err := at(o).UnmarshalText([]byte(s)); err != nil {
				return fmt.Errorf("found %q; %w, or nothing", s, err)
			}
			return nil
		},
	}
}

// spelled is a value with a written form.
type spelled interface {
	encoding.TextMarshaler
	encoding.TextUnmarshaler
}

func variables() []variable {
	section := func(p []plan.Plan) plan.Section { s, _ := estimate.MainSection(p); return s }
	return []variable{
		lengthVariable("Edge depth", func(p []plan.Plan, _ takeoff.Spec) geometry.Length { return section(p).Depth }, func(o *estimate.Option) *estimate.Change { return &o.Edge }),
		lengthVariable("Flat bottom", func(p []plan.Plan, _ takeoff.Spec) geometry.Length { return section(p).Bottom }, func(o *estimate.Option) *estimate.Change { return &o.Bottom }),
		lengthVariable("Taper", func(p []plan.Plan, _ takeoff.Spec) geometry.Length { return section(p).Taper }, func(o *estimate.Option) *estimate.Change { return &o.Taper }),
		lengthVariable("Field thickness", func(p []plan.Plan, _ takeoff.Spec) geometry.Length { return estimate.Field(p) }, func(o *estimate.Option) *estimate.Change { return &o.Field }),
		numberVariable("Strength, psi", 15000, func(s takeoff.Spec) int { return s.Mix.Strength }, func(o *estimate.Option) *int { return &o.Strength }),
		numberVariable("Edge bars, No.", 18, func(s takeoff.Spec) int { return s.Place.Bars.Size }, func(o *estimate.Option) *int { return &o.Bar }),
		spelledVariable("Field steel", func(s takeoff.Spec) string { return s.Place.Field.Kind.String() }, func(o *estimate.Option) spelled { return &o.FieldSteel }),
		spelledVariable("Fibers, lb/yd³", func(s takeoff.Spec) string { return strconv.FormatFloat(s.Mix.Fiber, 'f', -1, 64) }, func(o *estimate.Option) spelled { return &o.Fiber }),
		lengthVariable("Foam", func(_ []plan.Plan, s takeoff.Spec) geometry.Length { return s.Base.Foam }, func(o *estimate.Option) *estimate.Change { return &o.Foam }),
		lengthVariable("Bolts, at most", func(_ []plan.Plan, s takeoff.Spec) geometry.Length { return s.Place.Bolts.Spacing }, func(o *estimate.Option) *estimate.Change { return &o.Bolts }),
	}
}

// result is a row of what an option comes to.
type result struct {
	label string
	text  func(o estimate.Outcome) string
	bold  bool
	value func(o estimate.Outcome) float64 // for the chart; nil for none
}

func results() []result {
	return []result{
		{"Concrete ordered", func(o estimate.Outcome) string { return o.Ordered.String() + " " + string(o.Volume) }, true, func(o estimate.Outcome) float64 { return o.Ordered.InexactFloat64() }},
		{"Trucks", func(o estimate.Outcome) string { return strconv.Itoa(o.Trucks) }, false, func(o estimate.Outcome) float64 { return float64(o.Trucks) }},
		{"Steel", func(o estimate.Outcome) string {
			return thousands(o.Steel.StringFixed(0)) + " " + string(o.Weight)
		}, false, func(o estimate.Outcome) float64 { return o.Steel.InexactFloat64() }},
		{"Form boards", func(o estimate.Outcome) string { return strconv.Itoa(o.Boards) }, false, func(o estimate.Outcome) float64 { return float64(o.Boards) }},
		{"Labor hours", func(o estimate.Outcome) string { return o.Hours.StringFixed(1) }, false, func(o estimate.Outcome) float64 { return o.Hours.InexactFloat64() }},
		{"Cost", func(o estimate.Outcome) string { return money(o.Estimate, o.Cost) }, false, func(o estimate.Outcome) float64 { return o.Cost.InexactFloat64() }},
		{"Bid", func(o estimate.Outcome) string { return money(o.Estimate, o.Bid) }, true, func(o estimate.Outcome) float64 { return o.Bid.InexactFloat64() }},
		{"Difference", func(o estimate.Outcome) string {
			text := money(o.Estimate, o.Difference)
			if o.Difference.IsPositive() {
				text = "+" + text
			}
			return text
		}, false, nil},
	}
}

func measureNames() []string {
	var out []string
	for _, r := range results() {
		if r.value != nil {
			out = append(out, r.label)
		}
	}
	return out
}

// build makes the table for n options.
func (p *optionsPage) build(n int) {
	p.syncs = nil
	p.table.RemoveAll()
	// Columns share the width as if all options there may be stood there, so that
	// they stay in place as options come and go.
	widths := []float32{128}
	for range 1 + estimate.MaxOptions {
		widths = append(widths, 0)
	}
	layout := func() *columns { return &columns{widths: widths, gap: 4} }
	figures := func() *columns { return &columns{widths: widths, gap: 4, tight: true} }
	u := p.w.doc.Units
	row := func(label string, drawn func() string, cellOf func(i int, note *widget.Label) fyne.CanvasObject) {
		note := faultNote()
		os := []fyne.CanvasObject{figure(label, fyne.TextAlignLeading)}
		d := figure("", fyne.TextAlignTrailing)
		d.TextStyle.Bold = label == ""
		p.syncs = append(p.syncs, func() { set(d, drawn()) })
		os = append(os, d)
		for i := range n {
			os = append(os, cellOf(i, note))
		}
		p.table.Add(container.New(layout(), filled(os, len(widths))...))
		p.table.Add(note)
	}
	option := func(i int) estimate.Option {
		if os := p.options(); i < len(os) {
			return os[i]
		}
		return estimate.Option{}
	}
	change := func(i int, label string, f func(*estimate.Option) error) (err error) {
		fault := p.w.changePricing(label, func(s *estimate.Spec) {
			if i < len(s.Options) {
				err = f(&s.Options[i])
			}
		})
		if err != nil {
			return err
		}
		return fault
	}
	row("", func() string { return "As drawn" }, func(i int, note *widget.Label) fyne.CanvasObject {
		c := newCell(p.w, note, func() string { return option(i).Name }, func(s string) error {
			if s = strings.TrimSpace(s); s == "" || len(s) > 60 {
				return fmt.Errorf("give the option a name of up to 60 letters")
			}
			return change(i, "Name an option", func(o *estimate.Option) error { o.Name = s; return nil })
		})
		c.TextStyle.Bold = true
		p.syncs = append(p.syncs, c.sync)
		return c.entry
	})
	p.table.Add(p.buttons(n, layout()))
	for _, v := range variables() {
		row(v.label, func() string { b := p.base(); return v.drawn(b.Slabs, b.Spec, u()) }, func(i int, note *widget.Label) fyne.CanvasObject {
			c := newCell(p.w, note, func() string { return v.get(option(i), u()) }, func(s string) error {
				var o estimate.Option
				if err := v.put(&o, s, u()); err != nil {
					return err
				}
				return change(i, strings.ToLower(v.label)+" of "+option(i).Name, func(o *estimate.Option) error { return v.put(o, s, u()) })
			})
			c.SetPlaceHolder("as drawn")
			p.syncs = append(p.syncs, c.sync)
			return c.entry
		})
	}
	p.table.Add(divider())
	for _, r := range results() {
		p.resultRow(r, n, figures())
	}
	p.resultRow(result{label: "Frost depth", text: func(o estimate.Outcome) string {
		switch {
		case p.frost == 0:
			return "–"
		case o.Frost:
			return "reached"
		}
		return "! not reached"
	}}, n, figures())
	p.resultRow(result{label: "Findings", text: func(o estimate.Outcome) string {
		if o.Broken == 0 {
			return o.Findings()
		}
		return "! " + o.Findings()
	}}, n, figures())
	p.table.Add(caption(estimate.Checked, false))
	p.table.Refresh()
}

// resultRow adds a row of figures.
func (p *optionsPage) resultRow(r result, n int, l *columns) {
	os := []fyne.CanvasObject{figure(r.label, fyne.TextAlignLeading)}
	for i := range n + 1 {
		f := figure("", fyne.TextAlignTrailing)
		f.TextStyle.Bold = r.bold
		p.syncs = append(p.syncs, func() {
			text := "…"
			switch {
			case i >= len(p.outcomes):
			case p.outcomes[i].Err != nil:
				text = "–"
			case i == 0 && r.label == "Difference":
				text = ""
			default:
				text = r.text(p.outcomes[i])
			}
			importance := widget.MediumImportance
			if strings.HasPrefix(text, "!") {
				importance = widget.WarningImportance
			}
			if p.stale() {
				importance = widget.LowImportance
			}
			if f.Importance != importance {
				f.Importance = importance
				f.Refresh()
			}
			set(f, text)
		})
		os = append(os, f)
	}
	p.table.Add(container.New(l, filled(os, len(l.widths))...))
}

// buttons is the row below the names: what to do with an option.
func (p *optionsPage) buttons(n int, l *columns) fyne.CanvasObject {
	os := []fyne.CanvasObject{strut(1, 1), strut(1, 1)}
	for i := range n {
		use := newPageButton(p.w, "Use this", func() { p.choose(i) })
		remove := newPageButton(p.w, "", func() { p.remove(i) })
		remove.Icon = theme.DeleteIcon()
		remove.Importance = widget.LowImportance
		os = append(os, container.NewBorder(nil, nil, nil, remove, use))
	}
	return container.New(l, filled(os, len(l.widths))...)
}

// filled fills a row up to n columns.
func filled(os []fyne.CanvasObject, n int) []fyne.CanvasObject {
	for len(os) < n {
		os = append(os, strut(1, 1))
	}
	return os
}

// sync shows the present values.
func (p *optionsPage) sync() {
	for _, s := range p.syncs {
		s()
	}
	p.faults.RemoveAll()
	if p.failed != nil {
		p.faults.Add(grave("! " + p.failed.Error()))
	}
	for _, o := range p.outcomes {
		if o.Err != nil {
			p.faults.Add(grave("! " + o.Name + " cannot be built: " + o.Err.Error()))
		}
	}
}

func grave(text string) fyne.CanvasObject {
	l := widget.NewLabel(text)
	l.Importance = widget.DangerImportance
	l.Wrapping = fyne.TextWrapWord
	l.SizeName = theme.SizeNameCaptionText
	return l
}

// draw brings the chart up to date.
func (p *optionsPage) draw() {
	for _, r := range results() {
		if r.label != p.chart.measure {
			continue
		}
		var bars []bar
		for _, o := range p.outcomes {
			b := bar{name: o.Name, text: "cannot be built"}
			if o.Err == nil {
				b.value, b.text = r.value(o), r.text(o)
			}
			bars = append(bars, b)
		}
		p.chart.show(bars)
	}
}
