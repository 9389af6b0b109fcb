package form

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Every part of the window can be worked with the keys alone. A thing that has the
// focus hands on the keys it has no use for to the canvas's OnTypedKey, and with them
// these two.
const (
	// KeyLeave stands for a thing that was left with Esc, with nothing to take back.
	KeyLeave fyne.KeyName = "Leave"
	// KeyDone stands for a field whose value was taken or taken back, or a list that
	// was chosen from: what is beside the plan gives the keys back to it.
	KeyDone fyne.KeyName = "Done"
)

// HandOn gives a key that o has no use for to the window. It tells whether the
// window has one.
func HandOn(o fyne.CanvasObject, k fyne.KeyName) bool {
	switch k {
	case fyne.KeyF1, fyne.KeyF6, fyne.KeyF10, KeyLeave, KeyDone:
		if c := fyne.CurrentApp().Driver().CanvasForObject(o); c != nil && c.OnTypedKey() != nil {
			c.OnTypedKey()(&fyne.KeyEvent{Name: k})
		}
		return true
	case fyne.KeyEscape:
		return HandOn(o, KeyLeave)
	}
	return false
}

// handOnShortcut gives a shortcut that o has no use for to the window.
func handOnShortcut(o fyne.CanvasObject, s fyne.Shortcut) {
	if c, ok := fyne.CurrentApp().Driver().CanvasForObject(o).(fyne.Shortcutable); ok {
		c.TypedShortcut(s)
	}
}

// Children gives what lies within a thing that can be seen.
func Children(o fyne.CanvasObject) []fyne.CanvasObject {
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

// Visit calls f with everything within o that can be seen.
func Visit(o fyne.CanvasObject, f func(fyne.CanvasObject)) {
	if o == nil || !o.Visible() {
		return
	}
	f(o)
	for _, c := range Children(o) {
		Visit(c, f)
	}
}

// FirstFocus gives the first thing within o that takes the focus, or nil.
func FirstFocus(o fyne.CanvasObject) (first fyne.Focusable) {
	Visit(o, func(o fyne.CanvasObject) {
		f, ok := o.(fyne.Focusable)
		if d, able := o.(fyne.Disableable); first == nil && ok && (!able || !d.Disabled()) {
			first = f
		}
	})
	return first
}

// Focus gives the keys of a canvas to the first thing within o that takes them, with all
// of its text selected; false where there is none.
func Focus(c fyne.Canvas, o fyne.CanvasObject) bool {
	f := FirstFocus(o)
	if f == nil {
		return false
	}
	c.Focus(f)
	if e, ok := f.(*Entry); ok && !e.MultiLine {
		e.SelectAll()
	}
	return true
}

// PathTo gives the things from o down to what is looked for, both with it; none
// where it is not within o.
func PathTo(o, what fyne.CanvasObject) []fyne.CanvasObject {
	if o == what {
		return []fyne.CanvasObject{o}
	}
	for _, c := range Children(o) {
		if p := PathTo(c, what); len(p) > 0 {
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
	for _, p := range PathTo(c.Content(), o) {
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
