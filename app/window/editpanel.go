package window

import (
	"errors"
	"fmt"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook/app/window/canvas/hit"
	"haunchbook/app/window/canvas/tool"
	"haunchbook/geometry"
	"haunchbook/geometry/lumber"
	"haunchbook/geometry/plan"
)

// editPanel shows the fields of what is selected, or of what the tool at hand
// is about to draw.
type editPanel struct {
	w      *Window
	page   page // a page asked for, in place of the selection's
	key    string
	form   *form
	scroll *container.Scroll
}

// page is a form that does not depend on the selection.
type page uint8

const (
	selection page = iota
	shapesPage
	legsPage
	sectionsPage
	cutPage
	printPage
	tracePage
)

func newEditPanel(w *Window) *editPanel {
	return &editPanel{w: w, form: newForm(), scroll: container.NewVScroll(container.NewVBox())}
}

// turn shows a page.
func (p *editPanel) turn(to page) {
	p.page, p.key = to, ""
	p.show()
}

// show makes the form for what is at hand, or brings the present one up to date.
func (p *editPanel) show() {
	m := p.w.machine
	key := fmt.Sprintf("%d %s %d %d %d %d", p.page, m.State().Name(), m.Selected.Kind, m.Selected.Loop, m.Selected.Index, m.Selected.Sub)
	if _, ok := m.State().(*tool.Select); !ok && p.page != cutPage && p.page != tracePage {
		p.page = selection
	}
	if key == p.key {
		p.form.sync()
		return
	}
	p.key = key
	p.form = newForm()
	p.build()
	p.scroll.Content = container.NewPadded(p.form.box)
	p.scroll.Refresh()
	p.scroll.ScrollToTop()
}

func (p *editPanel) build() {
	switch p.page {
	case shapesPage:
		p.shapes()
		return
	case legsPage:
		p.legs()
		return
	case sectionsPage:
		p.sections()
		return
	case cutPage:
		p.cut()
		return
	case printPage:
		p.print()
		return
	case tracePage:
		p.trace()
		return
	}
	switch s := p.w.machine.State().(type) {
	case *tool.Paint:
		p.paint()
		return
	case *tool.PlaceDoor:
		p.newDoor()
		return
	case *tool.PlacePad:
		p.newPad()
		return
	case *tool.Chain:
		if s.What == tool.Band {
			p.newStrip()
			return
		}
		p.newEdges()
		return
	case *tool.Rectangle:
		p.newEdges()
		return
	}
	switch t := p.w.machine.Selected; {
	case !p.w.machine.Exists(t):
		p.slab()
	case t.Kind == hit.Edge:
		p.edge(t)
	case t.Kind == hit.Corner:
		p.corner(t)
	case t.Kind == hit.Door:
		p.door(t)
	case t.Kind == hit.Pad:
		p.pad(t)
	case t.Kind == hit.Strip:
		p.strip(t)
	case t.Kind == hit.Fall:
		p.fall(t)
	case t.Kind == hit.Slab && t.Loop > 0:
		p.hole(t)
	default:
		p.slab()
	}
}

// none is how "no section" and "no wall" are listed.
const none = "none"

func named(s string) string {
	if s == "" {
		return none
	}
	return s
}

func unnamed(s string) string {
	if s == none {
		return ""
	}
	return s
}

func (p *editPanel) units() geometry.Units { return p.w.doc.Units() }

func (p *editPanel) sectionNames() []string {
	names := []string{none}
	for _, s := range p.w.doc.Plan().Sections {
		names = append(names, s.Name)
	}
	return names
}

func wallNames() []string {
	names := []string{none}
	for _, b := range lumber.Boards() {
		names = append(names, b.Name)
	}
	return names
}

// commit makes a changed plan a step of the history.
func (p *editPanel) commit(label string, q plan.Plan, err error) error {
	if err == nil {
		p.w.doc.CommitPlan(label, q)
	}
	return err
}

// change applies a function to a copy of the plan.
func (p *editPanel) change(label string, f func(*plan.Plan)) error {
	q := p.w.doc.Plan().Clone()
	f(&q)
	return p.commit(label, q, nil)
}

func (p *editPanel) loop(k int) plan.Loop { return p.w.doc.Plan().Loops()[k] }

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
			setEdge("Joint on "+title, func(e *plan.Edge) { e.Joint = v })
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

func (p *editPanel) door(t hit.Target) {
	f := p.form
	get := func() plan.Door {
		if !p.w.machine.Exists(t) {
			return plan.Door{}
		}
		return p.loop(t.Loop)[t.Index].Doors[t.Sub]
	}
	put := func(d plan.Door) error {
		q, err := p.w.doc.Plan().SetDoor(t.Loop, t.Index, t.Sub, d)
		return p.commit("Change a door", q, err)
	}
	f.heading(fmt.Sprintf("Door on edge %d", t.Index+1))
	f.text("Name", func() string { return get().Name }, func(s string) error {
		d := get()
		d.Name = s
		return put(d)
	}, nil)
	p.doorFields(get, put)
	f.length("From start corner", p.units, func() geometry.Length { return get().From }, func(l geometry.Length) error {
		d := get()
		d.From = l
		return put(d)
	})
	f.length("To end corner", p.units, func() geometry.Length {
		if !p.w.machine.Exists(t) {
			return 0
		}
		return p.loop(t.Loop).Length(t.Index) - get().From - get().Width
	}, func(l geometry.Length) error {
		d := get()
		d.From = p.loop(t.Loop).Length(t.Index) - d.Width - l
		return put(d)
	})
	f.buttons(newButton("Remove door", func() { p.w.machine.Key(tool.Delete, tool.Mods{}) }))
}

// doorFields are the fields of a door wherever it is placed.
func (p *editPanel) doorFields(get func() plan.Door, put func(plan.Door) error) {
	f := p.form
	f.choice("For", func() []string { return []string{"overhead", "walk"} }, func() string { return get().Kind.String() }, func(v string) {
		d := get()
		if d.Kind.UnmarshalText([]byte(v)) == nil {
			p.report(put(d))
		}
	})
	f.length("Rough opening", p.units, func() geometry.Length { return get().Width }, func(l geometry.Length) error {
		d := get()
		d.Width = l
		return put(d)
	})
	f.choice("Section under it", func() []string {
		names := p.sectionNames()
		names[0] = "the edge's own"
		return names
	}, func() string {
		if s := get().Section; s != "" {
			return s
		}
		return "the edge's own"
	}, func(v string) {
		d := get()
		d.Section = v
		if v == "the edge's own" {
			d.Section = ""
		}
		p.report(put(d))
	})
	f.length("Run-out", p.units, func() geometry.Length { return get().RunOut }, func(l geometry.Length) error {
		d := get()
		d.RunOut = l
		return put(d)
	})
	f.length("Lip reaches in", p.units, func() geometry.Length { return get().Lip.Inset }, func(l geometry.Length) error {
		d := get()
		d.Lip.Inset = l
		return put(d)
	})
	f.length("Lip drops", p.units, func() geometry.Length { return get().Lip.Drop }, func(l geometry.Length) error {
		d := get()
		d.Lip.Drop = l
		return put(d)
	})
}

func (p *editPanel) report(err error) {
	if err != nil {
		p.w.say(err.Error())
	}
}

func (p *editPanel) newDoor() {
	p.form.heading("Next door")
	m := p.w.machine
	p.doorFields(func() plan.Door { return m.NewDoor }, func(d plan.Door) error {
		if d.Width <= 0 {
			return errors.New("a door must be wider than 0")
		}
		m.NewDoor = d
		return nil
	})
	p.form.note("Point at an edge and click, or type the distance from the marked corner and press Enter. A comma and a second length set the width: 4', 9'")
}

func (p *editPanel) pad(t hit.Target) {
	get := func() plan.Pad {
		if !p.w.machine.Exists(t) {
			return plan.Pad{}
		}
		return p.w.doc.Plan().Pads[t.Index]
	}
	put := func(v plan.Pad) error { return p.change("Change a pad", func(q *plan.Plan) { q.Pads[t.Index] = v }) }
	p.form.heading(fmt.Sprintf("Pad %d", t.Index+1))
	p.form.text("Name", func() string { return get().Name }, func(s string) error {
		v := get()
		v.Name = s
		return put(v)
	}, nil)
	p.padFields(get, put)
	p.form.text("Turned, degrees", func() string { return strconv.FormatFloat(get().Turn, 'g', -1, 64) }, func(s string) error {
		d, err := degrees(s)
		v := get()
		v.Turn = d
		if err != nil {
			return err
		}
		return put(v)
	}, nil)
	p.place(func() geometry.Point { return get().Centre }, func(c geometry.Point) error {
		v := get()
		v.Centre = c
		return put(v)
	})
	p.form.buttons(newButton("Remove pad", func() { p.w.machine.Key(tool.Delete, tool.Mods{}) }))
}

func (p *editPanel) padFields(get func() plan.Pad, put func(plan.Pad) error) {
	for _, fl := range []struct {
		label string
		at    func(*plan.Pad) *geometry.Length
	}{
		{"Width (x)", func(v *plan.Pad) *geometry.Length { return &v.Width }},
		{"Length (y)", func(v *plan.Pad) *geometry.Length { return &v.Length }},
		{"Depth from top", func(v *plan.Pad) *geometry.Length { return &v.Depth }},
		{"Taper of sides", func(v *plan.Pad) *geometry.Length { return &v.Taper }},
	} {
		p.form.length(fl.label, p.units, func() geometry.Length { v := get(); return *fl.at(&v) }, func(l geometry.Length) error {
			v := get()
			*fl.at(&v) = l
			return put(v)
		})
	}
}

func (p *editPanel) newPad() {
	m := p.w.machine
	p.form.heading("Next pad")
	p.padFields(func() plan.Pad { return m.NewPad }, func(v plan.Pad) error { m.NewPad = v; return nil })
	p.form.note("Click its middle on the plan.")
}

func (p *editPanel) strip(t hit.Target) {
	get := func() plan.Strip {
		if !p.w.machine.Exists(t) {
			return plan.Strip{}
		}
		return p.w.doc.Plan().Strips[t.Index]
	}
	put := func(v plan.Strip) error {
		return p.change("Change a strip", func(q *plan.Plan) { q.Strips[t.Index] = v })
	}
	p.form.heading(fmt.Sprintf("Strip %d", t.Index+1))
	p.form.text("Name", func() string { return get().Name }, func(s string) error {
		v := get()
		v.Name = s
		return put(v)
	}, nil)
	p.stripFields(get, put)
	p.form.buttons(newButton("Remove strip", func() { p.w.machine.Key(tool.Delete, tool.Mods{}) }))
}

func (p *editPanel) stripFields(get func() plan.Strip, put func(plan.Strip) error) {
	for _, fl := range []struct {
		label string
		at    func(*plan.Strip) *geometry.Length
	}{
		{"Flat width", func(v *plan.Strip) *geometry.Length { return &v.Bottom }},
		{"Depth from top", func(v *plan.Strip) *geometry.Length { return &v.Depth }},
		{"Taper of sides", func(v *plan.Strip) *geometry.Length { return &v.Taper }},
	} {
		p.form.length(fl.label, p.units, func() geometry.Length { v := get(); return *fl.at(&v) }, func(l geometry.Length) error {
			v := get()
			*fl.at(&v) = l
			return put(v)
		})
	}
}

func (p *editPanel) newStrip() {
	m := p.w.machine
	p.form.heading("Next strip")
	p.stripFields(func() plan.Strip { return m.NewBand }, func(v plan.Strip) error { m.NewBand = v; return nil })
	p.form.note("Click its line point by point; Enter finishes it.")
}

func (p *editPanel) fall(t hit.Target) {
	get := func() plan.Fall {
		if !p.w.machine.Exists(t) {
			return plan.Fall{}
		}
		return p.w.doc.Plan().Top.Falls[t.Index]
	}
	p.form.heading(fmt.Sprintf("Fall %d of the top", t.Index+1))
	p.form.length("Drop", p.units, func() geometry.Length { return get().Drop }, func(l geometry.Length) error {
		return p.change("Change a fall", func(q *plan.Plan) { q.Top.Falls[t.Index].Drop = l })
	})
	p.meet()
	p.form.buttons(newButton("Remove fall", func() { p.w.machine.Key(tool.Delete, tool.Mods{}) }))
}

// meet is how falls meet and how the ground is cut under them.
func (p *editPanel) meet() {
	p.form.choice("Falls meet in a", func() []string { return []string{"valley", "ridge"} },
		func() string { return p.w.doc.Plan().Top.Meet.String() },
		func(v string) {
			p.report(p.change("Falls meet in a "+v, func(q *plan.Plan) { _ = q.Top.Meet.UnmarshalText([]byte(v)) }))
		})
	p.form.choice("Ground under it", func() []string { return []string{"graded", "level"} },
		func() string { return p.w.doc.Plan().Base.String() },
		func(v string) {
			p.report(p.change("Ground "+v, func(q *plan.Plan) { _ = q.Base.UnmarshalText([]byte(v)) }))
		})
}

func (p *editPanel) hole(t hit.Target) {
	p.form.heading(fmt.Sprintf("Hole %d", t.Loop))
	p.form.text("Name", func() string {
		if !p.w.machine.Exists(t) {
			return ""
		}
		return p.w.doc.Plan().Holes[t.Loop-1].Name
	}, func(s string) error {
		return p.change("Name a hole", func(q *plan.Plan) { q.Holes[t.Loop-1].Name = s })
	}, nil)
	p.form.note("Its edges can have sections and walls of their own: click one.")
	p.form.buttons(newButton("Remove hole", func() { p.w.machine.Key(tool.Delete, tool.Mods{}) }))
}

// newEdges is what the edges about to be drawn get.
func (p *editPanel) newEdges() {
	m := p.w.machine
	p.form.heading("New edges get")
	p.form.choice("Section", p.sectionNames, func() string { return named(m.NewEdge.Section) }, func(v string) { m.NewEdge.Section = unnamed(v) })
	p.form.choice("Wall", wallNames, func() string { return named(m.NewEdge.Wall) }, func(v string) { m.NewEdge.Wall = unnamed(v) })
	if _, ok := m.State().(*tool.Rectangle); ok {
		p.form.note("Click two opposite corners, or type the width and the depth: 24 x 30, then Enter.")
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

// slab is the form of the whole slab, when nothing is selected.
func (p *editPanel) slab() {
	f, w := p.form, p.w
	if len(w.doc.Plan().Outline) == 0 {
		f.heading("A blank sheet")
		f.note("Draw the slab: choose Rectangle (R) or Outline (L) at the left, or start from sizes.")
		f.buttons(
			newButton("Shapes by size…", func() { p.turn(shapesPage) }),
			newButton("List of legs…", func() { p.turn(legsPage) }),
		)
	} else {
		f.heading("Slab")
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
	f.buttons(newButton("Trace a picture…", func() { p.turn(tracePage) }))
	if len(w.doc.Plan().Outline) == 0 {
		return
	}
	centre := func() geometry.Point {
		lo, hi := w.doc.Plan().Outline.Corners().Bounds()
		return geometry.Point{X: lo.X/2 + hi.X/2, Y: lo.Y/2 + hi.Y/2}
	}
	f.buttons(
		newButton("Flip left-right", func() {
			p.report(p.commit("Mirror", w.doc.Plan().Mirror(plan.AcrossX, centre().X), nil))
		}),
		newButton("Flip up-down", func() {
			p.report(p.commit("Mirror", w.doc.Plan().Mirror(plan.AcrossY, centre().Y), nil))
		}),
		newButton("Turn 90°", func() {
			p.report(p.commit("Turn 90°", w.doc.Plan().Rotate(centre(), 90), nil))
			w.machine.Fit()
		}),
	)
	f.text("Turn by, degrees", func() string { return "0" }, func(s string) error {
		d, err := degrees(s)
		if err != nil || d == 0 {
			return err
		}
		return p.commit(fmt.Sprintf("Turn %g°", d), w.doc.Plan().Rotate(centre(), d), nil)
	}, nil)
}

func degrees(s string) (float64, error) {
	d, err := strconv.ParseFloat(s, 64)
	if err != nil || d < -360 || d > 360 {
		return 0, fmt.Errorf("found %q; write degrees from -360 to 360, counter-clockwise", s)
	}
	return d, nil
}

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
	}
	fill()
}

// outline replaces the outline.
func (p *editPanel) outline(label string, ring geometry.Ring) {
	m := p.w.machine
	m.Selected = hit.Target{}
	p.page = selection
	p.report(p.commit("Outline: "+label, p.w.doc.Plan().WithOutline(plan.Like(ring, m.NewEdge)), nil))
	m.Fit()
}

// legs is the form of an outline typed leg by leg.
func (p *editPanel) legs() {
	f := p.form
	f.heading("Outline by legs")
	f.note("A length and a direction for each side, with commas: 24' E, 30' N, 24' W, close. Directions are N, E, S, W, those between (NE), degrees from E (6' at 45), or a bearing (10' N30W).")
	text := widget.NewMultiLineEntry()
	text.SetPlaceHolder("24' E, 30' N, 24' W, close")
	text.Wrapping = fyne.TextWrapWord
	text.SetMinRowsVisible(4)
	say := widget.NewLabel("")
	say.Wrapping = fyne.TextWrapWord
	choice := widget.NewSelect([]string{"spread over all legs", "put in the last leg", "kept as a leg of its own"}, nil)
	choice.SetSelectedIndex(0)
	choice.Hide()
	read := func() (plan.Traverse, error) { return plan.FromLegs(text.Text, p.units()) }
	text.OnChanged = func(string) {
		t, err := read()
		say.Importance = widget.MediumImportance
		choice.Hide()
		switch gap := t.Misclosure(); {
		case err != nil:
			say.Importance = widget.DangerImportance
			say.SetText("! " + err.Error())
		case gap == 0:
			say.SetText(fmt.Sprintf("%d legs, closes exactly.", len(t.Legs)))
		default:
			say.SetText(fmt.Sprintf("%d legs; misses the start by %s (%s right, %s up). The gap is:",
				len(t.Legs), gap.Text(p.units()), t.Gap.X.Text(p.units()), t.Gap.Y.Text(p.units())))
			choice.Show()
		}
		say.Refresh()
	}
	draw := newButton("Draw it", func() {
		t, err := read()
		if err != nil {
			return // said already
		}
		switch {
		case t.Misclosure() == 0 || choice.SelectedIndex() == 2:
		case choice.SelectedIndex() == 1:
			t, err = t.InLeg(len(t.Legs) - 1)
		default:
			t = t.Spread()
		}
		p.report(err)
		p.outline("legs", t.Ring())
	})
	draw.Importance = widget.HighImportance
	f.add(text, nil)
	f.add(say, nil)
	f.add(choice, nil)
	f.buttons(newButton("Back", func() { p.turn(selection) }), draw)
}
