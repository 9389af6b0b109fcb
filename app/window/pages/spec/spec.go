// Package spec has the panel of the specification: a fold for each of its groups in the
// table of fields, in the order of the work, with a field for each row. A search shows
// the fields that it finds, and a box only those that differ from what new jobs start
// with.
package spec

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
	"haunchbook.example/geometry/plan"
)

// Frame is what the panel needs of the window.
type Frame interface {
	form.Desk
	Job() job.Job
	Change(label string, change func(*job.Job)) error
	Usual() takeoff.Spec                        // what new jobs start with
	MakeUsual(change func(*takeoff.Spec)) error // changes that
}

// Panel is the panel.
type Panel struct {
	frame   Frame
	form    *form.Form
	groups  []*group
	none    fyne.CanvasObject // in the place of groups
	open    form.Open
	find    *form.Entry
	search  []string // words to be found; none for all
	differs bool     // only what differs from the usual
	usual   takeoff.Spec
}

// New gives the panel.
func New(f Frame) *Panel { return &Panel{frame: f, open: form.Open{}} }

// Name is how the status line calls the panel: as the tool at hand.
func (*Panel) Name() string { return "" }

// Key changes when the panel is to be made anew.
func (*Panel) Key() string { return "" }

// Form makes the panel.
func (p *Panel) Form() *form.Form {
	p.form, p.groups = form.New(p.frame), nil
	p.find = form.NewSearch("Find a field: foam, lap, truck…", func(s string) {
		p.search = strings.Fields(strings.ToLower(s))
		p.sync()
	}, p.turnTo)
	p.find.SetText(strings.Join(p.search, " "))
	p.form.Add(p.find, nil)
	p.form.Check("Only what differs from my usual", func() bool { return p.differs }, func(on bool) error {
		p.differs = on
		p.sync()
		return nil
	})
	for _, g := range field.Groups("spec") {
		if g.Label != "" {
			p.add(g)
		}
	}
	p.none = form.Caption("No field is like that.")
	p.form.Add(p.none, p.sync)
	p.form.Buttons(form.Do("Back to the usual values", p.form.Act(func() error {
		return p.frame.Change("Usual specification", func(j *job.Job) { j.Spec = p.frame.Usual() })
	})))
	return p.form
}

// add adds the fold of a group.
func (p *Panel) add(g field.Group) {
	added := &group{panel: p, Group: g}
	added.fold = form.NewFold(p.open, func() string { return g.Path }, added.fill)
	p.groups = append(p.groups, added)
	p.form.Add(added.fold.Box, nil)
}

// sync shows the groups with their present values.
func (p *Panel) sync() {
	p.usual = p.frame.Usual()
	none := true
	for _, g := range p.groups {
		g.sync()
		none = none && !g.fold.Box.Visible()
	}
	form.Seen(p.none, none)
}

// filters tells whether not all fields are asked for.
func (p *Panel) filters() bool { return p.differs || len(p.search) > 0 }

// found tells whether a text has all the words that are looked for.
func (p *Panel) found(text string) bool {
	text = strings.ToLower(text)
	for _, w := range p.search {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}

// fields gives the fields of the specification in a holder.
func (p *Panel) fields(in bind.Holder) bind.Fields[takeoff.Spec] {
	return bind.Of(in, func() takeoff.Spec { return p.frame.Job().Spec }, func(what string, change func(*takeoff.Spec)) error {
		return p.frame.Change("Set "+field.Lower(what), func(j *job.Job) { change(&j.Spec) })
	}).At("spec")
}

// turnTo gives the keys to the field that is most likely the one looked for: one that is
// used and called so, or else one that is used, or else any that is found.
func (p *Panel) turnTo() {
	if len(p.search) == 0 {
		return
	}
	var best *line
	most := -1
	for _, g := range p.groups {
		for _, l := range g.lines {
			worth := 0
			if p.used(l.row) {
				worth = 1
				if p.found(l.row.Title()) {
					worth = 2
				}
			}
			if p.wanted(g, l.row) && worth > most {
				best, most = l, worth
			}
		}
	}
	if best == nil {
		return
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(p.find); c != nil {
		form.Focus(c, best.box)
	}
}

// group is the fields of one concept.
type group struct {
	field.Group
	panel *Panel
	fold  *form.Fold
	lines []*line // once it was opened
}

// sync shows the group, and what is open of it.
func (g *group) sync() {
	p, n, found := g.panel, 0, false
	for _, r := range g.Rows {
		if !shown(r) {
			continue
		}
		if p.differ(r) {
			n++
		}
		found = found || p.wanted(g, r)
	}
	value := ""
	if n > 0 {
		value = fmt.Sprintf("%d not as usual", n)
	}
	form.Seen(g.fold.Box, found)
	if open := p.filters() || p.open[g.Path]; found && g.fold.Opened() != open {
		g.fold.Turn(open)
	}
	g.fold.Show(g.Label, value, false)
}

// fill makes the fields.
func (g *group) fill(below *fyne.Container) (sync func()) {
	for _, r := range g.Rows {
		if shown(r) {
			l := newLine(g, r)
			g.lines = append(g.lines, l)
			below.Add(l.box)
		}
	}
	return func() {
		for _, l := range g.lines {
			l.sync()
		}
	}
}

// below gives the path of a row below the specification.
func below(r *field.Row) string {
	return strings.TrimSuffix(strings.TrimPrefix(r.Path, "spec."), "[]")
}

// shown tells whether a row has a line of its own: a list of things has one for all.
func shown(r *field.Row) bool {
	b := below(r)
	return r.Kind != field.Part && r.Unshown == "" && !strings.Contains(b, "[]")
}

// differ tells whether a field is not as usual.
func (p *Panel) differ(r *field.Row) bool {
	is, usual := r.Of(p.frame.Job().Spec, below(r)), r.Of(p.usual, below(r))
	if r.Kind == field.List {
		return !reflect.DeepEqual(is, usual)
	}
	u := p.frame.Units()
	return r.Text(is, u) != r.Text(usual, u)
}

// wanted tells whether a field is to be seen: one that is not used only where it is
// looked for.
func (p *Panel) wanted(g *group, r *field.Row) bool {
	if p.differs && !p.differ(r) {
		return false
	}
	if len(p.search) > 0 {
		return p.found(g.Label + " " + r.Title() + " " + r.Help)
	}
	return p.used(r)
}

// used tells whether a field is used as the job is: dowels only where it has a joint.
func (p *Panel) used(r *field.Row) bool {
	j := p.frame.Job()
	if strings.HasPrefix(below(r), "place.dowels.") && !slices.ContainsFunc(j.Slabs, plan.Plan.Joined) {
		return false
	}
	if strings.HasPrefix(below(r), "place.curbs.") && !slices.ContainsFunc(j.Slabs, plan.Plan.Curbed) {
		return false
	}
	return field.Used(j, "spec."+below(r))
}
