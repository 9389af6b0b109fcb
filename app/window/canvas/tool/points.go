package tool

import (
	"strings"

	"haunchbook/app/window/canvas/hit"
	"haunchbook/app/window/canvas/snap"
	"haunchbook/geometry"
	"haunchbook/geometry/plan"
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
	x, y, ok := strings.Cut(text, ",")
	if !ok {
		m.Notice = "Type two lengths with a comma between: right, up"
		return
	}
	at, err := parsePair(x, y, m.Units())
	if err != nil {
		m.say(err)
		return
	}
	s.put(m, at)
}

func (s *PlacePad) put(m *Machine, at geometry.Point) {
	p := m.Plan().Clone()
	pad := m.NewPad
	pad.Centre = at
	p.Pads = append(p.Pads, pad)
	m.commit("Place a pad", p, nil)
	m.Use(&Select{})
	m.Selected = hit.Target{Kind: hit.Pad, Index: len(p.Pads) - 1, Sub: -1}
}

// Overlay implements State.
func (*PlacePad) Overlay(m *Machine, o *Overlay) {
	if m.Inside {
		pad := m.NewPad
		pad.Centre = m.Snap.At
		m.closed(o, hit.PadRing(pad), Draft)
	}
	if m.Text != "" {
		o.label(m.Typing(), offset(m.Pointer, 16, -18), Typing)
	}
	m.snapped(o)
}

// PlaceFall draws a fall of the top from its high to its low end; the drop is
// typed.
type PlaceFall struct {
	still
	from, to *geometry.Point
}

// Name implements State.
func (*PlaceFall) Name() string { return "Fall of the top" }

// Help implements State.
func (f *PlaceFall) Help(m *Machine) Help {
	switch {
	case f.from == nil:
		return Help{"Click the high end", "", "Stop"}
	case f.to == nil:
		return Help{"Click the low end, as at the door or the drain", "", "Choose the high end again"}
	}
	return Help{"Type how much lower the low end is", "Set the fall", "Choose the low end again"}
}

// Move implements State.
func (f *PlaceFall) Move(m *Machine) {
	r := m.request()
	if f.to == nil {
		r.Anchor = f.from
	}
	m.Snap = snap.To(r)
}

// Drag implements State.
func (f *PlaceFall) Drag(m *Machine) { f.Move(m) }

// Press implements State.
func (f *PlaceFall) Press(m *Machine) {
	f.Move(m)
	at := m.Snap.At
	switch {
	case f.from == nil:
		f.from = &at
	case f.to == nil && at != *f.from:
		f.to = &at
	}
}

// Takes implements State.
func (f *PlaceFall) Takes(_ *Machine, r rune) bool { return f.to != nil && startsNumber(r) && r != '<' }

// Enter implements State.
func (f *PlaceFall) Enter(m *Machine, text string) {
	if f.to == nil {
		return
	}
	drop, err := geometry.ParseLength(text, m.Units())
	if err != nil {
		m.say(err)
		return
	}
	p := m.Plan().Clone()
	p.Top.Falls = append(p.Top.Falls, plan.Fall{From: *f.from, To: *f.to, Drop: drop})
	m.commit("Fall of "+drop.Text(m.Units()), p, nil)
	m.Use(&Select{})
	m.Selected = hit.Target{Kind: hit.Fall, Index: len(p.Top.Falls) - 1, Sub: -1}
}

// Back implements State.
func (f *PlaceFall) Back(*Machine) bool {
	switch {
	case f.to != nil:
		f.to = nil
	case f.from != nil:
		f.from = nil
	default:
		return false
	}
	return true
}

// Length gives the length of the fall.
func (f *PlaceFall) Length(m *Machine) string {
	if f.from == nil {
		return ""
	}
	if f.to != nil {
		return legText(m, *f.from, *f.to)
	}
	return legText(m, *f.from, m.Snap.At)
}

// Overlay implements State.
func (f *PlaceFall) Overlay(m *Machine, o *Overlay) {
	if f.from != nil {
		to := m.Snap.At
		if f.to != nil {
			to = *f.to
		}
		o.line(m, *f.from, to, Draft)
		o.ring(m, *f.from, 5, Draft)
		if f.to != nil {
			text := "Drop?"
			if m.Text != "" {
				text = m.Typing()
			}
			o.label(text, offset(m.View.Screen(to), 14, -16), Question)
			return
		}
	}
	m.snapped(o)
}

// Measure shows distances between two points; Cut shows the slab cut along them.
type Measure struct {
	still
	Cuts bool
	from *geometry.Point
}

// Name implements State.
func (s *Measure) Name() string {
	if s.Cuts {
		return "Section cut"
	}
	return "Measure"
}

// Help implements State.
func (s *Measure) Help(*Machine) Help {
	do := "Drag, or click two points"
	if s.from != nil {
		do = "Click the second point"
	}
	return Help{do, "", "Stop"}
}

// Move implements State.
func (s *Measure) Move(m *Machine) {
	m.Hover = hit.Target{}
	r := m.request()
	r.Anchor = s.from
	if !s.Cuts {
		r.Square = false
	}
	m.Snap = snap.To(r)
}

// Drag implements State.
func (s *Measure) Drag(m *Machine) { s.Move(m) }

// Press implements State.
func (s *Measure) Press(m *Machine) {
	s.Move(m)
	at := m.Snap.At
	if s.from == nil {
		m.Tape = nil
		s.from = &at
		return
	}
	s.finish(m, at)
}

// Release implements State.
func (s *Measure) Release(m *Machine) {
	if m.Dragged() && s.from != nil && m.Snap.At != *s.from {
		s.finish(m, m.Snap.At)
	}
}

func (s *Measure) finish(m *Machine, at geometry.Point) {
	if at == *s.from {
		return
	}
	m.Tape = &[2]geometry.Point{*s.from, at}
	s.from = nil
	if s.Cuts && m.Cut != nil {
		m.Cut(m.Tape[0], m.Tape[1])
	}
}

// Back implements State.
func (s *Measure) Back(m *Machine) bool {
	was := s.from != nil || m.Tape != nil
	s.from, m.Tape = nil, nil
	return was
}

// Length gives the distance.
func (s *Measure) Length(m *Machine) string {
	switch {
	case s.from != nil:
		return legText(m, *s.from, m.Snap.At)
	case m.Tape != nil:
		return legText(m, m.Tape[0], m.Tape[1])
	}
	return ""
}

// Overlay implements State.
func (s *Measure) Overlay(m *Machine, o *Overlay) {
	a, b := geometry.Point{}, geometry.Point{}
	switch {
	case s.from != nil:
		a, b = *s.from, m.Snap.At
		o.line(m, a, b, Draft)
	case m.Tape != nil:
		a, b = m.Tape[0], m.Tape[1]
	default:
		m.snapped(o)
		return
	}
	d := b.Sub(a)
	text := geometry.Distance(a, b).Text(m.Units())
	if d.X != 0 && d.Y != 0 {
		text += "  (" + d.X.Abs().Text(m.Units()) + " across, " + d.Y.Abs().Text(m.Units()) + " up)"
	}
	o.label(text, offset(m.View.Screen(b), 14, -16), Value)
	m.snapped(o)
}

// MovePlan moves the whole slab from a base point to another, or by typed
// distances.
type MovePlan struct {
	still
	from *geometry.Point
}

// Name implements State.
func (*MovePlan) Name() string { return "Move slab" }

// Help implements State.
func (s *MovePlan) Help(m *Machine) Help {
	if s.from == nil {
		return Help{"Click a point of the slab, or type right, up", "Move it so far", "Stop"}
	}
	return Help{"Click where that point goes", "", "Choose the point again"}
}

// Move implements State.
func (s *MovePlan) Move(m *Machine) {
	r := m.request()
	if s.from != nil {
		r.Anchor = s.from
		r.Plan = plan.Plan{}
		m.Snap = snap.To(r)
		m.preview(m.Doc.BasePlan().Translate(m.Snap.At.Sub(*s.from)), nil)
		return
	}
	m.Snap = snap.To(r)
}

// Press implements State.
func (s *MovePlan) Press(m *Machine) {
	s.Move(m)
	at := m.Snap.At
	if s.from == nil {
		s.from = &at
		return
	}
	m.commit("Move the slab", m.Doc.BasePlan().Translate(at.Sub(*s.from)), nil)
	m.Use(&Select{})
}

// Takes implements State.
func (*MovePlan) Takes(_ *Machine, r rune) bool { return startsNumber(r) && r != '<' }

// Meaning says how what is typed is read.
func (*MovePlan) Meaning(m *Machine, text string) (string, error) { return placeMeaning(m, text) }

// Enter implements State.
func (s *MovePlan) Enter(m *Machine, text string) {
	x, y, ok := strings.Cut(text, ",")
	if !ok {
		m.Notice = "Type two lengths with a comma between: right, up"
		return
	}
	by, err := parsePair(x, y, m.Units())
	if err != nil {
		m.say(err)
		return
	}
	m.commit("Move the slab", m.Doc.BasePlan().Translate(by), nil)
	m.Use(&Select{})
}

// Back implements State.
func (s *MovePlan) Back(m *Machine) bool {
	was := s.from != nil
	s.from = nil
	m.Doc.Cancel()
	return was
}

// Overlay implements State.
func (s *MovePlan) Overlay(m *Machine, o *Overlay) {
	if m.Text != "" {
		o.label(m.Typing(), offset(m.Pointer, 16, -18), Typing)
	}
	m.snapped(o)
}
