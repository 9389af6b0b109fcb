package tool

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

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
func (s *PlaceNorth) Takes(_ *Machine, r rune) bool { return startsNumber(r) && r != '<' }

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
func (s *PlaceNorth) Move(m *Machine) { m.Hover = hit.Target{} }

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
	sv := m.Doc.Job().Survey.Clone()
	sv.North = plan.North{Known: true, Turn: turn}
	m.commitSurvey(fmt.Sprintf("North at %g°", turn), sv)
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
