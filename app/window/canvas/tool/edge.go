package tool

import (
	"errors"
	"slices"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/size"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
)

type edge struct{ none }

// Edge is the kind of the edges of an outline or a hole.
var Edge Kind = edge{}

func (edge) Called(_ On, t Target) string { return edgeName(t) }

func (edge) Help(Target) string { return "Drag to move; type a length; double-click: new corner" }

// chords gives an edge as lines: one of a straight one.
func chords(l plan.Loop, i int) [][2]geometry.Point {
	var out [][2]geometry.Point
	for ps := l.Chords(i); len(ps) > 1; ps = ps[1:] {
		out = append(out, [2]geometry.Point{ps[0], ps[1]})
	}
	return out
}

func (edge) Typed() planview.MeasureKind { return planview.EdgeLength }

// All lists corners, edges and what is on them, edge by edge.
func (e edge) All(o On) (ts []Target) {
	for k, l := range o.Plan().Loops() {
		for i, at := range l {
			ts = append(ts, Target{Kind: Corner, Loop: k, Index: i}, Target{Kind: e, Loop: k, Index: i})
			for d := range at.Doors {
				ts = append(ts, Target{Kind: Door, Loop: k, Index: i, Sub: d})
			}
			for b := range at.Bolts {
				ts = append(ts, Target{Kind: Bolt, Loop: k, Index: i, Sub: b})
			}
		}
	}
	return ts
}

func (edge) Has(o On, t Target) bool { p := o.Plan(); return edgeOf(&p, t) != nil }

// Near offers edges, and a door where the pointer is within it.
func (e edge) Near(o On, r *Reach) {
	if !r.Wants(rankEdge) {
		return
	}
	eachEdge(o.Plan(), func(t Target, l plan.Loop, a, b geometry.Point) {
		away := r.segment(o, a, b)
		if l[t.Index].Middle != 0 {
			away = edgeReach
			for _, c := range chords(l, t.Index) {
				away = min(away, r.segment(o, c[0], c[1]))
			}
		}
		if away >= edgeReach {
			return
		}
		t.Kind = e
		along := plan.Foot(a, b, o.View.Plan(r.At))
		for n, d := range l[t.Index].Doors {
			if along >= d.From && along <= d.From+d.Width {
				t.Kind, t.Sub = Door, n
			}
		}
		r.Offer(rankEdge, away, edgeReach, t)
	})
}

func (e edge) Move(o On, t Target, by geometry.Point) (job.Job, Target, error) {
	if !e.Has(o, t) {
		return o.Job, t, errGone
	}
	p := o.Plan()
	a, b := p.Loops()[t.Loop].Ends(t.Index)
	j, err := o.with(p.MoveEdge(t.Loop, t.Index, sideways(a, b, by)))
	return j, t, err
}

func (edge) Remove(o On, _ Target) (job.Job, error) {
	return o.Job, errors.New("an edge goes with one of its corners: remove that")
}

func (e edge) Outline(m *Machine, o *Overlay, t Target, s Style) {
	if l := loopOf(m.Plan(), t); l != nil {
		for _, c := range chords(l, t.Index) {
			o.line(m, c[0], c[1], s)
		}
	}
}

// Drag pushes the edge sideways. It, not the pointer, is what lines up with things. An arc is
// bent, so that it passes the pointer: its middle ordinate goes by the step.
func (e edge) Drag(m *Machine, d *Drag) (job.Job, Target, error) {
	o, t := m.base(), d.target
	l := o.Plan().Loops()[t.Loop]
	if l[t.Index].Middle != 0 {
		return e.bend(m, o, t)
	}
	i, k := t.Index, (t.Index+1)%len(l)
	a, b := l.Ends(i)
	by := sideways(a, b, m.View.Plan(m.Pointer).Sub(d.from))
	r := m.request()
	r.Plan = o.Plan()
	r.Pointer = m.View.Screen(geometry.Along(a, leftOf(a, b), -by))
	r.Except = func(loop, n int) bool { return loop == t.Loop && (n == i || n == k) }
	m.Snap = snap.To(r)
	return e.Move(o, t, m.Snap.At.Sub(a))
}

// bend makes an arc pass the pointer.
func (edge) bend(m *Machine, o On, t Target) (job.Job, Target, error) {
	p, err := o.Plan().ArcThrough(t.Loop, t.Index, m.View.Plan(m.Pointer))
	if err == nil {
		middle := p.Loops()[t.Loop][t.Index].Middle.Round(m.along())
		if middle == 0 {
			middle = m.along()
		}
		p, err = p.SetMiddle(t.Loop, t.Index, middle)
	}
	if err != nil {
		return o.Job, t, err
	}
	m.Snap = snap.Result{At: p.Loops()[t.Loop].Arc(t.Index).At(0.5, 0), Name: "arc, middle ordinate to " + m.along().Text(m.Units())}
	j, err := o.with(p, nil)
	return j, t, err
}

// sideways gives how far a vector leads away from the slab across an edge.
func sideways(a, b, by geometry.Point) geometry.Length {
	return -plan.Foot(a, leftOf(a, b), a.Add(by))
}

// leftOf gives the point to the left of a-b that is as far from a as b is.
func leftOf(a, b geometry.Point) geometry.Point {
	return a.Add(plan.Turn(b.Sub(a), 90))
}

// split puts a corner on an edge and selects it.
func (m *Machine) split(t Target, along geometry.Length) {
	p, err := m.Plan().SplitEdge(t.Loop, t.Index, along)
	if m.commit("Add a corner on "+edgeName(t), p, err) {
		m.Selected = Target{Kind: Corner, Loop: t.Loop, Index: t.Index + 1}
	}
}

// half is where the middle of an edge is.
func half(p plan.Plan, t Target) geometry.Length { return lengthOf(p, t) / 2 }

// sectionNames lists the sections that edges can have, "" for none first.
func (m *Machine) sectionNames() []string {
	names := []string{""}
	for _, s := range m.Doc.Plan().Sections {
		names = append(names, s.Name)
	}
	return names
}

func wallNames() []string {
	names := []string{""}
	for _, b := range lumber.Boards() {
		names = append(names, b.Name)
	}
	return names
}

// named adds a list of names, of which "" is said as none.
func named[T any](f bind.Fields[T], label, none string, names func() []string, at func(*T) *string) {
	shown := func(name string) string {
		if name == "" {
			return none
		}
		return name
	}
	f.In.Choice(label, func() []string {
		out := names()
		for i, n := range out {
			out[i] = shown(n)
		}
		return out
	}, func() string { t := f.Get(); return shown(*at(&t)) }, func(name string) error {
		if name == none {
			name = ""
		}
		return f.Put(label, func(t *T) { *at(t) = name })
	})
}

// onEdge adds the section and the wall of an edge.
func (m *Machine) onEdge(f bind.Fields[plan.Edge]) {
	f = f.At("slabs[].outline[]")
	named(f, f.Label("section"), "none", m.sectionNames, func(e *plan.Edge) *string { return &e.Section })
	named(f, f.Label("wall"), "none", wallNames, func(e *plan.Edge) *string { return &e.Wall })
}

// curb adds the fields of the curb on an edge: its width where it has one, as it is built, and
// none on a joint.
func curb(f bind.Fields[plan.Edge]) {
	e := f.Get()
	if e.Joint && e.Curb == 0 {
		return
	}
	drawn := f.Get
	f.Get = func() plan.Edge {
		e := drawn()
		e.CurbWidth = e.CurbWide()
		return e
	}
	f.At("slabs[].outline[]").Used().Rows("curb", "curbwidth")
}

func (e edge) Describe(m *Machine, t Target, s Sheet) {
	name := title(e.Called(m.on(), t))
	s.Heading(name)
	if e.describeArc(m, t, s) {
		return
	}
	side := &m.side
	bind.Size(s, "Length", func() geometry.Length { return lengthOf(m.Plan(), t) }, func(l geometry.Length) error {
		p, err := m.Plan().Resize(t.Loop, t.Index, l, *side)
		if err == nil {
			m.Doc.CommitPlan("Set "+edgeName(t)+" to "+l.Text(m.Units()), p)
		}
		return err
	})
	bind.OneOf(s, "Moves", m.sides(t), []plan.Side{plan.End, plan.Start, plan.Both}, func() plan.Side { return *side }, func(v plan.Side) error {
		*side = v
		return nil
	})
	f := fieldsOf(m, s, "Change "+edgeName(t), func(p *plan.Plan) *plan.Edge { return edgeOf(p, t) }).At("slabs[].outline[]")
	m.onEdge(f)
	curb(f)
	if l := loopOf(m.Plan(), t); l != nil && l.StraightOn(t.Index) {
		f.Rows("runout")
	}
	if t.Loop == 0 {
		s.Check(f.Label("joint"), func() bool { return f.Get().Joint }, func(v bool) error {
			return f.Put("Joint", func(e *plan.Edge) { e.SetJoint(v) })
		})
		if f.Get().Joint {
			f.Rows("oldcuts")
		}
	}
	if m.against(t) {
		f.Rows("meets")
	}
	s.Buttons(
		m.tool("Add door", func() State { return &PlaceDoor{} }),
		Do{"Split", func() error { m.split(t, half(m.Plan(), t)); m.changed(); return nil }},
		Do{"Bow out", func() error { m.bow(t); m.changed(); return nil }},
	)
	s.Buttons(m.page("Section library…", Sections))
	m.boltsOf(t, s)
}

// against tells whether an edge lies on one of another slab of the job that is poured before,
// as it was taken off last.
func (m *Machine) against(t Target) bool {
	of, _ := m.Doc.Takeoff()
	if of == nil {
		return false
	}
	s, _ := of.Slab(m.Doc.Slab())
	return slices.ContainsFunc(s.Layout.Meetings, func(o layout.Meeting) bool { return o.Laid(t.Loop, t.Index) })
}

// sides names the three sides that can move when an edge gets another length.
func (m *Machine) sides(t Target) (names []string) {
	r := Resize{Dim: size.Dim{Measure: planview.Measure{Loop: t.Loop, Edge: t.Index}}}
	for _, s := range []plan.Side{plan.End, plan.Start, plan.Both} {
		r.Side = s
		names = append(names, r.SideName(m.Plan()))
	}
	return names
}
