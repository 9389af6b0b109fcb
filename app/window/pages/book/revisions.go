package book

import (
	"context"
	"fmt"
	"haunchbook.example/app/estimate"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/job"
	"haunchbook.example/app/revision"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/words"
	"haunchbook.example/storage"
)

const asNow = "as it is now"

// revisionsPart lists the chosen job's revisions and what changed between two.
func (p *Page) revisionsPart() (fyne.CanvasObject, func()) {
	id := p.chosen
	f := form.New(p)
	f.Title("Revisions")
	var note *form.Entry
	keep := form.Do("Keep a revision", func() {
		text, n := note.Text, 0
		p.do(func(b *storage.Book) (err error) {
			n, err = b.Revise(id, text)
			return err
		}, func() { p.again(fmt.Sprintf("Kept as revision %d", n)) })
	})
	note = form.NewSearch("Why, such as: before moving the door", nil, keep.OnTapped)
	f.Add(container.NewBorder(nil, nil, nil, keep, note), nil)
	revisions, err := p.book.Revisions(id)
	p.say(err)
	if len(revisions) == 0 {
		f.Explain("None yet. A revision sets the job aside as it is, to compare with later or to come back to.")
		return f.Box, nil
	}
	slices.Reverse(revisions)
	names := []string{asNow}
	for _, r := range revisions {
		text := fmt.Sprintf("%d · %s", r.Number, r.Time.Local().Format(minute))
		if r.Name != "" {
			text += " · mark " + r.Name
		}
		if r.Note != "" {
			text += " · " + r.Note
		}
		names = append(names, text)
	}
	at := func(name string) (revision.State, error) { return p.state(id, revisions, slices.Index(names, name)) }
	from, to := names[1], asNow
	result := container.NewVBox()
	compare := func() error {
		a, err := at(from)
		if err != nil {
			return err
		}
		b, err := at(to)
		if err != nil {
			return err
		}
		var d revision.Difference
		p.work.Run("comparing the revisions", func(ctx context.Context) error {
			d = revision.Compare(ctx, a, b)
			return ctx.Err()
		}, func(err error) {
			if err != nil {
				form.Refill(result, form.Grave("! "+err.Error()))
			} else {
				form.Refill(result, difference(d, b.Prices.Currency)...)
			}
		})
		return nil
	}
	pick := func(label string, at *string) {
		f.Choice(label, func() []string { return names }, func() string { return *at }, func(v string) error {
			*at = v
			return compare()
		})
	}
	pick("From", &from)
	pick("To", &to)
	f.Buttons(form.Do("Bring the “from” state back", f.Act(func() error {
		was, err := at(from)
		if err == nil {
			p.bringBack(id, from, was.Job)
		}
		return err
	})))
	if id == p.shelf.ID() {
		f.Buttons(form.Do("Make a change order of it", f.Act(func() error {
			i, k := slices.Index(names, from), slices.Index(names, to)
			if i == 0 {
				return fmt.Errorf("the change is from an earlier state: choose one under From")
			}
			later := 0
			if k > 0 {
				later = revisions[k-1].Number
			}
			p.offerChange(revisions[i-1].Number, later)
			return nil
		})))
	}
	f.Add(result, nil)
	version := 0
	return f.Box, func() {
		f.Sync()
		if v := p.Version(); v != version {
			version = v
			p.say(compare())
		}
	}
}

// state gives a state of a job with the prices that applied then: of revision i-1 of
// these, or for 0 as it is now.
func (p *Page) state(id storage.ID, revisions []storage.Revision, i int) (s revision.State, err error) {
	when := time.Now()
	switch {
	case i > 0:
		when = revisions[i-1].Time
		s.Job, err = p.book.Revision(id, revisions[i-1].Number)
	case id == p.shelf.ID():
		s.Job = p.Base()
	default:
		s.Job, err = p.book.Get(id)
	}
	if err == nil {
		s.Prices, err = p.book.PricesAt(s.Job.Units, when)
	}
	return s, err
}

// bringBack makes a revision of job id its present state, as an edit that can be
// undone. What was written down around the job since stays.
func (p *Page) bringBack(id storage.ID, name string, was job.Job) {
	commit := func() {
		p.Commit("Bring back revision "+name, was.Keeping(p.Base()))
		p.Home()
		p.Tell("Brought back " + name + "; Undo takes it back")
	}
	if id == p.shelf.ID() {
		commit()
		return
	}
	p.Leave(func() {
		j, err := p.book.Get(id)
		if err != nil {
			p.say(err)
			return
		}
		p.Display(j, id)
		commit()
	})
}

// difference lists what changed, in words, in quantities and in price.
func difference(d revision.Difference, currency string) (os []fyne.CanvasObject) {
	if d.Same() {
		os = append(os, form.Wrapped("Nothing changed."))
	}
	texts := func(name string, changes []revision.Change) {
		table := form.Table{0, 0, 0}
		for i, c := range changes {
			if i == 0 {
				os = append(os, table.Head(name, "Was", "Is"))
			}
			os = append(os, table.Row(form.Wrapped(c.Where), form.Wrapped(words.Dash(c.Was)), form.Wrapped(words.Dash(c.Is))))
		}
	}
	texts("Job", d.Job)
	texts("Plan", d.Plan)
	texts("What goes in, and how", d.Spec)
	texts("Pricing", d.Pricing)
	amounts := func(name string, all []revision.Amount) {
		table := form.Table{0, 110, 110, 110, 50}
		for i, a := range all {
			if i == 0 {
				os = append(os, table.Head(name, ">Was", ">Is", ">Difference", ""))
			}
			was, is, by, unit := a.Was.String(), a.Is.String(), a.Diff().String(), a.Unit
			if unit == "" {
				was, is, by, unit = a.Was.StringFixed(2), a.Is.StringFixed(2), a.Diff().StringFixed(2), currency
			}
			if by = estimate.Thousands(by); a.Diff().IsPositive() {
				by = "+" + by
			}
			os = append(os, table.Figures(a.Name, estimate.Thousands(was), estimate.Thousands(is), by, unit))
		}
	}
	amounts("Quantities", d.Quantities)
	amounts("Price", d.Price)
	if d.Untaken != nil {
		os = append(os, form.Grave("! Quantities and price are not compared: "+d.Untaken.Error()))
	}
	return os
}
