// Package checks has the panel of faults of the job and findings of the takeoff; a
// click shows the place.
package checks

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/look"
	"haunchbook.example/geometry"
)

// Frame is what the panel needs of the window.
type Frame interface {
	Version() int
	Said() []document.Said
	Blank() bool
	Takeoff() (*takeoff.Takeoff, bool)
	// ShowPlace shows a place of the plan; slab is -1 where it belongs to none.
	ShowPlace(slab int, at geometry.Point)
	// ShowField shows the page that has a field of the job file; false where it is on
	// the plan.
	ShowField(path string) bool
}

// Panel lists what was found.
type Panel struct {
	frame Frame
	list  *fyne.Container
	*container.Scroll
	shown string
	of    any // what it was shown for
	count int
}

// New gives the panel.
func New(f Frame) *Panel {
	p := &Panel{frame: f, list: container.NewVBox()}
	p.Scroll = container.NewVScroll(p.list)
	return p
}

// Count gives how many lines there are.
func (p *Panel) Count() int { return p.count }

// check is one line of the list.
type check struct {
	grave  bool
	title  string
	text   string
	source string
	slab   int // -1 for the job as a whole
	at     geometry.Point
	path   string // of a fault, as in a job file
}

func (p *Panel) checks() []check {
	var cs []check
	said := p.frame.Said()
	for _, s := range said {
		cs = append(cs, check{true, s.Place, "Found " + s.Found + "; " + s.Want, "", s.Slab, s.At, s.Path})
	}
	t, _ := p.frame.Takeoff()
	if t == nil || len(said) > 0 || p.frame.Blank() {
		return cs
	}
	on := slabsOf(t)
	for _, grave := range []bool{true, false} {
		for _, f := range t.Findings {
			if f.Broken() != grave {
				continue
			}
			c := check{grave, f.Rule.Name, f.Text, f.Rule.Source, -1, f.At, ""}
			if k, ok := on[f.Text]; ok {
				c.slab = k
				if s, _ := t.Slab(k); s.Name != "" {
					c.title = s.Name + ": " + c.title
				}
			}
			cs = append(cs, c)
		}
	}
	return cs
}

// slabsOf tells which slab a finding is on, by its text, which names the slab.
func slabsOf(t *takeoff.Takeoff) map[string]int {
	on := map[string]int{}
	for _, s := range t.Slabs {
		for _, f := range s.Layout.Findings {
			on[f.Text] = s.Number
		}
	}
	return on
}

// visit shows what a check is about.
func (p *Panel) visit(c check) {
	if root, _, _ := strings.Cut(c.path, "."); root == "" || !p.frame.ShowField(root) {
		p.frame.ShowPlace(c.slab, c.at)
	}
}

// most is how many lines are listed.
const most = 200

// Update brings the list up to date; it is made anew only when it differs.
func (p *Panel) Update() {
	t, _ := p.frame.Takeoff()
	if of := [2]any{p.frame.Version(), t}; of != p.of {
		p.of = of
		p.fill(p.checks())
	}
}

func (p *Panel) fill(cs []check) {
	p.count = len(cs)
	if text := fmt.Sprint(cs); text != p.shown {
		p.shown = text
		var os []fyne.CanvasObject
		if len(cs) == 0 {
			os = append(os, form.Wrapped("Nothing to report. Structural values defer to local code and a licensed engineer."))
		}
		for i, c := range cs {
			if i == most {
				os = append(os, form.Wrapped(fmt.Sprintf("… and %d more", len(cs)-most)))
				break
			}
			os = append(os, p.line(c))
		}
		form.Refill(p.list, os...)
	}
}

func (p *Panel) line(c check) fyne.CanvasObject {
	head := form.NewButton(c.title, theme.NewThemedResource(look.Know), func() { p.visit(c) }).Leading().Faint()
	if c.grave {
		head.Icon, head.Importance = theme.NewThemedResource(look.Caution), widget.WarningImportance
	}
	box := container.NewVBox(head, form.Small(c.text))
	if c.source != "" {
		l := form.Small(c.source)
		l.TextStyle.Italic = true
		box.Add(l)
	}
	box.Add(form.Rule())
	return box
}
