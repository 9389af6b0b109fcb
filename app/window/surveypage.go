package window

import (
	"fmt"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

// survey is the page of what stands on the drawing around the slabs.
func (p *editPanel) survey() {
	f, w := p.form, p.w
	f.heading("North, benchmarks, notes")
	f.check("North is known", func() bool { return w.doc.Job().Survey.North.Known }, func(v bool) {
		p.changeSurvey("North", func(sv *plan.Survey) { sv.North.Known = v })
	})
	f.text("North, degrees", func() string {
		return strconv.FormatFloat(w.doc.Job().Survey.North.Turn, 'g', -1, 64)
	}, func(s string) error {
		d, err := degrees(s)
		if err != nil {
			return fmt.Errorf("found %q; write degrees from -360 to 360, clockwise from straight up", s)
		}
		p.changeSurvey(fmt.Sprintf("North at %g°", d), func(sv *plan.Survey) { sv.North = plan.North{Known: true, Turn: d} })
		return nil
	}, nil)
	f.buttons(newButton("Point north…", func() { w.use(&tool.PlaceNorth{}) }))
	sv := w.doc.Job().Survey
	row := func(text string, t hit.Target) {
		b := newButton(text, func() { w.selectThing(t) })
		b.Alignment, b.Importance = widget.ButtonAlignLeading, widget.LowImportance
		f.add(b, nil)
	}
	for i, b := range sv.Benchmarks {
		row(b.Name+",  "+lengthText(b.Height, p.units()), hit.Target{Kind: hit.Benchmark, Index: i})
	}
	for i, n := range sv.Notes {
		row("“"+planview.NoteLines(n.Text)[0]+"”", hit.Target{Kind: hit.Note, Index: i})
	}
	f.buttons(
		newButton("Add benchmark", func() { w.use(&tool.PlaceBenchmark{}) }),
		newButton("Add note", func() { w.use(&tool.PlaceNote{}) }),
	)
	f.buttons(newButton("Back", func() {
		w.machine.Selected = hit.Target{}
		p.turn(selection)
	}))
}

// selectThing selects a thing and shows its form.
func (w *Window) selectThing(t hit.Target) {
	w.edit.page = selection
	w.machine.Use(&tool.Select{})
	w.machine.Selected = t
	w.refresh()
	w.win.Canvas().Focus(w.plan)
}

// changeSurvey applies a function to a copy of the survey.
func (p *editPanel) changeSurvey(label string, f func(*plan.Survey)) {
	j := p.w.doc.Base()
	j.Survey = j.Survey.Clone()
	f(&j.Survey)
	p.w.doc.Commit(label, j)
}

// benchmark is the form of one benchmark.
func (p *editPanel) benchmark(t hit.Target) {
	f := p.form
	get := func() plan.Benchmark {
		if !p.w.machine.Exists(t) {
			return plan.Benchmark{}
		}
		return p.w.doc.Job().Survey.Benchmarks[t.Index]
	}
	put := func(change func(*plan.Benchmark)) error {
		p.changeSurvey("Change a benchmark", func(sv *plan.Survey) { change(&sv.Benchmarks[t.Index]) })
		return nil
	}
	f.heading("Benchmark")
	f.text("Name", func() string { return get().Name }, func(s string) error {
		if s == "" {
			return fmt.Errorf("say what it is: BM 1, nail in the curb")
		}
		return put(func(b *plan.Benchmark) { b.Name = s })
	}, nil)
	f.length("Height over datum", p.units, func() geometry.Length { return get().Height }, func(l geometry.Length) error {
		return put(func(b *plan.Benchmark) { b.Height = l })
	})
	p.place(func() geometry.Point { return get().At }, func(at geometry.Point) error {
		return put(func(b *plan.Benchmark) { b.At = at })
	})
	f.note("The heights of all benchmarks are over one datum: the first of them, where that has height 0.")
	f.buttons(newButton("Remove benchmark", func() { p.w.machine.Key(tool.Delete, tool.Mods{}) }))
}

// note is the form of one note.
func (p *editPanel) note(t hit.Target) {
	f := p.form
	text := hit.Target{Kind: hit.Note, Index: t.Index}
	get := func() plan.Note {
		if !p.w.machine.Exists(text) {
			return plan.Note{}
		}
		return p.w.doc.Job().Survey.Notes[t.Index]
	}
	put := func(change func(*plan.Note)) error {
		p.changeSurvey("Change a note", func(sv *plan.Survey) { change(&sv.Notes[t.Index]) })
		return nil
	}
	f.heading("Note")
	p.noteText(func() string { return get().Text }, func(s string) { _ = put(func(n *plan.Note) { n.Text = s }) })
	f.check("With a leader", func() bool { return get().Leader }, func(v bool) {
		_ = put(func(n *plan.Note) {
			n.Leader, n.To = v, geometry.Point{}
			if v { // to the left of the text, to be dragged to what it speaks of
				n.To = n.At.Sub(geometry.Point{X: p.w.machine.View.Length(60)})
			}
		})
	})
	p.place(func() geometry.Point { return get().At }, func(at geometry.Point) error {
		return put(func(n *plan.Note) { n.At = at })
	})
	f.note("Drag the text or the end of its leader on the plan.")
	f.buttons(newButton("Remove note", func() { p.w.selectThing(text); p.w.machine.Key(tool.Delete, tool.Mods{}) }))
}

// noteText is the field of a note's words, which may take several lines. It is
// handed over when the field is left.
func (p *editPanel) noteText(get func() string, put func(string)) {
	e := &wordsEntry{}
	e.MultiLine = true
	e.Wrapping = fyne.TextWrapWord
	e.ExtendBaseWidget(e)
	e.SetMinRowsVisible(3)
	e.SetText(get())
	e.left = func() {
		if e.Text != get() && e.Text != "" {
			put(e.Text)
		}
	}
	p.form.add(e, func() {
		if !e.focused && e.Text != get() {
			e.SetText(get())
		}
	})
}

// wordsEntry hands over its text when it is left; Esc takes back what was typed.
type wordsEntry struct {
	widget.Entry
	focused bool
	was     string
	left    func()
}

// FocusGained implements fyne.Focusable.
func (e *wordsEntry) FocusGained() {
	e.focused, e.was = true, e.Text
	e.Entry.FocusGained()
}

// FocusLost implements fyne.Focusable.
func (e *wordsEntry) FocusLost() {
	e.focused = false
	e.Entry.FocusLost()
	e.left()
}

// TypedKey implements fyne.Focusable.
func (e *wordsEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		if e.Text == e.was {
			if c := fyne.CurrentApp().Driver().CanvasForObject(e); c != nil {
				c.Unfocus()
			}
			return
		}
		e.SetText(e.was)
		return
	}
	e.Entry.TypedKey(k)
}

// AcceptsTab implements fyne.Tabbable: Tab goes on to the next field.
func (e *wordsEntry) AcceptsTab() bool { return false }
