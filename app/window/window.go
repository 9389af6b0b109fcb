// Package window is the drawing and estimating window: the plan in the middle,
// tools at the left, what is selected and the live takeoff at the right. It has
// no arithmetic of the trade; it shows what the rooms below compute.
package window

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/document"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// Options says how a window starts.
type Options struct {
	Job     job.Job
	Book    *storage.Book // nil for a window whose jobs end with it
	ID      storage.ID    // of Job in Book; 0 where it is not in it yet
	Welcome bool          // first run: say how to begin
	// Synchronous computes takeoffs at once in the window's goroutine.
	Synchronous bool
}

// Window is one window on one job.
type Window struct {
	app     fyne.App
	win     fyne.Window
	book    *storage.Book
	id      storage.ID
	doc     *document.Document
	machine *tool.Machine
	fonts   *paint.Fonts
	look    look

	plan     *PlanCanvas
	rail     *rail
	bar      *toolbar
	status   *statusLine
	edit     *editPanel
	checks   *checksPanel
	spec     *specPanel
	job      *jobPanel
	takeoff  *takeoffPanel
	tabs     *container.AppTabs
	right    *container.Split // the tabs above the takeoff
	height   float64          // the tabs' part of it before a page took more; 0 while none has
	greeting fyne.CanvasObject
	checked  *container.TabItem
	pages    *pages

	scheduler document.Scheduler
	shapes    *shapes
	pour      pourLayer
	kept      map[geometry.Units]estimate.PriceList // price lists for new jobs, as read

	history *bookHistory // of the job in the book; nil where there is none to write to
	filed   []byte       // the job as it was last saved as a job file
	strip   *unsavedStrip
	ticked  map[string]bool      // what to print, by file; nil before it was asked
	asked   *dialog.CustomDialog // the last question about unsaved changes

	worked    int                // the slab that was worked on when last looked at
	section   *[2]geometry.Point // of the section cut that is shown
	written   *widget.Button     // the button of the print page
	under     underSketch
	refreshed bool
	waiting   bool // for the panels' turn during a drag
}

// New makes a window on a job.
func New(a fyne.App, o Options) (*Window, error) {
	fonts, err := paint.NewFonts(theme.DefaultTheme().Font(fyne.TextStyle{}).Content())
	if err != nil {
		return nil, err
	}
	saveWhole()
	w := &Window{app: a, book: o.Book, id: o.ID, fonts: fonts}
	w.look.choice = Appearance(a.Preferences().IntWithFallback("appearance", int(System)))
	a.Settings().SetTheme(w.look)
	w.win = a.NewWindow("Haunchbook")
	s := document.Scheduler{Go: func(f func()) { go f() }, Post: fyne.Do}
	if o.Synchronous {
		s = document.Scheduler{}
	}
	w.scheduler = s
	w.shapes = &shapes{}
	w.doc = document.New(o.Job, w.shapes.after(compute), s)
	w.machine = tool.New(w.doc, func(text string) (float64, float64) {
		return fonts.Width(text, scene.TextSize), fonts.Height(scene.TextSize)
	})
	w.machine.Cut = w.showCut
	w.machine.Sketch = w.sketch
	w.usual()
	w.build()
	if err := w.attach(o.Job, o.ID); err != nil {
		w.say(sentence(err))
	}
	w.doc.Changed, w.machine.Changed = w.refresh, w.refresh
	w.doc.Failed = func(err error) { w.say(sentence(err)) }
	w.refresh()
	if o.Welcome {
		w.greeting.Show()
	}
	return w, nil
}

// usual makes ready what is drawn next, from what the job has.
func (w *Window) usual() {
	m := w.machine
	m.NewEdge.Section, m.NewEdge.Wall = "", ""
	if s := w.doc.Plan().Sections; len(s) > 0 {
		m.NewEdge.Section = s[0].Name
	}
	m.Brush = tool.Brush{Section: m.NewEdge.Section, Wall: "2x6"}
	if w.doc.Units() == geometry.Millimeters {
		m.NewDoor.Width = 2700 * geometry.Millimeter
	}
}

// build lays the window out.
func (w *Window) build() {
	w.plan = NewPlanCanvas(w.machine, w.fonts)
	w.plan.Shapes, w.plan.Layers = w.shapes, loadLayers(w.app.Preferences())
	w.pour = pourLayer{w: w, work: latest{scheduler: w.scheduler}}
	w.plan.Letter = w.letter
	w.plan.Under = w.underlay
	w.plan.Shortcut = w.shortcut
	w.plan.Spare = w.key
	w.rail = newRail(w)
	w.bar = newToolbar(w)
	w.status = newStatusLine()
	w.edit = newEditPanel(w)
	w.checks = newChecksPanel(w)
	w.spec = newSpecPanel(w)
	w.job = newJobPanel(w)
	w.takeoff = newTakeoffPanel()
	w.takeoff.lookup = func(id takeoff.ID) (takeoff.Line, bool) {
		if t, _ := w.doc.Takeoff(); t != nil {
			return t.Find(id)
		}
		return takeoff.Line{}, false
	}
	w.checked = container.NewTabItem("Checks", w.checks.scroll)
	w.tabs = container.NewAppTabs(
		container.NewTabItem("Edit", w.edit.scroll),
		w.checked,
		container.NewTabItem("Spec", w.spec.scroll),
		container.NewTabItem("Job", w.job.scroll),
	)
	w.tabs.OnSelected = func(*container.TabItem) { w.refresh() }
	w.right = container.NewVSplit(w.tabs, w.takeoff.object)
	w.right.Offset = 0.52
	side := container.NewStack(strut(330, 300), w.right)
	w.greeting = newGreeting(w)
	w.pages = newPages(w, container.NewBorder(w.greeting, nil, container.NewHBox(w.rail.object, divider()), side, w.plan), w.scheduler)
	w.strip = newUnsavedStrip(w)
	w.win.SetContent(container.NewBorder(
		container.NewVBox(w.strip.object, w.bar.object, divider()),
		container.NewVBox(divider(), w.status.object),
		nil, nil,
		w.pages.object,
	))
	w.win.SetMainMenu(w.menu())
	// Keys that nothing else has the focus for are for the plan.
	w.win.Canvas().SetOnTypedKey(w.key)
	w.win.Canvas().AddShortcut(ctrl(fyne.KeyZ, fyne.KeyModifierShift), w.shortcut)
	w.win.Canvas().SetOnTypedRune(func(r rune) {
		if w.pages.at == planView {
			w.plan.TypedRune(r)
		}
	})
	w.win.Resize(fyne.NewSize(1280, 860))
	w.win.SetOnDropped(w.dropped)
	w.win.SetCloseIntercept(w.close)
}

// Show shows the window.
func (w *Window) Show() {
	w.win.Show()
	w.win.Canvas().Focus(w.plan)
}

// refresh brings everything up to date after a change. While something is
// dragged the plan and the status line follow every move, and the panels as
// often as one can read them.
func (w *Window) refresh() {
	if w.refreshed { // a widget that is being set reports back
		return
	}
	w.refreshed = true
	defer func() { w.refreshed = false }()
	if k := w.doc.Slab(); k != w.worked || !w.machine.Exists(w.machine.Selected) {
		w.worked = k // what was selected is on another slab
		w.machine.Selected = hit.Target{}
	}
	w.plan.Update()
	w.status.show(w.inUse())
	w.rail.show(w.machine.State().Name())
	switch {
	case !w.doc.Previewing():
		w.panels()
	case w.scheduler.Go == nil:
		w.livePanels()
	case !w.waiting:
		w.waiting = true
		w.takeTurn(panelPause)
	}
}

// panels brings all panels up to date.
func (w *Window) panels() {
	w.pour.show()
	w.bar.show()
	w.takeoff.show(w.doc)
	w.checks.show()
	title := "Checks"
	if w.checks.count > 0 {
		title = fmt.Sprintf("Checks (%d)", w.checks.count)
	}
	if w.checked.Text != title {
		w.checked.Text = title
		w.tabs.Refresh()
	}
	switch w.tabs.SelectedIndex() {
	case 0:
		w.edit.show()
	case 2:
		w.spec.show()
	case 3:
		w.job.show()
	}
	w.pages.show()
	w.strip.show()
	w.title()
}

func (w *Window) title() {
	name := w.doc.Job().Name
	if name == "" {
		name = "Unnamed job"
	}
	if t := name + " – Haunchbook"; w.win.Title() != t {
		w.win.SetTitle(t)
	}
}

// use starts a tool and shows its fields.
func (w *Window) use(s tool.State) {
	w.pages.home()
	w.edit.page = selection
	w.machine.Use(s)
	if w.tabs.SelectedIndex() != 0 {
		w.tabs.SelectIndex(0)
	}
	w.win.Canvas().Focus(w.plan)
}

// say shows a message in the status line.
func (w *Window) say(text string) {
	w.machine.Notice = text
	if w.status != nil {
		w.status.show(w.inUse())
	}
}

// tell shows good news in the status line.
func (w *Window) tell(text string) {
	w.machine.Info = text
	if w.status != nil {
		w.status.show(w.inUse())
	}
}

// showPlace brings a place into the middle of the plan.
func (w *Window) showPlace(at geometry.Point) {
	w.pages.home()
	m := w.machine
	s := m.View.Screen(at)
	m.View = m.View.Pan(m.View.W/2-s.X, m.View.H/2-s.Y)
	m.Tape, m.Beacon = nil, &at
	m.Pan(0, 0)
	w.win.Canvas().Focus(w.plan)
}

// showCut shows the section along a line.
func (w *Window) showCut(a, b geometry.Point) {
	w.section = &[2]geometry.Point{a, b}
	w.tabs.SelectIndex(0)
	w.edit.turn(cutPage)
}

func onOff(what string, on bool) string {
	if on {
		return what + ": on"
	}
	return what + ": off"
}

// shortcut handles the shortcuts that reach the plan.
func (w *Window) shortcut(s fyne.Shortcut) {
	switch s.ShortcutName() {
	case (&fyne.ShortcutUndo{}).ShortcutName():
		w.undo()
	case (&fyne.ShortcutRedo{}).ShortcutName(), ctrl(fyne.KeyZ, fyne.KeyModifierShift).ShortcutName():
		w.redo()
	}
}

func (w *Window) undo() {
	w.machine.Use(&tool.Select{})
	if label, ok := w.doc.Undo(); ok {
		w.tell("Undone: " + label)
	} else {
		w.say("Nothing to undo")
	}
}

func (w *Window) redo() {
	w.machine.Use(&tool.Select{})
	if label, ok := w.doc.Redo(); ok {
		w.tell("Done again: " + label)
	} else {
		w.say("Nothing to do again")
	}
}

// switchUnits changes how lengths are shown and read; the job stays as it is.
func (w *Window) switchUnits() {
	j, u := w.doc.Job(), geometry.Millimeters
	if j.Units == u {
		u = geometry.FeetInches
	}
	w.doc.Commit("Show "+u.String(), j.In(u))
}

// setAppearance changes the theme and remembers it.
func (w *Window) setAppearance(c Appearance) {
	w.look.choice = c
	w.app.Preferences().SetInt("appearance", int(c))
	w.app.Settings().SetTheme(w.look)
	w.plan.Redraw()
	w.refresh()
}

func (w *Window) dark() bool { return w.look.dark(w.app.Settings().ThemeVariant()) }

// display shows a job in the window: job id of the book, or one that the book does
// not have yet.
func (w *Window) display(j job.Job, id storage.ID) {
	w.greeted()
	w.pages.home()
	w.machine.Use(&tool.Select{})
	w.machine.Selected = hit.Target{}
	w.edit.page, w.edit.key = selection, ""
	if err := w.attach(j, id); err != nil {
		w.say(sentence(err))
	}
	w.usual()
	w.spec.forget()
	w.machine.Fit()
}

// attach opens the job in the document with the book's history, or with one in
// memory where there is no book to write to. With an error the job is open all
// the same.
func (w *Window) attach(j job.Job, id storage.ID) error {
	w.history, w.filed, w.id = nil, nil, id
	if w.book == nil || w.book.ReadOnly() {
		w.doc.Reset(j, nil)
		return nil
	}
	h, err := newBookHistory(w.book, id, j, func(id storage.ID) { w.id = id })
	w.history = h
	w.doc.Reset(j, h)
	if w.id != 0 {
		_ = w.book.Remember(openJob, w.id) // for the next start; no loss without
	}
	return err
}

// openJob is where the book remembers the job that is open.
const openJob = "open"

// take makes a book the window's.
func (w *Window) take(book *storage.Book) {
	w.book, w.kept = book, nil
	w.pages.forget()
}

// close closes the window, once what is being typed is taken and everything is
// on disk or the user goes without.
func (w *Window) close() {
	w.win.Canvas().Unfocus()
	w.leave(func() {
		if w.book != nil {
			_ = w.book.Close() // every edit is on disk already
		}
		w.win.Close()
	})
}

// roomFor gives a page of the edit panel most of the height beside the plan, and
// takes it back after it.
func (w *Window) roomFor(page bool) {
	const most = 0.76
	switch {
	case page && w.height == 0:
		w.height = w.right.Offset
		w.right.SetOffset(max(w.height, most))
	case !page && w.height > 0:
		if w.right.Offset == most { // else it was dragged since
			w.right.SetOffset(w.height)
		}
		w.height = 0
	}
}

// now is the clock, for dates on sheets.
var now = time.Now
