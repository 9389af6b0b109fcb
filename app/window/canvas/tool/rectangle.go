package tool

import (
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Rectangle draws an outline or a hole from one corner to the opposite one, or
// by its two lengths.
type Rectangle struct {
	still
	What  Draws
	first *geometry.Point
}

// Name implements State.
func (r *Rectangle) Name() string {
	if r.What == Hole {
		return "Rectangular hole"
	}
	return "Rectangle"
}

// Help implements State.
func (r *Rectangle) Help(m *Machine) Help {
	if r.first == nil {
		h := Help{"Click a corner, or type width x length", "Draw it", "Stop drawing"}
		if m.Text == "" {
			h.Enter = ""
		}
		h.Do += m.replaces(r.What)
		return h
	}
	return Help{"Click the opposite corner, or type width x length", "Draw it", "Choose the first corner again"}
}

// Move implements State.
func (r *Rectangle) Move(m *Machine) {
	m.Hover = Target{}
	q := m.request()
	if r.first != nil {
		q.Extra = []geometry.Point{*r.first}
	}
	m.Snap = snap.To(q)
}

// Drag implements State.
func (r *Rectangle) Drag(m *Machine) { r.Move(m) }

// Press implements State.
func (r *Rectangle) Press(m *Machine) {
	r.Move(m)
	at := m.Snap.At
	if r.first == nil {
		r.first = &at
		return
	}
	r.finish(m, at)
}

// Release implements State.
func (r *Rectangle) Release(m *Machine) {
	if m.Dragged() && r.first != nil && m.Snap.At != *r.first {
		r.finish(m, m.Snap.At)
	}
}

// Takes implements State.
func (r *Rectangle) Takes(_ *Machine, c rune) bool { return startsNumber(c) }

// Meaning says how what is typed is read.
func (r *Rectangle) Meaning(m *Machine, text string) (string, error) {
	w, h, err := parseSizes(text, m.Units())
	return w.Full(m.Units()) + " wide, " + h.Full(m.Units()) + " long", err
}

// Enter implements State.
func (r *Rectangle) Enter(m *Machine, text string) {
	if text == "" {
		if r.first != nil && m.Inside {
			r.finish(m, m.Snap.At)
		}
		return
	}
	w, h, err := parseSizes(text, m.Units())
	if err != nil {
		m.say(err)
		return
	}
	at := m.origin(r.What)
	if r.first != nil {
		at = *r.first
		// Toward where the pointer is.
		if m.Inside && m.Snap.At.X < at.X {
			w = -w
		}
		if m.Inside && m.Snap.At.Y < at.Y {
			h = -h
		}
	}
	r.first = &at
	r.finish(m, at.Add(geometry.Point{X: w, Y: h}))
}

func (r *Rectangle) finish(m *Machine, to geometry.Point) {
	a := *r.first
	if a.X == to.X || a.Y == to.Y {
		m.Notice = "The opposite corner must differ in width and in length"
		return
	}
	lo := geometry.Point{X: min(a.X, to.X), Y: min(a.Y, to.Y)}
	hi := geometry.Point{X: max(a.X, to.X), Y: max(a.Y, to.Y)}
	ring := geometry.Ring{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}}
	p := m.Plan()
	sel := Target{}
	if r.What == Hole {
		p = p.AddHole("", plan.Like(ring, plan.Edge{}))
		sel = Target{Kind: Slab, Loop: len(p.Holes)}
	} else {
		p = p.WithOutline(plan.Like(ring, m.NewEdge))
	}
	m.commit(r.Name(), p, nil)
	m.Use(&Select{})
	m.Selected = sel
}

// Back implements State.
func (r *Rectangle) Back(*Machine) bool {
	was := r.first != nil
	r.first = nil
	return was
}

// Overlay implements State.
func (r *Rectangle) Overlay(m *Machine, o *Overlay) {
	if r.first != nil && m.Inside {
		a, b := *r.first, m.Snap.At
		ring := geometry.Ring{a, {X: b.X, Y: a.Y}, b, {X: a.X, Y: b.Y}}
		m.closed(o, ring, Draft)
		if r.What == Hole {
			m.clear(o, ring)
		}
		d := b.Sub(a)
		o.label(d.X.Abs().Text(m.Units())+"  ×  "+d.Y.Abs().Text(m.Units()), offset(m.Pointer, 16, -18), Value)
	}
	if m.Text != "" {
		o.label(m.Typing(), offset(m.Pointer, 16, -40), Typing)
	}
	if r.What == Hole && r.first == nil && m.Inside {
		m.clear(o, geometry.Ring{m.Snap.At})
	}
	m.snapped(o)
}

// Describe gives what the edges about to be drawn get.
func (r *Rectangle) Describe(m *Machine, s Sheet) {
	m.newEdges(s)
	s.Explain("Click two opposite corners, or type the width and the length: 24 x 30, then Enter.")
}
