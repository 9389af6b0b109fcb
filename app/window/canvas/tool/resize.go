package tool

import (
	"errors"
	"math"

	"haunchbook.example/app/field"
	"haunchbook.example/app/window/canvas/size"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/arc"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

// Resize changes a dimension by typing a new number over it. Tab chooses which
// side moves.
type Resize struct {
	still
	Dim  size.Dim
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
	switch r.Dim.Kind {
	case planview.DoorFrom, planview.DoorTo:
		return "The door"
	case planview.BoltFrom, planview.BoltTo:
		return "The bolt"
	case planview.Gap:
		return [...]string{"This slab", "The other slab", "Each slab by half"}[r.Side]
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
	if r.Dim.Kind == planview.Overall {
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
func (r *Resize) Takes(_ *Machine, c rune) bool { return startsNumber(c) || c == '+' }

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
	l, err := r.parse(m, text)
	if err != nil {
		m.say(err)
		return
	}
	if r.Dim.Kind == planview.Gap {
		r.gap(m, l)
		return
	}
	p, t, err := r.apply(m.Plan(), l)
	if m.commit("Set "+r.what()+" to "+l.Text(m.Units()), p, err) {
		if t.Kind == Bolt && m.Selected.Kind == Bolt {
			m.Selected = t
		}
		m.Use(&Select{})
	}
}

// parse reads a length, or with a + before it by how much the dimension is to grow.
func (r *Resize) parse(m *Machine, text string) (geometry.Length, error) {
	return field.Feet.ParseSize(text, r.was(m.Plan()), m.Units())
}

// was gives how long the dimension is.
func (r *Resize) was(p plan.Plan) geometry.Length {
	switch r.Dim.Kind {
	case planview.EdgeLength:
		if a, ok := r.arc(p); ok {
			return a.Radius()
		}
		return lengthOf(p, r.target(Edge))
	case planview.Overall:
		lo, hi := p.Outline.Rim().Bounds()
		if r.Dim.Axis == plan.AcrossX {
			return hi.X - lo.X
		}
		return hi.Y - lo.Y
	}
	if d := doorOf(&p, r.target(Door)); d != nil && r.Dim.Kind == planview.DoorWidth {
		return d.Width
	}
	return r.Dim.Value
}

// Meaning says how what is typed is read.
func (r *Resize) Meaning(m *Machine, text string) (string, error) {
	l, err := r.parse(m, text)
	return l.Full(m.Units()), err
}

// gap moves slabs so that the clear distance between them is l.
func (r *Resize) gap(m *Machine, l geometry.Length) {
	j, k := m.Doc.Base(), m.Doc.Slab()
	if l < 0 || r.Dim.Other >= len(j.Slabs) || r.Dim.Other == k {
		m.Notice = "A distance between slabs is 0 or more"
		return
	}
	by, way := l-r.Dim.Value, geometry.Point{X: 1}
	if r.Dim.Axis == plan.AcrossY {
		way = geometry.Point{Y: 1}
	}
	if r.Dim.Back {
		by = -by
	}
	along := func(d geometry.Length) geometry.Point { return geometry.Point{X: way.X * d, Y: way.Y * d} }
	mine, theirs := -by, geometry.Length(0)
	switch r.Side {
	case plan.Start:
		mine, theirs = 0, by
	case plan.Both:
		mine, theirs = -by/2, by-by/2
	}
	j = j.WithSlab(k, j.Slabs[k].Translate(along(mine)))
	j = j.WithSlab(r.Dim.Other, j.Slabs[r.Dim.Other].Translate(along(theirs)))
	m.Doc.Commit("Set "+r.what()+" to "+l.Text(m.Units()), j)
	m.Use(&Select{})
}

func (r *Resize) what() string {
	switch r.Dim.Kind {
	case planview.Overall:
		if r.Dim.Axis == plan.AcrossX {
			return "overall width"
		}
		return "overall length"
	case planview.DoorWidth:
		return "door width"
	case planview.DoorFrom, planview.DoorTo:
		return "door place"
	case planview.BoltFrom, planview.BoltTo:
		return "bolt place"
	case planview.Gap:
		return "distance between slabs"
	}
	return edgeName(r.target(Edge))
}

// arc gives the edge whose length the dimension is as an arc, whose radius is typed instead;
// false where it is straight.
func (r *Resize) arc(p plan.Plan) (arc.Arc, bool) {
	l := loopOf(p, r.target(Edge))
	if l == nil || l[r.Dim.Edge].Middle == 0 {
		return arc.Arc{}, false
	}
	return l.Arc(r.Dim.Edge), true
}

// target gives what the dimension is of.
func (r *Resize) target(k Kind) Target {
	return Target{Kind: k, Loop: r.Dim.Loop, Index: r.Dim.Edge, Sub: r.Dim.Sub}
}

// apply gives the plan with the dimension changed, and the bolt mark that was moved.
func (r *Resize) apply(p plan.Plan, l geometry.Length) (q plan.Plan, t Target, err error) {
	d := r.Dim
	switch d.Kind {
	case planview.EdgeLength:
		if _, ok := r.arc(p); ok {
			q, err = p.SetRadius(d.Loop, d.Edge, l)
			break
		}
		q, err = p.Resize(d.Loop, d.Edge, l, r.Side)
	case planview.Overall:
		q, err = r.overall(p, l)
	case planview.BoltFrom, planview.BoltTo:
		t = r.target(Bolt)
		length := lengthOf(p, t)
		if l < 0 || l > length {
			return p, t, errors.New("a bolt stands on its wall, which is not so long")
		}
		if d.Kind == planview.BoltTo {
			l = length - l
		}
		return slid(p, t, l)
	default:
		q, err = r.door(p, l)
	}
	return q, t, err
}

// door gives the plan with a door's place or width changed.
func (r *Resize) door(p plan.Plan, l geometry.Length) (plan.Plan, error) {
	t := r.target(Door)
	at := doorOf(&p, t)
	if at == nil {
		return p, errGone
	}
	is := *at
	switch r.Dim.Kind {
	case planview.DoorFrom:
		is.From = l
	case planview.DoorTo:
		is.From = lengthOf(p, t) - is.Width - l
	default:
		by := l - is.Width
		is.Width = l
		switch r.Side {
		case plan.Start:
			is.From -= by
		case plan.Both:
			is.From -= by / 2
		}
	}
	return p.SetDoor(t.Loop, t.Index, t.Sub, is)
}

// overall stretches the whole plan.
func (r *Resize) overall(p plan.Plan, l geometry.Length) (plan.Plan, error) {
	if l <= 0 {
		return p, errors.New("a length must be more than 0")
	}
	lo, hi := p.Outline.Rim().Bounds()
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
	m.target(o, Target{Kind: Dim, Dim: r.Dim}, Chosen)
	text := "New length for " + r.Dim.Text
	if m.Text != "" {
		text = m.Typing()
	}
	o.label(text, offset(r.Dim.At, 0, 24), Question)
	o.label(r.SideName(m.Plan())+" moves (Tab)", offset(r.Dim.At, 0, 44), Guide)
}
