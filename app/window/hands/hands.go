// Package hands does in a window, for tests, what a person does there: it reads what
// can be seen, presses what has a name, and types into the field beside a label. A
// page is shown by a desk that stands in for the window around it.
package hands

import (
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/form"
)

// Hands work on what is shown.
type Hands struct {
	t  testing.TB
	in fyne.CanvasObject
}

// On gives hands for what lies within a thing.
func On(t testing.TB, in fyne.CanvasObject) Hands { return Hands{t, in} }

// Each calls f with everything that can be seen, from the top.
func (h Hands) Each(f func(fyne.CanvasObject)) { each(h.in, f) }

// each is form.Visit, within charts, lists and rows of one's own as well.
func each(o fyne.CanvasObject, f func(fyne.CanvasObject)) {
	form.Visit(o, func(o fyne.CanvasObject) {
		f(o)
		w, ok := o.(fyne.Widget)
		if _, able := o.(fyne.Disableable); !ok || able || said(o) != "" || len(form.Children(o)) > 0 {
			return
		}
		for _, c := range test.WidgetRenderer(w).Objects() {
			each(c, f)
		}
	})
}

// said gives what is written on a thing.
func said(o fyne.CanvasObject) string {
	switch o := o.(type) {
	case *widget.RichText:
		return o.String()
	case *form.Row:
		return o.Name + "\n" + o.Value
	case *form.Select:
		return o.Selected
	case *form.Check:
		if o.Checked {
			return "[x] " + o.Text
		}
		return "[ ] " + o.Text
	}
	if v := reflect.Indirect(reflect.ValueOf(o)); v.Kind() == reflect.Struct {
		if f := v.FieldByName("Text"); f.IsValid() && f.Kind() == reflect.String {
			return f.String()
		}
	}
	return ""
}

// Text gives all that can be read, a line for each.
func (h Hands) Text() string {
	var b strings.Builder
	h.Each(func(o fyne.CanvasObject) {
		if s := said(o); s != "" {
			b.WriteString(s + "\n")
		}
	})
	return b.String()
}

// Reads fails unless all of these can be read.
func (h Hands) Reads(wants ...string) {
	h.t.Helper()
	got := h.Text()
	for _, w := range wants {
		if !strings.Contains(got, w) {
			h.t.Errorf("there is no %q in:\n%s", w, got)
		}
	}
}

// ReadsNot fails if one of these can be read.
func (h Hands) ReadsNot(others ...string) {
	h.t.Helper()
	got := h.Text()
	for _, w := range others {
		if strings.Contains(got, w) {
			h.t.Errorf("there is %q in:\n%s", w, got)
		}
	}
}

// Every gives all things of a kind, from the top.
func Every[T any](h Hands) (all []T) {
	h.Each(func(o fyne.CanvasObject) {
		if x, ok := o.(T); ok {
			all = append(all, x)
		}
	})
	return all
}

// some gives those of which something is true.
func some[T any](h Hands, is func(T) bool) (all []T) {
	for _, x := range Every[T](h) {
		if is(x) {
			all = append(all, x)
		}
	}
	return all
}

func pick[T any](h Hands, all []T, name string, n int) T {
	h.t.Helper()
	if n < 0 {
		n += len(all)
	}
	if n < 0 || n >= len(all) {
		h.t.Fatalf("there is no %q, number %d, in:\n%s", name, n, h.Text())
	}
	return all[n]
}

// beside finds the nth thing of a kind that stands next after a label, before another
// text.
func beside[T fyne.CanvasObject](h Hands, label string, n int) T {
	h.t.Helper()
	var all []T
	next := false
	h.Each(func(o fyne.CanvasObject) {
		switch v := o.(type) {
		case *widget.Label:
			next = v.Text == label
			return
		case *form.Name:
			next = v.Text == label
			return
		case *fyne.Container, *canvas.Rectangle:
			return
		}
		if x, ok := o.(T); ok && next {
			all = append(all, x)
		}
		next = false
	})
	return pick(h, all, label, n)
}

// Buttons gives the buttons on which a text stands, whole or as its start. Signs before
// the text do not count.
func (h Hands) Buttons(name string) []*form.Button {
	text := func(b *form.Button) string { return strings.TrimLeft(b.Text, "○● ") }
	if all := some(h, func(b *form.Button) bool { return text(b) == name }); len(all) > 0 {
		return all
	}
	return some(h, func(b *form.Button) bool { return strings.HasPrefix(text(b), name) })
}

// Press taps the button with that text; the last of several.
func (h Hands) Press(name string) {
	h.t.Helper()
	b := pick(h, h.Buttons(name), name, -1)
	if b.Disabled() {
		h.t.Fatalf("%q cannot be pressed", name)
	}
	test.Tap(b)
}

// Open opens or closes the row of that name.
func (h Hands) Open(name string) {
	h.t.Helper()
	pick(h, some(h, func(r *form.Row) bool { return r.Name == name }), name, 0).Tapped(nil)
}

// Field gives the field beside a label; the last of several.
func (h Hands) Field(label string) *form.Entry {
	h.t.Helper()
	return beside[*form.Entry](h, label, -1)
}

// Entries gives all fields, from the top.
func (h Hands) Entries() []*form.Entry { return Every[*form.Entry](h) }

// Hinted gives the field with a hint in it.
func (h Hands) Hinted(hint string) *form.Entry {
	h.t.Helper()
	return pick(h, some(h, func(e *form.Entry) bool { return strings.HasPrefix(e.PlaceHolder, hint) }), hint, 0)
}

// Type types into a field as one does: over what is there, and Enter.
func (h Hands) Type(e *form.Entry, text string) {
	h.t.Helper()
	c := h.focus(e)
	if e.MultiLine { // which the focus does not select
		e.SelectAll()
	}
	if text == "" {
		e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	}
	for _, r := range text {
		e.TypedRune(r)
	}
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if c.Focused() == fyne.Focusable(e) {
		c.Unfocus()
	}
}

// Fill types into the field beside a label.
func (h Hands) Fill(label, text string) { h.t.Helper(); h.Type(h.Field(label), text) }

// Key gives a key to what has the focus.
func (h Hands) Key(o fyne.Focusable, k fyne.KeyName) {
	h.t.Helper()
	h.focus(o.(fyne.CanvasObject))
	o.TypedKey(&fyne.KeyEvent{Name: k})
}

func (h Hands) focus(o fyne.CanvasObject) fyne.Canvas {
	h.t.Helper()
	c := fyne.CurrentApp().Driver().CanvasForObject(o)
	c.Unfocus()
	c.Focus(o.(fyne.Focusable))
	if c.Focused() != o.(fyne.Focusable) {
		h.t.Fatalf("the %T %q takes no focus", o, said(o))
	}
	return c
}

// List gives the drop-down list beside a label.
func (h Hands) List(label string) *form.Select {
	h.t.Helper()
	return beside[*form.Select](h, label, -1)
}

// Select chooses from the list beside a label.
func (h Hands) Select(label, option string) {
	h.t.Helper()
	h.List(label).SetSelected(option)
}

// Tick turns the nth tick box of that name over.
func (h Hands) Tick(name string, n int) {
	h.t.Helper()
	test.Tap(pick(h, some(h, func(c *form.Check) bool { return c.Text == name }), name, n))
}

// Inked gives how many pixels of the pictures differ from the first of theirs.
func (h Hands) Inked() (n int) {
	for _, r := range Every[*canvas.Raster](h) {
		s := r.Size()
		img := r.Generator(max(1, int(s.Width)), max(1, int(s.Height)))
		b := img.Bounds()
		for y := b.Min.Y; y < b.Max.Y; y++ {
			for x := b.Min.X; x < b.Max.X; x++ {
				if img.At(x, y) != img.At(b.Min.X, b.Min.Y) {
					n++
				}
			}
		}
	}
	return n
}
