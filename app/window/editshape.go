package window

import (
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// shapes is the form of the common outlines.
func (p *editPanel) shapes() {
	all := plan.Shapes()
	chosen := 0
	values := make([][]geometry.Length, len(all))
	for i, s := range all {
		for _, z := range s.Sizes {
			values[i] = append(values[i], z.Usual)
		}
	}
	var fill func()
	fill = func() {
		refocus := p.w.keepFocus(p.scroll)
		f := newForm()
		p.form = f
		f.heading("Outline by sizes")
		var names []string
		for _, s := range all {
			names = append(names, s.Name)
		}
		f.choice("Shape", func() []string { return names }, func() string { return names[chosen] }, func(v string) {
			for i, n := range names {
				if n == v {
					chosen = i
				}
			}
			fill()
		})
		sizes := values[chosen]
		for i, z := range all[chosen].Sizes {
			f.length(z.Name, p.units, func() geometry.Length { return sizes[i] }, func(l geometry.Length) error {
				was := sizes[i]
				sizes[i] = l
				if _, err := all[chosen].Ring(sizes); err != nil {
					sizes[i] = was
					return err
				}
				return nil
			})
		}
		draw := newButton("Draw it", func() {
			ring, err := all[chosen].Ring(sizes)
			if err != nil {
				p.w.say(err.Error())
				return
			}
			p.outline(all[chosen].Name, ring)
		})
		draw.Importance = widget.HighImportance
		f.buttons(newButton("Back", func() { p.turn(selection) }), draw)
		if len(p.w.doc.Plan().Outline) > 0 {
			f.note("It replaces the outline that is there; Undo brings that back.")
		}
		p.scroll.Content = container.NewPadded(f.box)
		p.scroll.Refresh()
		refocus(p.scroll)
	}
	fill()
}

// outline replaces the outline, where that is, or draws one beside the other
// slabs.
func (p *editPanel) outline(label string, ring geometry.Ring) {
	m := p.w.machine
	m.Selected = hit.Target{}
	p.page = selection
	lo, _ := ring.Bounds()
	by := p.w.doc.Origin().Sub(lo)
	for i := range ring {
		ring[i] = ring[i].Add(by)
	}
	p.report(p.commit("Outline: "+label, p.w.doc.Plan().WithOutline(plan.Like(ring, m.NewEdge)), nil))
	m.Fit()
}
