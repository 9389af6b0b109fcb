package window

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// slabs is the short list of the job's slabs, with what is done to whole ones.
func (p *editPanel) slabs() {
	w, f := p.w, p.form
	n := len(w.doc.Job().Slabs)
	if n > 1 {
		f.heading(fmt.Sprintf("%d slabs", n))
		for k := range n {
			p.slabRow(k)
		}
	}
	if n == 1 && w.doc.Blank() {
		return
	}
	moves := newButton("Move…", func() { w.use(&tool.MovePlan{}) })
	f.buttons(
		newButton("New slab", w.newSlab),
		newButton("Copy", func() { w.doc.CopySlab(); w.showSlab() }),
		moves,
		newButton("Remove", func() {
			w.machine.Selected = hit.Target{Kind: hit.Slab}
			if w.doc.Plan().Blank() {
				w.doc.RemoveSlab()
				w.showSlab()
				return
			}
			w.machine.Key(tool.Delete, tool.Mods{})
		}),
	)
}

// called is what tells one slab from another.
func (p *editPanel) called() {
	w, f := p.w, p.form
	f.text("Name", func() string { return w.doc.Plan().Name }, func(s string) error {
		return p.change("Name a slab", func(q *plan.Plan) { q.Name = s })
	}, nil)
	if len(w.doc.Job().Slabs) > 1 {
		f.length("Top over the job's", p.units, func() geometry.Length { return w.doc.Plan().Height }, func(l geometry.Length) error {
			return p.change("Height of "+w.doc.Plan().Called(w.doc.Slab()), func(q *plan.Plan) { q.Height = l })
		})
	}
}

// slabRow is one slab of the list: a click works on it.
func (p *editPanel) slabRow(k int) {
	w := p.w
	b := newButton("", func() {
		w.machine.Choose(k)
		w.machine.Selected = hit.Target{Kind: hit.Slab}
		w.refresh()
	})
	b.Alignment = widget.ButtonAlignLeading
	size := widget.NewLabel("")
	size.Alignment = fyne.TextAlignTrailing
	size.SizeName = theme.SizeNameCaptionText
	show := func() {
		slabs := w.doc.Job().Slabs
		if k >= len(slabs) {
			return
		}
		sign, importance := "○  ", widget.LowImportance
		if k == w.doc.Slab() {
			sign, importance = "●  ", widget.MediumImportance
		}
		if text := sign + slabs[k].Called(k); b.Text != text || b.Importance != importance {
			b.Text, b.Importance = text, importance
			b.Refresh()
		}
		set(size, w.slabSize(k))
	}
	show()
	p.form.add(container.NewBorder(nil, nil, nil, size, b), show)
}

// slabSize gives the area of a slab as it was taken off, or its overall sizes
// where it could not be yet.
func (w *Window) slabSize(k int) string {
	p := w.doc.Job().Slabs[k]
	if len(p.Outline) == 0 {
		return "nothing drawn"
	}
	if t, stale := w.doc.Takeoff(); t != nil && !stale {
		if s, ok := t.Slab(k); ok {
			if w.doc.Units() == geometry.Millimeters {
				return Quantity(s.Solid.Area, takeoff.SquareMeters)
			}
			foot := geometry.Foot.Meters()
			return Quantity(s.Solid.Area/(foot*foot), takeoff.SquareFeet)
		}
	}
	lo, hi := p.Outline.Corners().Bounds()
	return (hi.X - lo.X).Text(w.doc.Units()) + " × " + (hi.Y - lo.Y).Text(w.doc.Units())
}

// newSlab begins another slab.
func (w *Window) newSlab() {
	w.pages.home()
	w.machine.Use(&tool.Select{})
	w.machine.Selected = hit.Target{}
	w.doc.AddSlab()
	w.showSlab()
	w.tell("A new slab: draw it with Rectangle (R) or Outline (L), beside the others or against them")
}

// showSlab shows the slab that is worked on after it was begun, copied or removed.
func (w *Window) showSlab() {
	w.edit.page = selection
	w.machine.Selected = hit.Target{}
	if len(w.doc.Plan().Outline) > 0 {
		w.machine.Selected = hit.Target{Kind: hit.Slab}
	}
	w.tabs.SelectIndex(0)
	w.machine.Fit()
	w.win.Canvas().Focus(w.plan)
}
