// Package outline has the pages that give a slab its outline without drawing: one of
// the common shapes by its sizes, or side by side as the builder calls them out.
package outline

import (
	"slices"

	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/form"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Frame is what the pages need of the window.
type Frame interface {
	form.Desk
	Plan() plan.Plan
	Origin() geometry.Point // where the outline's lower left corner goes
	CommitPlan(label string, p plan.Plan)
	Refresh() // shows the page as it is now
	Back()    // to what is selected
}

// Shapes is the page of the common shapes.
type Shapes struct {
	frame   Frame
	machine *tool.Machine
	all     []plan.Shape
	chosen  int
	sizes   [][]geometry.Length
}

// NewShapes gives the page.
func NewShapes(f Frame, m *tool.Machine) *Shapes {
	p := &Shapes{frame: f, machine: m, all: plan.Shapes()}
	for _, s := range p.all {
		var sizes []geometry.Length
		for _, z := range s.Sizes {
			sizes = append(sizes, z.Usual)
		}
		p.sizes = append(p.sizes, sizes)
	}
	return p
}

// Name is how the status line calls the page.
func (*Shapes) Name() string { return "Outline by sizes" }

// Key changes when the page is to be made anew.
func (p *Shapes) Key() string {
	return p.all[p.chosen].Name + map[bool]string{true: " in place"}[len(p.frame.Plan().Outline) > 0]
}

// Form makes the page.
func (p *Shapes) Form() *form.Form {
	f := form.New(p.frame)
	f.Heading(p.Name())
	var names []string
	for _, s := range p.all {
		names = append(names, s.Name)
	}
	f.Choice("Shape", func() []string { return names }, func() string { return names[p.chosen] }, func(v string) error {
		p.chosen = max(0, slices.Index(names, v))
		p.frame.Refresh()
		return nil
	})
	shape, sizes := p.all[p.chosen], p.sizes[p.chosen]
	for i, z := range shape.Sizes {
		bind.Length(f, z.Name, func() geometry.Length { return sizes[i] }, func(l geometry.Length) error {
			try := slices.Clone(sizes)
			try[i] = l
			if _, err := shape.Ring(try); err != nil {
				return err
			}
			sizes[i] = l
			return nil
		})
	}
	f.Buttons(form.Do("Back", p.frame.Back), form.Do("Draw it", f.Act(func() error {
		ring, err := shape.Ring(sizes)
		if err == nil {
			draw(p.frame, p.machine, shape.Name, ring)
		}
		return err
	})).Strong())
	if len(p.frame.Plan().Outline) > 0 {
		f.Explain("It replaces the outline that is there; Undo brings that back.")
	}
	return f
}

// draw replaces the outline, where that is, or draws one beside the other slabs.
func draw(f Frame, m *tool.Machine, label string, ring geometry.Ring) {
	m.Deselect()
	lo, _ := ring.Bounds()
	by := f.Origin().Sub(lo)
	for i := range ring {
		ring[i] = ring[i].Add(by)
	}
	f.Back()
	f.CommitPlan("Outline: "+label, f.Plan().WithOutline(plan.Like(ring, m.NewEdge)))
	m.Fit()
}
