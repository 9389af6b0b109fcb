package tool

import (
	"haunchbook.example/app/window/canvas/trace"
	"haunchbook.example/geometry"
)

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
