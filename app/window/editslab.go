package window

import (
	"fmt"
	"strconv"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// slab is the form of the whole slab, when nothing is selected.
func (p *editPanel) slab() {
	f, w := p.form, p.w
	p.slabs()
	if len(w.doc.Plan().Outline) == 0 {
		head := "A blank sheet"
		if !w.doc.Blank() {
			head = w.doc.Plan().Called(w.doc.Slab()) + ": nothing drawn"
		}
		f.heading(head)
		f.note("Draw the slab: choose Rectangle (R) or Outline (L) at the left, or start from sizes.")
		f.buttons(
			newButton("Shapes by size…", func() { p.turn(shapesPage) }),
			newButton("List of legs…", func() { p.turn(legsPage) }),
		)
	} else {
		f.heading(w.doc.Plan().Called(w.doc.Slab()))
	}
	if !w.doc.Blank() {
		p.called()
	}
	f.length("Field thickness", p.units, func() geometry.Length { return w.doc.Plan().Field }, func(l geometry.Length) error {
		return p.change("Field thickness "+l.Text(p.units()), func(q *plan.Plan) { q.Field = l })
	})
	f.choice("Edges are dug", func() []string { return []string{"to their depth", "to the form board"} }, func() string {
		if w.doc.Plan().Trench == plan.ToBoard {
			return "to the form board"
		}
		return "to their depth"
	}, func(v string) {
		t := plan.ToDepth
		if v != "to their depth" {
			t = plan.ToBoard
		}
		p.report(p.change("Edges dug "+v, func(q *plan.Plan) { q.Trench = t }))
	})
	p.meet()
	f.buttons(
		newButton("Sections…", func() { p.turn(sectionsPage) }),
		newButton("Shapes…", func() { p.turn(shapesPage) }),
		newButton("Legs…", func() { p.turn(legsPage) }),
	)
	f.buttons(
		newButton("Draw over a sketch…", func() { p.turn(sketchPage) }),
		newButton("North, notes…", func() { p.turn(surveyPage) }),
	)
	if len(w.doc.Plan().Outline) == 0 {
		return
	}
	center := func() geometry.Point {
		lo, hi := w.doc.Plan().Outline.Corners().Bounds()
		return geometry.Point{X: lo.X/2 + hi.X/2, Y: lo.Y/2 + hi.Y/2}
	}
	f.buttons(
		newButton("Flip left-right", func() {
			p.report(p.commit("Mirror", w.doc.Plan().Mirror(plan.AcrossX, center().X), nil))
		}),
		newButton("Flip up-down", func() {
			p.report(p.commit("Mirror", w.doc.Plan().Mirror(plan.AcrossY, center().Y), nil))
		}),
		newButton("Turn 90°", func() {
			p.report(p.commit("Turn 90°", w.doc.Plan().Rotate(center(), 90), nil))
			w.machine.Fit()
		}),
	)
	f.text("Turn by, degrees", func() string { return "0" }, func(s string) error {
		d, err := degrees(s)
		if err != nil || d == 0 {
			return err
		}
		return p.commit(fmt.Sprintf("Turn %g°", d), w.doc.Plan().Rotate(center(), d), nil)
	}, nil)
}

func degrees(s string) (float64, error) {
	d, err := strconv.ParseFloat(s, 64)
	if err != nil || d < -360 || d > 360 {
		return 0, fmt.Errorf("found %q; write degrees from -360 to 360, counter-clockwise", s)
	}
	return d, nil
}
