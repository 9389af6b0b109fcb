package window

import (
	"fmt"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// edge is the form of one edge.
func (p *editPanel) edge(t hit.Target) {
	f := p.form
	get := func() plan.Edge { // the present edge, or none where it is gone
		if !p.w.machine.Exists(t) {
			return plan.Edge{}
		}
		return p.loop(t.Loop)[t.Index]
	}
	setEdge := func(label string, change func(*plan.Edge)) {
		q, err := p.w.doc.Plan().SetEdge(t.Loop, t.Index, change)
		if err := p.commit(label, q, err); err != nil {
			p.w.say(err.Error())
		}
	}
	title := fmt.Sprintf("Edge %d", t.Index+1)
	if t.Loop > 0 {
		title = fmt.Sprintf("Hole %d, edge %d", t.Loop, t.Index+1)
	}
	f.heading(title)
	side := plan.End
	f.length("Length", p.units, func() geometry.Length {
		if !p.w.machine.Exists(t) {
			return 0
		}
		return p.loop(t.Loop).Length(t.Index)
	}, func(l geometry.Length) error {
		q, err := p.w.doc.Plan().Resize(t.Loop, t.Index, l, side)
		return p.commit(fmt.Sprintf("Set edge %d to %s", t.Index+1, l.Text(p.units())), q, err)
	})
	names := func() []string {
		r := tool.Resize{}
		r.Dim.Loop, r.Dim.Edge = t.Loop, t.Index
		var out []string
		for s := plan.End; s <= plan.Both; s++ {
			r.Side = s
			out = append(out, r.SideName(p.w.doc.Plan()))
		}
		return out
	}
	f.choice("Moves", names, func() string { return names()[side] }, func(v string) {
		for i, n := range names() {
			if n == v {
				side = plan.Side(i)
			}
		}
	})
	f.choice("Section", p.sectionNames, func() string { return named(get().Section) }, func(v string) {
		setEdge(v+" on "+title, func(e *plan.Edge) { e.Section = unnamed(v) })
	})
	f.choice("Wall", wallNames, func() string { return named(get().Wall) }, func(v string) {
		setEdge(v+" wall on "+title, func(e *plan.Edge) { e.Wall = unnamed(v) })
	})
	if p.loop(t.Loop).StraightOn(t.Index) {
		f.length("Run-out at start", p.units, func() geometry.Length { return get().RunOut }, func(l geometry.Length) error {
			q, err := p.w.doc.Plan().SetEdge(t.Loop, t.Index, func(e *plan.Edge) { e.RunOut = l })
			return p.commit("Run-out at the start of "+title, q, err)
		})
	}
	if t.Loop == 0 {
		f.check("Joint with the old slab", func() bool { return get().Joint }, func(v bool) {
			setEdge("Joint on "+title, func(e *plan.Edge) { e.SetJoint(v) })
		})
	}
	f.buttons(
		newButton("Add door", func() { p.w.use(&tool.PlaceDoor{}) }),
		newButton("Split", func() {
			q, err := p.w.doc.Plan().SplitEdge(t.Loop, t.Index, p.loop(t.Loop).Length(t.Index)/2)
			if err := p.commit("Split "+title, q, err); err != nil {
				p.w.say(err.Error())
			}
		}),
	)
	f.buttons(newButton("Section library…", func() { p.turn(sectionsPage) }))
	p.bolts(t)
}

func (p *editPanel) corner(t hit.Target) {
	f := p.form
	f.heading(fmt.Sprintf("Corner %d", t.Index+1))
	get := func() geometry.Point {
		if !p.w.machine.Exists(t) {
			return geometry.Point{}
		}
		return p.loop(t.Loop)[t.Index].At
	}
	put := func(to geometry.Point) error {
		q, err := p.w.doc.Plan().MoveCorner(t.Loop, t.Index, to)
		return p.commit(fmt.Sprintf("Move corner %d", t.Index+1), q, err)
	}
	p.place(get, put)
	f.buttons(newButton("Remove corner", func() { p.w.machine.Key(tool.Delete, tool.Mods{}) }))
}

// place adds the two coordinates of a point.
func (p *editPanel) place(get func() geometry.Point, put func(geometry.Point) error) {
	p.form.length("Right (x)", p.units, func() geometry.Length { return get().X }, func(l geometry.Length) error {
		return put(geometry.Point{X: l, Y: get().Y})
	})
	p.form.length("Up (y)", p.units, func() geometry.Length { return get().Y }, func(l geometry.Length) error {
		return put(geometry.Point{X: get().X, Y: l})
	})
}
