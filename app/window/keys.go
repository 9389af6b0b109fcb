package window

import (
	"time"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/window/canvas/tool"
)

// Every part of the window can be worked with the keys alone. A thing that has
// the focus hands on the keys it has no use for; they come to Window.key, as do
// those typed while nothing has the focus.

// keyLeave stands for a field that was left with Esc.
const keyLeave fyne.KeyName = "Leave"

// key handles the keys that nothing else has a use for.
func (w *Window) key(k *fyne.KeyEvent) {
	plan := w.pages.at == planView
	switch k.Name {
	case fyne.KeyF1:
		w.showKeys()
	case fyne.KeyF6:
		w.nextPart(1)
	case fyne.KeyF10:
		w.openMenu()
	case keyLeave:
		if plan {
			w.win.Canvas().Focus(w.plan)
		} else {
			w.win.Canvas().Unfocus()
		}
	default:
		switch {
		case plan:
			w.plan.TypedKey(k)
		case k.Name == fyne.KeyEscape:
			w.pages.home()
		}
	}
}

// handOn gives a key that o has no use for to the window. It tells whether the
// window has one.
func handOn(o fyne.CanvasObject, k *fyne.KeyEvent) bool {
	switch k.Name {
	case fyne.KeyF1, fyne.KeyF6, fyne.KeyF10, keyLeave:
		if c := fyne.CurrentApp().Driver().CanvasForObject(o); c != nil && c.OnTypedKey() != nil {
			c.OnTypedKey()(k)
		}
		return true
	case fyne.KeyEscape:
		return handOn(o, &fyne.KeyEvent{Name: keyLeave})
	}
	return false
}

// openMenu opens the menu bar, or closes it; the arrow keys walk in it.
func (w *Window) openMenu() {
	if c, ok := w.win.Canvas().(interface{ ToggleMenu() }); ok {
		c.ToggleMenu()
	}
}

// nextPart moves the focus to the next part of the window, or for -1 to the one
// before: the plan or the page, the panel beside it, the takeoff, the commands
// above, the pages' tabs, the tools.
func (w *Window) nextPart(step int) {
	parts := []fyne.CanvasObject{w.plan, w.side(), w.takeoff.object, w.bar.object, w.pages.bar, w.rail.object}
	if w.pages.at != planView {
		parts = []fyne.CanvasObject{w.pages.list[w.pages.at].root, w.bar.object, w.pages.bar}
	}
	c := w.win.Canvas()
	at := -1
	if f, ok := c.Focused().(fyne.CanvasObject); ok {
		for i, p := range parts {
			if len(pathTo(p, f)) > 0 {
				at = i
			}
		}
	}
	if at < 0 && step < 0 {
		at = 0
	}
	for range parts {
		at = (at + step + len(parts)) % len(parts)
		if f := firstFocus(parts[at]); f != nil {
			c.Focus(f)
			return
		}
	}
}

// side gives what the panel beside the plan shows.
func (w *Window) side() fyne.CanvasObject { return w.tabs.Selected().Content }

// sideTab shows a panel beside the plan and moves the focus into it.
func (w *Window) sideTab(i int) {
	w.pages.home()
	w.tabs.SelectIndex(i)
	if f := firstFocus(w.side()); f != nil {
		w.win.Canvas().Focus(f)
	}
}

// children gives what lies within a thing that can be seen.
func children(o fyne.CanvasObject) []fyne.CanvasObject {
	switch o := o.(type) {
	case *fyne.Container:
		return o.Objects
	case *container.Scroll:
		return []fyne.CanvasObject{o.Content}
	case *container.Split:
		return []fyne.CanvasObject{o.Leading, o.Trailing}
	case *container.AppTabs:
		if t := o.Selected(); t != nil {
			return []fyne.CanvasObject{t.Content}
		}
	}
	return nil
}

// firstFocus gives the first thing within o that takes the focus, or nil.
func firstFocus(o fyne.CanvasObject) fyne.Focusable {
	if o == nil || !o.Visible() {
		return nil
	}
	if f, ok := o.(fyne.Focusable); ok {
		if d, ok := o.(fyne.Disableable); !ok || !d.Disabled() {
			return f
		}
		return nil
	}
	for _, c := range children(o) {
		if f := firstFocus(c); f != nil {
			return f
		}
	}
	return nil
}

// pathTo gives the things from o down to what is looked for, both with it; none
// where it is not within o.
func pathTo(o, what fyne.CanvasObject) []fyne.CanvasObject {
	if o == what {
		return []fyne.CanvasObject{o}
	}
	for _, c := range children(o) {
		if p := pathTo(c, what); len(p) > 0 {
			return append([]fyne.CanvasObject{o}, p...)
		}
	}
	return nil
}

// reveal scrolls what has got the focus into sight.
func reveal(o fyne.CanvasObject) {
	d := fyne.CurrentApp().Driver()
	c := d.CanvasForObject(o)
	if c == nil || c.Content() == nil {
		return
	}
	for _, p := range pathTo(c.Content(), o) {
		s, ok := p.(*container.Scroll)
		if !ok {
			continue
		}
		const margin = 8
		top := d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(s).Y
		below := top + o.Size().Height - s.Size().Height
		switch {
		case top < margin:
			s.Offset.Y = max(0, s.Offset.Y+top-margin)
		case below > -margin:
			s.Offset.Y += below + margin
		default:
			continue
		}
		s.Refresh()
	}
}

// keepFocus is called before what o shows is made anew, and what it gives
// afterwards: a focus that was in there moves to the first field of another
// thing, or to the plan for nil, instead of staying with what is no longer shown.
func (w *Window) keepFocus(o fyne.CanvasObject) (refocus func(to fyne.CanvasObject)) {
	c := w.win.Canvas()
	f, ok := c.Focused().(fyne.CanvasObject)
	if !ok || len(pathTo(o, f)) == 0 {
		return func(fyne.CanvasObject) {}
	}
	return func(to fyne.CanvasObject) {
		move := func() {
			if c.Focused() != f.(fyne.Focusable) {
				return
			}
			if first := firstFocus(to); first != nil {
				c.Focus(first)
			} else {
				w.key(&fyne.KeyEvent{Name: keyLeave})
			}
		}
		if w.scheduler.Go != nil {
			// It may be that a field is just losing the focus; then it must not be moved.
			time.AfterFunc(0, func() { w.scheduler.Result(move) })
		} else if _, button := f.(*keyButton); button {
			move()
		}
	}
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
		{"o", "O", "right angles and 45° while drawing: on or off", func(w *Window) {
			w.machine.Square = !w.machine.Square
			w.tell(onOff("Right angles and 45°", w.machine.Square))
		}},
		{"g", "G", "grid snap: on or off", func(w *Window) {
			w.machine.Grid = !w.machine.Grid
			w.tell(onOff("Grid snap", w.machine.Grid))
		}},
		{"c", "C", "close the outline, as Enter", func(w *Window) { w.machine.Key(tool.Enter, tool.Mods{}) }},
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
