// Package form has the parts that the window's pages and panels are made of: fields
// with their faults, tables with fields in them, rows that open, lists, headings,
// pictures, and the rules that keys follow in all of them. It knows nothing of what a
// job is made of.
package form

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/words"
	"haunchbook.example/geometry"
)

// Desk is what a form needs of the window around it.
type Desk interface {
	Units() geometry.Units // of lengths that are typed
	Say(text string)       // tells why something was refused that has no field
	Hint(text string)      // says what the field is that is looked at; "" for none
}

// Form is a column of fields that follow the job: Sync shows the present values
// in every field that is not being typed in.
type Form struct {
	Box   *fyne.Container
	desk  Desk
	about string // what is added next
	syncs []func()
}

// New gives an empty form.
func New(d Desk) *Form { return &Form{Box: container.NewVBox(), desk: d} }

// Add adds a thing, and what brings it up to date; nil for nothing.
func (f *Form) Add(o fyne.CanvasObject, sync func()) {
	f.Box.Add(o)
	if sync != nil {
		f.syncs = append(f.syncs, sync)
	}
}

// Sync shows the present values.
func (f *Form) Sync() {
	for _, s := range f.syncs {
		s()
	}
}

// Heading starts a group of fields.
func (f *Form) Heading(text string) { f.Add(Bold(text), nil) }

// Title heads all of the form.
func (f *Form) Title(text string) { f.Add(Title(text), nil) }

// Explain adds a line of explanation.
func (f *Form) Explain(text string) { f.Add(Explanation(text), nil) }

// Buttons adds a row of buttons.
func (f *Form) Buttons(bs ...fyne.CanvasObject) {
	f.Add(container.New(layout.NewGridLayoutWithColumns(len(bs)), bs...), nil)
}

// Units gives the units of lengths that are typed.
func (f *Form) Units() geometry.Units { return f.desk.Units() }

// Text adds a field.
func (f *Form) Text(label string, t bind.Text) { f.Field(label, t) }

// Field adds a field, and gives it.
func (f *Form) Field(label string, t bind.Text) *Field {
	fl := newField(t, newNote())
	fl.Held = hint(f.desk, f.about)
	f.Add(container.NewVBox(f.labeled(label, fl.Box), fl.Note), fl.Sync)
	return fl
}

// Lines adds a field of several lines, below its label if it has one.
func (f *Form) Lines(label string, t bind.Text) {
	fl := newField(t, newNote())
	e := NewWords(3)
	e.Commit, e.Back, e.Full, e.Held = fl.Commit, fl.Back, fl.Full, hint(f.desk, f.about)
	f.about = ""
	fl.Entry = e
	e.Typed = fl.keepLater
	fl.reset()
	box := container.NewVBox(e, fl.Note)
	if label != "" {
		box.Objects = append([]fyne.CanvasObject{widget.NewLabel(words.Say(label))}, box.Objects...)
	}
	f.Add(box, fl.Sync)
}

// About says what the field is that is added next.
func (f *Form) About(hint string) { f.about = hint }

// hint gives what shows a hint, and takes it away; nil for none.
func hint(d Desk, text string) func(bool) {
	if text == "" {
		return nil
	}
	return func(on bool) {
		if on {
			d.Hint(text)
		} else {
			d.Hint("")
		}
	}
}

// Choice adds a drop-down list.
func (f *Form) Choice(label string, options func() []string, get func() string, set func(string) error) {
	s, show := newChoice(f.desk, options, get, set)
	f.Add(f.labeled(label, s), show)
}

// Check adds a tick box.
func (f *Form) Check(label string, get func() bool, set func(bool) error) {
	f.about = ""
	f.Add(NewBoundCheck(f.desk, label, get, set))
}

// tell tells what was refused.
func tell(d Desk, err error) {
	if err != nil {
		d.Say(err.Error())
	}
}

// Act gives what a button does: it tells what was refused.
func Act(d Desk, do func() error) func() { return func() { tell(d, do()) } }

// Act is Act for the form's own desk.
func (f *Form) Act(do func() error) func() { return Act(f.desk, do) }

func (f *Form) labeled(label string, o fyne.CanvasObject) fyne.CanvasObject {
	var l fyne.CanvasObject
	if over := hint(f.desk, f.about); over != nil {
		l = newName(label, over)
	} else {
		plain := widget.NewLabel(words.Say(label))
		plain.Truncation = fyne.TextTruncateEllipsis
		l = plain
	}
	f.about = ""
	return container.New(&labeled{}, l, o)
}

// labeled lays out a label and what it labels: two fifths to three.
type labeled struct{ tight float32 }

// Labeled puts a thing beside what it is called.
func Labeled(name, o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(&labeled{}, name, o)
}

// Tight is Labeled for rows of text, close below each other.
func Tight(name, o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(&labeled{tight: 8}, name, o)
}

func (*labeled) Layout(os []fyne.CanvasObject, s fyne.Size) {
	w := s.Width * 0.44
	if l, ok := os[0].(sized); ok {
		l.fit(w)
	}
	h := os[0].MinSize().Height
	os[0].Resize(fyne.NewSize(w, h))
	os[0].Move(fyne.NewPos(0, (s.Height-h)/2))
	os[1].Resize(fyne.NewSize(s.Width-w, s.Height))
	os[1].Move(fyne.NewPos(w, 0))
}

func (l *labeled) MinSize(os []fyne.CanvasObject) fyne.Size {
	a, b := os[0].MinSize(), os[1].MinSize()
	return fyne.NewSize(max(b.Width/0.56, 160), max(a.Height, b.Height)-l.tight)
}
