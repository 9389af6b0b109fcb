package form

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/words"
	"haunchbook.example/geometry"
)

// Columns are the columns of a table: each with its width, and those of width 0 with
// what is left, in equal parts.
type Columns struct {
	Widths []float32
	Tight  bool // rows of labels alone, close together
}

const columnGap = 4

// Layout implements fyne.Layout.
func (l *Columns) Layout(os []fyne.CanvasObject, s fyne.Size) {
	left, free := s.Width-columnGap*float32(len(os)-1), 0
	for i := range os {
		left -= l.Widths[i]
		if l.Widths[i] == 0 {
			free++
		}
	}
	x := float32(0)
	for i, o := range os {
		w := l.Widths[i]
		if w == 0 {
			w = max(0, left/float32(free))
		}
		h := o.MinSize().Height
		o.Resize(fyne.NewSize(w, h))
		o.Move(fyne.NewPos(x, (s.Height-h)/2))
		x += w + columnGap
	}
}

// MinSize implements fyne.Layout.
func (l *Columns) MinSize(os []fyne.CanvasObject) fyne.Size {
	w, h := columnGap*float32(len(os)-1), float32(0)
	for i, o := range os {
		m := o.MinSize()
		h = max(h, m.Height)
		if l.Widths[i] > 0 {
			w += l.Widths[i]
		} else {
			w += m.Width
		}
	}
	if l.Tight {
		h -= 10
	}
	return fyne.NewSize(w, h)
}

// Figure is a label of a table.
func Figure(text string, align fyne.TextAlign) *widget.Label {
	l := widget.NewLabelWithStyle(words.Say(text), align, fyne.TextStyle{})
	l.Truncation = fyne.TextTruncateEllipsis
	return l
}

// Table has the widths of its columns.
type Table []float32

// Row puts things side by side; columns beyond them stay empty.
func (t Table) Row(os ...fyne.CanvasObject) fyne.CanvasObject { return t.row(false, os) }

// Tight is Row for labels alone, close together.
func (t Table) Tight(os ...fyne.CanvasObject) fyne.CanvasObject { return t.row(true, os) }

func (t Table) row(tight bool, os []fyne.CanvasObject) fyne.CanvasObject {
	for len(os) < len(t) {
		os = append(os, Strut(1, 1))
	}
	row := container.New(&Columns{Widths: t, Tight: tight}, os...)
	if tight {
		return Ruled(row)
	}
	return row
}

// Ruled puts a thin line under a row, so that the eye keeps it at any width. It takes no
// room.
func Ruled(row fyne.CanvasObject) fyne.CanvasObject {
	return container.NewStack(row, container.New(atFoot{}, Rule()))
}

// atFoot lays a line along the lower side.
type atFoot struct{}

// Layout implements fyne.Layout.
func (atFoot) Layout(os []fyne.CanvasObject, s fyne.Size) {
	h := os[0].MinSize().Height
	os[0].Resize(fyne.NewSize(s.Width, h))
	os[0].Move(fyne.NewPos(0, s.Height-h))
}

// MinSize implements fyne.Layout.
func (atFoot) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

// Head is a row of headings: "Price" over fields, ">Amount" over figures that end at
// the right.
func (t Table) Head(texts ...string) fyne.CanvasObject {
	var os []fyne.CanvasObject
	for _, text := range texts {
		name, right := strings.CutPrefix(text, ">")
		l := Figure(name, fyne.TextAlignLeading)
		if right {
			l.Alignment = fyne.TextAlignTrailing
		}
		l.TextStyle.Bold = true
		l.SizeName = theme.SizeNameCaptionText
		os = append(os, l)
	}
	return t.Row(os...)
}

// Figures is a row of figures; the first starts at the left.
func (t Table) Figures(texts ...string) fyne.CanvasObject {
	var os []fyne.CanvasObject
	for i, text := range texts {
		align := fyne.TextAlignTrailing
		if i == 0 {
			align = fyne.TextAlignLeading
		}
		os = append(os, Figure(text, align))
	}
	return t.Tight(os...)
}

// Cells are the fields of one row of a table; their faults stand below the row. Enter
// goes on to the next cell.
type Cells struct {
	desk    Desk
	about   string // what is added next
	note    *widget.Label
	objects []fyne.CanvasObject
	fields  int
	syncs   []func()
}

// NewCells gives a row without fields.
func NewCells(d Desk) *Cells { return &Cells{desk: d, note: newNote()} }

// Units gives the units of lengths that are typed.
func (c *Cells) Units() geometry.Units { return c.desk.Units() }

// About says what the field is that is added next.
func (c *Cells) About(hint string) { c.about = hint }

// Text adds a field.
func (c *Cells) Text(label string, t bind.Text) { c.Field(label, t) }

// Lines adds a field; a table has room for one line.
func (c *Cells) Lines(label string, t bind.Text) { c.Field(label, t) }

// Field adds a field, and gives it. Where there are others in the row, what is wrong
// names it.
func (c *Cells) Field(label string, t bind.Text) *Field {
	set := t.Set
	t.Set = func(s string) error {
		err := set(s)
		if err != nil && c.fields > 1 {
			err = fmt.Errorf("%s: %w", label, err)
		}
		return err
	}
	c.fields++
	f := newField(t, c.note)
	f.cell, f.Done = true, func() { next(f.Entry) }
	f.Held = hint(c.desk, c.about)
	c.about = ""
	c.Add(f.Box, f.Sync)
	return f
}

// Choice adds a drop-down list.
func (c *Cells) Choice(_ string, options func() []string, get func() string, set func(string) error) {
	c.about = ""
	s, show := newChoice(c.desk, options, get, set)
	c.Add(s, show)
}

// Check adds a tick box.
func (c *Cells) Check(label string, get func() bool, set func(bool) error) {
	c.about = ""
	c.Add(NewBoundCheck(c.desk, label, get, set))
}

// Add adds a thing, and what brings it up to date; nil for nothing.
func (c *Cells) Add(o fyne.CanvasObject, sync func()) {
	c.objects = append(c.objects, o)
	if sync != nil {
		c.syncs = append(c.syncs, sync)
	}
}

// Figure adds a figure.
func (c *Cells) Figure(align fyne.TextAlign, get func() string) *widget.Label {
	l := Figure("", align)
	c.Add(l, func() { Set(l, get()) })
	return l
}

// Row gives the row, with what stands below it.
func (c *Cells) Row(t Table, below ...fyne.CanvasObject) fyne.CanvasObject {
	return container.NewVBox(append([]fyne.CanvasObject{t.Row(c.objects...), c.note}, below...)...)
}

// Sync shows the present values.
func (c *Cells) Sync() {
	for _, s := range c.syncs {
		s()
	}
}

// next moves the focus to the next cell, if there is one.
func next(e *Entry) {
	c := fyne.CurrentApp().Driver().CanvasForObject(e)
	if c == nil {
		return
	}
	var all []*Entry
	Visit(c.Content(), func(o fyne.CanvasObject) {
		if n, ok := o.(*Entry); ok && n.cell {
			all = append(all, n)
		}
	})
	if i := slices.Index(all, e); i >= 0 && i+1 < len(all) {
		c.Focus(all[i+1])
	}
}
