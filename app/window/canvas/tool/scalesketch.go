package tool

import (
	"errors"
	"fmt"

	"haunchbook.example/app/window/canvas/sketch"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// ScaleSketch fits the sketch by lengths known on it, one after the other: the
// first sets the scale, and with an angle its rotation; those that follow set it
// more surely, across and up.
type ScaleSketch struct {
	pick
	known []sketch.Known
	first []geometry.Point // the sketch's corners before the first
}

// NewScaleSketch gives the tool.
func NewScaleSketch() *ScaleSketch { return &ScaleSketch{pick: pick{want: 2}} }

// Name implements State.
func (*ScaleSketch) Name() string { return "Scale sketch" }

// Help implements State.
func (s *ScaleSketch) Help(*Machine) Help {
	switch {
	case len(s.points) == 2:
		return Help{"Type the length; with a way the sketch turns too: 24' right", "Fit it", "Choose the end again"}
	case len(s.known) > 0:
		return Help{"Click the ends of another length you know, in another direction: the fit gets surer", "Done", "Done"}
	}
	return Help{"Click the two ends of a length you know on the sketch", "", "Back"}
}

// Meaning says how what is typed is read.
func (s *ScaleSketch) Meaning(m *Machine, text string) (string, error) {
	l, err := parseSpan(text, m.Units())
	switch {
	case err != nil:
		return "", err
	case l.Aimed:
		return fmt.Sprintf("%s, turned to go %s", l.Length.Full(m.Units()), wayText(l.Degrees)), nil
	}
	return l.Length.Full(m.Units()), nil
}

// parseSpan reads a length, with a direction if one is typed.
func parseSpan(text string, u geometry.Units) (plan.Step, error) {
	l, err := plan.ReadStep(text, plan.Course{}, u)
	if err == nil && l.Length == 0 {
		err = errors.New("type one length")
	}
	return l, err
}

// Enter implements State.
func (s *ScaleSketch) Enter(m *Machine, text string) {
	if text == "" {
		if len(s.points) == 0 && len(s.known) > 0 {
			m.Use(&Select{})
		}
		return
	}
	if len(s.points) < 2 {
		return
	}
	l, err := parseSpan(text, m.Units())
	if err != nil {
		m.say(err)
		return
	}
	s.add(m, l)
}

// add fits the sketch by one more length.
func (s *ScaleSketch) add(m *Machine, l plan.Step) {
	now := m.Doc.Base().Sketch
	if !now.Any() {
		m.say(errNoPicture)
		return
	}
	k := sketch.Known{Length: l.Length, Turned: l.Aimed, Degrees: l.Degrees}
	var err error
	if k.A, err = sketch.On(now.Corners, s.points[0]); err == nil {
		k.B, err = sketch.On(now.Corners, s.points[1])
	}
	if err != nil {
		m.say(err)
		return
	}
	if s.first == nil {
		s.first = now.Corners
	}
	known := append(s.known, k)
	corners, off, err := sketch.Fit(s.first, known)
	if !m.commitSketch("Scale the sketch", corners, err) {
		return
	}
	s.known, s.points, m.Text = known, nil, ""
	m.Info = s.told(m, off)
}

// told says how well the lengths agree.
func (s *ScaleSketch) told(m *Machine, off []geometry.Length) string {
	if len(off) == 1 {
		return "Fit to one length. Another in another direction makes it surer; Enter when done"
	}
	worst := 0
	for i := range off {
		if off[i].Abs() > off[worst].Abs() {
			worst = i
		}
	}
	text := fmt.Sprintf("Fit to %d lengths; the furthest off is %s, by %s", len(off), s.known[worst].Length.Text(m.Units()), off[worst].Abs().Text(m.Units()))
	if off[worst].Abs() > s.known[worst].Length/50 {
		text += ". Is one of them wrong, or the sketch taken at an angle? Then Four corners fits better"
	}
	return text
}

// Overlay implements State.
func (s *ScaleSketch) Overlay(m *Machine, o *Overlay) {
	if t := m.Doc.Job().Sketch; t.Any() {
		for _, k := range s.known {
			s.shown(m, o, t.Corners, k)
		}
	}
	s.overlay(m, o, false, "How long is this?")
}

// shown draws a length that is known already.
func (s *ScaleSketch) shown(m *Machine, o *Overlay, corners []geometry.Point, k sketch.Known) {
	a, errA := sketch.At(corners, k.A)
	b, errB := sketch.At(corners, k.B)
	if errA != nil || errB != nil {
		return
	}
	o.line(m, a, b, Guide)
	mid := geometry.Point{X: a.X/2 + b.X/2, Y: a.Y/2 + b.Y/2}
	o.label(k.Length.Text(m.Units()), m.View.Screen(mid), Guide)
}
