package window

import (
	"image"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/storage"
)

// bookPage is the job book: the list of its jobs, and beside it what can be done
// with one, its revisions, what it took, and the book itself.
type bookPage struct {
	w      *Window
	all    []storage.Summary
	listed []storage.Summary
	query  string
	order  storage.SortBy
	older  bool // archived jobs are listed
	chosen storage.ID

	history bool // exports hold the undo history

	search *searchEntry
	list   *jobList
	count  *widget.Label
	parts  []*bookPart
	part   int
	body   *fyne.Container
	root   fyne.CanvasObject
}

// bookPart is one of the things beside the list, made anew when it is shown for
// another job.
type bookPart struct {
	name string
	make func() (fyne.CanvasObject, func()) // what is shown, and what brings it up to date
	tab  *pageButton
	sync func()
}

// orders are what the list can be sorted by.
var orders = []struct {
	name string
	by   storage.SortBy
}{
	{"last changed first", storage.ByChanged}, {"by number", storage.ByNumber}, {"by name", storage.ByName},
	{"by customer", storage.ByCustomer}, {"by site", storage.BySite}, {"by state", storage.ByState},
}

func newBookPage(w *Window) pageView {
	p := &bookPage{w: w, count: widget.NewLabel(""), body: container.NewStack()}
	if w.book == nil {
		l := widget.NewLabel("This window has no job book: the job ends with it, unless it is saved as a job file.")
		l.Wrapping = fyne.TextWrapWord
		p.root = container.NewPadded(container.NewVBox(l, container.NewHBox(
			newPageButton(w, "Open a job book…", w.chooseBook), newPageButton(w, "Save as a job file…", w.saveFile), newPageButton(w, "Sample job", w.sample),
		)))
		return p
	}
	p.search = newSearchEntry(w)
	p.search.SetPlaceHolder("Search by name, customer, site, state; Enter opens")
	p.search.OnChanged = func(s string) {
		p.query = s
		p.filter()
	}
	p.search.OnSubmitted = func(string) { p.openFound() }
	p.list = newJobList(p)
	p.search.down = func() { w.win.Canvas().Focus(p.list) }
	f := newPageForm(w)
	var names []string
	for _, o := range orders {
		names = append(names, o.name)
	}
	f.choice("Sorted", names, func() string { return names[p.orderAt()] }, func(v string) {
		p.order = orders[max(0, slices.Index(names, v))].by
		p.filter()
	})
	f.check("Archived jobs too", func() bool { return p.older }, func(v bool) {
		p.older = v
		p.filter()
	})
	p.count.SizeName = theme.SizeNameCaptionText
	begin := container.NewGridWithColumns(2, newPageButton(w, "New job", w.newJob), newPageButton(w, "Sample job", w.sample))
	left := container.NewBorder(container.NewVBox(p.search, f.box, p.count), begin, nil, nil, p.list)
	p.parts = []*bookPart{
		{name: "Job", make: p.jobPart}, {name: "Revisions", make: p.revisionsPart},
		{name: "After the pour", make: p.recordPart}, {name: "Own figures", make: p.lessonsPart},
		{name: "Price lists", make: p.pricesPart}, {name: "Settings", make: p.settingsPart}, {name: "The book", make: p.filePart},
	}
	tabs := container.NewHBox()
	for i, part := range p.parts {
		part.tab = newPageButton(w, part.name, func() { p.turn(i) })
		tabs.Add(part.tab)
	}
	right := container.NewBorder(tabs, nil, nil, nil, container.NewVScroll(p.body))
	side := container.NewHBox(container.NewStack(strut(380, 200), left), widget.NewSeparator())
	p.root = container.NewPadded(container.NewBorder(nil, nil, side, nil, right))
	p.chosen = w.id
	p.turn(0)
	return p
}

func (p *bookPage) object() fyne.CanvasObject { return p.root }

// show reads the list anew.
func (p *bookPage) show() {
	if p.w.book == nil {
		return
	}
	p.reload()
	if s := p.parts[p.part].sync; s != nil {
		s()
	}
}

func (p *bookPage) reload() {
	all, err := p.w.book.List()
	p.say(err)
	p.all = all
	if _, ok := p.summary(); !ok {
		p.chosen = p.w.id
	}
	p.filter()
}

func (p *bookPage) say(err error) {
	if err != nil {
		p.w.say(err.Error())
	}
}

// summary gives the chosen job's line.
func (p *bookPage) summary() (storage.Summary, bool) {
	for _, s := range p.all {
		if s.ID == p.chosen {
			return s, true
		}
	}
	return storage.Summary{}, false
}

// filter lists the jobs that match, in order.
func (p *bookPage) filter() {
	p.listed = p.listed[:0]
	for _, s := range p.all {
		if (p.older || !s.Archived) && s.Matches(p.query) {
			p.listed = append(p.listed, s)
		}
	}
	storage.Sort(p.listed, p.order)
	text := plural(len(p.listed), "job")
	if n := len(p.all) - len(p.listed); n > 0 {
		text += ", " + plural(n, "more") + " not listed"
	}
	set(p.count, text)
	p.list.Refresh()
	p.list.mark()
}

// orderAt gives the place of the order among the orders.
func (p *bookPage) orderAt() int {
	for i, o := range orders {
		if o.by == p.order {
			return i
		}
	}
	return 0
}

func plural(n int, noun string) string {
	s := thousands(itoa(n)) + " " + noun
	if n != 1 && noun != "more" {
		s += "s"
	}
	return s
}

// choose shows a job beside the list.
func (p *bookPage) choose(id storage.ID) {
	if id == p.chosen {
		return
	}
	p.chosen = id
	p.turn(p.part)
}

// turn shows one of the parts.
func (p *bookPage) turn(i int) {
	p.part = i
	for n, part := range p.parts {
		part.tab.Importance = widget.LowImportance
		if n == i {
			part.tab.Importance = widget.HighImportance
		}
		part.tab.Refresh()
	}
	p.reload()
	o, sync := p.parts[i].make()
	p.parts[i].sync = sync
	p.body.Objects = []fyne.CanvasObject{container.New(partWidth, o)}
	p.body.Refresh()
	if sync != nil {
		sync()
	}
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
func (p *bookPage) openFound() {
	if strings.TrimSpace(p.query) == "" || len(p.listed) == 0 {
		return
	}
	p.choose(p.listed[0].ID)
	p.open()
}

// searchEntry hands Esc on, and the arrow down to what is below it.
type searchEntry struct {
	widget.Entry
	w    *Window
	down func() // nil for nothing below
}

func newSearchEntry(w *Window) *searchEntry {
	e := &searchEntry{w: w}
	e.ExtendBaseWidget(e)
	return e
}

// TypedKey implements fyne.Focusable.
func (e *searchEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		if e.Text != "" {
			e.SetText("")
			return
		}
		e.w.pages.home()
		return
	}
	if k.Name == fyne.KeyDown && e.down != nil {
		e.down()
		return
	}
	e.Entry.TypedKey(k)
}

// jobList is the list of jobs; only the rows in sight exist.
type jobList struct {
	widget.List
	p *bookPage
}

func newJobList(p *bookPage) *jobList {
	l := &jobList{p: p}
	l.Length = func() int { return len(p.listed) }
	l.CreateItem = func() fyne.CanvasObject { return newJobRow(p.w) }
	l.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) {
		if i < len(p.listed) {
			o.(*jobRow).set(p.listed[i], p.listed[i].ID == p.w.id)
		}
	}
	l.OnSelected = func(i widget.ListItemID) {
		if i < len(p.listed) {
			p.choose(p.listed[i].ID)
		}
	}
	l.ExtendBaseWidget(l)
	return l
}

// mark selects the chosen job's row.
func (l *jobList) mark() {
	for i, s := range l.p.listed {
		if s.ID == l.p.chosen {
			l.Select(i)
			return
		}
	}
	l.UnselectAll()
}

// TypedKey implements fyne.Focusable.
func (l *jobList) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyEscape:
		l.p.w.pages.home()
	case fyne.KeyReturn, fyne.KeyEnter:
		l.List.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace}) // choose
		l.p.open()
	default:
		l.List.TypedKey(k)
	}
}

// jobRow is a job's line in the list: its outline, its name, and the rest.
type jobRow struct {
	widget.BaseWidget
	dots       []storage.Dot
	brush      paint.Brush
	raster     *canvas.Raster
	name, rest *widget.Label
}

func newJobRow(w *Window) *jobRow {
	r := &jobRow{name: figure("", fyne.TextAlignLeading), rest: figure("", fyne.TextAlignLeading)}
	r.brush.Fonts = w.fonts
	r.name.TextStyle.Bold = true
	r.rest.SizeName = theme.SizeNameCaptionText
	r.raster = canvas.NewRaster(r.picture)
	r.raster.SetMinSize(fyne.NewSize(54, 44))
	r.ExtendBaseWidget(r)
	return r
}

func (r *jobRow) set(s storage.Summary, open bool) {
	name := s.Name
	if name == "" {
		name = "Unnamed job"
	}
	if open {
		name += "   (open)"
	}
	parts := []string{s.ID.String(), s.State.String()}
	if s.Archived {
		parts = append(parts, "archived")
	}
	for _, t := range []string{s.Date, s.Customer, s.Site} {
		if t != "" {
			parts = append(parts, t)
		}
	}
	set(r.name, name)
	set(r.rest, strings.Join(parts, " · "))
	r.dots = s.Thumbnail
	r.raster.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (r *jobRow) CreateRenderer() fyne.WidgetRenderer {
	text := container.New(&tightRows{}, r.name, r.rest)
	return widget.NewSimpleRenderer(container.NewBorder(nil, nil, r.raster, nil, text))
}

func (r *jobRow) picture(w, h int) image.Image {
	pal := palette()
	r.brush.Reset(w, h, pal.Paper)
	if len(r.dots) < 3 {
		return r.brush.Img
	}
	x, y := uint8(0), uint8(0)
	for _, d := range r.dots {
		x, y = max(x, d.X), max(y, d.Y)
	}
	margin := float64(h) * 0.12
	k := min((float64(w)-2*margin)/float64(max(1, x)), (float64(h)-2*margin)/float64(max(1, y)))
	ring := make([]paint.Point, len(r.dots))
	for i, d := range r.dots {
		ring[i] = paint.Point{X: float64(w)/2 + (float64(d.X)-float64(x)/2)*k, Y: float64(h)/2 - (float64(d.Y)-float64(y)/2)*k}
	}
	r.brush.Fill([][]paint.Point{ring}, pal.Slab)
	r.brush.Polyline(ring, true, max(1, float64(h)/40), pal.Ink)
	return r.brush.Img
}

// tightRows stacks labels closer than a box does.
type tightRows struct{}

func (tightRows) Layout(os []fyne.CanvasObject, s fyne.Size) {
	step := s.Height / float32(len(os))
	for i, o := range os {
		h := o.MinSize().Height
		o.Resize(fyne.NewSize(s.Width, h))
		o.Move(fyne.NewPos(0, step*float32(i)+(step-h)/2))
	}
}

func (tightRows) MinSize(os []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(120, float32(len(os))*22)
}
