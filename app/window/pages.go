package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/pages/book"
	"haunchbook.example/app/window/pages/options"
	"haunchbook.example/app/window/pages/pour"
	"haunchbook.example/app/window/pages/price"
)

// pages shows one thing at a time in the middle of the window: the plan with its
// tools and panels, or a page as wide as the window.
type pages struct {
	w      *Window
	list   []*fullPage
	at     int
	bar    fyne.CanvasObject // their tabs
	object *fyne.Container
}

// fullPage is a page, made when it is first shown.
type fullPage struct {
	name, about string
	make        func() pageView
	view        pageView // nil for the plan, and before it is made
	root        fyne.CanvasObject
	tab         *form.Button

	job    string                     // that was shown last
	places map[string][]fyne.Position // where it was scrolled to, by job
}

// pageView is what a page shows.
type pageView interface {
	Object() fyne.CanvasObject
	Update()
}

// The pages, in the order of their tabs.
const (
	planPage = iota
	pricePage
	optionsPage
	pourPage
	bookPage
)

func newPages(w *Window, plan fyne.CanvasObject) *pages {
	d := &desk{w.doc, w}
	p := &pages{w: w}
	p.list = []*fullPage{
		planPage:    {name: "Plan", root: plan},
		pricePage:   {name: "Price", about: "Click a line to see how it comes about.", make: func() pageView { return price.New(d) }},
		optionsPage: {name: "Options", about: "An empty field keeps what is drawn.", make: func() pageView { return options.New(d, w.fonts, w.scheduler) }},
		pourPage:    {name: "Pour", about: "The order, the trucks, the lanes and the weather.", make: func() pageView { return pour.New(d, w.fonts, w.scheduler) }},
		bookPage:    {name: "Job book", about: "States, revisions, what a job took, backups.", make: func() pageView { return book.New(d, w.shelf, w.fonts, w.scheduler) }},
	}
	bar := container.NewHBox()
	for i, f := range p.list {
		f.tab = form.Do(f.name, func() { p.turn(i) })
		bar.Add(f.tab)
	}
	p.bar, p.object = bar, container.NewStack(plan)
	p.mark()
	return p
}

// mark shows which tab is on.
func (p *pages) mark() {
	for i, f := range p.list {
		f.tab.Importance = widget.LowImportance
		if i == p.at {
			f.tab.Importance = widget.HighImportance
		}
		f.tab.Refresh()
	}
}

// turn shows a page.
func (p *pages) turn(i int) {
	if i == p.at {
		return
	}
	f := p.list[i]
	if f.root == nil {
		f.view = f.make()
		f.root = f.view.Object()
	}
	p.at = i
	p.w.machine.Notice, p.w.machine.Info = "", ""
	form.Refill(p.object, f.root)
	p.mark()
	if i == planPage {
		p.w.win.Canvas().Focus(p.w.plan)
	} else {
		p.w.doc.Cancel() // a drag that was under way
		p.w.win.Canvas().Unfocus()
	}
	p.w.refresh()
}

// home goes back to the plan.
func (p *pages) home() { p.turn(planPage) }

// show brings the open page up to date.
func (p *pages) show() {
	f := p.list[p.at]
	if f.view == nil {
		return
	}
	if p.at == bookPage || f.job == p.w.job {
		f.view.Update()
		return
	}
	if f.places == nil {
		f.places = map[string][]fyne.Position{}
	}
	was := f.places[p.w.job]
	f.places[f.job] = nil
	for _, s := range f.scrolls() {
		f.places[f.job] = append(f.places[f.job], s.Offset)
	}
	f.job = p.w.job
	f.view.Update()
	for i, s := range f.scrolls() {
		at := fyne.Position{}
		if i < len(was) {
			at = was[i]
		}
		s.ScrollToOffset(at)
	}
}

// scrolls gives what a page scrolls, from the top.
func (f *fullPage) scrolls() (all []*container.Scroll) {
	form.Visit(f.root, func(o fyne.CanvasObject) {
		if s, ok := o.(*container.Scroll); ok {
			all = append(all, s)
		}
	})
	return all
}

// repaint draws everything anew, what is not in sight as well: the toolkit repaints
// only what is.
func (p *pages) repaint() {
	for _, f := range p.list {
		if f.root != nil {
			form.Visit(f.root, fyne.CanvasObject.Refresh)
		}
	}
	for _, t := range p.w.side.tabs.Items {
		form.Visit(t.Content, fyne.CanvasObject.Refresh)
	}
}

// forget lets go of what the job book's page shows, when another book is open.
func (p *pages) forget() {
	p.home()
	p.list[bookPage].root, p.list[bookPage].view = nil, nil
}

// items are the entries of the menu, with their keys. say says their names.
func (p *pages) items(say func(string) string) []*fyne.MenuItem {
	var out []*fyne.MenuItem
	keys := []fyne.KeyName{fyne.Key1, fyne.Key2, fyne.Key3, fyne.Key4, fyne.Key5}
	for i, f := range p.list {
		m := fyne.NewMenuItem(say(f.name), func() { p.turn(i) })
		m.Shortcut = ctrl(keys[i], 0)
		out = append(out, m)
	}
	return out
}
