package window

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// wholeList shows all of the price list, also what this job takes nothing of:
// materials, work and fees, each to be opened and changed. Work and fees can be
// added.
type wholeList struct {
	w    *Window
	box  *fyne.Container
	head *lineRow
	body *fyne.Container
	show []func()
	open map[string]bool // rows, by what they are and their name
}

func newWholeList(w *Window) *wholeList {
	l := &wholeList{w: w, body: container.NewVBox(), open: map[string]bool{}}
	l.head = newLineRow(w, func() {
		l.head.open = !l.head.open
		l.head.Refresh()
		if l.head.open {
			l.make()
			l.body.Show()
		} else {
			l.body.Hide()
		}
		l.sync()
	})
	l.body.Hide()
	l.box = container.NewVBox(l.head, l.body)
	return l
}

// make fills the list when it is opened first.
func (l *wholeList) make() {
	if len(l.body.Objects) > 0 {
		return
	}
	part := func(title string, box fyne.CanvasObject, show func(), below ...fyne.CanvasObject) {
		l.body.Add(headings([]string{title}, &columns{widths: []float32{0}}))
		l.body.Add(box)
		for _, o := range below {
			l.body.Add(o)
		}
		l.show = append(l.show, show)
	}
	items := newRowList(func() []estimate.Item { return l.w.prices().Items }, l.item)
	part("Materials", items.box, items.show)
	tasks := newRowList(func() []estimate.Task { return l.w.prices().Tasks }, l.task)
	part("Labor", tasks.box, tasks.show, newPageButton(l.w, "Add a task", l.addTask))
	fees := newRowList(func() []estimate.Fee { return l.w.prices().Fees }, l.fee)
	part("Fees and equipment", fees.box, fees.show, newPageButton(l.w, "Add a fee", l.addFee))
}

// sync shows the present values.
func (l *wholeList) sync() {
	p := l.w.prices()
	l.head.set("All of the price list, also what this job takes nothing of", fmt.Sprintf("%d prices", len(p.Items)+len(p.Tasks)+len(p.Fees)), true)
	if l.head.open {
		for _, show := range l.show {
			show()
		}
	}
}

// fold is a row that opens a form.
func (l *wholeList) fold(kind string, title func() (name, value string), fields func(*pageForm)) (fyne.CanvasObject, func()) {
	below := container.NewVBox()
	below.Hide()
	var form *pageForm
	var row *lineRow
	sync := func() {
		name, value := title()
		row.set(name, value, false)
		if row.open {
			form.sync()
		}
	}
	unfold := func(open bool) {
		row.open = open
		row.Refresh()
		if !open {
			below.Hide()
			return
		}
		if form == nil {
			form = newPageForm(l.w)
			fields(form)
			below.Add(container.NewBorder(nil, nil, strut(18, 1), strut(80, 1), form.box))
			below.Add(divider())
		}
		below.Show()
		sync()
	}
	row = newLineRow(l.w, func() {
		name, _ := title()
		l.open[kind+name] = !row.open
		unfold(!row.open)
	})
	if name, _ := title(); l.open[kind+name] {
		unfold(true)
	}
	return container.NewVBox(row, below), sync
}

// say tells an error that belongs to no field.
func (l *wholeList) say(err error) {
	if err != nil {
		l.w.say(err.Error())
	}
}

func (l *wholeList) item(i int) (fyne.CanvasObject, func()) {
	get := func() (it estimate.Item) {
		if items := l.w.prices().Items; i < len(items) {
			it = items[i]
		}
		return it
	}
	change := func(what string, f func(*estimate.Item)) error {
		return l.w.changePrices(what+" of "+get().Name, func(p *estimate.PriceList) { changeItem(p.Items, i, f) })
	}
	return l.fold("item ", func() (string, string) {
		it := get()
		return it.Name, fmt.Sprintf("%s per %s", it.Price.StringFixed(2), priceUnit(it, l.w.prices().Units))
	}, func(f *pageForm) {
		f.text("Price", func() string { return get().Price.StringFixed(2) }, amountSetter(func(d decimal.Decimal) error {
			return change("Price", func(it *estimate.Item) { it.Price, it.Date = d, today() })
		}))
		itemFields(f, get().Of, get, change)
		f.check("Sold by hundredths, not by whole units", func() bool { return get().Loose }, func(v bool) {
			l.say(change("Rounding", func(it *estimate.Item) { it.Loose = v }))
		})
		f.buttons(newPageButton(l.w, "Remove from the list", func() {
			l.say(l.w.changePrices("Remove "+get().Name, func(p *estimate.PriceList) { removeItem(&p.Items, i) }))
		}))
	})
}

// priceUnit says what an item's price is for.
func priceUnit(it estimate.Item, u geometry.Units) string {
	if it.By != estimate.ByLength {
		return it.Unit
	}
	if u == geometry.Millimeters {
		return "m"
	}
	return "ft"
}

// onceAJob is what drives work and fees that no quantity does.
const onceAJob = "once a job"

// shortLoad is the choice of a fee for loads below a least.
const shortLoad = "what the last load is short of"

// quantities gives what can drive work and fees, as written in a list: the
// quantities of the takeoff, and the one in use.
func (l *wholeList) quantities(what takeoff.ID) []string {
	out := []string{onceAJob}
	if t, _ := l.w.doc.Takeoff(); t != nil {
		for _, line := range t.Lines {
			out = append(out, quantityName(line))
		}
	}
	if now := l.drivenBy(what); !slices.Contains(out, now) {
		out = append(out, now)
	}
	return out
}

func quantityName(l takeoff.Line) string { return fmt.Sprintf("%s (%s)", l.Name, l.Unit) }

// drivenBy names the quantity that drives work or a fee, as the job has it.
func (l *wholeList) drivenBy(what takeoff.ID) string {
	if what.IsZero() {
		return onceAJob
	}
	if t, _ := l.w.doc.Takeoff(); t != nil {
		for _, line := range t.Lines {
			if what.Fits(line.ID) {
				return quantityName(line)
			}
		}
	}
	return what.Text(l.w.doc.Units())
}

// driver gives a quantity and its unit by what it is called in the list; none for
// once a job.
func (l *wholeList) driver(name string) (what takeoff.ID, of takeoff.Unit, ok bool) {
	if name == onceAJob {
		return takeoff.ID{}, "", true
	}
	if t, _ := l.w.doc.Takeoff(); t != nil {
		for _, line := range t.Lines {
			if quantityName(line) == name {
				return takeoff.ID{Kind: line.ID.Kind}, line.Unit, true
			}
		}
	}
	return takeoff.ID{}, "", false
}

func (l *wholeList) task(i int) (fyne.CanvasObject, func()) {
	get := func() (t estimate.Task) {
		if tasks := l.w.prices().Tasks; i < len(tasks) {
			t = tasks[i]
		}
		return t
	}
	change := func(what string, f func(*estimate.Task)) error {
		return l.w.changePrices(what+" of "+get().Name, func(p *estimate.PriceList) { changeItem(p.Tasks, i, f) })
	}
	return l.fold("task ", func() (string, string) {
		t := get()
		var parts []string
		if !t.What.IsZero() {
			parts = append(parts, fmt.Sprintf("%s %s an hour", t.Rate, t.Of))
		}
		if !t.Each.IsZero() || t.What.IsZero() {
			parts = append(parts, t.Each.String()+" h a job")
		}
		return t.Name, strings.Join(parts, " + ")
	}, func(f *pageForm) {
		f.text("Name", func() string { return get().Name }, func(s string) error {
			return change("Name", func(t *estimate.Task) { t.Name = strings.TrimSpace(s) })
		})
		f.choice("Hours by", l.quantities(get().What), func() string { return l.drivenBy(get().What) }, func(v string) {
			if what, of, ok := l.driver(v); ok {
				l.say(change("Quantity", func(t *estimate.Task) {
					t.What, t.Of = what, of
					if !what.IsZero() && !t.Rate.IsPositive() {
						t.Rate = decimal.NewFromInt(1)
					}
				}))
			}
		})
		f.text("Done in a labor hour", func() string { return get().Rate.String() }, amountSetter(func(d decimal.Decimal) error {
			return change("Rate", func(t *estimate.Task) { t.Rate = d })
		}))
		f.text("Hours besides, once a job", func() string { return get().Each.String() }, amountSetter(func(d decimal.Decimal) error {
			return change("Hours", func(t *estimate.Task) { t.Each = d })
		}))
		f.buttons(newPageButton(l.w, "Remove from the list", func() {
			l.say(l.w.changePrices("Remove "+get().Name, func(p *estimate.PriceList) { removeItem(&p.Tasks, i) }))
		}))
	})
}

func (l *wholeList) addTask() {
	l.say(l.w.changePrices("Add a task", func(p *estimate.PriceList) {
		name := unused("Task", func(s string) bool {
			return slices.ContainsFunc(p.Tasks, func(t estimate.Task) bool { return t.Name == s })
		})
		l.open["task "+name] = true
		p.Tasks = append(p.Tasks, estimate.Task{Name: name, Each: decimal.NewFromInt(1)})
	}))
}

func (l *wholeList) fee(i int) (fyne.CanvasObject, func()) {
	get := func() (x estimate.Fee) {
		if fees := l.w.prices().Fees; i < len(fees) {
			x = fees[i]
		}
		return x
	}
	change := func(what string, f func(*estimate.Fee)) error {
		return l.w.changePrices(what+" of "+get().Name, func(p *estimate.PriceList) { changeItem(p.Fees, i, f) })
	}
	by := func() string {
		if get().For == estimate.FeeShortLoad {
			return shortLoad
		}
		return l.drivenBy(get().What)
	}
	return l.fold("fee ", func() (string, string) {
		x := get()
		switch x.For {
		case estimate.FeeShortLoad:
			return x.Name, fmt.Sprintf("%s for each short of %s", x.Amount.StringFixed(2), x.Least)
		case estimate.FeePerUnit:
			return x.Name, fmt.Sprintf("%s %s", x.Amount.StringFixed(2), firstUnit(x.Of))
		}
		return x.Name, x.Amount.StringFixed(2) + " a job"
	}, func(f *pageForm) {
		f.text("Name", func() string { return get().Name }, func(s string) error {
			return change("Name", func(x *estimate.Fee) { x.Name = strings.TrimSpace(s) })
		})
		f.text("Amount", func() string { return get().Amount.StringFixed(2) }, amountSetter(func(d decimal.Decimal) error {
			return change("Amount", func(x *estimate.Fee) { x.Amount = d })
		}))
		f.choice("For each", append(l.quantities(get().What), shortLoad), by, func(v string) {
			what, of, ok := l.driver(v)
			switch {
			case v == shortLoad:
				l.say(change("Count", func(x *estimate.Fee) { x.For, x.What, x.Of = estimate.FeeShortLoad, takeoff.ID{}, "" }))
			case ok && what.IsZero():
				l.say(change("Count", func(x *estimate.Fee) { x.For, x.What, x.Of = estimate.FeePerJob, takeoff.ID{}, "" }))
			case ok:
				l.say(change("Count", func(x *estimate.Fee) { x.For, x.What, x.Of = estimate.FeePerUnit, what, of }))
			}
		})
		f.text("Least load without a fee", func() string { return get().Least.String() }, amountSetter(func(d decimal.Decimal) error {
			if get().For != estimate.FeeShortLoad && !d.IsZero() {
				return fmt.Errorf("only a fee for %s has one", shortLoad)
			}
			return change("Least load", func(x *estimate.Fee) { x.Least = d })
		}))
		f.check("Equipment, not a supplier's fee", func() bool { return get().Tool }, func(v bool) {
			l.say(change("Kind", func(x *estimate.Fee) { x.Tool = v }))
		})
		f.buttons(newPageButton(l.w, "Remove from the list", func() {
			l.say(l.w.changePrices("Remove "+get().Name, func(p *estimate.PriceList) { removeItem(&p.Fees, i) }))
		}))
	})
}

// firstUnit says what a fee is for, "each" where it has no unit.
func firstUnit(u takeoff.Unit) string {
	if u == "" || u == takeoff.Each {
		return "each"
	}
	return "per " + string(u)
}

func (l *wholeList) addFee() {
	l.say(l.w.changePrices("Add a fee", func(p *estimate.PriceList) {
		name := unused("Fee", func(s string) bool {
			return slices.ContainsFunc(p.Fees, func(x estimate.Fee) bool { return x.Name == s })
		})
		l.open["fee "+name] = true
		p.Fees = append(p.Fees, estimate.Fee{Name: name, For: estimate.FeePerJob})
	}))
}

// unused gives a name that is not taken.
func unused(noun string, taken func(string) bool) string {
	for n := 1; ; n++ {
		if name := fmt.Sprintf("%s %d", noun, n); !taken(name) {
			return name
		}
	}
}
