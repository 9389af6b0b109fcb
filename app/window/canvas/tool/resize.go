package tool

import (
	"errors"
	"math"

	"haunchbook/app/window/canvas/dim"
	"haunchbook/app/window/canvas/hit"
	"haunchbook/geometry"
	"haunchbook/geometry/plan"
)

// Resize changes a dimension by typing a new number over it. Tab chooses which
// side moves.
type Resize struct {
	still
	Dim  dim.Dim
	Side plan.Side
}

// Name implements State.
func (r *Resize) Name() string { return "Change dimension" }

// Help implements State.
func (r *Resize) Help(m *Machine) Help {
	return Help{"Type the new length. " + r.SideName(m.Plan()) + " moves; Tab chooses", "Set it", "Leave it as it is"}
}

// SideName says which side moves: "Right side".
func (r *Resize) SideName(p plan.Plan) string {
	if r.Dim.Kind == dim.DoorFrom || r.Dim.Kind == dim.DoorTo {
		return "The door"
	}
	if r.Side == plan.Both {
		return "Both sides"
	}
	names := [2]string{"Right side", "Left side"}
	if d, ok := r.direction(p); ok {
		switch {
		case math.Abs(float64(d.Y)) > math.Abs(float64(d.X)) && d.Y > 0:
			names = [2]string{"Upper side", "Lower side"}
		case math.Abs(float64(d.Y)) > math.Abs(float64(d.X)):
			names = [2]string{"Lower side", "Upper side"}
		case d.X < 0:
			names = [2]string{"Left side", "Right side"}
		}
	}
	return names[r.Side]
}

// direction gives where the end of the dimension lies from its start.
func (r *Resize) direction(p plan.Plan) (geometry.Point, bool) {
	if r.Dim.Kind == dim.Overall {
		if r.Dim.Axis == plan.AcrossX {
			return geometry.Point{X: 1}, true
		}
		return geometry.Point{Y: 1}, true
	}
	loops := p.Loops()
	if r.Dim.Loop >= len(loops) || r.Dim.Edge >= len(loops[r.Dim.Loop]) {
		return geometry.Point{}, false
	}
	a, b := loops[r.Dim.Loop].Ends(r.Dim.Edge)
	return b.Sub(a), true
}

// Takes implements State.
func (r *Resize) Takes(_ *Machine, c rune) bool { return startsNumber(c) && c != '<' }

// Key implements State.
func (r *Resize) Key(m *Machine, key string) bool {
	if key != Tab {
		return false
	}
	n := plan.Side(3)
	if m.Mods.Shift {
		r.Side += n - 1
	} else {
		r.Side++
	}
	r.Side %= n
	return true
}

// Press implements State.
func (r *Resize) Press(m *Machine) {
	m.Use(&Select{})
	m.pressed = true
	m.state.Press(m)
}

// Enter implements State.
func (r *Resize) Enter(m *Machine, text string) {
	if text == "" {
		m.Use(&Select{})
		return
	}
	l, err := geometry.ParseLength(text, m.Units())
	if err != nil {
		m.say(err)
		return
	}
	p, err := r.apply(m.Plan(), l)
	if m.commit("Set "+r.what()+" to "+l.Text(m.Units()), p, err) {
		m.Use(&Select{})
	}
}

func (r *Resize) what() string {
	switch r.Dim.Kind {
	case dim.Overall:
		if r.Dim.Axis == plan.AcrossX {
			return "overall width"
		}
		return "overall depth"
	case dim.DoorWidth:
		return "door width"
	case dim.DoorFrom, dim.DoorTo:
		return "door place"
	}
	return edgeName(r.Dim.Loop, r.Dim.Edge)
}

func (r *Resize) apply(p plan.Plan, l geometry.Length) (plan.Plan, error) {
	d := r.Dim
	switch d.Kind {
	case dim.Edge:
		return p.Resize(d.Loop, d.Edge, l, r.Side)
	case dim.Overall:
		return r.overall(p, l)
	}
	loops := p.Loops()
	if !Exists(p, hit.Target{Kind: hit.Door, Loop: d.Loop, Index: d.Edge, Sub: d.Door}) {
		return p, errors.New("that door is no longer there")
	}
	door := loops[d.Loop][d.Edge].Doors[d.Door]
	switch d.Kind {
	case dim.DoorFrom:
		door.From = l
	case dim.DoorTo:
		door.From = loops[d.Loop].Length(d.Edge) - door.Width - l
	default:
		by := l - door.Width
		door.Width = l
		switch r.Side {
		case plan.Start:
			door.From -= by
		case plan.Both:
			door.From -= by / 2
		}
	}
	return p.SetDoor(d.Loop, d.Edge, d.Door, door)
}

// overall stretches the whole plan.
func (r *Resize) overall(p plan.Plan, l geometry.Length) (plan.Plan, error) {
	if l <= 0 {
		return p, errors.New("a length must be more than 0")
	}
	lo, hi := p.Outline.Corners().Bounds()
	from, to := lo.X, hi.X
	unit := func(l geometry.Length) geometry.Point { return geometry.Point{X: l} }
	if r.Dim.Axis == plan.AcrossY {
		from, to = lo.Y, hi.Y
		unit = func(l geometry.Length) geometry.Point { return geometry.Point{Y: l} }
	}
	by := l - (to - from)
	switch r.Side {
	case plan.Start:
		return p.Stretch(r.Dim.Axis, from+1, by).Translate(unit(-by)), nil
	case plan.Both:
		half := by / 2
		return p.Stretch(r.Dim.Axis, to, by-half).Stretch(r.Dim.Axis, from+1, half).Translate(unit(-half)), nil
	}
	return p.Stretch(r.Dim.Axis, to, by), nil
}

// Overlay implements State.
func (r *Resize) Overlay(m *Machine, o *Overlay) {
	m.target(o, hit.Target{Kind: hit.Dim, Dim: r.Dim}, Chosen)
	text := "New length for " + r.Dim.Text
	if m.Text != "" {
		text = m.Typing()
	}
	o.label(text, offset(r.Dim.At, 0, 24), Question)
	o.label(r.SideName(m.Plan())+" moves (Tab)", offset(r.Dim.At, 0, 44), Guide)
}
