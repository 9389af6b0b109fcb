package tool

import (
	"errors"
	"fmt"

	"haunchbook/app/window/canvas/hit"
	"haunchbook/app/window/canvas/snap"
	"haunchbook/app/window/canvas/trace"
	"haunchbook/app/window/canvas/view"
	"haunchbook/geometry"
)

// commitTrace moves the traced picture's corners, as a step of the history.
func (m *Machine) commitTrace(label string, corners []geometry.Point, err error) bool {
	if err != nil {
		m.say(err)
		return false
	}
	j := m.Doc.Base()
	j.Trace.Corners = corners
	m.Doc.Commit(label, j)
	return true
}

var errNoPicture = errors.New("there is no picture to fit; import one first")

// MoveTrace drags the traced picture.
type MoveTrace struct {
	still
	from geometry.Point
}

// Name implements State.
func (*MoveTrace) Name() string { return "Move picture" }

// Help implements State.
func (*MoveTrace) Help(m *Machine) Help {
	if m.Doc.Job().Trace.Locked {
		return Help{"The picture is locked; unlock it to move it", "", "Done"}
	}
	return Help{"Drag the picture", "", "Done"}
}

// Press implements State.
func (s *MoveTrace) Press(m *Machine) { s.from = m.View.Plan(m.Pointer) }

// Drag implements State.
func (s *MoveTrace) Drag(m *Machine) {
	j := m.Doc.Base()
	if j.Trace.Locked || !j.Trace.Any() {
		m.StartPan()
		return
	}
	j.Trace.Corners = trace.Move(j.Trace.Corners, m.View.Plan(m.Pointer).Sub(s.from))
	m.Doc.Preview(j)
}

// Release implements State.
func (*MoveTrace) Release(m *Machine) {
	if m.Doc.Previewing() {
		m.Doc.Commit("Move the picture", m.Doc.Job())
	}
}

// Back implements State.
func (*MoveTrace) Back(m *Machine) bool {
	was := m.Doc.Previewing()
	m.pressed = false
	m.Doc.Cancel()
	return was
}

// pick is what the tools that fit the picture share: points picked on it.
type pick struct {
	still
	points []geometry.Point
	want   int
}

// Move implements State.
func (s *pick) Move(m *Machine) {
	m.Hover = hit.Target{}
	// On the picture: the places of the plan are no help.
	m.Snap = snap.Result{At: m.View.Plan(m.Pointer)}
}

// Drag implements State.
func (s *pick) Drag(m *Machine) { s.Move(m) }

// Press implements State.
func (s *pick) Press(m *Machine) {
	s.Move(m)
	if len(s.points) < s.want {
		s.points = append(s.points, m.Snap.At)
	}
}

// Back implements State.
func (s *pick) Back(*Machine) bool {
	if len(s.points) == 0 {
		return false
	}
	s.points = s.points[:len(s.points)-1]
	return true
}

// Takes implements State.
func (s *pick) Takes(_ *Machine, r rune) bool {
	return len(s.points) == s.want && startsNumber(r) && r != '<'
}

// overlay shows the points picked and asks for what is missing.
func (s *pick) overlay(m *Machine, o *Overlay, closed bool, question string) {
	m.path(o, s.points, Draft)
	n := len(s.points)
	for i, p := range s.points {
		o.ring(m, p, 5, Draft)
		o.label(fmt.Sprint(i+1), offset(m.View.Screen(p), -18, -14), Guide)
	}
	if n > 0 && n < s.want && m.Inside {
		o.line(m, s.points[n-1], m.Snap.At, Draft)
	}
	if n == s.want {
		if closed {
			o.line(m, s.points[n-1], s.points[0], Draft)
		}
		text := question
		if m.Text != "" {
			text = m.Typing()
		}
		a, b := m.View.Screen(s.points[0]), m.View.Screen(s.points[1])
		o.label(text, view.XY{X: (a.X + b.X) / 2, Y: (a.Y+b.Y)/2 + 26}, Question)
		return
	}
	// A cross, so that the pointer itself hides nothing.
	if m.Inside {
		at := m.Pointer
		for _, d := range [4][2]float64{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			o.Lines = append(o.Lines, Line{offset(at, d[0]*4, d[1]*4), offset(at, d[0]*18, d[1]*18), Guide})
		}
	}
}

// ScaleTrace sets the picture's scale, and with an angle its rotation, by a
// length known on it.
type ScaleTrace struct{ pick }

// NewScaleTrace gives the tool.
func NewScaleTrace() *ScaleTrace { return &ScaleTrace{pick{want: 2}} }

// Name implements State.
func (*ScaleTrace) Name() string { return "Scale picture" }

// Help implements State.
func (s *ScaleTrace) Help(*Machine) Help {
	if len(s.points) < 2 {
		return Help{"Click the two ends of a length you know on the picture", "", "Back"}
	}
	return Help{"Type the length; with < and an angle the picture turns too: 24' < 0", "Fit it", "Choose the end again"}
}

// Meaning says how what is typed is read.
func (s *ScaleTrace) Meaning(m *Machine, text string) (string, error) {
	l, err := parseLeg(text, m.Units())
	switch {
	case err != nil:
		return "", err
	case l.pair:
		return "", errors.New("type one length")
	case l.angled:
		return fmt.Sprintf("%s, turned to %g°", exact(l.length, m.Units()), l.degrees), nil
	}
	return exact(l.length, m.Units()), nil
}

// Enter implements State.
func (s *ScaleTrace) Enter(m *Machine, text string) {
	if len(s.points) < 2 || text == "" {
		return
	}
	j := m.Doc.Base()
	if !j.Trace.Any() {
		m.say(errNoPicture)
		return
	}
	l, err := parseLeg(text, m.Units())
	if err == nil && l.pair {
		err = errors.New("type one length")
	}
	if err != nil {
		m.say(err)
		return
	}
	corners, err := trace.Scale(j.Trace.Corners, s.points[0], s.points[1], l.length, l.angled, l.degrees)
	if m.commitTrace("Scale the picture", corners, err) {
		m.Use(&Select{})
	}
}

// Overlay implements State.
func (s *ScaleTrace) Overlay(m *Machine, o *Overlay) {
	s.overlay(m, o, false, "How long is this?")
}

// SquareTrace takes the perspective out of the picture by the four corners of a
// rectangle on it.
type SquareTrace struct{ pick }

// NewSquareTrace gives the tool.
func NewSquareTrace() *SquareTrace { return &SquareTrace{pick{want: 4}} }

// Name implements State.
func (*SquareTrace) Name() string { return "Square picture" }

// Help implements State.
func (s *SquareTrace) Help(*Machine) Help {
	corners := [4]string{"lower left", "lower right", "upper right", "upper left"}
	if n := len(s.points); n < 4 {
		return Help{"Click the " + corners[n] + " corner of a rectangle you know on the picture", "", "Back"}
	}
	return Help{"Type its width x depth", "Fit it", "Choose the last corner again"}
}

// Meaning says how what is typed is read.
func (s *SquareTrace) Meaning(m *Machine, text string) (string, error) {
	w, h, err := parseSizes(text, m.Units())
	return exact(w, m.Units()) + " wide, " + exact(h, m.Units()) + " deep", err
}

// Enter implements State.
func (s *SquareTrace) Enter(m *Machine, text string) {
	if len(s.points) < 4 || text == "" {
		return
	}
	j := m.Doc.Base()
	if !j.Trace.Any() {
		m.say(errNoPicture)
		return
	}
	w, h, err := parseSizes(text, m.Units())
	if err != nil {
		m.say(err)
		return
	}
	corners, err := trace.Square(j.Trace.Corners, [4]geometry.Point(s.points), w, h)
	if m.commitTrace("Square the picture", corners, err) {
		m.Use(&Select{})
	}
}

// Overlay implements State.
func (s *SquareTrace) Overlay(m *Machine, o *Overlay) {
	s.overlay(m, o, true, "Width x depth?")
}
