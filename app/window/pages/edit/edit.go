// Package edit has the panel of the fields of what is selected on the plan, or of what
// the tool at hand is about to draw, as the tools describe them.
package edit

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/form"
)

// Page shows what is described.
type Page struct {
	desk     form.Desk
	name     string
	describe func(tool.Sheet)
	draft    *draft
}

// New gives a page that the status line calls so, "" for what the tool is called.
func New(d form.Desk, name string, describe func(tool.Sheet)) *Page {
	return &Page{desk: d, name: name, describe: describe}
}

// Name is how the status line calls the page.
func (p *Page) Name() string { return p.name }

// Key changes when there are other fields.
func (p *Page) Key() string {
	p.draft = &draft{Desk: p.desk}
	p.describe(p.draft)
	return p.draft.key.String()
}

// Form makes the page, as it was when its key was asked for last.
func (p *Page) Form() *form.Form {
	f := form.New(p.desk)
	for _, add := range p.draft.adds {
		add(f)
	}
	return f
}

// draft notes what is described, to tell whether the fields are the same as before,
// and makes them if not. It implements tool.Sheet.
type draft struct {
	form.Desk
	key  strings.Builder
	adds []func(f *form.Form)
}

func (d *draft) note(what string, add func(f *form.Form)) {
	d.key.WriteString(what + "\n")
	d.adds = append(d.adds, add)
}

func (d *draft) Heading(text string) { d.note(text, func(f *form.Form) { f.Heading(text) }) }
func (d *draft) Explain(text string) { d.note(text, func(f *form.Form) { f.Explain(text) }) }

func (d *draft) About(hint string) { d.note("", func(f *form.Form) { f.About(hint) }) }

func (d *draft) Text(label string, t bind.Text) {
	d.note(label, func(f *form.Form) { f.Text(label, t) })
}

func (d *draft) Lines(label string, t bind.Text) {
	d.note(label, func(f *form.Form) { f.Lines(label, t) })
}

func (d *draft) Check(label string, get func() bool, set func(bool) error) {
	d.note(label, func(f *form.Form) { f.Check(label, get, set) })
}

func (d *draft) Choice(label string, options func() []string, get func() string, set func(string) error) {
	d.note(label, func(f *form.Form) { f.Choice(label, options, get, set) })
}

func (d *draft) Buttons(bs ...tool.Do) {
	names := ""
	for _, b := range bs {
		names += b.Name + "|"
	}
	d.note(names, func(f *form.Form) {
		var os []fyne.CanvasObject
		for _, b := range bs {
			os = append(os, form.Do(b.Name, f.Act(b.Act)))
		}
		f.Buttons(os...)
	})
}

// Picture shows a picture of the job.
func (d *draft) Picture(image func() string) {
	d.note("picture", func(f *form.Form) { f.Add(form.NewPhoto(240, 200, image)) })
}

// Row adds a line of a list.
func (d *draft) Row(r tool.Row) {
	fixed := ""
	if r.Tick == "" && r.On == nil { // what it says tells what it is
		fixed = r.Text()
	}
	d.note(fmt.Sprint("row ", fixed, r.Tick), func(f *form.Form) {
		b := form.Do("", r.Tap).Leading().Faint()
		sync := []func(){func() {
			text, importance := r.Text(), widget.LowImportance
			if r.On != nil {
				sign := "○  "
				if r.On() {
					sign, importance = "●  ", widget.MediumImportance
				}
				text = sign + text
			}
			if b.SetText(text); b.Importance != importance {
				b.Importance = importance
				b.Refresh()
			}
		}}
		end := container.NewHBox()
		if r.Beside != nil {
			l := form.Figure("", fyne.TextAlignTrailing)
			l.SizeName = theme.SizeNameCaptionText
			l.Truncation = fyne.TextTruncateOff
			end.Add(l)
			sync = append(sync, func() { form.Set(l, r.Beside()) })
		}
		if r.Tick != "" {
			o, show := form.NewBoundCheck(d.Desk, r.Tick, r.Ticked, r.SetTo)
			end.Add(o)
			sync = append(sync, show)
		}
		if r.Remove != nil {
			end.Add(form.NewRemove(f.Act(r.Remove)))
		}
		show := func() {
			for _, s := range sync {
				s()
			}
		}
		show()
		f.Add(container.NewBorder(nil, nil, nil, end, b), show)
	})
}
