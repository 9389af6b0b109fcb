// Package takeoff has the panel of the quantities beside the plan. A click on one
// opens how it was computed, below it.
package takeoff

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/words"
	"haunchbook.example/geometry/plan"
)

// Job is the job whose quantities are shown.
type Job interface {
	Version() int
	Takeoff() (t *takeoff.Takeoff, stale bool)
	Faults() plan.Faults
	Err() error
	Blank() bool
}

// Panel lists the quantities.
type Panel struct {
	Box   fyne.CanvasObject
	job   Job
	state *widget.Label
	list  *fyne.Container
	rows  map[takeoff.ID]*form.Fold
	keys  string
	open  form.Open
	of    any              // what it was shown for
	faint bool             // as figures of an earlier plan
	next  int              // row to go on with in the next turn
	round *takeoff.Takeoff // what the round of turns began with
}

// New gives the panel.
func New(j Job) *Panel {
	p := &Panel{job: j, state: form.Small(""), list: container.NewVBox(), open: form.Open{}}
	p.Box = container.NewBorder(container.NewBorder(nil, nil, form.Bold("Takeoff"), nil, p.state), nil, nil, nil, container.NewVScroll(p.list))
	return p
}

// stamp tells apart what is to be shown.
func (p *Panel) stamp() any {
	t, stale := p.job.Takeoff()
	return [4]any{p.job.Version(), t, stale, p.job.Err() != nil}
}

// Update brings the list up to date.
func (p *Panel) Update() {
	of := p.stamp()
	if of == p.of {
		return
	}
	p.of = of
	t, stale := p.job.Takeoff()
	faulty := len(p.job.Faults()) > 0
	say, importance := "live; click a figure to see how it comes about", widget.MediumImportance
	switch {
	case p.job.Blank():
		t, say = nil, "Draw an outline to see quantities"
	case p.job.Err() != nil:
		say, importance = "! "+p.job.Err().Error(), widget.DangerImportance
	case faulty && t != nil:
		say, importance = "! As of the last sound plan: see Checks", widget.WarningImportance
	case faulty:
		say, importance = "! No figures yet: see Checks", widget.WarningImportance
	case stale && t == nil:
		say = "computing…"
	case stale: // a drag computes many times a second: that is no news
		say = p.state.Text
	}
	form.Weigh(p.state, say, importance)
	if t == nil {
		p.keys, p.rows = "", nil
		form.Refill(p.list)
		return
	}
	p.faint = faulty || p.job.Err() != nil
	p.fill(t)
	for i := range t.Lines {
		p.set(&t.Lines[i])
	}
}

// Some brings rows up to date until a time, and tells whether it goes on from there in
// the next turn. Between two calls the takeoff may change.
func (p *Panel) Some(until time.Time) (more bool) {
	t, _ := p.job.Takeoff()
	if t == nil || len(p.job.Faults()) > 0 || p.job.Err() != nil || p.faint || lineKeys(t) != p.keys {
		p.next = 0
		p.Update()
		return false
	}
	if p.next == 0 {
		if p.of == p.stamp() {
			return false // shown already
		}
		p.round = t
	}
	for ; p.next < len(t.Lines); p.next++ {
		if time.Now().After(until) {
			return true
		}
		p.set(&t.Lines[p.next])
	}
	p.next = 0
	return t != p.round // rows before where it changed are of the one before
}

// set shows a line in its row.
func (p *Panel) set(l *takeoff.Line) {
	p.rows[l.ID].Show(l.Name, words.Quantity(l.Value, l.Unit), p.faint)
}

// lineKeys tells takeoffs of other lines apart.
func lineKeys(t *takeoff.Takeoff) string {
	var keys strings.Builder
	for _, l := range t.Lines {
		fmt.Fprintln(&keys, l.ID)
	}
	return keys.String()
}

// fill makes the rows; anew only when there are others.
func (p *Panel) fill(t *takeoff.Takeoff) {
	keys := lineKeys(t)
	if keys == p.keys {
		return
	}
	p.keys, p.rows = keys, map[takeoff.ID]*form.Fold{}
	var os []fyne.CanvasObject
	group := takeoff.Group("")
	for _, l := range t.Lines {
		if g := l.ID.Kind.Group(); g != group {
			group = g
			h := form.Bold(string(group))
			h.SizeName = theme.SizeNameCaptionText
			os = append(os, h)
		}
		p.rows[l.ID] = form.NewFold(p.open, func() string { return fmt.Sprint(l.ID) }, func(below *fyne.Container) func() {
			shown := ""
			return func() {
				t, _ := p.job.Takeoff()
				i := slices.IndexFunc(t.Lines, func(line takeoff.Line) bool { return line.ID == l.ID })
				if i < 0 {
					return
				}
				line := t.Lines[i]
				if text := fmt.Sprint(line.Working); text != shown {
					shown = text
					form.Refill(below, form.Working(line.Working)...)
				}
			}
		})
		os = append(os, p.rows[l.ID].Box)
	}
	form.Refill(p.list, os...)
}
