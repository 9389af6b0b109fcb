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

	// Job tells the open job from others, each of which has its own place of a page; nil
	// where there is but one.
	Job func() string

	page   Page
	key    string
	at     string                   // what is shown, of which job
	places map[string]fyne.Position // where each was scrolled to
}

// NewSheet gives a sheet that shows a page once it is brought up to date.
func NewSheet(d Desk, p Page, later func(func())) *Sheet {
	s := &Sheet{Form: New(d), Later: later, page: p, places: map[string]fyne.Position{}}
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
	if s.Job != nil {
		key = s.Job() + " " + key
	}
	if key == s.key {
		s.Form.Sync()
		return
	}
	s.places[s.at] = s.Offset
	s.key, s.at = key, key
	move := s.keepFocus()
	s.Form = s.page.Form()
	s.Form.Sync()
	s.Content = container.NewPadded(s.Form.Box)
	s.Scroll.Refresh()
	s.ScrollToOffset(s.places[key])
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
