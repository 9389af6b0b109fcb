package window

import (
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry/plan"
)

// newEdges is what the edges about to be drawn get.
func (p *editPanel) newEdges() {
	m := p.w.machine
	p.form.heading("New edges get")
	p.form.choice("Section", p.sectionNames, func() string { return named(m.NewEdge.Section) }, func(v string) { m.NewEdge.Section = unnamed(v) })
	p.form.choice("Wall", wallNames, func() string { return named(m.NewEdge.Wall) }, func(v string) { m.NewEdge.Wall = unnamed(v) })
	if _, ok := m.State().(*tool.Rectangle); ok {
		p.form.note("Click two opposite corners, or type the width and the length: 24 x 30, then Enter.")
		return
	}
	p.form.note("Click corner by corner. Or point a direction with the mouse or an arrow key, type a length such as 24-6 and press Enter. 12' < 30 goes at 30 degrees; 4', 3' goes 4 ft right and 3 ft up. Enter closes.")
	p.form.buttons(
		newButton("From a list of legs…", func() { p.w.use(&tool.Select{}); p.turn(legsPage) }),
		newButton("Shapes…", func() { p.w.use(&tool.Select{}); p.turn(shapesPage) }),
	)
}

// paint is what painting puts on edges.
func (p *editPanel) paint() {
	m := p.w.machine
	p.form.heading("Paint edges with")
	kinds := []string{"section", "wall", "joint"}
	p.form.choice("Paint", func() []string { return kinds }, func() string { return kinds[m.Brush.Sets] }, func(v string) {
		for i, k := range kinds {
			if k == v {
				m.Brush.Sets = tool.Sets(i)
			}
		}
		p.key = ""
		p.w.refresh()
	})
	switch m.Brush.Sets {
	case tool.SetsSection:
		p.form.choice("Section", p.sectionNames, func() string { return named(m.Brush.Section) }, func(v string) {
			m.Brush.Section = unnamed(v)
			p.w.refresh()
		})
		p.form.buttons(
			newButton("All but joints", func() {
				p.report(p.commit("Section on all edges", p.w.doc.Plan().SetAllSections(m.Brush.Section), nil))
			}),
			newButton("Library…", func() { p.w.use(&tool.Select{}); p.turn(sectionsPage) }),
		)
	case tool.SetsWall:
		p.form.choice("Wall", wallNames, func() string { return named(m.Brush.Wall) }, func(v string) {
			m.Brush.Wall = unnamed(v)
			p.w.refresh()
		})
		p.form.buttons(newButton("All but joints", func() {
			p.report(p.change("Wall on all edges", func(q *plan.Plan) {
				for i := range q.Outline {
					if !q.Outline[i].Joint {
						q.Outline[i].Wall = m.Brush.Wall
					}
				}
			}))
		}))
	case tool.SetsJoint:
		p.form.note("Click an edge that meets the old slab; a second click takes the joint off again.")
	}
}
