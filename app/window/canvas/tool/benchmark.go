package tool

import (
	"fmt"
	"slices"

	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

var benchmarks = &list[plan.Benchmark]{
	called:  "benchmark",
	help:    "Drag to move; words in the panel; Delete removes it",
	in:      func(j *job.Job, _ int) *[]plan.Benchmark { return &j.Survey.Benchmarks },
	whole:   func(b *plan.Benchmark) []*geometry.Point { return []*geometry.Point{&b.At} },
	near:    func(o On, b plan.Benchmark, r *Reach, t Target) { r.Point(o, rankMark, b.At, t) },
	outline: func(m *Machine, o *Overlay, b plan.Benchmark, _ int, s Style) { o.ring(m, b.At, 10, s) },
	describe: func(_ *Machine, f bind.Fields[plan.Benchmark], s Sheet) {
		f.At("survey.benchmarks[]").Rows("name", "height", "at")
		s.Explain("The heights of all benchmarks are over one datum: the first of them, where that has height 0.")
	},
}

// Benchmark is the kind of the fixed points that heights are measured from.
var Benchmark Kind = benchmarks

// freeBenchmark gives BM 1, BM 2, … whichever is not taken.
func freeBenchmark(sv plan.Survey) string {
	for i := 1; ; i++ {
		name := fmt.Sprintf("BM %d", i)
		if !slices.ContainsFunc(sv.Benchmarks, func(b plan.Benchmark) bool { return b.Name == name }) {
			return name
		}
	}
}

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
		return Help{"Click the fixed point on the site, or type where it is: 12' right, 4' up", "", "Stop"}
	case !s.named:
		return Help{"Type what it is, such as BM 1, nail in the curb", "Call it " + freeBenchmark(m.Doc.Job().Survey), "Choose the place again"}
	}
	return Help{"Type its height over the datum", "Set it; nothing typed is 0", "Name it again"}
}

// Writes implements writer.
func (s *PlaceBenchmark) Writes() bool { return s.at != nil && !s.named }

// Takes implements State.
func (s *PlaceBenchmark) Takes(_ *Machine, r rune) bool {
	return s.Writes() || startsNumber(r)
}

// Meaning says how what is typed is read.
func (s *PlaceBenchmark) Meaning(m *Machine, text string) (string, error) {
	if s.at == nil {
		return placeMeaning(m, text)
	}
	l, err := field.Feet.ParseLength(text, m.Units())
	return l.Full(m.Units()) + " over the datum", err
}

// Move implements State.
func (s *PlaceBenchmark) Move(m *Machine) {
	m.Hover = Target{}
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
		if height, err = field.Feet.ParseLength(text, m.Units()); err != nil {
			m.say(err)
			return
		}
	}
	benchmarks.put(m, "Benchmark "+s.name, plan.Benchmark{Name: s.name, At: *s.at, Height: height})
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
