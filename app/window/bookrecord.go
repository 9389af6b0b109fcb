package window

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/storage"
)

// worked is a job with its estimate, as far as it can be computed.
func (p *bookPage) worked(id storage.ID, r actual.Record) (actual.Job, error) {
	j, err := p.w.book.Get(id)
	if err != nil {
		return actual.Job{}, err
	}
	prices, err := p.w.book.Prices(j.Units)
	if err != nil {
		return actual.Job{}, err
	}
	if faults := j.Validate(); len(faults) > 0 {
		return actual.Job{}, faults
	}
	t, err := compute(j)
	if err != nil {
		return actual.Job{}, err
	}
	return actual.Job{Name: j.Name, Takeoff: *t, Estimate: estimate.Of(*t, j.Price, prices), Record: r}, nil
}

// recordPart is what the chosen job really took, beside its estimate.
func (p *bookPage) recordPart() (fyne.CanvasObject, func()) {
	w, id := p.w, p.chosen
	record, _, err := w.book.Record(id)
	p.say(err)
	base, err := p.worked(id, record)
	f := newPageForm(w)
	f.add(title("After the pour"), nil)
	if err != nil {
		f.note("There is no estimate to set this against: " + err.Error() + ".")
	}
	result := container.NewVBox()
	show := func() {
		base.Record = record
		result.RemoveAll()
		rows := actual.Against(base)
		if len(rows) == 0 {
			return
		}
		l := func() *columns {
			return &columns{widths: []float32{0, 100, 100, 90}, gap: 4, tight: true}
		}
		result.Add(headings([]string{"Estimate against actual", ">Estimated", ">Actual", ">Difference"}, l()))
		for _, r := range rows {
			result.Add(tableRow(l(), r.Name, strings.TrimSpace(r.Estimated.String()+" "+r.Unit), strings.TrimSpace(r.Actual.String()+" "+r.Unit), offBy(r)))
		}
		result.Refresh()
	}
	put := func(change func(*actual.Record)) error {
		r := record
		r.Hours = slices.Clone(r.Hours)
		change(&r)
		if err := r.Validate(); err != nil {
			return err
		}
		if err := w.book.SetRecord(id, r); err != nil {
			return err
		}
		record = r
		show()
		p.reload()
		return nil
	}
	words := func(label string, at func(*actual.Record) *string) {
		f.text(label, func() string { return *at(&record) }, func(s string) error {
			return put(func(r *actual.Record) { *at(r) = strings.TrimSpace(s) })
		})
	}
	number := func(label string, at func(*actual.Record) *decimal.Decimal) {
		f.text(label, func() string { return blankZero(*at(&record)) }, zeroed(func(d decimal.Decimal) error {
			return put(func(r *actual.Record) { *at(r) = d })
		}))
	}
	unit := ""
	if l, ok := base.Takeoff.Line(takeoff.ConcreteOrder); ok {
		unit = ", " + string(l.Unit)
	}
	words("Poured on", func(r *actual.Record) *string { return &r.Poured })
	number("Ordered"+unit, func(r *actual.Record) *decimal.Decimal { return &r.Ordered })
	number("Delivered"+unit, func(r *actual.Record) *decimal.Decimal { return &r.Delivered })
	number("Left over"+unit, func(r *actual.Record) *decimal.Decimal { return &r.Left })
	f.text("Trucks", func() string {
		if record.Trucks == 0 {
			return ""
		}
		return itoa(record.Trucks)
	}, func(s string) error {
		n := 0
		if s = strings.TrimSpace(s); s != "" {
			var err error
			if n, err = strconv.Atoi(s); err != nil || n < 0 || n > 1000 {
				return fmt.Errorf("found %q; write how many trucks came", s)
			}
		}
		return put(func(r *actual.Record) { r.Trucks = n })
	})
	words("Weather", func(r *actual.Record) *string { return &r.Weather })
	words("Notes", func(r *actual.Record) *string { return &r.Notes })
	f.heading("Labor hours, by task")
	for _, l := range base.Estimate.Lines {
		if l.Kind != estimate.Labor {
			continue
		}
		task := l.Name
		get := func() decimal.Decimal {
			for _, h := range record.Hours {
				if h.Task == task {
					return h.Hours
				}
			}
			return decimal.Zero
		}
		f.text(task, func() string { return blankZero(get()) }, zeroed(func(d decimal.Decimal) error {
			return put(func(r *actual.Record) {
				r.Hours = slices.DeleteFunc(r.Hours, func(h actual.TaskHours) bool { return h.Task == task })
				if !d.IsZero() {
					r.Hours = append(r.Hours, actual.TaskHours{Task: task, Hours: d})
				}
			})
		}))
	}
	f.note("Saved as you type. Leave empty what nobody wrote down.")
	show()
	return container.NewVBox(f.box, result), f.sync
}

// offBy prints by how much the actual figure is off: in percent of the estimate,
// of a percentage in points.
func offBy(r actual.Row) string {
	d, unit := r.Percent, " %"
	if r.Unit == "%" {
		d, unit = r.Actual.Sub(r.Estimated), " points"
	} else if r.Estimated.IsZero() {
		return "–"
	}
	s := d.StringFixed(1) + unit
	if d.IsPositive() {
		s = "+" + s
	}
	return s
}

func blankZero(d decimal.Decimal) string {
	if d.IsZero() {
		return ""
	}
	return d.String()
}

// zeroed makes a setter of text, for which nothing is 0.
func zeroed(set func(decimal.Decimal) error) func(string) error {
	return func(s string) error {
		if strings.TrimSpace(s) == "" {
			return set(decimal.Zero)
		}
		return amountSetter(set)(s)
	}
}

// lessonsPart is what all records say of one's own waste and rates.
func (p *bookPage) lessonsPart() (fyne.CanvasObject, func()) {
	w := p.w
	box := container.NewVBox(title("Own figures"))
	list := container.NewVBox(caption("computing…", false))
	box.Add(list)
	box.Add(caption(fmt.Sprintf("From the jobs with notes after the pour. A mean is offered from %d jobs on; nothing changes unless you take it.", actual.EnoughJobs), true))
	records, err := w.book.Records()
	p.say(err)
	var ids []storage.ID
	for id := range records {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	w.pages.work.run(func() func() {
		var jobs []actual.Job
		left := 0
		for _, id := range ids {
			j, err := p.worked(id, records[id])
			if err != nil {
				left++ // its plan has faults
				continue
			}
			jobs = append(jobs, j)
		}
		lessons := actual.Learn(jobs)
		return func() { p.showLessons(list, lessons, left) }
	})
	return box, nil
}

func (p *bookPage) showLessons(list *fyne.Container, lessons []actual.Lesson, left int) {
	list.RemoveAll()
	if len(lessons) == 0 {
		l := widget.NewLabel("Nothing yet. After a pour, write down what was ordered, delivered and left over, and the hours.")
		l.Wrapping = fyne.TextWrapWord
		list.Add(l)
	} else {
		l := func() *columns { return &columns{widths: []float32{0, 74, 44, 74, 66, 110, 84}, gap: 4} }
		list.Add(headings([]string{"Figure", ">In use", ">Jobs", ">Mean", ">Spread", ">Range", ""}, l()))
		for _, n := range lessons {
			os := []fyne.CanvasObject{figure(n.Name+", "+n.Unit, fyne.TextAlignLeading)}
			for _, t := range []string{n.Now.String(), itoa(n.Jobs), n.Mean.String(), n.Spread.String(), n.Least.String() + " to " + n.Most.String()} {
				os = append(os, figure(t, fyne.TextAlignTrailing))
			}
			if n.Offered {
				os = append(os, newPageButton(p.w, "Take it", func() { p.take(n) }))
			} else {
				os = append(os, strut(1, 1))
			}
			list.Add(container.New(l(), os...))
		}
	}
	if left > 0 {
		list.Add(caption(plural(left, "job")+" with notes cannot be computed and is left out.", false))
	}
	list.Refresh()
}

// take makes a mean the figure of the open job and of new ones.
func (p *bookPage) take(n actual.Lesson) {
	w := p.w
	if n.Name == "Waste" && n.Unit == "%" {
		if n.Mean.IsNegative() {
			w.say("The mean waste is below zero: check the tickets first")
			return
		}
		err := w.changeSettings(func(s *storage.Settings) { s.Start.Spec.Order.Waste = n.Mean })
		if err == nil {
			err = w.change("Take my own waste", func(j *job.Job) { j.Spec.Order.Waste = n.Mean })
		}
		if err != nil {
			p.say(err)
			return
		}
	} else {
		list, err := w.book.Prices(w.doc.Units())
		if err == nil {
			list.Tasks = slices.Clone(list.Tasks)
			for i := range list.Tasks {
				if list.Tasks[i].Name == n.Name {
					list.Tasks[i].Rate = n.Mean
				}
			}
			err = w.book.SetPrices(list)
			w.kept = nil
		}
		if err == nil && len(w.doc.Base().Price.Prices.Items) > 0 {
			err = w.changeTask(n.Name, "Take my own rate of "+n.Name, func(t *estimate.Task) { t.Rate = n.Mean })
		}
		if err != nil {
			p.say(err)
			return
		}
	}
	w.tell(n.Name + ": " + n.Mean.String() + " " + n.Unit + " for this job and new ones")
	p.turn(p.part)
}
