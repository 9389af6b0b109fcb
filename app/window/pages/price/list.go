package price

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
)

// wholeList shows all of the price list, also what this job takes nothing of:
// materials, work and fees, each to be opened and changed. Work and fees can be
// added.
type wholeList struct {
	p    *Page
	head *form.Fold
	open form.Open
}

func newWholeList(p *Page) *wholeList {
	l := &wholeList{p: p, open: form.Open{}}
	l.head = form.NewFold(l.open, func() string { return "" }, func(below *fyne.Container) func() {
		var syncs []func()
		part := func(title string, list *form.List, add fyne.CanvasObject) {
			below.Add(form.Table{0}.Head(title))
			below.Add(list.Box)
			below.Add(add)
			syncs = append(syncs, list.Sync)
		}
		part("Materials", l.items(), form.Strut(1, 1))
		part("Labor", l.tasks(), form.Do("Add a task", p.form.Act(l.addTask)))
		part("Fees and equipment", l.fees(), form.Do("Add a fee", p.form.Act(l.addFee)))
		below.Add(form.Do("Add what the starting list has and this one has not, unused", p.form.Act(func() error {
			return p.frame.ChangePrices("Add what the starting list has", func(l *estimate.PriceList) { *l = l.Complete(p.startingList()) })
		})))
		return func() {
			for _, sync := range syncs {
				sync()
			}
		}
	})
	return l
}

// sync shows the present values.
func (l *wholeList) sync() {
	p := l.p.frame.Prices()
	l.head.Show("All of the price list, also what this job takes nothing of", fmt.Sprintf("%d prices", len(p.Items)+len(p.Tasks)+len(p.Fees)), true)
}

// of is a list of the price list, as the page shows it.
func of[T any](l *wholeList, at func(*estimate.PriceList) *[]T) bind.Items[T] {
	return bind.Items[T]{
		Get: func() []T { p := l.p.frame.Prices(); return *at(&p) },
		Put: func(what string, change func(*[]T)) error {
			return l.p.frame.ChangePrices(what, func(p *estimate.PriceList) { change(at(p)) })
		},
	}
}

// rows is a list whose rows open forms. title names an entry, and says what it
// comes to.
func rows[T any](l *wholeList, kind string, items bind.Items[T], title func(T) (name, value string), fields func(*form.Form, bind.Fields[T])) *form.List {
	return form.NewList(func() int { return len(items.Get()) }, func(i int) (fyne.CanvasObject, func()) {
		get, change := items.Item(i)
		name := func() string { name, _ := title(get()); return name }
		fold := form.NewFold(l.open, func() string { return kind + name() }, func(below *fyne.Container) func() {
			f := form.New(l.p.frame)
			fields(f, bind.Of(f, get, func(what string, c func(*T)) error { return change(what+" of "+name(), c) }))
			f.Buttons(form.Do("Remove from the list", f.Act(func() error { return items.Remove("Remove "+name(), i) })))
			below.Add(container.NewBorder(nil, nil, form.Strut(18, 1), form.Strut(80, 1), f.Box))
			below.Add(form.Rule())
			return f.Sync
		})
		return fold.Box, func() {
			name, value := title(get())
			fold.Show(name, value, false)
		}
	})
}

func (l *wholeList) items() *form.List {
	return rows(l, "item ", of(l, func(p *estimate.PriceList) *[]estimate.Item { return &p.Items }), func(it estimate.Item) (string, string) {
		return it.Called(l.p.frame.Units()), used(fmt.Sprintf("%s per %s", it.Price, priceUnit(it, l.p.frame.Prices().Units)), it.Off)
	}, func(f *form.Form, it bind.Fields[estimate.Item]) {
		dated := it
		dated.Put = func(what string, change func(*estimate.Item)) error {
			return it.Put(what, func(i *estimate.Item) { change(i); i.Date = l.p.frame.Today() })
		}
		dated.At("price.prices.items[]").Rows("price")
		itemFields(it, it.Get().Of)
		it.At("price.prices.items[]").Rows("loose", "off")
	})
}

// onceAJob is what drives work and fees that no quantity does.
const onceAJob = "once a job"

// goesBy names what fees go by that is no quantity of the takeoff.
var goesBy = map[estimate.FeeFor]string{
	estimate.FeeShortLoad: shortLoad, estimate.FeePerDay: "a day of the crew, begun", estimate.FeeOfLabor: "percent of labor", estimate.FeeOfCost: "percent of all other cost",
}

// shortLoad is the choice of a fee for loads below a least.
const shortLoad = "what the last load is short of"

// quantities gives what can drive work and fees, as written in a list: the
// quantities of the takeoff, and the one in use.
func (l *wholeList) quantities(what takeoff.ID) []string {
	out := []string{onceAJob}
	for _, line := range l.countable() {
		out = append(out, quantityName(line))
	}
	if now := l.drivenBy(what); !slices.Contains(out, now) {
		out = append(out, now)
	}
	return out
}

// countable gives the quantities of the job, and what its rules give besides.
func (l *wholeList) countable() []takeoff.Line {
	if t, _ := l.p.frame.Takeoff(); t != nil {
		return slices.Concat(t.Lines, t.Besides)
	}
	return nil
}

// used says that an entry is not in use.
func used(text string, off bool) string {
	if off {
		return text + "; not used"
	}
	return text
}

func quantityName(l takeoff.Line) string { return fmt.Sprintf("%s (%s)", l.Name, l.Unit) }

// drivenBy names the quantity that drives work or a fee, as the job has it.
func (l *wholeList) drivenBy(what takeoff.ID) string {
	if what.IsZero() {
		return onceAJob
	}
	for _, line := range l.countable() {
		if what.Fits(line.ID) {
			return quantityName(line)
		}
	}
	return what.Text(l.p.frame.Units())
}

// driver gives a quantity and its unit by what it is called in the list; none for
// once a job.
func (l *wholeList) driver(name string) (what takeoff.ID, of takeoff.Unit) {
	for _, line := range l.countable() {
		if quantityName(line) == name {
			return takeoff.ID{Kind: line.ID.Kind}, line.Unit
		}
	}
	return takeoff.ID{}, ""
}

func (l *wholeList) allTasks() bind.Items[estimate.Task] {
	return of(l, func(p *estimate.PriceList) *[]estimate.Task { return &p.Tasks })
}

func (l *wholeList) tasks() *form.List {
	return rows(l, "task ", l.allTasks(), func(t estimate.Task) (string, string) {
		var parts []string
		if !t.What.IsZero() {
			parts = append(parts, fmt.Sprintf("%s %s an hour", t.Rate, t.Of))
		}
		if !t.Each.IsZero() || t.What.IsZero() {
			parts = append(parts, t.Each.String()+" h a job")
		}
		return t.Name, used(strings.Join(parts, " + "), t.Off)
	}, func(f *form.Form, t bind.Fields[estimate.Task]) {
		t = t.At("price.prices.tasks[]")
		t.Rows("name")
		f.Choice("Hours by", func() []string { return l.quantities(t.Get().What) }, func() string { return l.drivenBy(t.Get().What) }, func(v string) error {
			what, of := l.driver(v)
			return t.Put("Quantity", func(t *estimate.Task) {
				t.What, t.Of = what, of
				if !what.IsZero() && !t.Rate.IsPositive() {
					t.Rate = decimalOf(1)
				}
			})
		})
		t.Rows("rate", "each", "method", "off")
	})
}

func (l *wholeList) addTask() error {
	name := unused("Task", l.allTasks().Get(), func(t estimate.Task) string { return t.Name })
	l.open["task "+name] = true
	return l.allTasks().Append("Add a task", estimate.Task{Name: name, Each: decimalOf(1)})
}

func (l *wholeList) allFees() bind.Items[estimate.Fee] {
	return of(l, func(p *estimate.PriceList) *[]estimate.Fee { return &p.Fees })
}

func (l *wholeList) fees() *form.List {
	return rows(l, "fee ", l.allFees(), func(x estimate.Fee) (string, string) {
		of := " a job"
		switch name, listed := goesBy[x.For]; {
		case !x.Amount.Set:
			of = ""
		case x.For == estimate.FeeShortLoad:
			of = fmt.Sprintf(" for each short of %s", x.Least)
		case x.For == estimate.FeePerUnit && x.Pack.IsPositive():
			of = fmt.Sprintf(" for each %s %s begun", x.Pack, x.Of)
		case x.For == estimate.FeePerUnit:
			of = " " + firstUnit(x.Of)
		case listed:
			of = " " + name
		}
		return x.Name, used(x.Amount.String()+of, x.Off)
	}, func(f *form.Form, x bind.Fields[estimate.Fee]) {
		x = x.At("price.prices.fees[]")
		x.Rows("name", "amount")
		f.Choice("For each", func() []string { return append(l.quantities(x.Get().What), slices.Sorted(maps.Values(goesBy))...) }, func() string {
			if name, ok := goesBy[x.Get().For]; ok {
				return name
			}
			return l.drivenBy(x.Get().What)
		}, func(v string) error {
			what, of := l.driver(v)
			return x.Put("Count", func(x *estimate.Fee) {
				x.For, x.What, x.Of = estimate.FeePerUnit, what, of
				if what.IsZero() {
					x.For = estimate.FeePerJob
				}
				for by, name := range goesBy {
					if v == name {
						x.For = by
					}
				}
			})
		})
		least := x
		least.Put = func(what string, change func(*estimate.Fee)) error {
			to := x.Get()
			change(&to)
			if to.For != estimate.FeeShortLoad && !to.Least.IsZero() {
				return fmt.Errorf("only a fee for %s has one", shortLoad)
			}
			return x.Put(what, change)
		}
		least.Rows("least")
		f.Check("Once a job that has any of it", func() bool { return x.Get().For == estimate.FeeOnce }, func(on bool) error {
			switch by := x.Get().For; {
			case by != estimate.FeePerUnit && by != estimate.FeeOnce:
				return errors.New("choose a quantity first")
			case on:
				return x.Put("Count", func(x *estimate.Fee) { x.For = estimate.FeeOnce })
			}
			return x.Put("Count", func(x *estimate.Fee) { x.For = estimate.FeePerUnit })
		})
		x.Rows("pack", "tool", "method", "off")
	})
}

// firstUnit says what a fee is for, "each" where it has no unit.
func firstUnit(u takeoff.Unit) string {
	if u == "" || u == takeoff.Each {
		return "each"
	}
	return "per " + string(u)
}

func (l *wholeList) addFee() error {
	name := unused("Fee", l.allFees().Get(), func(x estimate.Fee) string { return x.Name })
	l.open["fee "+name] = true
	return l.allFees().Append("Add a fee", estimate.Fee{Name: name, For: estimate.FeePerJob})
}

// unused gives a name that nothing in a list has.
func unused[T any](noun string, in []T, name func(T) string) string {
	for n := 1; ; n++ {
		try := fmt.Sprintf("%s %d", noun, n)
		if !slices.ContainsFunc(in, func(t T) bool { return name(t) == try }) {
			return try
		}
	}
}
