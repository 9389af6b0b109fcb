package tool

import (
	"fmt"

	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/size"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

// Kind is a kind of thing on the plan or around it: all that selecting, dragging and
// the panel beside the plan do with one. Each has a file; Kinds lists them.
type Kind interface {
	// Called names one for the history and the status line: "corner 5", "a door".
	Called(o On, t Target) string
	// All lists those there are, with the parts that can be taken by themselves, in the
	// order that Tab steps through them.
	All(o On) []Target
	// Has tells whether one is there.
	Has(o On, t Target) bool
	// Near offers what is near the pointer.
	Near(o On, r *Reach)
	// Anchor gives the point of one that snaps while it is dragged from a place.
	Anchor(o On, t Target, from geometry.Point) geometry.Point
	// Move gives the job with one moved, as far as it can go that way, and what it is
	// called by then.
	Move(o On, t Target, by geometry.Point) (job.Job, Target, error)
	// Remove gives the job without one.
	Remove(o On, t Target) (job.Job, error)
	// Outline shows one above the plan.
	Outline(m *Machine, o *Overlay, t Target, s Style)
	// Describe gives the fields of one.
	Describe(m *Machine, t Target, s Sheet)
	// Help says what can be done with one.
	Help(t Target) string
}

// What a kind may do besides.
type (
	// dragged says itself where one comes to stand under the pointer.
	dragged interface {
		Drag(m *Machine, d *Drag) (job.Job, Target, error)
	}
	// besides says something beside the pointer while one is dragged.
	besides interface {
		Beside(m *Machine, t Target) string
	}
	// typed has a dimension that a number typed on a selected one changes.
	typed interface{ Typed() planview.MeasureKind }
	// spaced does something with the space bar.
	spaced interface{ Space(m *Machine, t Target) }
	// held is moved by a drag only at times; else the drag moves the view.
	held interface {
		Held(m *Machine, t Target) bool
	}
)

// Kinds lists the kinds of things, in the order that Tab steps through them.
var Kinds = []Kind{Corner, Edge, Door, Bolt, Embed, Pad, Strip, Pipe, Wall, Construction, Fall, Break, Slab, North, Benchmark, Note, Shot, Photo, Truck}

// Target is a thing on the plan or around it, or a part of one.
type Target struct {
	Kind  Kind // nil for nothing
	Loop  int  // of what is on an edge, and of a slab: 0 for the outline, then the holes
	Index int  // of the corner or edge in its loop; else of the thing in its list
	Sub   int  // of a door or bolt mark on its edge; a point of the thing, from 1, or 0 for all of it
	Dim   size.Dim
}

// On tells whether two targets are the same thing.
func (t Target) On(u Target) bool {
	if t.Kind == Dim && u.Kind == Dim {
		return t.Dim.Same(u.Dim)
	}
	return t.Kind == u.Kind && t.Loop == u.Loop && t.Index == u.Index && t.Sub == u.Sub
}

// On is a job with the slab that is worked on, as it is looked at.
type On struct {
	Job     job.Job
	Slab    int
	View    view.View
	Measure size.Measure
	Pour    bool // the layer of the pour is shown
}

// Plan gives the plan of the slab that is worked on.
func (o On) Plan() plan.Plan { return o.Job.Slabs[o.Slab] }

// with gives the job with p in place of that plan.
func (o On) with(p plan.Plan, err error) (job.Job, error) {
	if err != nil {
		return o.Job, err
	}
	return o.Job.WithSlab(o.Slab, p), nil
}

// less gives the job without a thing of that plan.
func (o On) less(t plan.Thing) (job.Job, error) {
	s, err := plan.Site{Plan: o.Plan()}.Remove(t)
	return o.with(s.Plan, err)
}

// on gives the job as it is shown.
func (m *Machine) on() On {
	return On{m.Doc.Job(), m.Doc.Slab(), m.View, m.Measure, m.Pour != nil && m.Pour()}
}

// base is on without a preview.
func (m *Machine) base() On {
	o := m.on()
	o.Job = m.Doc.Base()
	return o
}

// Exists tells whether the target is still there to be selected.
func (m *Machine) Exists(t Target) bool { return t.Kind != nil && t.Kind.Has(m.on(), t) }

// Deselect selects nothing.
func (m *Machine) Deselect() { m.Selected = Target{} }

// What wins over what where several things are near the pointer.
const (
	rankPoint = iota
	rankBolt
	rankEdge
	rankBody
	rankNorth
	rankMark // of the survey: points
	rankNote
	rankHole
	rankSlab
	rankNone
)

// How near the pointer must be, pixels.
const (
	pointReach = 9
	edgeReach  = 7
)

// Reach finds what is nearest to a place on the screen among what is offered.
type Reach struct {
	At   view.XY
	best Target
	rank int
	near float64
}

func newReach(at view.XY) *Reach { return &Reach{At: at, rank: rankNone} }

// Wants tells whether something of that rank would be taken.
func (r *Reach) Wants(rank int) bool { return rank <= r.rank }

// Offer offers a thing that is so many pixels away.
func (r *Reach) Offer(rank int, away, reach float64, t Target) {
	if away < reach && (rank < r.rank || rank == r.rank && away < r.near) {
		r.best, r.rank, r.near = t, rank, away
	}
}

// Point offers a point of the plan.
func (r *Reach) Point(o On, rank int, at geometry.Point, t Target) {
	r.Offer(rank, view.Distance(o.View.Screen(at), r.At), pointReach, t)
}

// At gives what is at a place on the screen: of the slab that is worked on, and
// around the slabs.
func at(o On, s view.XY) Target {
	r := newReach(s)
	for _, k := range Kinds {
		k.Near(o, r)
	}
	return r.best
}

// under gives what lies under the pointer, a number first, another slab last.
func (m *Machine) under(dims []size.Dim) Target {
	for _, d := range dims {
		if d.Covers(m.Pointer) {
			return Target{Kind: Dim, Dim: d}
		}
	}
	if t := at(m.on(), m.Pointer); t.Kind != nil {
		return t
	}
	return m.besideUnder()
}

// edgeUnder gives the edge under the pointer, the whole edge for a door.
func (m *Machine) edgeUnder() Target {
	t := at(m.on(), m.Pointer)
	if t.Kind == Door {
		t = Target{Kind: Edge, Loop: t.Loop, Index: t.Index}
	}
	if t.Kind != Edge {
		return Target{}
	}
	return t
}

// Sheet takes the fields of what is selected, or of what the tool at hand is about to
// draw.
type Sheet interface {
	bind.Holder
	Heading(text string)
	Explain(text string)
	Buttons(bs ...Do)
	Row(r Row)
	Picture(image func() string) // as it stands in a job file
}

// Do is what a button does.
type Do struct {
	Name string
	Act  func() error
}

// Row is a line of a list, which can be pressed.
type Row struct {
	Text   func() string
	Tap    func()
	On     func() bool        // it is the one that is worked on; nil where none is
	Beside func() string      // a figure at its end; nil for none
	Tick   string             // a tick box; "" for none
	Ticked func() bool        //
	SetTo  func(v bool) error //
	Remove func() error       // a bin at its end; nil for none
}

// Page is a page beside the plan that does not depend on the selection.
type Page uint8

const (
	Selection Page = iota // no such page
	Shapes
	Legs
	Sections
	Sketching
	Surveying
)

// page is a button that turns to a page.
func (m *Machine) page(name string, p Page) Do {
	return Do{name, func() error {
		m.Use(&Select{})
		m.turn(p)
		return nil
	}}
}

func (m *Machine) turn(p Page) {
	if m.Turn != nil {
		m.Turn(p)
	}
}

// tool is a button that takes up a tool.
func (m *Machine) tool(name string, s func() State) Do {
	return Do{name, func() error { m.Begin(s()); return nil }}
}

// Begin takes up a tool, and the keys are for the plan.
func (m *Machine) Begin(s State) {
	m.Use(s)
	m.turn(Selection)
	m.focus()
}

func (m *Machine) focus() {
	if m.Focus != nil {
		m.Focus()
	}
}

// Take selects a thing, and the keys are for the plan.
func (m *Machine) Take(t Target) {
	m.Begin(&Select{})
	m.Selected = t
	m.changed()
}

// removal is a button that removes what is selected.
func (m *Machine) removal(name string) Do {
	return Do{name, func() error {
		m.Use(&Select{})
		m.remove()
		m.changed()
		return nil
	}}
}

// Describe gives the fields of what the tool at hand is about to draw, or of what is
// selected, or of the slab.
func (m *Machine) Describe(s Sheet) {
	if d, ok := m.state.(interface{ Describe(*Machine, Sheet) }); ok {
		d.Describe(m, s)
		return
	}
	t := m.Selected
	if !m.Exists(t) {
		t = Target{Kind: Slab}
	}
	t.Kind.Describe(m, t, s)
}

// fieldsOf gives the fields of a thing of the slab: get finds it in a plan, nil where
// it is gone. Changes are named label.
func fieldsOf[T any](m *Machine, s bind.Holder, label string, find func(*plan.Plan) *T) bind.Fields[T] {
	return bind.Of(s, func() (v T) {
		p := m.Doc.Plan()
		if at := find(&p); at != nil {
			v = *at
		}
		return v
	}, func(_ string, change func(*T)) error {
		m.Doc.ChangePlan(label, func(p *plan.Plan) {
			if at := find(p); at != nil {
				change(at)
			}
		})
		return nil
	})
}

// nextOf gives the fields of what is about to be drawn.
func nextOf[T any](s bind.Holder, at *T) bind.Fields[T] {
	return bind.Of(s, func() T { return *at }, func(_ string, change func(*T)) error {
		change(at)
		return nil
	}).Used()
}

// title begins a heading.
func title(called string) string { return field.Upper(called) }

// commitJob makes j the job, as a step of the history, unless there was an error.
func (m *Machine) commitJob(label string, j job.Job, err error) bool {
	if err != nil {
		m.Doc.Cancel()
		m.say(err)
		return false
	}
	m.Doc.Commit(label, j)
	return true
}

var errGone = fmt.Errorf("that is no longer there")

// dimKind is the kind of the dimensions' numbers, which are no things.
type dimKind struct{ none }

// Dim is the kind of a dimension's number.
var Dim Kind = dimKind{}

func (dimKind) Outline(_ *Machine, o *Overlay, t Target, s Style) {
	d := t.Dim
	o.box(d.At.X-d.W/2, d.At.Y-d.H/2, d.At.X+d.W/2, d.At.Y+d.H/2, s)
}

// none is a kind of which nothing can be done; kinds embed it and say what can.
type none struct{}

func (none) Called(On, Target) string                                       { return "" }
func (none) All(On) []Target                                                { return nil }
func (none) Has(On, Target) bool                                            { return false }
func (none) Near(On, *Reach)                                                {}
func (none) Anchor(_ On, _ Target, from geometry.Point) geometry.Point      { return from }
func (none) Move(o On, t Target, _ geometry.Point) (job.Job, Target, error) { return o.Job, t, nil }
func (none) Remove(o On, _ Target) (job.Job, error)                         { return o.Job, errGone }
func (none) Outline(*Machine, *Overlay, Target, Style)                      {}
func (none) Describe(*Machine, Target, Sheet)                               {}
func (none) Help(Target) string                                             { return "" }

// segment gives the pixels from the pointer to a segment of the plan.
func (r *Reach) segment(o On, a, b geometry.Point) float64 {
	return hit.ToSegment(o.View.Screen(a), o.View.Screen(b), r.At)
}
