package window

import (
	"context"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/document"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// desk is what pages are given, each as much of it as its own interface asks for: the
// job that is open, and ways to speak to who works on it.
type desk struct {
	*document.Document
	w *Window
}

func (d *desk) Say(text string)     { d.w.say(text) }
func (d *desk) Hint(text string)    { d.w.hinted(text) }
func (d *desk) Usual() takeoff.Spec { return d.w.shelf.UsualSpec() }
func (d *desk) Tell(text string)    { d.w.tell(text) }
func (d *desk) Refresh()            { d.w.refresh() }
func (d *desk) Window() fyne.Window { return d.w.win }
func (d *desk) App() fyne.App       { return d.w.app }
func (d *desk) Copy(text string)    { d.w.app.Clipboard().SetContent(text) }
func (d *desk) Edition() string     { return d.w.edition() }
func (d *desk) Now() time.Time      { return now() }

// Today is the date that a price gets when it is changed.
func (d *desk) Today() string { return now().Format("2006-01-02") }

// ShowOver shows a thing over everything, with as much room as there is.
func (d *desk) ShowOver(title string, o fyne.CanvasObject, keys func(*fyne.KeyEvent) bool, closed func()) {
	d.w.showOver(title, container.New(&roomy{d.w}, o), keys, closed)
}

// roomy gives a thing all the room there is over everything.
type roomy struct{ w *Window }

func (r *roomy) Layout(os []fyne.CanvasObject, s fyne.Size) { os[0].Resize(s) }

func (r *roomy) MinSize([]fyne.CanvasObject) fyne.Size { return r.w.room() }

// Where to turn to.

func (d *desk) Home()                 { d.w.pages.home() }
func (d *desk) Back()                 { d.w.side.turn(tool.Selection) }
func (d *desk) Turn()                 { d.w.side.turn(tool.Sketching) }
func (d *desk) TurnToPrices()         { d.w.pages.turn(pricePage) }
func (d *desk) Leave(then func())     { d.w.leave(then) }
func (d *desk) NewJob()               { d.w.newJob() }
func (d *desk) Sample()               { d.w.sample() }
func (d *desk) OpenJob(id storage.ID) { d.w.openFromBook(id) }
func (d *desk) SaveFile()             { d.w.saveFile() }
func (d *desk) ChooseBook()           { d.w.chooseBook() }
func (d *desk) SwitchUnits()          { d.w.switchUnits() }

func (d *desk) Display(j job.Job, id storage.ID) { d.w.display(j, id) }

func (d *desk) Stoppable(what string, work func(context.Context) (func(), error)) {
	d.w.stoppable(what, work)
}

// Draw takes up a tool and leaves the page beside the plan as it is.
func (d *desk) Draw(s tool.State) {
	d.w.machine.Use(s)
	d.w.win.Canvas().Focus(d.w.plan)
}

// ShowPlace brings a place of the plan, of a slab or of none for -1, into the middle.
func (d *desk) ShowPlace(slab int, at geometry.Point) {
	m := d.w.machine
	if slab >= 0 && slab != d.Slab() {
		m.Choose(slab)
	}
	d.w.pages.home()
	s := m.View.Screen(at)
	m.View = m.View.Pan(m.View.W/2-s.X, m.View.H/2-s.Y)
	m.Tape, m.Beacon = nil, &at
	m.Pan(0, 0)
	d.w.win.Canvas().Focus(d.w.plan)
}

// ShowField shows the page that has a field of the job file; false for one of the plan.
func (d *desk) ShowField(root string) bool {
	switch root {
	case "spec":
		d.w.pages.home()
		d.w.side.tab(specTab)
	case "pour", "ground":
		d.w.pages.turn(pourPage)
	case "price":
		d.w.pages.turn(pricePage)
	case "sketch":
		d.Turn()
	default:
		return false
	}
	return true
}

// Of the job book.

func (d *desk) Kept() bool { return d.w.shelf.Kept() }

// MakeUsual changes what new jobs start with.
func (d *desk) MakeUsual(change func(*takeoff.Spec)) error { return d.w.shelf.MakeUsual(change) }

// KeepPrices makes the job's list the one for new jobs.
func (d *desk) KeepPrices() {
	if err := d.w.shelf.KeepPrices(); err != nil {
		d.w.sayError(err)
		return
	}
	d.Tell("Kept: jobs without a list of their own are priced with this one")
	d.Refresh()
}

// SetFrost keeps the frost depth of the site.
func (d *desk) SetFrost(l geometry.Length) error { return d.w.shelf.SetFrost(l) }

// Failed gives why the picture under the plan cannot be shown.
func (d *desk) Failed() error { return d.w.sketch.Failed }
