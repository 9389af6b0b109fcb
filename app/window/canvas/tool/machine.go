// Package tool is what the pointer and the keys do on the plan: a machine of
// small states, one to a file, that runs without a window.
package tool

import (
	"haunchbook.example/app/field"
	"haunchbook.example/app/window/canvas/size"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/app/window/document"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

// Mods are the modifier keys that are held.
type Mods struct{ Shift, Ctrl, Alt bool }

// Button is a button of the pointer.
type Button uint8

const (
	Primary Button = iota
	Middle
	Secondary
)

// The keys that states know, by the names that the window gives them.
const (
	Enter     = "Return"
	Escape    = "Escape"
	Delete    = "Delete"
	Backspace = "BackSpace"
	Tab       = "Tab"
	Up        = "Up"
	Down      = "Down"
	Left      = "Left"
	Right     = "Right"
	Space     = "Space"
	Insert    = "Insert"
	PageUp    = "Prior"
	PageDown  = "Next"
)

// State is one way of interacting. Its methods are called by the Machine, which
// redraws after each.
type State interface {
	// Name is shown in the status line: "Draw outline".
	Name() string
	// Help says what to do now and what Enter and Esc do.
	Help(m *Machine) Help
	// Move is called when the pointer moved with no button held.
	Move(m *Machine)
	// Press, Drag and Release follow the primary button.
	Press(m *Machine)
	Drag(m *Machine)
	Release(m *Machine)
	// Double is called on the second press of a double click.
	Double(m *Machine)
	// Key is called for keys that are not text; true if the state used it.
	Key(m *Machine, key string) bool
	// Takes tells whether text typed now is for this state.
	Takes(m *Machine, r rune) bool
	// Enter is called with what was typed, which may be nothing.
	Enter(m *Machine, text string)
	// Back takes one step back for Esc; false if there is none in this state.
	Back(m *Machine) bool
	// Overlay adds what is shown above the plan.
	Overlay(m *Machine, o *Overlay)
}

// Help is the right-hand half of the status line.
type Help struct{ Do, Enter, Esc string }

// still is a state that does nothing: states embed it and say what they do.
type still struct{}

func (still) Move(*Machine)              {}
func (still) Press(*Machine)             {}
func (still) Drag(*Machine)              {}
func (still) Release(*Machine)           {}
func (still) Double(*Machine)            {}
func (still) Key(*Machine, string) bool  { return false }
func (still) Takes(*Machine, rune) bool  { return false }
func (still) Enter(*Machine, string)     {}
func (still) Back(*Machine) bool         { return false }
func (still) Overlay(*Machine, *Overlay) {}

// Machine takes events and drives the state. It is used from one goroutine.
type Machine struct {
	Doc     *document.Document
	View    view.View
	Measure size.Measure

	Selected Target
	Hover    Target
	Pointer  view.XY
	Inside   bool // whether the pointer is over the plan
	Mods     Mods
	Snap     snap.Result

	Square bool // hold right angles and 45 degrees while drawing
	Grid   bool // snap to the grid

	NewEdge         plan.Edge // section and wall of edges that are drawn
	NewDoor         plan.Door
	NewPad          plan.Pad
	NewEmbed        plan.Embed
	NewConstruction plan.Construction
	NewBreak        plan.Break
	NewBand         plan.Strip
	NewLine         plan.Line
	NewWall         plan.Wall
	NewBolt         plan.BoltMark // of which only the kind counts
	Brush           Brush         // what painting puts on edges

	// Sketch finds what is drawn on the picture under the plan, to snap to; nil
	// where there is none.
	Sketch func(at geometry.Point, reach geometry.Length) (snap.Mark, bool)

	Text   string // what is being typed
	Notice string // why the last thing was refused
	Info   string // the last thing worth saying that is no refusal
	// Moved tells whether the user has panned or zoomed: until then the view
	// follows the window's size.
	Moved bool

	// Changed is called after every event.
	Changed func()
	// Turn is called with a page to show beside the plan.
	Turn func(Page)
	// Focus is called when the keys are to be for the plan.
	Focus func()
	// Pour tells whether the layer of the pour is shown; nil for not.
	Pour func() bool
	// Cut is called with a line to show the section along.
	Cut func(a, b geometry.Point)
	// Beacon is a place to be looked at, until something else is done.
	Beacon *geometry.Point
	// Tape holds the last measurement, for as long as it is shown.
	Tape *[2]geometry.Point

	state   State
	pressed bool
	dragged bool
	down    view.XY
	panning bool
	last    view.XY

	side plan.Side // that moves when an edge gets another length

	sizes     size.Placed
	sizesFor  sizesKey
	others    []snap.Other
	othersFor int
}

// sizesKey is what the dimensions depend on.
type sizesKey struct {
	version, slab int
	view          view.View
	selected      planview.Selected
}

// New gives a machine that selects.
func New(doc *document.Document, measure size.Measure) *Machine {
	const ft = geometry.Foot
	m := &Machine{
		Doc: doc, Measure: measure, state: &Select{}, Square: true, Grid: true,
		View: view.Fit(geometry.Point{}, geometry.Point{X: 40 * ft, Y: 30 * ft}, 800, 600, 60),
	}
	m.usualThings()
	return m
}

// usualThings makes ready what is placed next, of usual size.
func (m *Machine) usualThings() {
	sized := func(l geometry.Length) geometry.Length { return field.Sized(l, m.Units()) }
	foot, half := sized(geometry.Foot), sized(geometry.Foot/2)
	m.NewDoor = plan.Door{Kind: plan.Overhead, Width: 9 * foot}
	m.NewPad = plan.Pad{Width: 2 * foot, Length: 2 * foot, Depth: foot}
	m.NewEmbed = plan.Embed{Width: sized(4 * geometry.Inch)}
	m.NewWall = plan.Wall{Plate: "2x4"}
	m.NewLine = plan.Line{Diameter: sized(3 * geometry.Inch), Cover: foot, Height: sized(4 * geometry.Inch), Spacing: foot, Longest: sized(300 * geometry.Foot), Lead: sized(20 * geometry.Foot)}
	m.NewBreak = plan.Break{Drop: geometry.Inch / 4, Over: geometry.Foot}
	if m.Units() == geometry.Millimeters {
		m.NewBreak = plan.Break{Drop: 20 * geometry.Millimeter, Over: geometry.Meter}
	}
	m.NewBand = plan.Strip{Bottom: foot, Depth: foot, Taper: half}
}

// Usual makes ready what is drawn next, of usual size and of the first section that the
// job has.
func (m *Machine) Usual() {
	m.usualThings()
	m.NewEdge.Section, m.NewEdge.Wall = "", ""
	if s := m.Plan().Sections; len(s) > 0 {
		m.NewEdge.Section = s[0].Name
	}
	m.Brush = Brush{Section: m.NewEdge.Section, Wall: "2x6"}
}

// State gives the state.
func (m *Machine) State() State { return m.state }

// Use changes the state; what was typed and previewed is dropped.
func (m *Machine) Use(s State) {
	m.Doc.Cancel()
	m.Text, m.Notice, m.Info = "", "", ""
	m.pressed, m.dragged = false, false
	m.Tape, m.Beacon = nil, nil
	m.state = s
	m.resnap()
	m.state.Move(m)
	m.changed()
}

func (m *Machine) changed() {
	if m.Changed != nil {
		m.Changed()
	}
}

// Plan gives the plan as it is shown.
func (m *Machine) Plan() plan.Plan { return m.Doc.Plan() }

// Units gives the job's units.
func (m *Machine) Units() geometry.Units { return m.Doc.Units() }

// Sizes gives the dimensions as they stand on the screen.
func (m *Machine) Sizes() *size.Placed {
	key := sizesKey{m.Doc.Version(), m.Doc.Slab(), m.View, planview.Selected{Edge: -1, Bolt: -1}}
	switch t := m.Selected; t.Kind {
	case Edge, Door:
		key.selected.Loop, key.selected.Edge = t.Loop, t.Index
	case Bolt:
		key.selected = planview.Selected{Loop: t.Loop, Edge: t.Index, Bolt: t.Sub}
	}
	if key != m.sizesFor {
		m.sizes.Set(m.Doc.Job().Slabs, m.Doc.Slab(), m.View, m.Units(), m.Measure, key.selected)
		m.sizesFor = key
	}
	return &m.sizes
}

// Dims gives the numbers of the dimensions, to be pointed at.
func (m *Machine) Dims() []size.Dim { return m.Sizes().Dims }

// Fit shows all slabs, and the benchmarks and notes around them.
func (m *Machine) Fit() {
	j := m.Doc.Job()
	lo, hi, ok := document.Bounds(j.Slabs)
	if !ok {
		lo, hi = geometry.Point{}, geometry.Point{X: 40 * geometry.Foot, Y: 30 * geometry.Foot}
		if t := j.Sketch; t.Any() && !t.Hidden && len(t.Corners) == 4 {
			lo, hi = geometry.Ring(t.Corners).Bounds()
		}
	}
	for _, p := range around(j.Survey) {
		lo = geometry.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
		hi = geometry.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	m.View = view.Fit(lo, hi, m.View.W, m.View.H, 78)
	m.Moved = false
	m.resnap()
	m.changed()
}

// Zoom makes the plan larger by the factor about the pointer, or about the
// middle while the pointer is elsewhere.
func (m *Machine) Zoom(factor float64) {
	at := m.Pointer
	if !m.Inside {
		at = view.XY{X: m.View.W / 2, Y: m.View.H / 2}
	}
	m.View = m.View.Zoom(at, factor)
	m.Moved = true
	m.moved()
}

// Pan moves the plan on the screen.
func (m *Machine) Pan(dx, dy float64) {
	m.View = m.View.Pan(dx, dy)
	m.Moved = true
	m.moved()
}

// dragStart is how far the pointer must move for a press to become a drag.
const dragStart = 3

// say shows why something was refused.
func (m *Machine) say(err error) { m.Notice = err.Error() }

// commit makes p the plan, as a step of the history.
func (m *Machine) commit(label string, p plan.Plan, err error) bool {
	if err != nil {
		m.Doc.Cancel()
		m.say(err)
		return false
	}
	m.Doc.CommitPlan(label, p)
	return true
}

// preview shows p as the plan until the next commit or cancel.
func (m *Machine) preview(p plan.Plan, err error) {
	if err != nil {
		m.say(err)
		return
	}
	m.Doc.PreviewPlan(p)
}

// resnap finds the snap for a pointer without anchor; states that draw from a
// point ask again with theirs.
func (m *Machine) resnap() { m.Snap = snap.To(m.request()) }

func (m *Machine) request() snap.Request {
	return snap.Request{
		View: m.View, Units: m.Units(), Plan: m.Plan(), Others: m.beside(), Pointer: m.Pointer,
		Free: m.Mods.Shift, Grid: m.Grid, Square: m.Square, Sketch: m.Sketch,
	}
}

// Status is the left-hand half of the status line.
type Status struct {
	Tool   string
	Snap   string
	At     string // coordinates
	Length string // of what is being drawn
	Typed  string // what was typed and what it means
	Notice string
	Info   string
	Help   Help
}

// Status gives what the status line shows.
func (m *Machine) Status() Status {
	s := Status{Tool: m.state.Name(), Notice: m.Notice, Info: m.Info, Help: m.state.Help(m)}
	if m.Inside {
		s.Snap = m.Snap.Name
		s.At = m.from(m.Snap.At)
	}
	if l, ok := m.state.(interface{ Length(*Machine) string }); ok {
		s.Length = l.Length(m)
	}
	if m.Text != "" {
		s.Typed = m.Typing()
	}
	return s
}

// Typing gives what is typed and how it is read, or why it cannot be.
func (m *Machine) Typing() string {
	if m.writes() {
		return m.Text + "▏"
	}
	meaning, err := m.meaning()
	if err != nil {
		return m.Text + "   !  " + err.Error()
	}
	return m.Text + "  =  " + meaning
}

func (m *Machine) meaning() (string, error) {
	if r, ok := m.state.(interface {
		Meaning(*Machine, string) (string, error)
	}); ok {
		return r.Meaning(m, m.Text)
	}
	l, err := field.Feet.ParseLength(m.Text, m.Units())
	return l.Full(m.Units()), err
}

// around lists the places of what stands around the slabs.
func around(sv plan.Survey) []geometry.Point {
	var all []geometry.Point
	for _, b := range sv.Benchmarks {
		all = append(all, b.At)
	}
	for _, n := range sv.Notes {
		all = append(all, n.At)
		if n.Leader {
			all = append(all, n.To)
		}
	}
	return all
}
