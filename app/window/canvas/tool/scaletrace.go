package tool

import (
	"errors"
	"fmt"

	"haunchbook/app/window/canvas/trace"
)

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
