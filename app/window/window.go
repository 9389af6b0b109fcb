// Package window is the frame of the drawing and estimating window: the plan in the
// middle, tools at the left, panels at the right, the pages, menu, keys and status
// line, and which job is open. What the pages and panels show is theirs.
package window

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/board"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/look"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/app/window/words"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// Options says how a window starts.
type Options struct {
	Job     job.Job
	Book    *storage.Book // nil for a window whose jobs end with it
	ID      storage.ID    // of Job in Book; 0 where it is not in it yet
	Welcome bool          // first run: say how to begin
	// Scheduler says where work runs; the zero one does everything at once in the
	// window's goroutine.
	Scheduler document.Scheduler
}

// Window is one window on one job.
type Window struct {
	app       fyne.App
	win       fyne.Window
	fonts     *paint.Fonts
	theme     look.Theme
	scheduler document.Scheduler
	log       string // file of it; "" for none

	doc     *document.Document
	shelf   *shelf.Shelf
	machine *tool.Machine

	plan     *board.Plan
	sketch   *board.Sketch
	lanes    document.Latest // for the plan's layer of the pour
	lanesOf  string          // the state of the job that they are of
	rail     *rail
	bar      *toolbar
	commands *fyne.MainMenu
	status   *statusLine
	strip    *unsavedStrip
	greeting fyne.CanvasObject
	side     *side
	pages    *pages

	popup     fyne.CanvasObject    // a list that is open over everything; nil for none
	left      func()               // what is done when that is closed; nil for nothing
	asked     *dialog.CustomDialog // the last question about unsaved changes
	worked    int                  // the slab that was worked on when last looked at
	job       string               // tells the open job from those before; it stays when the book gives a number
	opened    int                  // jobs so far
	said      []string             // the last notices, for a report
	hint      string               // what the field is that is looked at
	refreshed bool                 // a refresh is under way
	waiting   bool                 // for the panels' turn during a drag
	saving    bool                 // what waits is being tried again
	closed    bool
	others    string          // who else was on the job when that was told last
	noted     map[string]bool // what the office book told
}

// New makes a window on a job.
func New(a fyne.App, o Options) (*Window, error) {
	fonts, err := paint.NewFonts(theme.DefaultTheme().Font(fyne.TextStyle{}).Content())
	if err != nil {
		return nil, err
	}
	form.SaveWhole()
	w := &Window{noted: map[string]bool{}, app: a, fonts: fonts, theme: themeOf(a), scheduler: o.Scheduler}
	a.Settings().SetTheme(w.theme)
	w.win = a.NewWindow("Haunchbook")
	shapes := &board.Shapes{}
	w.doc = document.New(o.Job, shapes.After(document.Taken), w.scheduler)
	w.machine = tool.New(w.doc, func(text string) (float64, float64) {
		return fonts.Width(text, scene.TextSize), fonts.Height(scene.TextSize)
	})
	w.plan = board.New(w.machine, fonts)
	w.plan.Shapes, w.plan.Layers = shapes, loadLayers(a.Preferences())
	w.sketch = &board.Sketch{Doc: w.doc}
	w.shelf = shelf.New(w.doc, o.Book, w.scheduler, w.kept)
	w.shelf.Told = w.officeTold
	w.shelf.Busy = func() bool { return w.machine.Status().Typed != "" }
	w.machine.Usual()
	words.Own(w.own)
	w.build()
	w.connect()
	w.enter(o.Job, o.ID)
	w.doc.Changed, w.machine.Changed = w.refresh, w.refresh
	w.refresh()
	if o.Welcome {
		w.greeting.Show()
	}
	return w, nil
}

func themeOf(a fyne.App) look.Theme {
	return look.Theme{Choice: look.Appearance(a.Preferences().IntWithFallback(appearanceKey, int(look.System)))}
}

func schedulerOf(synchronous bool) document.Scheduler {
	if synchronous {
		return document.Scheduler{}
	}
	return document.Scheduler{Go: func(f func()) { go f() }, Post: fyne.Do}
}

// build lays the window out.
func (w *Window) build() {
	w.lanes = document.Latest{Scheduler: w.scheduler}
	w.rail = newRail(w.use)
	w.status = newStatusLine()
	w.side = newSide(w)
	w.greeting = w.newGreeting()
	w.pages = newPages(w, container.NewBorder(w.greeting, nil, container.NewHBox(w.rail.object, form.Rule()), w.side.object, w.plan))
	w.bar = newToolbar(w)
	w.strip = newUnsavedStrip(w)
	w.win.SetContent(container.NewBorder(
		container.NewVBox(w.strip.object, w.bar.object, form.Rule()),
		container.NewVBox(form.Rule(), w.status.object),
		nil, nil,
		w.pages.object,
	))
	w.setMenu()
	w.win.Resize(lastSize(w.app.Preferences()))
}

// The preferences that hold the size of the window, when it was closed last, and its
// theme.
const widthKey, heightKey, appearanceKey = "width", "height", "appearance"

// lastSize gives the size that the window had last, no less than it needs.
func lastSize(p fyne.Preferences) fyne.Size {
	return fyne.NewSize(float32(max(800, p.FloatWithFallback(widthKey, 1280))), float32(max(560, p.FloatWithFallback(heightKey, 860))))
}

// keepSize remembers the size of the window.
func (w *Window) keepSize() {
	s := w.win.Canvas().Size()
	w.app.Preferences().SetFloat(widthKey, float64(s.Width))
	w.app.Preferences().SetFloat(heightKey, float64(s.Height))
}

// connect has events come to where they belong.
func (w *Window) connect() {
	m, c := w.machine, w.win.Canvas()
	m.Cut = w.side.showCut
	m.Sketch = w.sketch.Find
	m.Turn = w.side.turn
	m.Focus = func() { c.Focus(w.plan) }
	m.Pour = func() bool { return w.plan.Layers.Pour }
	w.plan.Sketch = w.sketch
	w.plan.Letter = w.letter
	w.plan.Spare = w.key
	w.doc.Failed = w.sayError
	// Keys that nothing else has the focus for are for the plan.
	c.SetOnTypedKey(w.key)
	c.AddShortcut(ctrl(fyne.KeyZ, fyne.KeyModifierShift), func(fyne.Shortcut) { w.redo() })
	c.SetOnTypedRune(func(r rune) {
		if w.pages.at == planPage {
			w.plan.TypedRune(r)
		}
	})
	w.win.SetOnDropped(func(_ fyne.Position, files []fyne.URI) { w.dropped(files) })
	w.win.SetCloseIntercept(w.close)
}

// Show shows the window.
func (w *Window) Show() {
	title := w.win.Title()
	w.win.SetTitle("Haunchbook") // the class of an X11 window is its first title, which the desktop entry names
	w.win.Show()
	w.win.SetTitle(title)
	w.win.Canvas().Focus(w.plan)
	w.warnOfCopies()
	w.watch()
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
		w.machine.Deselect()
	}
	w.plan.Update()
	w.status.show(w.inUse())
	w.rail.show(w.machine.State().Name())
	switch {
	case !w.doc.Previewing():
		w.panels()
	case w.scheduler.Go == nil:
		for w.side.live(time.Now().Add(time.Hour)) {
		}
	case !w.waiting:
		w.waiting = true
		w.takeTurn(panelPause)
	}
}

// panels brings all panels up to date.
func (w *Window) panels() {
	words.Own(w.own)
	w.showLanes()
	w.bar.show()
	w.side.show()
	w.pages.show()
	w.kept()
	name := w.doc.Job().Name
	if name == "" {
		name = words.Say("Unnamed job")
	}
	if t := name + " – Haunchbook"; w.win.Title() != t {
		w.win.SetTitle(t)
	}
}

// use starts a tool and shows its fields.
func (w *Window) use(s tool.State) {
	w.pages.home()
	w.side.tab(editTab)
	w.machine.Begin(s)
}

// say shows a message in the status line.
func (w *Window) say(text string) {
	w.keepSaid(text)
	w.machine.Notice = text
	w.status.show(w.inUse())
}

// sayError says what went wrong, if anything did.
func (w *Window) sayError(err error) {
	if err != nil {
		w.say(shelf.Sentence(err))
	}
}

// hinted says in the status line what the field is that is looked at.
func (w *Window) hinted(text string) {
	w.hint = text
	w.status.show(w.inUse())
}

// tell shows good news in the status line.
func (w *Window) tell(text string) {
	w.machine.Info, w.hint = text, ""
	w.status.show(w.inUse())
}

func (w *Window) undo() { w.step(w.doc.Undo, "Undone: ", "Nothing to undo") }
func (w *Window) redo() { w.step(w.doc.Redo, "Done again: ", "Nothing to do again") }

func (w *Window) step(move func() (string, bool), done, nothing string) {
	w.machine.Use(&tool.Select{})
	if label, ok := move(); ok {
		w.tell(done + label)
	} else {
		w.say(nothing)
	}
}

// switchUnits changes how lengths are shown and read; a job with anything drawn stays
// as it is, and one without starts from what is usual in the units.
func (w *Window) switchUnits() {
	j, u := w.doc.Job(), geometry.Millimeters
	if j.Units == u {
		u = geometry.FeetInches
	}
	if w.doc.Blank() {
		w.doc.Commit("Show "+u.String(), shelf.Anew(j, u))
		w.machine.Usual()
		return
	}
	w.doc.Commit("Show "+u.String(), j.In(u))
}

// setAppearance changes the theme and remembers it.
func (w *Window) setAppearance(a look.Appearance) {
	w.theme.Choice = a
	w.app.Preferences().SetInt(appearanceKey, int(a))
	w.app.Settings().SetTheme(w.theme)
	w.plan.Redraw()
	w.pages.repaint()
	w.refresh()
}

func (w *Window) dark() bool { return w.theme.Dark(w.app.Settings().ThemeVariant()) }

// otherAppearance changes between light and dark.
func (w *Window) otherAppearance() {
	if w.dark() {
		w.setAppearance(look.Light)
	} else {
		w.setAppearance(look.Dark)
	}
}

func onOff(what string, on bool) string {
	return what + map[bool]string{true: ": on", false: ": off"}[on]
}

// edition tells states of the open job apart, and jobs.
func (w *Window) edition() string { return fmt.Sprint(w.shelf.ID(), w.doc.Version()) }

// now is the clock, for dates on sheets.
var now = time.Now
