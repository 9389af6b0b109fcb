package book

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/words"
	"haunchbook.example/storage"
)

// handed is a job of the book, as far as it can be computed.
func (p *Page) handed(id storage.ID) (*handover.Handover, error) {
	j, err := p.book.Get(id)
	if err != nil {
		return nil, err
	}
	prices, err := p.shelf.Prices(j.Units)
	if err != nil {
		return nil, err
	}
	h := handover.Of(handover.From{Job: j, Prices: prices})
	faults, err := h.Faults(context.Background())
	if err == nil && len(faults) > 0 {
		err = faults
	}
	if err != nil {
		return nil, err
	}
	return h, nil
}

// worked is a job with its estimate.
func (p *Page) worked(id storage.ID, r actual.Record) (actual.Job, error) {
	h, err := p.handed(id)
	if err != nil {
		return actual.Job{}, err
	}
	return h.Worked(context.Background(), r)
}

// recordPart is what the chosen job really took, beside its estimate.
func (p *Page) recordPart() (fyne.CanvasObject, func()) {
	id := p.chosen
	record, _, err := p.shelf.Record(id)
	p.say(err)
	var base actual.Job
	h, err := p.handed(id)
	if err == nil {
		base, err = h.Worked(context.Background(), record)
	}
	f := form.New(p)
	f.Title("After the pour")
	if err != nil {
		f.Explain("There is no estimate to set this against: " + err.Error() + ".")
	}
	result := container.NewVBox()
	show := func() {
		base.Record = record
		_, works := actual.Margins([]actual.Job{base})
		currency := base.Estimate.Prices.Currency
		form.Refill(result, slices.Concat(against(actual.Against(base)), costs(actual.Costs(base), currency), margins("Margin by kind of work", works, currency))...)
	}
	r := bind.Of(f, func() actual.Record { return record }, func(_ string, change func(*actual.Record)) error {
		is := record
		is.Hours = slices.Clone(is.Hours)
		change(&is)
		if err := p.shelf.SetRecord(id, is); err != nil {
			return err
		}
		record = is
		show()
		return nil
	})
	unit := ""
	if l, ok := base.Takeoff.Line(takeoff.ConcreteOrder); ok {
		unit = ", " + string(l.Unit)
	}
	r.Words("Poured on", func(r *actual.Record) *string { return &r.Poured })
	r.Measured("Ordered"+unit, func(r *actual.Record) *decimal.Decimal { return &r.Ordered })
	r.Measured("Delivered"+unit, func(r *actual.Record) *decimal.Decimal { return &r.Delivered })
	f.Text("Left over"+unit, bind.Text{Get: func() string {
		if !record.Left.Valid {
			return ""
		}
		return record.Left.Decimal.String()
	}, Set: func(s string) (err error) {
		left := decimal.NullDecimal{Valid: strings.TrimSpace(s) != ""}
		if left.Valid {
			if left.Decimal, err = bind.ReadAmount(s); err != nil {
				return err
			}
		}
		return r.Put("Left over", func(r *actual.Record) { r.Left = left })
	}})
	f.Text("Trucks", bind.Text{Get: func() string {
		if record.Trucks == 0 {
			return ""
		}
		return strconv.Itoa(record.Trucks)
	}, Set: func(s string) (err error) {
		n := 0
		if strings.TrimSpace(s) != "" {
			if n, err = bind.ReadWhole(s, 0, 1000); err != nil {
				return err
			}
		}
		return r.Put("Trucks", func(r *actual.Record) { r.Trucks = n })
	}})
	r.Words("Weather", func(r *actual.Record) *string { return &r.Weather })
	r.Words("Notes", func(r *actual.Record) *string { return &r.Notes })
	p.loads(f, r, h)
	f.Heading("Labor hours, by task")
	for _, l := range base.Estimate.Lines {
		if l.Kind == estimate.Labor {
			hours(r, l.Name)
		}
	}
	p.invoices(f, r, base.Estimate)
	f.Explain("Saved as you type. Leave empty what nobody wrote down; where nothing was left over, write 0.")
	show()
	return container.NewVBox(f.Box, result), f.Sync
}

// hours is the field of a task's hours, of which only those worked are kept.
func hours(r bind.Fields[actual.Record], task string) {
	is := func(h actual.TaskHours) bool { return h.Task == task }
	put := r.Put
	r.Put = func(what string, change func(*actual.Record)) error {
		return put(what, func(r *actual.Record) {
			change(r)
			r.Hours = slices.DeleteFunc(r.Hours, func(h actual.TaskHours) bool { return is(h) && h.Hours.IsZero() })
		})
	}
	r.Measured(task, func(r *actual.Record) *decimal.Decimal {
		i := slices.IndexFunc(r.Hours, is)
		if i < 0 {
			i = len(r.Hours)
			r.Hours = append(slices.Clip(r.Hours), actual.TaskHours{Task: task})
		}
		return &r.Hours[i].Hours
	})
}

// against is the estimate beside what it really took.
func against(rows []actual.Row) (os []fyne.CanvasObject) {
	table := form.Table{0, 100, 100, 110}
	for i, r := range rows {
		if i == 0 {
			os = append(os, table.Head("Estimate against actual", ">Estimated", ">Actual", ">Difference"))
		}
		of := func(d decimal.Decimal) string { return strings.TrimSpace(d.String() + " " + r.Unit) }
		os = append(os, table.Figures(r.Name, of(r.Estimated), of(r.Actual), offBy(r)))
	}
	return os
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

// lessonsPart is what all records say of one's own waste and rates.
func (p *Page) lessonsPart() (fyne.CanvasObject, func()) {
	list := container.NewVBox(form.Caption("computing…"))
	records, err := p.book.Records()
	p.say(err)
	var ids []storage.ID
	for id := range records {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	var lessons []actual.Lesson
	var byJob, byWork, bySeason []actual.Margin
	left, currency := 0, p.Prices().Currency
	p.work.Run("learning from the jobs", func(ctx context.Context) error {
		var jobs []actual.Job
		for _, id := range ids {
			if ctx.Err() != nil {
				return ctx.Err()
			}
			if j, err := p.worked(id, records[id]); err == nil {
				jobs = append(jobs, j)
			} else {
				left++ // its plan has faults
			}
		}
		lessons = actual.Learn(jobs)
		byJob, byWork = actual.Margins(jobs)
		bySeason = actual.Seasons(jobs)
		return nil
	}, func(err error) {
		if err != nil {
			form.Refill(list, form.Grave("! "+err.Error()))
		} else {
			os := append(p.lessonsOf(lessons, left), margins("Margin by job", byJob, currency)...)
			os = append(os, margins("Margin by kind of work", byWork, currency)...)
			form.Refill(list, append(os, margins("Margin by season", bySeason, currency)...)...)
		}
	})
	return container.NewVBox(form.Title("Own figures"), list,
		form.Source(fmt.Sprintf("From the jobs with notes after the pour. The mean is that of all jobs together: a large one weighs more. From %d jobs on figures are offered, of waste what 9 of 10 jobs stay below; nothing changes unless you take it.", actual.EnoughJobs))), nil
}

func (p *Page) lessonsOf(lessons []actual.Lesson, left int) (os []fyne.CanvasObject) {
	if len(lessons) == 0 {
		os = append(os, form.Wrapped("Nothing yet. After a pour, write down what was ordered, delivered and left over, and the hours."))
	}
	table := form.Table{0, 74, 44, 74, 66, 110, 84}
	f := form.New(p)
	for i, n := range lessons {
		if i == 0 {
			os = append(os, table.Head("Figure", ">In use", ">Jobs", ">Mean", ">Spread", ">Range", ""))
		}
		row := []fyne.CanvasObject{form.Figure(n.Name+", "+n.Unit, fyne.TextAlignLeading)}
		for _, t := range []string{n.Now.String(), strconv.Itoa(n.Jobs), n.Mean.String(), n.Spread.String(), n.Least.String() + " to " + n.Most.String()} {
			row = append(row, form.Figure(t, fyne.TextAlignTrailing))
		}
		if n.Offered {
			row = append(row, form.Do("Take it", f.Act(func() error { return p.take(n) })))
		}
		os = append(os, table.Row(row...))
	}
	for _, n := range lessons {
		if n.Unit == "%" && n.Offered {
			os = append(os, form.Caption(fmt.Sprintf("%s: 9 of 10 jobs are expected to stay below %s %%.", n.Name, n.Bound)))
		}
	}
	os = append(os, farOff(lessons)...)
	if left > 0 {
		os = append(os, form.Caption(words.Plural(left, "job")+" with notes cannot be computed and is left out."))
	}
	return os
}

// take makes a mean the figure of the open job and of new ones.
func (p *Page) take(n actual.Lesson) error {
	var err error
	switch {
	case n.Unit == "%" && n.Name == actual.Lost:
		if err := p.Change("Take my own yield and spill", func(j *job.Job) { j.Ground.Lost, j.Ground.Stray = n.Mean, n.Stray }); err != nil {
			return err
		}
		p.again(n.Name + ": " + n.Mean.String() + " " + n.Unit + " for this job")
		return nil
	case n.Unit == "%":
		err = p.takeWaste(n.Takes())
	default:
		err = p.takeRate(n.Name, n.Takes())
	}
	if err == nil {
		p.again(n.Name + ": " + n.Takes().String() + " " + n.Unit + " for this job and new ones")
	}
	return err
}

func (p *Page) takeWaste(own decimal.Decimal) error {
	if own.IsNegative() {
		return fmt.Errorf("the waste of own jobs is below zero: check the tickets first")
	}
	if err := p.shelf.ChangeSettings(func(s *storage.Settings) { s.Start.Spec.Order.Waste = own }); err != nil {
		return err
	}
	return p.Change("Take my own waste", func(j *job.Job) { j.Spec.Order.Waste = own })
}

func (p *Page) takeRate(task string, mean decimal.Decimal) error {
	put := func(l *estimate.PriceList) {
		for i := range l.Tasks {
			if l.Tasks[i].Name == task {
				l.Tasks[i].Rate = mean
			}
		}
	}
	list, err := p.shelf.Prices(p.Units())
	if err != nil {
		return err
	}
	list.Tasks = slices.Clone(list.Tasks)
	put(&list)
	if err := p.shelf.SetPrices(list); err != nil {
		return err
	}
	if len(p.Base().Price.Prices.Items) == 0 {
		return nil
	}
	return p.ChangePrices("Take my own rate of "+task, put)
}
