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
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
)

// changePricing changes how the job is priced, besides the list.
func (w *Window) changePricing(label string, change func(*estimate.Spec)) error {
	return w.change(label, func(j *job.Job) {
		j.Price.Extras, j.Price.Others = slices.Clone(j.Price.Extras), slices.Clone(j.Price.Others)
		j.Price.Options = slices.Clone(j.Price.Options)
		change(&j.Price)
	})
}

// priceRow is one line of cost: what, how much, its price as a field, and the
// amount. It opens how the figure came about, and the rest of what the list
// says of it.
type priceRow struct {
	p       *pricePage
	line    estimate.Line
	row     *lineRow
	price   *cell
	per     *widget.Label
	amount  *widget.Label
	more    *fyne.Container
	form    *pageForm
	working *fyne.Container
	worked  string
	box     *fyne.Container
}

func newPriceRow(p *pricePage, i int) *priceRow {
	r := &priceRow{p: p, line: p.estimate.Lines[i], more: container.NewVBox(), working: container.NewVBox()}
	key := fmt.Sprint(r.line.Kind, r.line.ID, r.line.Name, r.line.Extra)
	r.row = newLineRow(p.w, func() {
		p.open[key] = !p.open[key]
		r.unfold(p.open[key])
	})
	r.per = figure("", fyne.TextAlignLeading)
	r.per.SizeName = theme.SizeNameCaptionText
	r.amount = figure("", fyne.TextAlignTrailing)
	note := faultNote()
	r.price = newCell(p.w, note, r.get, r.put)
	r.box = container.NewVBox(container.New(priceColumns(), r.row, r.price.entry, r.per, r.amount), note, r.more)
	r.unfold(p.open[key])
	return r
}

// unfold shows or hides how the figure came about.
func (r *priceRow) unfold(open bool) {
	r.row.open = open
	r.row.Refresh()
	if !open {
		r.more.Hide()
		return
	}
	if r.form == nil {
		r.form = r.fields()
		r.more.Add(r.working)
		r.more.Add(container.NewBorder(nil, nil, strut(18, 1), strut(80, 1), r.form.box))
		r.more.Add(divider())
	}
	r.worked = ""
	r.showWorking()
	r.form.sync()
	r.more.Show()
}

func (r *priceRow) showWorking() {
	text := fmt.Sprint(r.line.Working)
	if text == r.worked {
		return
	}
	r.worked = text
	r.working.RemoveAll()
	for _, s := range r.line.Working {
		text := s.Text
		if s.Work != "" {
			text += ": " + s.Work
		}
		if s.Result != "" {
			text += " = " + s.Result
		}
		if s.Source != "" {
			text += "  (" + s.Source + ")"
		}
		r.working.Add(caption(text, false))
	}
}

// show brings the row up to date.
func (r *priceRow) show(l estimate.Line) {
	r.line = l
	r.row.set(l.Name, howMany(l), l.ByOthers)
	r.price.sync()
	set(r.per, r.perText())
	text, importance := money(r.p.estimate, l.Extended), widget.MediumImportance
	switch {
	case l.ByOthers:
		text, importance = "by others", widget.LowImportance
	case l.Unpriced:
		text, importance = "! no price", widget.WarningImportance
	}
	if r.amount.Importance != importance {
		r.amount.Importance = importance
		r.amount.Refresh()
	}
	set(r.amount, text)
	if r.row.open {
		r.showWorking()
		r.form.sync()
	}
}

// howMany gives what to buy, or the hours: "19.75 yd³", "2 × bundle of 25".
func howMany(l estimate.Line) string {
	times := " "
	if l.Kind == estimate.Material && l.Unit != string(l.Of) {
		times = " × "
	}
	return strings.TrimSpace(thousands(l.Quantity.Round(2).String()) + times + l.Unit)
}

// perText says what the price is for.
func (r *priceRow) perText() string {
	l := r.line
	switch {
	case l.Kind == estimate.Labor && l.ID.IsZero():
		return "h a job"
	case l.Kind == estimate.Labor:
		return string(l.Of) + " an hour"
	}
	unit := l.Unit
	if it, ok := r.item(); ok {
		unit = priceUnit(it, r.p.estimate.Prices.Units)
	}
	if l.Uses > 1 {
		unit += fmt.Sprintf(", %d uses", l.Uses)
	}
	return unit
}

// item is the item of the list that prices the row.
func (r *priceRow) item() (estimate.Item, bool) {
	if r.line.Kind != estimate.Material || r.line.ID.IsZero() {
		return estimate.Item{}, false
	}
	it, ok := r.p.w.prices().Item(r.line.ID)
	return it, ok && (it.Of == "" || it.Of == r.line.Of)
}

func (r *priceRow) task() estimate.Task {
	for _, t := range r.p.w.prices().Tasks {
		if t.Name == r.line.Name {
			return t
		}
	}
	return estimate.Task{}
}

// fee gives the list's fee of the row, false where it is the job's own amount.
func (r *priceRow) fee() (estimate.Fee, bool) {
	for _, f := range r.p.w.prices().Fees {
		if f.Name == r.line.Name && r.line.Extra == 0 {
			return f, true
		}
	}
	return estimate.Fee{}, false
}

func (r *priceRow) get() string {
	switch l := r.line; {
	case l.Kind == estimate.Labor && l.ID.IsZero():
		return r.task().Each.String()
	case l.Kind == estimate.Labor:
		return r.task().Rate.String()
	case l.Kind == estimate.Material && !l.ID.IsZero():
		it, ok := r.item()
		if !ok {
			return ""
		}
		return it.Price.StringFixed(2)
	default:
		if f, ok := r.fee(); ok {
			return f.Amount.StringFixed(2)
		}
		return l.Price.StringFixed(2)
	}
}

func (r *priceRow) put(s string) error {
	d, err := amount(s)
	if err != nil {
		return err
	}
	w, name := r.p.w, r.line.Name
	switch l := r.line; {
	case l.Kind == estimate.Labor && l.ID.IsZero():
		return w.changeTask(name, "Hours of "+name, func(t *estimate.Task) { t.Each = d })
	case l.Kind == estimate.Labor:
		return w.changeTask(name, "Rate of "+name, func(t *estimate.Task) { t.Rate = d })
	case l.Kind == estimate.Material && !l.ID.IsZero():
		return w.changeItem(l, "Price of "+name, func(it *estimate.Item) { it.Price, it.Date = d, today() })
	}
	if _, ok := r.fee(); ok {
		return w.changeFee(name, "Price of "+name, func(f *estimate.Fee) { f.Amount = d })
	}
	return w.changePricing("Amount of "+name, func(p *estimate.Spec) {
		if i := r.line.Extra - 1; i >= 0 && i < len(p.Extras) {
			p.Extras[i].Amount = d
			return
		}
		p.Mobilization = d
	})
}

// fields are the rest of what the list says of the line.
func (r *priceRow) fields() *pageForm {
	f, w := newPageForm(r.p.w), r.p.w
	name := r.line.Name
	switch l := r.line; {
	case l.Kind == estimate.Labor && !l.ID.IsZero():
		f.text("Hours besides, once a job", func() string { return r.task().Each.String() }, amountSetter(func(d decimal.Decimal) error {
			return w.changeTask(name, "Hours of "+name, func(t *estimate.Task) { t.Each = d })
		}))
	case l.Kind == estimate.Material && !l.ID.IsZero():
		item := func() estimate.Item { it, _ := r.item(); return it }
		itemFields(f, l.Of, item, func(what string, change func(*estimate.Item)) error {
			return w.changeItem(r.line, what+" of "+name, change)
		})
		f.check("Others supply it: listed, not charged", func() bool { return r.line.ByOthers }, r.others)
	}
	return f
}

// itemFields are the fields of a material besides its price. change makes a change
// of it in the price list, named for the history.
func itemFields(f *pageForm, of takeoff.Unit, get func() estimate.Item, change func(what string, c func(*estimate.Item)) error) {
	text := func(label string, show func(estimate.Item) string, put func(*estimate.Item, string) error) {
		f.text(label, func() string { return show(get()) }, func(s string) (err error) {
			fault := change(label, func(it *estimate.Item) { err = put(it, strings.TrimSpace(s)) })
			if err != nil {
				return err
			}
			return fault
		})
	}
	text("Supplier", func(it estimate.Item) string { return it.Supplier }, func(it *estimate.Item, s string) error { it.Supplier = s; return nil })
	text("Date of the price", func(it estimate.Item) string { return it.Date }, func(it *estimate.Item, s string) error { it.Date = s; return nil })
	text("Sold by", func(it estimate.Item) string { return it.Unit }, func(it *estimate.Item, s string) error { it.Unit = s; return nil })
	text("How many "+string(of)+" in it", func(it estimate.Item) string {
		if it.Pack.IsZero() {
			return "1"
		}
		return it.Pack.String()
	}, func(it *estimate.Item, s string) error {
		d, err := amount(s)
		if err == nil && !d.IsPositive() {
			err = fmt.Errorf("found %s; write more than 0", s)
		}
		if err == nil {
			it.Pack = d
		}
		return err
	})
	text("Jobs that one serves", func(it estimate.Item) string { return strconv.Itoa(max(1, it.Uses)) }, func(it *estimate.Item, s string) error {
		n, err := strconv.Atoi(s)
		if err != nil || n < 1 || n > 1000 {
			return fmt.Errorf("found %q; write a whole number from 1", s)
		}
		it.Uses = n
		return nil
	})
}

// others marks the line as supplied by others, or by us.
func (r *priceRow) others(on bool) {
	id := r.line.ID
	r.p.report(r.p.w.changePricing("Who supplies "+r.line.Name, func(s *estimate.Spec) {
		if on {
			s.Others = append(s.Others, id)
			return
		}
		s.Others = slices.DeleteFunc(s.Others, func(o takeoff.ID) bool { return o.Fits(id) })
	}))
}

// extras edits the amounts that this job has besides.
func extras(w *Window) (box fyne.CanvasObject, show func()) {
	var rows *rowList[estimate.Extra]
	rows = newRowList(func() []estimate.Extra { return w.doc.Base().Price.Extras }, func(i int) (fyne.CanvasObject, func()) {
		get := func() estimate.Extra { return rows.item(i) }
		change := func(label string, f func(*estimate.Extra)) error {
			return w.changePricing(label, func(s *estimate.Spec) { changeItem(s.Extras, i, f) })
		}
		note := faultNote()
		name := newCell(w, note, func() string { return get().Name }, func(s string) error {
			if strings.TrimSpace(s) == "" {
				return fmt.Errorf("write what it is")
			}
			return change("Name an extra", func(x *estimate.Extra) { x.Name = strings.TrimSpace(s) })
		})
		cost := newCell(w, note, func() string { return get().Amount.StringFixed(2) }, amountSetter(func(d decimal.Decimal) error {
			return change("Amount of "+get().Name, func(x *estimate.Extra) { x.Amount = d })
		}))
		taxed := newPageForm(w)
		taxed.check("taxed as material", func() bool { return get().Material }, func(v bool) {
			_ = change("Tax of "+get().Name, func(x *estimate.Extra) { x.Material = v })
		})
		remove := newPageButton(w, "Remove", func() {
			_ = w.changePricing("Remove "+get().Name, func(s *estimate.Spec) { removeItem(&s.Extras, i) })
		})
		remove.Importance = widget.LowImportance
		row := container.NewVBox(
			container.New(&columns{widths: []float32{0, 90}, gap: 4}, name.entry, cost.entry), note,
			container.NewBorder(nil, nil, nil, remove, taxed.box))
		return row, func() { name.sync(); cost.sync(); taxed.sync() }
	})
	add := newPageButton(w, "Add an extra", func() {
		_ = w.changePricing("Add an extra", func(s *estimate.Spec) {
			s.Extras = append(s.Extras, estimate.Extra{Name: fmt.Sprintf("Extra %d", len(s.Extras)+1)})
		})
	})
	return container.NewVBox(rows.box, add), rows.show
}
