package tool

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

type north struct{ none }

// North is the kind of the arrow in the corner of the screen.
var North Kind = north{}

func (north) Called(On, Target) string { return "north" }

func (north) Help(Target) string {
	return "Drag its point round, or type the degrees in the panel; Delete removes it"
}

func (k north) All(o On) []Target {
	if !o.Job.Survey.North.Known {
		return nil
	}
	return []Target{{Kind: k}}
}

func (north) Has(o On, _ Target) bool { return o.Job.Survey.North.Known }

func (k north) Near(o On, r *Reach) {
	if at, radius := hit.NorthArrow(o.View); k.Has(o, Target{}) {
		r.Offer(rankNorth, view.Distance(at, r.At), radius, Target{Kind: k})
	}
}

func (north) Remove(o On, _ Target) (job.Job, error) { return withNorth(o, plan.North{}), nil }

func withNorth(o On, n plan.North) job.Job {
	j := o.Job
	j.Survey.North = n
	return j
}

func (k north) Outline(m *Machine, o *Overlay, t Target, s Style) {
	if k.Has(m.on(), t) {
		at, r := hit.NorthArrow(m.View)
		o.Rings = append(o.Rings, Ring{at, r + 2, s})
	}
}

// Drag turns the arrow to where the pointer is.
func (north) Drag(m *Machine, d *Drag) (job.Job, Target, error) {
	o := m.base()
	at, r := hit.NorthArrow(m.View)
	dx, dy := m.Pointer.X-at.X, at.Y-m.Pointer.Y
	if math.Hypot(dx, dy) < r/4 { // too near to the middle to say which way
		return m.Doc.Job(), d.target, nil
	}
	return withNorth(o, plan.North{Known: true, Turn: m.heldTurn(math.Atan2(dx, dy) * 180 / math.Pi)}), d.target, nil
}

func (north) Beside(m *Machine, _ Target) string {
	return fmt.Sprintf("N  %g°", m.Doc.Job().Survey.North.Turn)
}

func (north) Describe(m *Machine, _ Target, s Sheet) { m.OfSurvey(s) }

// OfSurvey adds the fields of what stands around the slabs.
func (m *Machine) OfSurvey(s Sheet) {
	s.Heading("North, benchmarks, notes")
	f := bind.Of(s, func() plan.North { return m.Doc.Job().Survey.North }, func(_ string, change func(*plan.North)) error {
		m.Doc.ChangeSurvey("North", func(sv *plan.Survey) { change(&sv.North) })
		return nil
	})
	f = f.At("survey.north")
	f.Rows("known")
	typed := f
	typed.Put = func(what string, change func(*plan.North)) error {
		return f.Put(what, func(n *plan.North) { change(n); n.Known = true })
	}
	typed.Rows("turn")
	s.Buttons(m.tool("Point north…", func() State { return &PlaceNorth{} }))
	sv := m.Doc.Job().Survey
	row := func(text string, t Target) {
		s.Row(Row{Text: func() string { return text }, Tap: func() { m.Take(t) }})
	}
	for i, b := range sv.Benchmarks {
		row(b.Name+",  "+b.Height.Full(m.Units()), Target{Kind: Benchmark, Index: i})
	}
	for i, n := range sv.Notes {
		row("“"+planview.NoteLines(n.Text)[0]+"”", Target{Kind: Note, Index: i})
	}
	s.Buttons(
		m.tool("Add benchmark", func() State { return &PlaceBenchmark{} }),
		m.tool("Add note", func() State { return &PlaceNote{} }),
	)
	s.Buttons(Do{"Back", func() error {
		m.Deselect()
		m.turn(Selection)
		m.changed()
		return nil
	}})
}

// PlaceNorth says where north is on the drawing: dragged, clicked from a point
// toward north, or typed in degrees.
type PlaceNorth struct {
	still
	from *geometry.Point
}

// Name implements State.
func (*PlaceNorth) Name() string { return "North" }

// Help implements State.
func (s *PlaceNorth) Help(*Machine) Help {
	if s.from == nil {
		return Help{"Drag toward north, or type degrees clockwise from straight up", "Set it", "Stop"}
	}
	return Help{"Click toward north; Shift frees the angle", "", "Choose the point again"}
}

// Takes implements State.
func (s *PlaceNorth) Takes(_ *Machine, r rune) bool { return startsNumber(r) }

// Meaning says how what is typed is read.
func (s *PlaceNorth) Meaning(_ *Machine, text string) (string, error) {
	d, err := northDegrees(text)
	return fmt.Sprintf("north is %g° clockwise from straight up", d), err
}

func northDegrees(text string) (float64, error) {
	d, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "°")), 64)
	if err != nil || !(math.Abs(d) <= 360) {
		return 0, fmt.Errorf("found %q; write degrees from -360 to 360, clockwise from straight up", text)
	}
	return d, nil
}

// Move implements State.
func (s *PlaceNorth) Move(m *Machine) { m.Hover = Target{} }

// Press implements State.
func (s *PlaceNorth) Press(m *Machine) {
	if s.from == nil {
		at := m.View.Plan(m.Pointer)
		s.from = &at
		return
	}
	s.put(m)
}

// Release implements State.
func (s *PlaceNorth) Release(m *Machine) {
	if m.Dragged() && s.from != nil {
		s.put(m)
	}
}

// turn gives the direction pointed in, degrees clockwise from straight up.
func (s *PlaceNorth) turn(m *Machine) (float64, bool) {
	d := m.View.Plan(m.Pointer).Sub(*s.from)
	if d == (geometry.Point{}) {
		return 0, false
	}
	return m.heldTurn(math.Atan2(float64(d.X), float64(d.Y)) * 180 / math.Pi), true
}

// heldTurn holds a direction to whole degrees and, with right angles on, near to a
// multiple of 45; with Shift to tenths of a degree.
func (m *Machine) heldTurn(degrees float64) float64 {
	if m.Mods.Shift {
		return math.Mod(math.Round(degrees*10)/10+360, 360)
	}
	if near := math.Round(degrees/45) * 45; m.Square && math.Abs(degrees-near) < 4 {
		degrees = near
	}
	return math.Mod(math.Round(degrees)+360, 360)
}

func (s *PlaceNorth) put(m *Machine) {
	if turn, ok := s.turn(m); ok {
		s.set(m, turn)
	}
}

func (s *PlaceNorth) set(m *Machine, turn float64) {
	m.Doc.Commit(fmt.Sprintf("North at %g°", turn), withNorth(m.base(), plan.North{Known: true, Turn: turn}))
	m.Use(&Select{})
	m.Info = fmt.Sprintf("North is %g° clockwise from straight up", turn)
}

// Enter implements State.
func (s *PlaceNorth) Enter(m *Machine, text string) {
	if text == "" {
		return
	}
	d, err := northDegrees(text)
	if err != nil {
		m.say(err)
		return
	}
	s.set(m, d)
}

// Back implements State.
func (s *PlaceNorth) Back(*Machine) bool {
	was := s.from != nil
	s.from = nil
	return was
}

// Overlay implements State.
func (s *PlaceNorth) Overlay(m *Machine, o *Overlay) {
	at := offset(m.Pointer, 16, -22)
	if m.Text != "" {
		o.label(m.Typing(), at, Typing)
	}
	if s.from == nil || !m.Inside {
		return
	}
	turn, ok := s.turn(m)
	if !ok {
		return
	}
	// As long as what was dragged, in the direction that is held.
	tail := m.View.Screen(*s.from)
	sin, cos := math.Sincos(turn * math.Pi / 180)
	length := math.Max(40, math.Hypot(m.Pointer.X-tail.X, m.Pointer.Y-tail.Y))
	tip := offset(tail, sin*length, -cos*length)
	o.Lines = append(o.Lines, Line{tail, tip, Draft})
	for _, side := range []float64{150, 210} {
		hs, hc := math.Sincos((turn + side) * math.Pi / 180)
		o.Lines = append(o.Lines, Line{tip, offset(tip, hs*14, -hc*14), Draft})
	}
	if m.Text == "" {
		o.label(fmt.Sprintf("N  %g°", turn), at, Value)
	}
}
