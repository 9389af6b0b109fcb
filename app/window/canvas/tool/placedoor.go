package tool

import (
	"errors"
	"fmt"
	"strings"

	"haunchbook.example/app/field"
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// PlaceDoor puts the door that the machine holds ready on an edge.
type PlaceDoor struct {
	still
	edge   Target
	from   geometry.Length
	ok     bool
	far    bool // measured from the edge's end corner
	chosen bool // the side was chosen with Tab
}

// Name implements State.
func (d *PlaceDoor) Name() string { return "Place door" }

// Help implements State.
func (d *PlaceDoor) Help(m *Machine) Help {
	if !d.ok {
		return Help{"Point at an edge", "", "Stop placing doors"}
	}
	return Help{"Click, or type how far from the marked corner: 4', or 16' at 4'; Tab: other corner", "Place it", "Stop placing doors"}
}

// Move implements State.
func (d *PlaceDoor) Move(m *Machine) {
	m.Hover = Target{}
	p := m.Plan()
	if !m.Inside {
		if m.Selected.Kind == Edge && m.Exists(m.Selected) {
			d.edge, d.ok = m.Selected, true
			d.center(m)
		}
		return
	}
	t := at(m.on(), m.Pointer)
	best, reach := Target{}, 40.0
	if t.Kind == Edge || t.Kind == Door {
		best = Target{Kind: Edge, Loop: t.Loop, Index: t.Index}
	} else {
		for i := range p.Outline {
			a, b := p.Outline.Ends(i)
			if dist := hit.ToSegment(m.View.Screen(a), m.View.Screen(b), m.Pointer); dist < reach {
				best, reach = Target{Kind: Edge, Index: i}, dist
			}
		}
	}
	d.ok = best.Kind == Edge && p.Loops()[best.Loop][best.Index].Middle == 0 // none stands on an arc
	if !d.ok {
		return
	}
	if !best.On(d.edge) {
		d.chosen = false
	}
	d.edge = best
	l := p.Loops()[best.Loop]
	a, b := l.Ends(best.Index)
	length := l.Length(best.Index)
	d.from = m.place(a, b, length, m.NewDoor.Width, plan.Foot(a, b, m.View.Plan(m.Pointer))-m.NewDoor.Width/2)
	if !d.chosen {
		d.far = d.from > length-d.from-m.NewDoor.Width
	}
}

func (d *PlaceDoor) center(m *Machine) {
	d.from = max(0, (m.Plan().Loops()[d.edge.Loop].Length(d.edge.Index)-m.NewDoor.Width)/2)
}

// Press implements State.
func (d *PlaceDoor) Press(m *Machine) {
	d.Move(m)
	if !d.ok && m.chooseUnder() {
		return
	}
	if d.ok {
		d.put(m, d.from, m.NewDoor.Width)
	}
}

// Key implements State.
func (d *PlaceDoor) Key(m *Machine, key string) bool {
	switch key {
	case Tab:
		d.far, d.chosen = !d.far, true
		return true
	case Up, Down, Left, Right:
		// With the keys alone: step through the edges.
		n := len(m.Plan().Outline)
		if n == 0 {
			return false
		}
		by := 1
		if key == Down || key == Left {
			by = n - 1
		}
		if d.ok {
			d.edge = Target{Kind: Edge, Index: (d.edge.Index + by) % n}
		} else {
			d.edge = Target{Kind: Edge}
		}
		d.ok, m.Inside, d.far = true, false, false
		m.Selected = d.edge // else the one selected before would be taken again
		d.center(m)
		return true
	}
	return false
}

// Takes implements State.
func (d *PlaceDoor) Takes(_ *Machine, r rune) bool { return startsNumber(r) }

// parse reads the distance to the corner, after the width if one is typed: "16' at 4'".
func (d *PlaceDoor) parse(m *Machine, text string) (from, width geometry.Length, err error) {
	a, b, two := strings.Cut(text, "at")
	if width = m.NewDoor.Width; !two {
		a, b = "", text
	} else if width, err = field.Feet.ParseLength(a, m.Units()); err != nil {
		return 0, 0, err
	}
	from, err = field.Feet.ParseLength(b, m.Units())
	return from, width, err
}

// Meaning says how what is typed is read.
func (d *PlaceDoor) Meaning(m *Machine, text string) (string, error) {
	from, width, err := d.parse(m, text)
	return fmt.Sprintf("%s from the corner, %s wide", from.Full(m.Units()), width.Full(m.Units())), err
}

// Enter implements State.
func (d *PlaceDoor) Enter(m *Machine, text string) {
	if !d.ok {
		m.Notice = "Point at an edge first, or step to one with the arrow keys"
		return
	}
	from, width := d.from, m.NewDoor.Width
	if text != "" {
		var err error
		if from, width, err = d.parse(m, text); err != nil {
			m.say(err)
			return
		}
		if d.far {
			from = m.Plan().Loops()[d.edge.Loop].Length(d.edge.Index) - from - width
		}
	}
	d.put(m, from, width)
}

func (d *PlaceDoor) put(m *Machine, from, width geometry.Length) {
	door := m.NewDoor
	door.From, door.Width = from, width
	p := m.Plan()
	p, err := p.AddDoor(d.edge.Loop, d.edge.Index, door)
	if !m.commit("Place a door on "+edgeName(d.edge), p, err) {
		return
	}
	sel := Target{Kind: Door, Loop: d.edge.Loop, Index: d.edge.Index, Sub: len(p.Loops()[d.edge.Loop][d.edge.Index].Doors) - 1}
	m.Use(&Select{})
	m.Selected = sel
	m.Hover = Target{}
}

// Overlay implements State.
func (d *PlaceDoor) Overlay(m *Machine, o *Overlay) {
	if !d.ok || !m.Exists(d.edge) {
		return
	}
	l := m.Plan().Loops()[d.edge.Loop]
	a, b := l.Ends(d.edge.Index)
	if a == b {
		return
	}
	m.target(o, d.edge, Hovered)
	near, far := geometry.Along(a, b, d.from), geometry.Along(a, b, d.from+m.NewDoor.Width)
	o.line(m, near, far, Draft)
	o.ring(m, near, 5, Draft)
	o.ring(m, far, 5, Draft)
	corner, from := a, d.from
	if d.far {
		corner, from = b, l.Length(d.edge.Index)-d.from-m.NewDoor.Width
	}
	o.ring(m, corner, 8, Marker)
	o.placing(m, near, m.NewDoor.Width.Text(m.Units())+" door", from)
}

// placing says beside the pointer, or beside where it stands, what is being
// placed on an edge and how far from the marked corner, or what is typed.
func (o *Overlay) placing(m *Machine, at geometry.Point, what string, from geometry.Length) {
	beside := m.View.Screen(at)
	if m.Inside {
		beside = m.Pointer
	}
	if m.Text != "" {
		o.label(m.Typing(), offset(beside, 16, -22), Typing)
		return
	}
	o.label(fmt.Sprintf("%s, %s from the marked corner", what, from.Text(m.Units())), offset(beside, 16, -22), Value)
}

// Describe gives the fields of the door about to be placed.
func (*PlaceDoor) Describe(m *Machine, s Sheet) {
	s.Heading("Next door")
	f := nextOf(s, &m.NewDoor)
	put := f.Put
	f.Put = func(what string, change func(*plan.Door)) error {
		d := m.NewDoor
		if change(&d); d.Width <= 0 {
			return errors.New("a door must be wider than 0")
		}
		return put(what, change)
	}
	m.ofDoor(f)
	s.Explain("Point at an edge and click, or type the distance from the marked corner and press Enter. With its width: 16' at 4' is a door of 16 ft, 4 ft from that corner.")
}
