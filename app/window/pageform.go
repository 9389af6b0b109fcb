package window

import (
	"fmt"
	"reflect"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/job"
)

// The things of a page hand Esc on, wherever the focus is: it goes back to the
// plan.

// pageButton is a button of a page.
type pageButton = keyButton

func newPageButton(w *Window, text string, tap func()) *pageButton {
	b := newButton(text, tap)
	b.esc = w.pages.home
	return b
}

// lineRow is a row of a page that can be opened.
type lineRow struct {
	quantityRow
	w *Window
}

func newLineRow(w *Window, tap func()) *lineRow {
	r := &lineRow{w: w}
	r.tap = tap
	r.ExtendBaseWidget(r)
	return r
}

// FocusGained implements fyne.Focusable.
func (r *lineRow) FocusGained() {
	r.quantityRow.FocusGained()
	reveal(r)
}

// TypedKey implements fyne.Focusable.
func (r *lineRow) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		r.w.pages.home()
		return
	}
	r.quantityRow.TypedKey(k)
}

// pageForm is a form on a page.
type pageForm struct {
	*form
	w *Window
}

func newPageForm(w *Window) *pageForm { return &pageForm{newForm(), w} }

// text adds a field; see form.text. Esc takes back what was typed, and where
// nothing was, leaves the page.
func (f *pageForm) text(label string, get func() string, set func(string) error) *inputField {
	fl := f.form.text(label, get, set, nil)
	back := fl.entry.back
	fl.entry.back = func() {
		if fl.entry.Text == get() && !fl.note.Visible() {
			f.w.pages.home()
			return
		}
		back()
	}
	return fl
}

// choice adds a drop-down list.
func (f *pageForm) choice(label string, options []string, get func() string, set func(string)) {
	f.form.choice(label, func() []string { return options }, get, set).esc = f.w.pages.home
}

// check adds a tick box.
func (f *pageForm) check(label string, get func() bool, set func(bool)) {
	f.form.check(label, get, set).esc = f.w.pages.home
}

// cell is an entry in a table, without a label; its error is shown in a line
// below its row. What goes into the table is its entry.
type cell struct {
	*entry
	get   func() string
	shown string
	note  *widget.Label
	bad   bool
}

func newCell(w *Window, note *widget.Label, get func() string, set func(string) error) *cell {
	c := &cell{entry: newEntry(), get: get, note: note}
	c.commit = func(s string) {
		if s == c.shown || strings.TrimSpace(s) == strings.TrimSpace(get()) {
			c.fault(nil)
			return
		}
		if err := set(s); err != nil {
			c.fault(err)
			return
		}
		c.fault(nil)
		c.reset()
	}
	c.back = func() {
		if c.Text == c.shown && !c.bad {
			w.pages.home()
			return
		}
		c.reset()
		c.fault(nil)
	}
	c.reset()
	return c
}

func (c *cell) reset() {
	c.shown = c.get()
	if c.Text != c.shown {
		c.SetText(c.shown)
	}
}

// fault shows what is wrong with what was typed, below the row.
func (c *cell) fault(err error) {
	if err == nil {
		if c.bad {
			c.bad = false
			c.note.Hide()
		}
		return
	}
	c.bad = true
	c.note.SetText("! " + err.Error())
	c.note.Show()
}

// sync shows the present value, unless it is being typed in.
func (c *cell) sync() {
	if !c.focused && c.get() != c.shown {
		c.reset()
		c.fault(nil)
	}
}

// faultNote is the line below a row of cells; hidden while nothing is wrong.
func faultNote() *widget.Label {
	l := widget.NewLabel("")
	l.Wrapping = fyne.TextWrapWord
	l.SizeName = theme.SizeNameCaptionText
	l.Importance = widget.DangerImportance
	l.Hide()
	return l
}

// change makes a change of the job one step of its history, unless the job would
// then have a fault it has not now.
func (w *Window) change(label string, change func(*job.Job)) error {
	j := w.doc.Base()
	change(&j)
	before := map[string]bool{}
	for _, f := range w.doc.Base().Validate() {
		before[f.Error()] = true
	}
	for _, f := range j.Validate() {
		if !before[f.Error()] {
			return fmt.Errorf("found %s; %s", f.Found, f.Want)
		}
	}
	if reflect.DeepEqual(j, w.doc.Base()) {
		return nil
	}
	w.doc.Commit(label, j)
	return nil
}

// columns lays things out side by side: each with its width, and those of width
// 0 with what is left, in equal parts.
type columns struct {
	widths []float32
	gap    float32
	tight  bool // rows of labels alone, close together
}

func (l *columns) Layout(os []fyne.CanvasObject, s fyne.Size) {
	left, free := s.Width-l.gap*float32(len(os)-1), 0
	for i := range os {
		left -= l.widths[i]
		if l.widths[i] == 0 {
			free++
		}
	}
	x := float32(0)
	for i, o := range os {
		w := l.widths[i]
		if w == 0 {
			w = max(0, left/float32(free))
		}
		h := o.MinSize().Height
		o.Resize(fyne.NewSize(w, h))
		o.Move(fyne.NewPos(x, (s.Height-h)/2))
		x += w + l.gap
	}
}

func (l *columns) MinSize(os []fyne.CanvasObject) fyne.Size {
	w, h := l.gap*float32(len(os)-1), float32(0)
	for i, o := range os {
		m := o.MinSize()
		h = max(h, m.Height)
		if l.widths[i] > 0 {
			w += l.widths[i]
		} else {
			w += m.Width
		}
	}
	if l.tight {
		h -= 10
	}
	return fyne.NewSize(w, h)
}

// figure is a label of a table.
func figure(text string, align fyne.TextAlign) *widget.Label {
	l := widget.NewLabelWithStyle(text, align, fyne.TextStyle{})
	l.Truncation = fyne.TextTruncateEllipsis
	return l
}

// headings is a row of headings of a table: "Price" over fields, ">Amount" over
// figures that end at the right.
func headings(texts []string, l *columns) fyne.CanvasObject {
	var os []fyne.CanvasObject
	for _, t := range texts {
		name, right := strings.CutPrefix(t, ">")
		h := figure(name, fyne.TextAlignLeading)
		if right {
			h.Alignment = fyne.TextAlignTrailing
		}
		h.TextStyle.Bold = true
		h.SizeName = theme.SizeNameCaptionText
		os = append(os, h)
	}
	return container.New(l, os...)
}

// twoParts is a page in two parts side by side: what is shown, and the fields,
// each scrolling by itself.
func twoParts(left, right fyne.CanvasObject, width float32) fyne.CanvasObject {
	r := container.NewVScroll(container.NewPadded(right))
	r.SetMinSize(fyne.NewSize(width, 200))
	l := container.NewVScroll(container.NewPadded(left))
	return container.NewBorder(nil, nil, nil, container.NewHBox(widget.NewSeparator(), r), l)
}
