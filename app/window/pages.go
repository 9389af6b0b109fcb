package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/document"
)

// pages shows one thing at a time in the middle of the window: the plan with its
// tools and panels, or a page as wide as the window.
type pages struct {
	w      *Window
	list   []*fullPage
	at     int               // 0 is the plan
	bar    fyne.CanvasObject // their tabs
	body   *fyne.Container
	object fyne.CanvasObject
	work   latest
}

// fullPage is a page, made when it is first shown.
type fullPage struct {
	name, about string
	make        func(*Window) pageView
	view        pageView
	root        fyne.CanvasObject
	tab         *pageButton
}

// pageView is what a page shows.
type pageView interface {
	object() fyne.CanvasObject
	show() // brings it up to date
}

// The pages, in the order of their tabs.
const (
	planView = iota
	priceView
	optionsView
	pourView
	bookView
)

func newPages(w *Window, plan fyne.CanvasObject, s document.Scheduler) *pages {
	p := &pages{w: w, work: latest{scheduler: s}}
	p.list = []*fullPage{
		planView:    {name: "Plan", root: plan},
		priceView:   {name: "Price", about: "Click a line to see how it comes about.", make: newPricePage},
		optionsView: {name: "Options", about: "An empty field keeps what is drawn.", make: newOptionsPage},
		pourView:    {name: "Pour", about: "The order, the trucks, the strips and the weather.", make: newPourPage},
		bookView:    {name: "Job book", about: "States, revisions, what a job took, backups.", make: newBookPage},
	}
	bar := container.NewHBox()
	for i, f := range p.list {
		f.tab = newPageButton(w, f.name, func() { p.turn(i) })
		bar.Add(f.tab)
	}
	bar.Add(layout.NewSpacer())
	p.bar, p.body = bar, container.NewStack(plan)
	p.object = container.NewBorder(container.NewVBox(bar, divider()), nil, nil, nil, p.body)
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
		f.view = f.make(p.w)
		f.root = f.view.object()
	}
	p.at = i
	p.w.machine.Notice, p.w.machine.Info = "", ""
	p.body.Objects = []fyne.CanvasObject{f.root}
	p.body.Refresh()
	p.mark()
	c := p.w.win.Canvas()
	if i == planView {
		c.Focus(p.w.plan)
	} else {
		p.w.doc.Cancel() // a drag that was under way
		c.Unfocus()
	}
	p.w.refresh()
}

// home goes back to the plan.
func (p *pages) home() { p.turn(planView) }

// show brings the open page up to date.
func (p *pages) show() {
	f := p.list[p.at]
	if f.view == nil {
		return
	}
	f.view.show()
}

// forget lets go of what the job book's page shows, when another book is open.
func (p *pages) forget() {
	p.home()
	p.list[bookView].root, p.list[bookView].view = nil, nil
}

// items are the entries of the menu, with their keys.
func (p *pages) items() []*fyne.MenuItem {
	var out []*fyne.MenuItem
	keys := []fyne.KeyName{fyne.Key1, fyne.Key2, fyne.Key3, fyne.Key4, fyne.Key5}
	for i, f := range p.list {
		m := fyne.NewMenuItem(f.name, func() { p.turn(i) })
		m.Shortcut = ctrl(keys[i], 0)
		out = append(out, m)
	}
	return out
}

// latest runs work beside the window, one piece at a time; of what is asked for
// meanwhile only the last is done.
type latest struct {
	scheduler document.Scheduler
	running   bool
	next      func() func()
}

// run does work and then, on the window's goroutine, what work gives.
func (l *latest) run(work func() (done func())) {
	if l.running {
		l.next = work
		return
	}
	if l.scheduler.Go == nil {
		work()()
		return
	}
	l.running = true
	l.scheduler.Go(func() {
		done := work()
		l.scheduler.Post(func() {
			l.running = false
			if next := l.next; next != nil {
				l.next = nil
				l.run(next)
				return
			}
			done()
		})
	})
}
