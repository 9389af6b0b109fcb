package tool

import (
	"strings"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/geometry"
)

// PlacePad puts the pad that the machine holds ready under a post.
type PlacePad struct{ still }

// Name implements State.
func (*PlacePad) Name() string { return "Place pad" }

// Help implements State.
func (*PlacePad) Help(*Machine) Help {
	return Help{"Click the middle of the pad, or type right, up", "Place it", "Stop placing pads"}
}

// Takes implements State.
func (*PlacePad) Takes(_ *Machine, r rune) bool { return startsNumber(r) && r != '<' }

// Meaning says how what is typed is read.
func (*PlacePad) Meaning(m *Machine, text string) (string, error) { return placeMeaning(m, text) }

func placeMeaning(m *Machine, text string) (string, error) {
	x, y, ok := strings.Cut(text, ",")
	if !ok {
		y = "0"
	}
	p, err := parsePair(x, y, m.Units())
	return exact(p.X, m.Units()) + " right, " + exact(p.Y, m.Units()) + " up", err
}

// Press implements State.
func (s *PlacePad) Press(m *Machine) { s.put(m, m.Snap.At) }

// Enter implements State.
func (s *PlacePad) Enter(m *Machine, text string) {
	at, ok := typedPlace(m, text)
	if !ok {
		return
	}
	s.put(m, at)
}

func (s *PlacePad) put(m *Machine, at geometry.Point) {
	p := m.Plan().Clone()
	pad := m.NewPad
	pad.Center = at
	p.Pads = append(p.Pads, pad)
	m.commit("Place a pad", p, nil)
	m.Use(&Select{})
	m.Selected = hit.Target{Kind: hit.Pad, Index: len(p.Pads) - 1, Sub: -1}
}

// Overlay implements State.
func (*PlacePad) Overlay(m *Machine, o *Overlay) {
	if m.Inside {
		pad := m.NewPad
		pad.Center = m.Snap.At
		m.closed(o, pad.Ring(), Draft)
	}
	if m.Text != "" {
		o.label(m.Typing(), offset(m.Pointer, 16, -18), Typing)
	}
	m.snapped(o)
}
