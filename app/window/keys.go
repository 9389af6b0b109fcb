package window

import (
	"unicode"

	"fyne.io/fyne/v2"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/form"
)

// key handles the keys that nothing else has a use for.
func (w *Window) key(k *fyne.KeyEvent) {
	c, plan := w.win.Canvas(), w.pages.at == planPage
	switch k.Name {
	case fyne.KeyF1:
		if w.popup == nil {
			w.showHelp()
		}
	case fyne.KeyF6:
		w.nextPart(1)
	case fyne.KeyF10:
		w.openMenu()
	case form.KeyDone:
		if plan && w.popup == nil {
			c.Focus(w.plan)
		}
	case form.KeyLeave, fyne.KeyEscape:
		switch {
		case w.popup != nil:
			w.closeList()
		case !plan:
			w.pages.home()
		case k.Name == fyne.KeyEscape:
			w.plan.TypedKey(k)
		default:
			c.Focus(w.plan)
		}
	default:
		if plan {
			w.plan.TypedKey(k)
		}
	}
}

// nextPart moves the focus to the next part of the window, or for -1 to the one
// before: the plan or the page, the panel beside it, the takeoff, the bar
// above, the tools.
func (w *Window) nextPart(step int) {
	parts := []fyne.CanvasObject{w.plan, w.side.tabs.Selected().Content}
	if w.side.both {
		parts = append(parts, w.side.takeoff.Box)
	}
	parts = append(parts, w.bar.object, w.rail.object)
	if w.pages.at != planPage {
		parts = []fyne.CanvasObject{w.pages.list[w.pages.at].root, w.bar.object}
	}
	c := w.win.Canvas()
	at := -1
	if f, ok := c.Focused().(fyne.CanvasObject); ok {
		for i, p := range parts {
			if len(form.PathTo(p, f)) > 0 {
				at = i
			}
		}
	}
	if at < 0 && step < 0 {
		at = 0
	}
	for range parts {
		at = (at + step + len(parts)) % len(parts)
		if form.Focus(c, parts[at]) {
			return
		}
	}
}

// sideTab shows a panel beside the plan and moves the focus into it.
func (w *Window) sideTab(i int) {
	w.pages.home()
	if i == takeoffTab && w.side.both {
		form.Focus(w.win.Canvas(), w.side.takeoff.Box)
		return
	}
	w.side.tab(i)
	form.Focus(w.win.Canvas(), w.side.tabs.Selected().Content)
}

// letterKey is a key of the plan that is neither a tool nor a part of what is
// being typed.
type letterKey struct {
	runes string // any of them
	shown string // on the sheet of keys
	about string
	do    func(*Window)
}

func letterKeys() []letterKey {
	return []letterKey{
		{"j", "J", "mark edges that meet the old slab, one click each", func(w *Window) {
			w.machine.Brush.Sets = tool.SetsJoint
			w.use(&tool.Paint{})
		}},
		{"i", "I", "set a sleeve, a drain, a post base or a plate in the concrete", func(w *Window) { w.use(&tool.PlaceEmbed{}) }},
		{"q", "Q", "a drain line, a trench drain, conduit or tubing along or under the slab", func(w *Window) { w.use(&tool.Chain{What: tool.Piping}) }},
		{"y", "Y", "a bearing or braced wall on the slab, along a line of its own", func(w *Window) { w.use(&tool.PlaceWall{}) }},
		{"c", "C", "a construction joint: where one pour ends and the next begins", func(w *Window) { w.use(&tool.PlaceConstruction{}) }},
		{"/", "/", "an apron or a ramp: the top bends along a line", func(w *Window) { w.use(&tool.PlaceBreak{}) }},
		{"o", "O", "right angles and 45° while drawing: on or off", func(w *Window) {
			w.machine.Square = !w.machine.Square
			w.tell(onOff("Right angles and 45°", w.machine.Square))
		}},
		{"g", "G", "points on the squares of the grid: on or off", func(w *Window) {
			w.machine.Grid = !w.machine.Grid
			w.tell(onOff("Points on the grid", w.machine.Grid))
		}},
		{"+=", "+", "larger, about the pointer; the wheel does it too", func(w *Window) { w.machine.Zoom(1.25) }},
		{"-_", "-", "smaller", func(w *Window) { w.machine.Zoom(0.8) }},
		{"z0", "Z", "show all", func(w *Window) { w.machine.Fit() }},
		{"s", "S", "begin another slab", (*Window).newSlab},
		{"u", "U", "feet and inches or millimeters", (*Window).switchUnits},
		{"?", "?", "this sheet", (*Window).showKeys},
	}
}

// letter is called with runes that the plan had no use for.
func (w *Window) letter(r rune) bool {
	r = unicode.ToLower(r)
	for _, t := range tools() {
		if r == t.key {
			w.use(t.start())
			return true
		}
	}
	for _, k := range letterKeys() {
		for _, c := range k.runes {
			if r == c {
				k.do(w)
				return true
			}
		}
	}
	return false
}
