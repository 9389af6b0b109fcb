package form

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Page is a form with a name, which is made anew whenever its key changes.
type Page interface {
	Name() string // in the status line; "" for that of the tool
	Key() string
	Form() *Form
}

// Sheet shows one page at a time, and scrolls it.
type Sheet struct {
	*container.Scroll
	Form *Form
	// Later runs f after what is under way, such as a field losing the focus; nil does
	// so at once.
	Later func(f func())

	page Page
	key  string
}

// NewSheet gives a sheet that shows a page once it is brought up to date.
func NewSheet(d Desk, p Page, later func(func())) *Sheet {
	s := &Sheet{Form: New(d), Later: later, page: p}
	s.Scroll = container.NewVScroll(container.NewPadded(s.Form.Box))
	return s
}

// Page gives the page.
func (s *Sheet) Page() Page { return s.page }

// Turn shows another page, or the same anew, once it is brought up to date.
func (s *Sheet) Turn(p Page) { s.page, s.key = p, "" }

// Update brings the page up to date. Where it is made anew, a focus that was within
// moves to its first field, or, unless it is one to be typed into, to the plan.
func (s *Sheet) Update(typed bool) {
	key := fmt.Sprintf("%T %s", s.page, s.page.Key())
	if key == s.key {
		s.Form.Sync()
		return
	}
	s.key = key
	move := s.keepFocus()
	s.Form = s.page.Form()
	s.Form.Sync()
	s.Content = container.NewPadded(s.Form.Box)
	s.Scroll.Refresh()
	s.ScrollToTop()
	if typed {
		move(s.Form.Box)
	} else {
		move(nil)
	}
}

func (s *Sheet) keepFocus() (move func(to fyne.CanvasObject)) {
	c := fyne.CurrentApp().Driver().CanvasForObject(s.Scroll)
	if c == nil {
		return func(fyne.CanvasObject) {}
	}
	o, ok := c.Focused().(fyne.CanvasObject)
	if !ok || len(PathTo(s.Scroll, o)) == 0 {
		return func(fyne.CanvasObject) {}
	}
	return func(to fyne.CanvasObject) {
		move := func() {
			if c.Focused() != o.(fyne.Focusable) {
				return
			}
			if first := FirstFocus(to); first != nil {
				c.Focus(first)
			} else {
				HandOn(s.Scroll, KeyLeave)
			}
		}
		if s.Later != nil {
			s.Later(move)
		} else if _, button := o.(*Button); button {
			move()
		}
	}
}
