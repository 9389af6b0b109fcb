package price

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
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
	"haunchbook.example/geometry"
)

// row is one line of cost: what, how much, its price as a field, and the amount. It
// opens how the figure came about, and the rest of what the list says of it.
type row struct {
	p      *Page
	line   estimate.Line
	fold   *form.Fold
	cells  *form.Cells
	amount *widget.Label
	box    fyne.CanvasObject
}

func newRow(p *Page, l estimate.Line) *row {
	r := &row{p: p, line: l, cells: form.NewCells(p.frame)}
	r.fold = form.NewFold(p.open, func() string { return fmt.Sprint(l.Kind, l.ID, l.Name, l.Extra) }, r.more)
	r.cells.Add(r.fold.Row, nil)
	r.price()
	per := r.cells.Figure(fyne.TextAlignLeading, r.per)
	per.SizeName = theme.SizeNameCaptionText
	r.amount = form.Figure("", fyne.TextAlignTrailing)
	r.cells.Add(r.amount, nil)
	r.box = form.Ruled(r.cells.Row(columns, r.fold.Below))
	return r
}

// more fills what the row opens.
func (r *row) more(below *fyne.Container) (sync func()) {
	f, working, shown := r.fields(), container.NewVBox(), ""
	below.Add(working)
	below.Add(container.NewBorder(nil, nil, form.Strut(18, 1), form.Strut(80, 1), f.Box))
	below.Add(form.Rule())
	return func() {
		if text := fmt.Sprint(r.line.Working); text != shown {
			shown = text
			form.Refill(working, form.Working(r.line.Working)...)
		}
		f.Sync()
	}
}

// show brings the row up to date.
func (r *row) show(l estimate.Line) {
	r.line = l
	r.fold.Show(l.Name, howMany(l), l.ByOthers)
	r.cells.Sync()
	switch {
	case l.ByOthers:
		form.Weigh(r.amount, "by others", widget.LowImportance)
	case l.Unpriced:
		form.Weigh(r.amount, "! no price", widget.WarningImportance)
	default:
		form.Weigh(r.amount, money(r.p.estimate, l.Extended), widget.MediumImportance)
	}
}

// howMany gives what to buy, or the hours: "19.75 yd³", "2 × bundle of 25".
func howMany(l estimate.Line) string {
	times := " "
	if l.Kind == estimate.Material && l.Unit != string(l.Of) {
		times = " × "
	}
	return strings.TrimSpace(estimate.Thousands(l.Quantity.Round(2).String()) + times + l.Unit)
}

// per says what the price is for.
func (r *row) per() string {
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

// priceUnit says what an item's price is for.
func priceUnit(it estimate.Item, u geometry.Units) string {
	if per := it.By.Measure(u); per != "" {
		return per
	}
	return it.Unit
}

// material tells whether the row is a material of the takeoff.
func (r *row) material() bool { return r.line.Kind == estimate.Material && !r.line.ID.IsZero() }

// item is the item of the list that prices the row.
func (r *row) item() (estimate.Item, bool) {
	if !r.material() {
		return estimate.Item{}, false
	}
	it, ok := r.p.frame.Prices().Item(r.line.ID)
	return it, ok && (it.Of == "" || it.Of == r.line.Of)
}

// putItem changes the item that prices the row; a row without one gets it.
func (r *row) putItem(what string, change func(*estimate.Item)) error {
	l := r.line
	return r.p.frame.ChangePrices(what+" of "+l.Name, func(p *estimate.PriceList) {
		it, ok := p.Item(l.ID)
		if !ok || it.Of != "" && it.Of != l.Of {
			it = estimate.Item{What: l.ID, Name: l.Name, Group: l.Group, Unit: string(l.Of), Of: l.Of, Loose: l.Loose}
		}
		change(&it)
		if i := slices.IndexFunc(p.Items, func(o estimate.Item) bool { return o.What == it.What }); i >= 0 {
			p.Items[i] = it
		} else {
			p.Items = append(p.Items, it)
		}
	})
}

// entry gives an entry of the price list by its name, and the way to change it.
func entry[T any](f Frame, list func(*estimate.PriceList) []T, is func(T) bool, name string) (get func() T, put func(string, func(*T)) error) {
	find := func(p *estimate.PriceList) *T {
		all := list(p)
		if i := slices.IndexFunc(all, is); i >= 0 {
			return &all[i]
		}
		return new(T)
	}
	return func() T { p := f.Prices(); return *find(&p) }, func(what string, change func(*T)) error {
		return f.ChangePrices(what+" of "+name, func(p *estimate.PriceList) { change(find(p)) })
	}
}

// task is the list's task of the row.
func (r *row) task(in bind.Holder) bind.Fields[estimate.Task] {
	name := r.line.Name
	get, put := entry(r.p.frame, func(p *estimate.PriceList) []estimate.Task { return p.Tasks }, func(t estimate.Task) bool { return t.Name == name }, name)
	return bind.Of(in, get, put).At("price.prices.tasks[]")
}

// listed tells whether the row is a fee of the list, as against an amount of the job.
func (r *row) listed() bool {
	return r.line.Extra == 0 && slices.ContainsFunc(r.p.frame.Prices().Fees, func(f estimate.Fee) bool { return f.Name == r.line.Name })
}

// price adds the cell of the row's price.
func (r *row) price() {
	l, f := r.line, r.p.frame
	switch {
	case l.Kind == estimate.Labor && l.ID.IsZero():
		r.task(r.cells).Rows("each")
	case l.Kind == estimate.Labor:
		r.task(r.cells).Rows("rate")
	case r.material():
		r.cells.Text(bind.Row("price.prices.items[]", "price").Label, bind.Text{Get: func() string {
			if it, ok := r.item(); ok && it.Price.Set {
				return it.Price.String()
			}
			return ""
		}, Set: func(s string) error {
			d, err := bind.ReadAmount(s)
			if err != nil {
				return err
			}
			return r.putItem("Price", func(it *estimate.Item) { it.Price, it.Date = estimate.Costs(d), f.Today() })
		}, Ask: r.doubt})
	case r.listed():
		get, put := entry(f, func(p *estimate.PriceList) []estimate.Fee { return p.Fees }, func(f estimate.Fee) bool { return f.Name == l.Name }, l.Name)
		bind.Of(r.cells, get, put).At("price.prices.fees[]").Rows("amount")
	default:
		spec := bind.Of(r.cells, func() estimate.Spec { return f.Base().Price }, func(what string, change func(*estimate.Spec)) error {
			return f.ChangePricing(what+" of "+l.Name, change)
		})
		spec.Money("Amount", func(s *estimate.Spec) *decimal.Decimal {
			if i := l.Extra - 1; i >= 0 && i < len(s.Extras) {
				return &s.Extras[i].Amount
			}
			return &s.Mobilization
		})
	}
}

// doubt asks about a price far from that of the starting list for the same.
func (r *row) doubt() string {
	it, ok := r.item()
	first, there := r.p.startingList().Item(r.line.ID)
	if !ok || !it.Price.Set || !there || it.Unit != first.Unit {
		return ""
	}
	return estimate.Doubt(it.Price.To, first.Price.To)
}

// fields are the rest of what the list says of the line.
func (r *row) fields() *form.Form {
	f := form.New(r.p.frame)
	switch {
	case r.line.Kind == estimate.Labor && !r.line.ID.IsZero():
		r.figure(f)
		r.task(f).Rows("each")
	case r.material():
		r.figure(f)
		itemFields(bind.Of(f, func() estimate.Item { it, _ := r.item(); return it }, r.putItem), r.line.Of)
		f.Check("Others supply it: listed, not charged", func() bool { return r.line.ByOthers }, r.others)
	}
	return f
}

// figure adds the own figure of what no drawing shows.
func (r *row) figure(f *form.Form) {
	t, _ := r.p.frame.Takeoff()
	if t == nil {
		return
	}
	i := slices.IndexFunc(t.Besides, func(l takeoff.Line) bool { return l.ID.Kind == r.line.ID.Kind })
	if i < 0 {
		return
	}
	l := t.Besides[i]
	f.Text(fmt.Sprintf("Own figure of this job, %s", l.Unit), bind.Text{Get: func() string {
		if own, ok := r.p.frame.Base().Price.OwnFigure(l.ID.Kind); ok && own.Of == l.Unit {
			return own.Amount.String()
		}
		return ""
	}, Set: func(v string) error {
		d, err := decimal.Zero, error(nil)
		if v = strings.TrimSpace(v); v != "" {
			if d, err = bind.ReadAmount(v); err == nil && d.IsNegative() {
				err = fmt.Errorf("found %s; write 0 or more, or nothing for what the rule gives", v)
			}
		}
		if err != nil {
			return err
		}
		return r.p.frame.ChangePricing("Set how much "+l.Name, func(s *estimate.Spec) { s.SetFigure(l, d, v != "") })
	}})
}

// itemFields are the fields of a material besides its price.
func itemFields(f bind.Fields[estimate.Item], of takeoff.Unit) {
	f = f.At("price.prices.items[]")
	f.Rows("supplier", "date", "quote", "until", "unit")
	f.Positive("How many "+string(of)+" in it", func(it *estimate.Item) *decimal.Decimal {
		if it.Pack.IsZero() { // none said: one
			it.Pack = decimal.NewFromInt(1)
		}
		return &it.Pack
	})
	f.Whole(f.Label("uses"), func(it *estimate.Item) *int { it.Uses = max(1, it.Uses); return &it.Uses }, 1, 1000)
}

// others marks the line as supplied by others, or by us.
func (r *row) others(on bool) error {
	id := r.line.ID
	return r.p.frame.ChangePricing("Who supplies "+r.line.Name, func(s *estimate.Spec) {
		if on {
			s.Others = append(s.Others, id)
			return
		}
		s.Others = slices.DeleteFunc(s.Others, func(o takeoff.ID) bool { return o.Fits(id) })
	})
}

// money prints an amount with commas: "$12,345.60".
func money(e estimate.Estimate, d decimal.Decimal) string {
	return estimate.Money(e.Prices.Currency, d)
}

func decimalOf(n int) decimal.Decimal { return decimal.NewFromInt(int64(n)) }
