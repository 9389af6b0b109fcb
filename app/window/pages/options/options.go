// Package options has the page that sets variations of the job side by side.
package options

import (
	"context"
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/form"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/detail"
	"haunchbook.example/geometry/plan"
)

// Frame is what the page needs of the window.
type Frame interface {
	form.Desk
	Tell(text string)
	Base() job.Job
	Version() int
	Blank() bool
	Faults() plan.Faults
	Handover() (h *handover.Handover, stale bool)
	Change(label string, change func(*job.Job)) error
	ChangePricing(label string, change func(*estimate.Spec)) error
	Frost() geometry.Length // of the site
	SetFrost(geometry.Length) error
	Refresh()
}

// Page is the page.
type Page struct {
	frame    Frame
	compare  document.Latest
	search   document.Latest
	outcomes []estimate.Outcome
	sections []detail.Section // the edges of each
	failed   error
	asked    string // the state that outcomes and depths are asked for

	state       *widget.Label
	table       *fyne.Container
	made        int // options that the table is made for
	syncs       []func()
	faults      *fyne.Container
	fonts       *paint.Fonts
	depth       *depth
	found       *fyne.Container
	form        *form.Form
	more, usual *form.Button
	body        *fyne.Container
	root        fyne.CanvasObject
}

// New gives the page.
func New(f Frame, fonts *paint.Fonts, s document.Scheduler) *Page {
	p := &Page{
		frame: f, made: -1, compare: document.Latest{Scheduler: s}, search: document.Latest{Scheduler: s}, fonts: fonts,
		state: form.Wrapped(""), table: container.NewVBox(), faults: container.NewVBox(), found: container.NewVBox(),
	}
	p.depth = newDepth(p, s)
	p.form = form.New(f)
	bind.Of(p.form, f.Frost, func(_ string, change func(*geometry.Length)) error {
		return p.setFrost(change)
	}).Depth(field.Frost.Label, func(l *geometry.Length) *geometry.Length { return l })
	p.form.Explain("How deep frost goes below the ground at the site, from the building department: edges reach it where they go that deep below the ground, over which the slab stands as the job says, its fall taken in. Empty where it does not matter.")
	p.form.Heading("Depths that matter")
	p.form.Add(p.found, nil)
	p.more = form.Do("Add an option", p.form.Act(p.addOne))
	p.usual = form.Do("Add the usual edge depths", p.form.Act(p.addUsual))
	p.body = container.NewVBox(
		p.state, p.depth.box, p.table, p.faults, container.NewHBox(p.more, p.usual),
		form.Rule(), form.Table{0, 340}.Row(p.depth.moves, p.form.Box),
	)
	p.root = container.NewVScroll(container.NewPadded(p.body))
	return p
}

// Object gives what is shown.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Update brings the table up to date and asks for what is to be computed anew.
func (p *Page) Update() {
	h, stale := p.frame.Handover()
	sound := h != nil && !p.frame.Blank() && len(p.frame.Faults()) == 0
	if n := len(p.options()); n != p.made {
		p.made = n
		p.build(n)
	}
	if sound && !stale {
		p.ask(h)
	}
	say := ""
	switch {
	case p.frame.Blank():
		say = "Draw an outline first: then its variations are compared here."
	case !sound:
		say = "! No figures: see Checks beside the plan."
	case p.stale():
		say = "computing…"
	}
	form.State(p.state, say)
	form.Able(p.more, p.made < estimate.MaxOptions)
	form.Able(p.usual, p.made < estimate.MaxOptions)
	form.Seen(p.usual, len(p.frame.Base().Price.Options) > 0)
	p.depth.show(sound)
	p.form.Sync()
	p.sync()
}

// options are those of the job; of a job that has none, the usual edge depths. They
// become the job's as soon as one is changed, used or added to.
func (p *Page) options() []estimate.Option {
	j := p.frame.Base()
	if len(j.Price.Options) > 0 {
		return j.Price.Options
	}
	return estimate.EdgeOptions(j.Slabs, j.Units)
}

// stateKey tells apart whatever the outcomes depend on.
func (p *Page) stateKey() string { return fmt.Sprint(p.frame.Version(), " ", p.frame.Frost()) }

func (p *Page) stale() bool {
	return p.asked != p.stateKey() || p.outcomes == nil && p.failed == nil || p.compare.Running()
}

func (p *Page) ask(h *handover.Handover) {
	key := p.stateKey()
	if key == p.asked {
		return
	}
	p.asked = key
	var got []estimate.Outcome
	var sections []detail.Section
	bars := h.Job().Spec.Place.Bars.Size
	p.compare.Run("comparing the options", func(ctx context.Context) (err error) {
		got, err = h.SideBySide(ctx)
		for _, o := range got {
			s, _ := h.MainEdge(o)
			sections = append(sections, s.Detail(bars))
		}
		return err
	}, func(err error) {
		p.outcomes, p.sections, p.failed = got, sections, err
		p.frame.Refresh()
	})
	var depths []estimate.Threshold
	p.search.Run("finding the depths that matter", func(ctx context.Context) (err error) {
		depths, err = h.Thresholds(ctx)
		return err
	}, func(err error) { p.showDepths(depths, err) })
	p.depth.ask(h)
}

// showDepths lists the depths at which something changes, each to be taken as an
// option.
func (p *Page) showDepths(list []estimate.Threshold, err error) {
	if err != nil {
		form.Refill(p.found, form.Caption("None: "+err.Error()+"."))
		return
	}
	u := p.frame.Units()
	var os []fyne.CanvasObject
	for _, t := range list {
		if !t.Found {
			os = append(os, form.Caption(fmt.Sprintf("%s: none from the field's thickness to %s", t.Text, geometry.Length(estimate.Deepest).Text(u))))
			continue
		}
		add := form.Do("Compare", p.form.Act(func() error {
			return p.add(estimate.Option{Name: "Edge " + t.Depth.Text(u), Edge: estimate.To(t.Depth)})
		})).Faint()
		os = append(os, container.NewBorder(nil, nil, nil, add, form.Wrapped(t.Text+": "+t.Depth.Text(u))))
	}
	form.Refill(p.found, os...)
}

// add adds options to the job, as many as there is room for.
func (p *Page) add(os ...estimate.Option) error {
	room := estimate.MaxOptions - len(p.options())
	if room <= 0 {
		return fmt.Errorf("there is room for %d options: remove one first", estimate.MaxOptions)
	}
	return p.all().Put("Add an option", func(all *[]estimate.Option) {
		*all = append(slices.Clip(*all), os[:min(room, len(os))]...)
	})
}

func (p *Page) addOne() error {
	return p.add(estimate.Option{Name: fmt.Sprintf("Option %c", 'A'+len(p.options()))})
}

// addUsual adds the usual edge depths that are not compared yet.
func (p *Page) addUsual() error {
	j := p.frame.Base()
	usual := slices.DeleteFunc(estimate.EdgeOptions(j.Slabs, j.Units), func(o estimate.Option) bool {
		return slices.ContainsFunc(p.options(), func(h estimate.Option) bool { return h.Edge == o.Edge })
	})
	if len(usual) == 0 {
		return fmt.Errorf("no usual edge depth is left to add")
	}
	return p.add(usual...)
}

// choose makes an option of a list the job's, and the others those that are compared.
// The job as it was drawn takes its place among them, if an option can say it and
// there is room.
func (p *Page) choose(all []estimate.Option, i int) error {
	o, kept := all[i], "what was drawn stays as an option"
	err := p.frame.Change("Use option "+o.Name, func(j *job.Job) {
		j.Price.Options = all
		j.Slabs, j.Spec, j.Price = j.Price.Choose(i, j.Slabs, j.Spec)
		switch n := len(j.Price.Options); {
		case n < len(all):
			kept = "no option can say what was drawn"
		case n > estimate.MaxOptions:
			j.Price.Options = j.Price.Options[:estimate.MaxOptions]
			kept = "there was no room to keep what was drawn"
		}
	})
	if err != nil {
		return fmt.Errorf("%s: %w", o.Name, err)
	}
	p.frame.Tell(o.Name + " is the job now; " + kept + ". Undo takes it back.")
	p.frame.Refresh()
	return nil
}

// setFrost keeps the frost depth in the book's settings.
func (p *Page) setFrost(change func(*geometry.Length)) error {
	var l geometry.Length
	if change(&l); l < 0 || l > 4*geometry.Meter {
		u := p.frame.Units()
		return fmt.Errorf("found %s; write a depth of up to %s", l.Full(u), (4 * geometry.Meter).Text(u))
	}
	if err := p.frame.SetFrost(l); err != nil {
		return err
	}
	p.frame.Refresh()
	return nil
}
