package hands

import (
	"context"
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// Page is a page as wide as the window.
type Page interface {
	Object() fyne.CanvasObject
	Update()
}

// Desk stands in for the window around a page: it has what any page asks for, does all
// work at once, and notes what it was told.
type Desk struct {
	*document.Document
	Hands
	Shelf   *shelf.Shelf
	Machine *tool.Machine
	Fonts   *paint.Fonts

	Told    string   // said or told last
	Hinting string   // said of the field that is looked at
	Asked   []string // where to turn to, in order
	Drawn   tool.State
	Place   geometry.Point // shown last
	OfSlab  int            // the slab of that

	Over       fyne.CanvasObject // shown over everything last
	OverKeys   func(*fyne.KeyEvent) bool
	OverClosed func()

	win    fyne.Window
	update func()
}

// NewDesk gives a desk for a job, in a book or none.
func NewDesk(t testing.TB, j job.Job, b *storage.Book) *Desk {
	t.Helper()
	test.NewTempApp(t)
	d := &Desk{update: func() {}}
	d.Document = document.New(j, document.Taken, document.Scheduler{})
	d.Shelf = shelf.New(d.Document, b, document.Scheduler{}, nil)
	if err := d.Shelf.Open(j, 0); err != nil {
		t.Fatal(err)
	}
	var err error
	if d.Fonts, err = paint.NewFonts(theme.DefaultTheme().Font(fyne.TextStyle{}).Content()); err != nil {
		t.Fatal(err)
	}
	d.Machine = tool.New(d.Document, func(s string) (float64, float64) { return 7 * float64(len(s)), 12 })
	d.Machine.View = d.Machine.View.Sized(800, 600)
	d.Machine.Fit()
	d.win = test.NewTempWindow(t, container.NewStack())
	d.win.Resize(fyne.NewSize(1024, 700))
	d.Hands = On(t, d.win.Content())
	d.Document.Changed = func() { d.update() }
	d.Machine.Changed = d.Document.Changed
	d.Document.Failed = func(err error) { d.Say(err.Error()) }
	return d
}

// Book gives an empty book that ends with the test.
func Book(t testing.TB) *storage.Book {
	t.Helper()
	b, err := storage.Open(filepath.Join(t.TempDir(), "jobs.book"), storage.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = b.Close() })
	return b
}

// Show shows a page as wide as the window.
func (d *Desk) Show(p Page) {
	d.open(p.Object(), p.Update)
}

func (d *Desk) open(o fyne.CanvasObject, update func()) {
	d.win.SetContent(o)
	d.Hands, d.update = On(d.t, o), update
	d.update()
}

// Beside shows a page of those beside the plan.
func (d *Desk) Beside(p form.Page) {
	s := form.NewSheet(d, p, nil)
	d.open(s.Scroll, func() { s.Update(true) })
}

// ShowOver notes what is shown over everything.
func (d *Desk) ShowOver(title string, o fyne.CanvasObject, keys func(*fyne.KeyEvent) bool, closed func()) {
	d.ask("over: " + title)
	d.Over, d.OverKeys, d.OverClosed = o, keys, closed
	o.Resize(fyne.NewSize(900, 600))
}

func (d *Desk) ask(what string) { d.Asked = append(d.Asked, what) }

// Last gives where it was asked to turn to last.
func (d *Desk) Last() string {
	if len(d.Asked) == 0 {
		return ""
	}
	return d.Asked[len(d.Asked)-1]
}

// What a page asks for.

func (d *Desk) Say(text string)                       { d.Told = text }
func (d *Desk) Hint(text string)                      { d.Hinting = text }
func (d *Desk) Usual() takeoff.Spec                   { return d.Shelf.UsualSpec() }
func (d *Desk) Tell(text string)                      { d.Told = text }
func (d *Desk) Refresh()                              { d.update() }
func (d *Desk) Window() fyne.Window                   { return d.win }
func (d *Desk) App() fyne.App                         { return fyne.CurrentApp() }
func (d *Desk) Copy(text string)                      { fyne.CurrentApp().Clipboard().SetContent(text) }
func (d *Desk) Edition() string                       { return fmt.Sprint(d.Version()) }
func (d *Desk) Now() time.Time                        { return time.Date(2026, 3, 4, 5, 6, 7, 0, time.UTC) }
func (d *Desk) Today() string                         { return "2026-03-04" }
func (d *Desk) Home()                                 { d.ask("home") }
func (d *Desk) Back()                                 { d.ask("back") }
func (d *Desk) Turn()                                 { d.ask("turn") }
func (d *Desk) TurnToPrices()                         { d.ask("prices") }
func (d *Desk) Leave(then func())                     { d.ask("leave"); then() }
func (d *Desk) NewJob()                               { d.ask("new job") }
func (d *Desk) Sample()                               { d.ask("sample") }
func (d *Desk) OpenJob(id storage.ID)                 { d.ask("open " + id.String()) }
func (d *Desk) SaveFile()                             { d.ask("save file") }
func (d *Desk) ChooseBook()                           { d.ask("choose book") }
func (d *Desk) SwitchUnits()                          { d.ask("switch units") }
func (d *Desk) Kept() bool                            { return d.Shelf.Kept() }
func (d *Desk) Failed() error                         { return nil }
func (d *Desk) Draw(s tool.State)                     { d.Drawn = s }
func (d *Desk) ShowPlace(slab int, at geometry.Point) { d.OfSlab, d.Place = slab, at }
func (d *Desk) ShowField(root string) bool {
	d.ask("field " + root)
	return !strings.HasPrefix(root, "slab")
}
func (d *Desk) KeepPrices()                      { d.ask("keep prices"); d.note(d.Shelf.KeepPrices()) }
func (d *Desk) Display(j job.Job, id storage.ID) { d.ask("display"); d.note(d.Shelf.Open(j, id)) }

func (d *Desk) note(err error) {
	if err != nil {
		d.Say(shelf.Sentence(err))
	}
}

// MakeUsual changes what new jobs start with.
func (d *Desk) MakeUsual(change func(*takeoff.Spec)) error { return d.Shelf.MakeUsual(change) }

// SetFrost keeps the frost depth of the site.
func (d *Desk) SetFrost(l geometry.Length) error { return d.Shelf.SetFrost(l) }

// Stoppable does the work at once.
func (d *Desk) Stoppable(_ string, work func(context.Context) (func(), error)) {
	done, err := work(context.Background())
	d.note(err)
	if err == nil && done != nil {
		done()
	}
}

// Near tells whether a figure is what it should be, but for its last digits.
func Near(got, want float64) bool { return math.Abs(got-want) < 1e-6*math.Max(1, math.Abs(want)) }

// Shown is something in the place of a page, and what brings it up to date.
type Shown struct {
	In   fyne.CanvasObject
	Then func()
}

// Object gives what is shown.
func (s Shown) Object() fyne.CanvasObject { return s.In }

// Update brings it up to date.
func (s Shown) Update() {
	if s.Then != nil {
		s.Then()
	}
}

// The window of a desk speaks English.

func (d *Desk) Languages() (codes, names []string) { return []string{"en"}, []string{"English"} }
func (d *Desk) Language() string                   { return "en" }
func (d *Desk) SetLanguage(string) error           { return nil }
