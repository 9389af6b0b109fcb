package tool

import (
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// PlaceBenchmark puts a benchmark on the drawing: its place, its name, its height.
type PlaceBenchmark struct {
	still
	at    *geometry.Point
	named bool
	name  string
}

// Name implements State.
func (*PlaceBenchmark) Name() string { return "Benchmark" }

// Help implements State.
func (s *PlaceBenchmark) Help(m *Machine) Help {
	switch {
	case s.at == nil:
		return Help{"Click the fixed point on the site, or type right, up", "", "Stop"}
	case !s.named:
		return Help{"Type what it is, such as BM 1, nail in the curb", "Call it " + freeBenchmark(m.Doc.Job().Survey), "Choose the place again"}
	}
	return Help{"Type its height over the datum", "Set it; nothing typed is 0", "Name it again"}
}

// Writes implements writer.
func (s *PlaceBenchmark) Writes() bool { return s.at != nil && !s.named }

// Takes implements State.
func (s *PlaceBenchmark) Takes(_ *Machine, r rune) bool {
	return s.Writes() || startsNumber(r) && r != '<'
}

// Meaning says how what is typed is read.
func (s *PlaceBenchmark) Meaning(m *Machine, text string) (string, error) {
	if s.at == nil {
		return placeMeaning(m, text)
	}
	l, err := geometry.ParseLength(text, m.Units().Foot())
	return exact(l, m.Units()) + " over the datum", err
}

// Move implements State.
func (s *PlaceBenchmark) Move(m *Machine) {
	m.Hover = hit.Target{}
	m.Snap = snap.To(m.request())
}

// Press implements State.
func (s *PlaceBenchmark) Press(m *Machine) {
	if s.at == nil {
		s.Move(m)
		at := m.Snap.At
		s.at = &at
	}
}

// Enter implements State.
func (s *PlaceBenchmark) Enter(m *Machine, text string) {
	switch {
	case s.at == nil:
		at, ok := typedPlace(m, text)
		if !ok {
			return
		}
		s.at = &at
	case !s.named:
		s.name, s.named = text, true
		if text == "" {
			s.name = freeBenchmark(m.Doc.Job().Survey)
		}
	default:
		s.finish(m, text)
		return
	}
	m.Text = ""
}

func (s *PlaceBenchmark) finish(m *Machine, text string) {
	height := geometry.Length(0)
	if text != "" {
		var err error
		if height, err = geometry.ParseLength(text, m.Units().Foot()); err != nil {
			m.say(err)
			return
		}
	}
	sv := m.Doc.Job().Survey.Clone()
	sv.Benchmarks = append(sv.Benchmarks, plan.Benchmark{Name: s.name, At: *s.at, Height: height})
	m.commitSurvey("Benchmark "+s.name, sv)
	m.Use(&Select{})
	m.Selected = hit.Target{Kind: hit.Benchmark, Index: len(sv.Benchmarks) - 1}
}

// Back implements State.
func (s *PlaceBenchmark) Back(*Machine) bool {
	switch {
	case s.named:
		s.named = false
	case s.at != nil:
		s.at = nil
	default:
		return false
	}
	return true
}

// Overlay implements State.
func (s *PlaceBenchmark) Overlay(m *Machine, o *Overlay) {
	if s.at == nil {
		if m.Text != "" {
			o.label(m.Typing(), offset(m.Pointer, 16, -18), Typing)
		}
		m.snapped(o)
		return
	}
	o.ring(m, *s.at, 8, Draft)
	ask := "Its name?"
	if s.named {
		ask = s.name + ": its height?"
	}
	if m.Text != "" {
		ask = m.Typing()
	}
	o.label(ask, offset(m.View.Screen(*s.at), 0, 28), Question)
}
