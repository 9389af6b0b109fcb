// Package book has the page of the job book: the list of its jobs, and beside it what
// can be done with one, its revisions, what it took, and the book itself.
package book

import (
	"context"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/app/window/words"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/storage"
)

// Frame is what the page needs of the window.
type Frame interface {
	form.Desk
	Tell(text string)
	Now() time.Time
	Window() fyne.Window
	Home() // to the plan
	Draw(s tool.State)
	Refresh()
	ForgetPrices()

	Base() job.Job
	Version() int
	Prices() estimate.PriceList
	Change(label string, change func(*job.Job)) error
	ChangePrices(label string, change func(*estimate.PriceList)) error
	Commit(label string, j job.Job)
	OwnPrices(label string) error

	Display(j job.Job, id storage.ID) // opens a job
	Leave(then func())                // asks first where that would lose changes
	NewJob()
	Sample()
	OpenJob(id storage.ID)
	SaveFile()
	ChooseBook()
	// The languages that the window may speak, and the one it does.
	Languages() (codes, names []string)
	Language() string
	SetLanguage(code string) error
	// Stoppable does work beside the window that the user can stop; done runs on the
	// window's goroutine unless there was an error.
	Stoppable(what string, work func(context.Context) (done func(), err error))
}

// Page is the page.
type Page struct {
	Frame
	shelf  *shelf.Shelf
	book   *storage.Book
	fonts  *paint.Fonts
	work   document.Latest
	all    []storage.Summary
	listed []storage.Summary
	query  string
	order  storage.SortBy
	older  bool // archived jobs are listed
	chosen storage.ID

	history  bool // exports hold the undo history
	joining  joining
	founding *founding

	search *form.Entry
	list   *jobList
	count  *widget.Label
	parts  []*part
	part   int
	body   *fyne.Container
	scroll *container.Scroll
	places map[place]fyne.Position // where the parts were scrolled to
	place  place
	root   fyne.CanvasObject
}

// part is one of the things beside the list, made anew when it is shown for another
// job.
type part struct {
	name string
	make func() (fyne.CanvasObject, func()) // what is shown, and what brings it up to date
	tab  *form.Button
	sync func()

	opened bool // from the first part, and has no tab
}

// place is a part of what is shown of a job.
type place struct {
	job  storage.ID
	part int
}

// orders are what the list can be sorted by.
var (
	orders = []storage.SortBy{storage.ByChanged, storage.ByNumber, storage.ByName, storage.ByCustomer, storage.BySite, storage.ByState}
	sorted = []string{"last changed first", "by number", "by name", "by customer", "by site", "by state"}
)

// New gives the page of the book on a shelf.
func New(f Frame, s *shelf.Shelf, fonts *paint.Fonts, sc document.Scheduler) *Page {
	p := &Page{Frame: f, shelf: s, book: s.Book(), fonts: fonts, work: document.Latest{Scheduler: sc}, count: form.Small(""), body: container.NewStack(), places: map[place]fyne.Position{}}
	p.scroll = container.NewVScroll(p.body)
	if p.book == nil {
		p.root = container.NewPadded(container.NewVBox(
			form.Wrapped("This window has no job book: the job ends with it, unless it is saved as a job file."),
			container.NewHBox(form.Do("Open a job book…", f.ChooseBook), form.Do("Save as a job file…", f.SaveFile), form.Do("Sample job", f.Sample)),
		))
		return p
	}
	p.search = form.NewSearch("Search by name, customer, site, state; Enter opens", func(s string) {
		p.query = s
		p.filter()
	}, p.openFound)
	p.list = newJobList(p)
	p.search.Down = func() { f.Window().Canvas().Focus(p.list) }
	left := form.New(f)
	bind.OneOf(left, "Sorted", sorted, orders, func() storage.SortBy { return p.order }, func(by storage.SortBy) error {
		p.order = by
		p.filter()
		return nil
	})
	left.Check("Archived jobs too", func() bool { return p.older }, func(v bool) error {
		p.older = v
		p.filter()
		return nil
	})
	begin := container.NewGridWithColumns(2, form.Do("New job", f.NewJob), form.Do("Sample job", f.Sample))
	p.parts = []*part{
		{name: "Job", make: p.jobPart}, {name: "Revisions", make: p.revisionsPart},
		{name: "After the pour", make: p.recordPart}, {name: "Own figures", make: p.lessonsPart},
		{name: "Price lists", make: p.pricesPart}, {name: "Settings", make: p.settingsPart}, {name: "The book", make: p.filePart},
		{name: visitName, make: p.visitPart, opened: true}, {name: officeName, make: p.officePart, opened: true},
	}
	tabs := container.NewHBox()
	for i, part := range p.parts {
		part.tab = form.Do(part.name, func() { p.turn(i) })
		if !part.opened {
			tabs.Add(part.tab)
		}
	}
	side := container.NewBorder(container.NewVBox(p.search, left.Box, p.count), begin, nil, nil, p.list)
	p.root = container.NewPadded(container.NewBorder(nil, nil,
		container.NewHBox(container.NewStack(form.Strut(380, 200), side), form.Rule()), nil,
		container.NewBorder(tabs, nil, nil, nil, p.scroll)))
	p.chosen = s.ID()
	p.turn(0)
	return p
}

// Object gives what is shown.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// Search gives the field that finds a job; nil without a book.
func (p *Page) Search() *form.Entry { return p.search }

// Update reads the list anew.
func (p *Page) Update() {
	if p.book == nil {
		return
	}
	p.reload()
	if s := p.parts[p.part].sync; s != nil {
		s()
	}
}

func (p *Page) reload() {
	all, err := p.book.List()
	p.say(err)
	p.all = all
	if _, ok := p.summary(); !ok {
		p.chosen = p.shelf.ID()
	}
	p.filter()
}

func (p *Page) say(err error) {
	if err != nil {
		p.Say(shelf.Sentence(err))
	}
}

// summary gives the chosen job's line.
func (p *Page) summary() (storage.Summary, bool) {
	i := slices.IndexFunc(p.all, func(s storage.Summary) bool { return s.ID == p.chosen })
	if i < 0 {
		return storage.Summary{}, false
	}
	return p.all[i], true
}

// filter lists the jobs that match, in order.
func (p *Page) filter() {
	p.listed = p.listed[:0]
	for _, s := range p.all {
		if (p.older || !s.Archived) && s.Matches(p.query) {
			p.listed = append(p.listed, s)
		}
	}
	storage.Sort(p.listed, p.order)
	text := words.Plural(len(p.listed), "job")
	if n := len(p.all) - len(p.listed); n > 0 {
		text += ", " + words.Plural(n, "more") + " not listed"
	}
	form.Set(p.count, text)
	p.list.Refresh()
	p.list.mark()
}

// choose shows a job beside the list.
func (p *Page) choose(id storage.ID) {
	if id != p.chosen {
		p.chosen = id
		p.turn(p.part)
	}
}

// turn shows one of the parts.
func (p *Page) turn(i int) {
	p.part = i
	for n, part := range p.parts {
		part.tab.Importance = widget.LowImportance
		if n == i || n == 0 && p.parts[i].opened {
			part.tab.Importance = widget.HighImportance
		}
		part.tab.Refresh()
	}
	p.reload()
	p.places[p.place] = p.scroll.Offset
	p.place = place{p.chosen, i}
	o, sync := p.parts[i].make()
	p.parts[i].sync = sync
	form.Refill(p.body, container.New(partWidth, o))
	if sync != nil {
		sync()
	}
	p.scroll.ScrollToOffset(p.places[p.place])
}

// again makes the part that is shown anew, and tells why.
func (p *Page) again(text string) {
	p.turn(p.part)
	p.Tell(text)
}

// partWidth keeps what is beside the list from growing wider than one can follow
// from a label to its field.
var partWidth = &atMost{760}

// atMost gives what is in it no more than a width, and a margin.
type atMost struct{ width float32 }

func (l *atMost) Layout(os []fyne.CanvasObject, s fyne.Size) {
	pad := theme.Padding()
	for _, o := range os {
		o.Move(fyne.NewPos(pad, pad))
		o.Resize(fyne.NewSize(min(l.width, s.Width-2*pad), s.Height-2*pad))
	}
}

func (l *atMost) MinSize(os []fyne.CanvasObject) fyne.Size {
	m := fyne.NewSize(0, 0)
	for _, o := range os {
		m = m.Max(o.MinSize())
	}
	return m.AddWidthHeight(2*theme.Padding(), 2*theme.Padding())
}

// openFound opens the first job that the search finds.
func (p *Page) openFound() {
	if strings.TrimSpace(p.query) != "" && len(p.listed) > 0 {
		p.choose(p.listed[0].ID)
		p.open()
	}
}

// open shows the chosen job on the plan.
func (p *Page) open() {
	if p.chosen == 0 || p.chosen == p.shelf.ID() {
		p.Home()
	} else {
		p.OpenJob(p.chosen)
	}
}

// slabFault tells whether a fault is of the slabs, of which a start for new jobs has
// none yet.
func slabFault(f plan.Fault) bool { return strings.HasPrefix(f.Path, "slab") }

var units = []geometry.Units{geometry.FeetInches, geometry.Millimeters}
