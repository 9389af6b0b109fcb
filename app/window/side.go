package window

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/pages/checks"
	"haunchbook.example/app/window/pages/edit"
	"haunchbook.example/app/window/pages/heads"
	"haunchbook.example/app/window/pages/outline"
	"haunchbook.example/app/window/pages/printing"
	"haunchbook.example/app/window/pages/sections"
	"haunchbook.example/app/window/pages/sketch"
	"haunchbook.example/app/window/pages/spec"
	"haunchbook.example/app/window/pages/takeoff"
	"haunchbook.example/app/window/words"
	"haunchbook.example/geometry"
)

// The tabs beside the plan.
const (
	editTab = iota
	checksTab
	specTab
	jobTab
	takeoffTab // where there is no room for it below the others
)

// side is what stands beside the plan: tabs, of which the first shows the fields of what
// is selected, or a page asked for in their place. The takeoff stands below them, or is
// the last of them where there is no room for two to be read.
type side struct {
	w       *Window
	tabs    *container.AppTabs
	last    *container.TabItem
	sheets  map[int]*form.Sheet // by tab
	checks  *checks.Panel
	takeoff *takeoff.Panel
	split   *container.Split
	object  *fyne.Container
	both    bool    // the takeoff stands below the tabs
	chosen  bool    // something was selected, or being drawn, when last looked at
	turned  bool    // from the takeoff to what was selected then
	height  float64 // the tabs' part of it before a page took more; 0 while none has

	selection form.Page
	asked     map[tool.Page]form.Page
	cut       *sections.Cut
	sketch    *sketch.Page
	print     *printing.Page
}

func newSide(w *Window) *side {
	d := &desk{w.doc, w}
	s := &side{w: w, checks: checks.New(d), takeoff: takeoff.New(d), cut: sections.NewCut(d, w.fonts), sketch: sketch.New(d, w.machine)}
	s.print = printing.New(d, w.shelf, &w.scheduler)
	s.selection = edit.New(d, "", w.machine.Describe)
	s.asked = map[tool.Page]form.Page{
		tool.Selection: s.selection,
		tool.Shapes:    outline.NewShapes(d, w.machine),
		tool.Legs:      outline.NewLegs(d, w.machine),
		tool.Sections:  sections.NewLibrary(d, w.machine, w.fonts),
		tool.Sketching: s.sketch,
		tool.Surveying: edit.New(d, "North, benchmarks", w.machine.OfSurvey),
	}
	s.sheets = map[int]*form.Sheet{}
	for tab, page := range map[int]form.Page{editTab: s.selection, specTab: spec.New(d), jobTab: heads.New(d)} {
		s.sheets[tab] = form.NewSheet(d, page, w.later())
		s.sheets[tab].Job = func() string { return w.job }
	}
	s.tabs = container.NewAppTabs(
		container.NewTabItem(words.Say("Edit"), s.sheets[editTab].Scroll),
		container.NewTabItem(words.Say("Checks"), s.checks.Scroll),
		container.NewTabItem(words.Say("Spec"), s.sheets[specTab].Scroll),
		container.NewTabItem(words.Say("Job"), s.sheets[jobTab].Scroll),
	)
	s.tabs.OnSelected = func(*container.TabItem) { w.refresh() }
	s.last = container.NewTabItem(words.Say("Takeoff"), s.takeoff.Box)
	s.tabs.Append(s.last)
	s.object = container.New(s, form.Strut(330, 300), s.tabs)
	return s
}

// bothHeight is the least height in which the takeoff and what is being edited can both
// be read: some 12 rows each.
const bothHeight = 860

// Layout implements fyne.Layout.
func (s *side) Layout(os []fyne.CanvasObject, size fyne.Size) {
	if both := size.Height >= bothHeight; both != s.both {
		s.both = both
		s.arrange()
		os = s.object.Objects
	}
	for _, o := range os {
		o.Resize(size)
		o.Move(fyne.Position{})
	}
}

// MinSize implements fyne.Layout.
func (s *side) MinSize(os []fyne.CanvasObject) fyne.Size {
	m := os[0].MinSize()
	return fyne.NewSize(max(m.Width, s.tabs.MinSize().Width), m.Height)
}

// arrange puts the takeoff below the tabs, or among them.
func (s *side) arrange() {
	if !s.both {
		s.tabs.Append(s.last)
		s.object.Objects[1] = s.tabs
		return
	}
	if s.tabs.SelectedIndex() == takeoffTab {
		s.tabs.SelectIndex(editTab)
	}
	s.tabs.Remove(s.last)
	s.takeoff.Box.Show() // as a tab that was not open it was hidden
	s.split = container.NewVSplit(s.tabs, s.takeoff.Box)
	s.split.Offset, s.height = 0.52, 0
	s.object.Objects[1] = s.split
}

// follow shows what is selected or being drawn in the place of the takeoff, and the
// takeoff again after it.
func (s *side) follow() {
	_, selects := s.w.machine.State().(*tool.Select)
	chosen := !selects || s.w.machine.Selected.Kind != nil
	if chosen != s.chosen {
		s.chosen = chosen
		switch at := s.tabs.SelectedIndex(); {
		case chosen && at == takeoffTab:
			s.tab(editTab)
			s.turned = true
		case !chosen && s.turned && at == editTab:
			s.tab(takeoffTab)
		}
	}
	if s.tabs.SelectedIndex() != editTab || !chosen {
		s.turned = false
	}
}

// later runs something after what is under way; nil where all is done at once.
func (w *Window) later() func(func()) {
	if w.scheduler.Go == nil {
		return nil
	}
	return func(f func()) { time.AfterFunc(0, func() { w.scheduler.Result(f) }) }
}

// page gives what the first tab shows.
func (s *side) page() form.Page { return s.sheets[editTab].Page() }

// name is how the status line calls the page asked for.
func (s *side) name() string {
	if s.tabs.SelectedIndex() != editTab {
		return ""
	}
	return s.page().Name()
}

// tab shows one of the tabs.
func (s *side) tab(i int) {
	if s.tabs.SelectedIndex() != i {
		s.tabs.SelectIndex(i)
	}
}

// turn shows a page in the place of the fields of what is selected, ready to be typed
// into, or those again.
func (s *side) turn(p tool.Page) { s.ask(s.asked[p]) }

func (s *side) ask(p form.Page) {
	e := s.sheets[editTab]
	if p == s.selection {
		e.Turn(p)
		s.w.refresh()
		return
	}
	s.w.pages.home()
	s.w.machine.Use(&tool.Select{})
	e.Turn(p)
	s.tab(editTab)
	s.w.refresh()
	form.Focus(s.w.win.Canvas(), e.Form.Box)
}

// showCut shows the slab cut along a line.
func (s *side) showCut(a, b geometry.Point) {
	s.cut.Along(a, b)
	s.sheets[editTab].Turn(s.cut)
	s.tab(editTab)
	s.w.refresh()
}

// show brings what is shown up to date.
func (s *side) show() {
	s.follow()
	s.takeoff.Update()
	s.checks.Update()
	title := "Checks"
	if n := s.checks.Count(); n > 0 {
		title = fmt.Sprintf("Checks (%d)", n)
	}
	s.title(s.tabs.Items[checksTab], title)
	title = "Takeoff"
	if s.w.doc.Err() != nil {
		title = "! Takeoff"
	}
	s.title(s.last, title)
	s.showTab()
}

// title names a tab.
func (s *side) title(t *container.TabItem, title string) {
	if title = words.Say(title); t.Text != title {
		t.Text = title
		s.tabs.Refresh()
	}
}

// showTab brings the tab that is open up to date.
func (s *side) showTab() {
	i := s.tabs.SelectedIndex()
	sh := s.sheets[i]
	if sh == nil {
		return
	}
	if i == editTab {
		_, selects := s.w.machine.State().(*tool.Select)
		if p := s.page(); !selects && p != s.selection && p != s.cut && p != form.Page(s.sketch) {
			sh.Turn(s.selection)
		}
		s.room(sh.Page() != s.selection)
	}
	sh.Update(sh.Page() != s.selection)
}

// room gives a page most of the height beside the plan, and takes it back after it.
func (s *side) room(page bool) {
	const most = 0.76
	switch {
	case !s.both:
	case page && s.height == 0:
		s.height = s.split.Offset
		s.split.SetOffset(max(s.height, most))
	case !page && s.height > 0:
		if s.split.Offset == most { // else it was dragged since
			s.split.SetOffset(s.height)
		}
		s.height = 0
	}
}

// live does one turn of what follows a drag: some rows of the takeoff, or, when all are
// up to date, the tab beside it. It tells whether there is more to do.
func (s *side) live(until time.Time) (more bool) {
	if s.takeoff.Some(until) {
		return true
	}
	switch s.tabs.SelectedIndex() {
	case editTab:
		s.showTab()
	case checksTab:
		s.checks.Update()
	}
	return false
}
