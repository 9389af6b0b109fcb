package tool

import (
	"haunchbook.example/app/window/canvas/sketch"
	"haunchbook.example/geometry"
)

// SquareSketch takes the perspective out of the sketch by the four corners of a
// rectangle on it.
type SquareSketch struct{ pick }

// NewSquareSketch gives the tool.
func NewSquareSketch() *SquareSketch { return &SquareSketch{pick{want: 4}} }

// Name implements State.
func (*SquareSketch) Name() string { return "Square sketch" }

// Help implements State.
func (s *SquareSketch) Help(*Machine) Help {
	corners := [4]string{"lower left", "lower right", "upper right", "upper left"}
	if n := len(s.points); n < 4 {
		return Help{"Click the " + corners[n] + " corner of a rectangle you know on the sketch", "", "Back"}
	}
	return Help{"Type its width x length", "Fit it", "Choose the last corner again"}
}

// Meaning says how what is typed is read.
func (s *SquareSketch) Meaning(m *Machine, text string) (string, error) {
	w, h, err := parseSizes(text, m.Units())
	return w.Full(m.Units()) + " wide, " + h.Full(m.Units()) + " long", err
}

// Enter implements State.
func (s *SquareSketch) Enter(m *Machine, text string) {
	if len(s.points) < 4 || text == "" {
		return
	}
	j := m.Doc.Base()
	if !j.Sketch.Any() {
		m.say(errNoPicture)
		return
	}
	w, h, err := parseSizes(text, m.Units())
	if err != nil {
		m.say(err)
		return
	}
	corners, err := sketch.Square(j.Sketch.Corners, [4]geometry.Point(s.points), w, h)
	if m.commitSketch("Square the sketch", corners, err) {
		m.Use(&Select{})
	}
}

// Overlay implements State.
func (s *SquareSketch) Overlay(m *Machine, o *Overlay) {
	s.overlay(m, o, true, "Width x length?")
}
