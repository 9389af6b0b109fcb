package window

import (
	"fmt"

	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
)

// editPanel shows the fields of what is selected, or of what the tool at hand
// is about to draw.
type editPanel struct {
	w      *Window
	page   page // a page asked for, in place of the selection's
	key    string
	form   *form
	scroll *container.Scroll
}

// page is a form that does not depend on the selection.
type page uint8

const (
	selection page = iota
	shapesPage
	legsPage
	sectionsPage
	cutPage
	printPage
	sketchPage
	surveyPage
)

// name is how the status line calls the page.
func (p page) name() string {
	return [...]string{"", "Outline by sizes", "Outline by legs", "Edge sections", "Section cut", "Print sheets", "Draw over a sketch", "North, benchmarks"}[p]
}

func newEditPanel(w *Window) *editPanel {
	return &editPanel{w: w, form: newForm(), scroll: container.NewVScroll(container.NewVBox())}
}

// turn shows a page.
func (p *editPanel) turn(to page) {
	p.page, p.key = to, ""
	p.show()
}

// show makes the form for what is at hand, or brings the present one up to date.
func (p *editPanel) show() {
	m := p.w.machine
	if _, ok := m.State().(*tool.Select); !ok && p.page != cutPage && p.page != sketchPage {
		p.page = selection
	}
	key := p.state()
	if key == p.key {
		p.form.sync()
		return
	}
	p.key = key
	refocus := p.w.keepFocus(p.scroll)
	p.form = newForm()
	p.w.roomFor(p.page != selection)
	p.build()
	p.scroll.Content = container.NewPadded(p.form.box)
	p.scroll.Refresh()
	p.scroll.ScrollToTop()
	if p.page == selection {
		refocus(nil)
	} else {
		refocus(p.scroll)
	}
}

// state tells apart what asks for a form of its own.
func (p *editPanel) state() string {
	m, j := p.w.machine, p.w.doc.Job()
	key := fmt.Sprint(p.page, m.State().Name(), m.Selected.Kind, m.Selected.Loop, m.Selected.Index, m.Selected.Sub,
		p.w.doc.Slab(), len(j.Slabs), len(p.w.doc.Plan().Outline) > 0)
	switch {
	case p.page == surveyPage || m.Selected.Kind == hit.North:
		for _, b := range j.Survey.Benchmarks {
			key += fmt.Sprint(b.Name, b.Height)
		}
		for _, n := range j.Survey.Notes {
			key += n.Text
		}
	case m.Selected.Kind == hit.Edge && m.Exists(m.Selected):
		e := p.loop(m.Selected.Loop)[m.Selected.Index]
		key += fmt.Sprint(len(e.Bolts), e.Wall != "")
	}
	return key
}

func (p *editPanel) build() {
	switch p.page {
	case shapesPage:
		p.shapes()
		return
	case legsPage:
		p.legs()
		return
	case sectionsPage:
		p.sections()
		return
	case cutPage:
		p.cut()
		return
	case printPage:
		p.print()
		return
	case sketchPage:
		p.sketch()
		return
	case surveyPage:
		p.survey()
		return
	}
	switch s := p.w.machine.State().(type) {
	case *tool.Paint:
		p.paint()
		return
	case *tool.PlaceDoor:
		p.newDoor()
		return
	case *tool.PlaceBolt:
		p.newBolts()
		return
	case *tool.PlacePad:
		p.newPad()
		return
	case *tool.Chain:
		if s.What == tool.Band {
			p.newStrip()
			return
		}
		p.newEdges()
		return
	case *tool.Rectangle:
		p.newEdges()
		return
	}
	switch t := p.w.machine.Selected; {
	case !p.w.machine.Exists(t):
		p.slab()
	case t.Kind == hit.Edge:
		p.edge(t)
	case t.Kind == hit.Corner:
		p.corner(t)
	case t.Kind == hit.Door:
		p.door(t)
	case t.Kind == hit.Pad:
		p.pad(t)
	case t.Kind == hit.Strip:
		p.strip(t)
	case t.Kind == hit.Fall:
		p.fall(t)
	case t.Kind == hit.Bolt:
		p.bolt(t)
	case t.Kind == hit.North:
		p.survey()
	case t.Kind == hit.Benchmark:
		p.benchmark(t)
	case t.Kind == hit.Note:
		p.note(t)
	case t.Kind == hit.Slab && t.Loop > 0:
		p.hole(t)
	default:
		p.slab()
	}
}

// none is how "no section" and "no wall" are listed.
const none = "none"

func named(s string) string {
	if s == "" {
		return none
	}
	return s
}

func unnamed(s string) string {
	if s == none {
		return ""
	}
	return s
}

func (p *editPanel) units() geometry.Units { return p.w.doc.Units() }

func (p *editPanel) sectionNames() []string {
	names := []string{none}
	for _, s := range p.w.doc.Plan().Sections {
		names = append(names, s.Name)
	}
	return names
}

func wallNames() []string {
	names := []string{none}
	for _, b := range lumber.Boards() {
		names = append(names, b.Name)
	}
	return names
}

// commit makes a changed plan a step of the history.
func (p *editPanel) commit(label string, q plan.Plan, err error) error {
	if err == nil {
		p.w.doc.CommitPlan(label, q)
	}
	return err
}

// change applies a function to a copy of the plan.
func (p *editPanel) change(label string, f func(*plan.Plan)) error {
	q := p.w.doc.Plan().Clone()
	f(&q)
	return p.commit(label, q, nil)
}

func (p *editPanel) loop(k int) plan.Loop { return p.w.doc.Plan().Loops()[k] }

func (p *editPanel) report(err error) {
	if err != nil {
		p.w.say(err.Error())
	}
}
