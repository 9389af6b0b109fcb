package tool

import (
	"fmt"

	"haunchbook/app/window/canvas/hit"
	"haunchbook/geometry"
	"haunchbook/geometry/plan"
)

const selectName = "Select"

// Select picks things and begins to move them. A drag on empty ground moves the
// view.
type Select struct {
	still
	grabbed hit.Target
}

// Name implements State.
func (*Select) Name() string { return selectName }

// Help implements State.
func (s *Select) Help(m *Machine) Help {
	switch m.Selected.Kind {
	case hit.Edge:
		return Help{"Drag to move; type a length; double-click to add a corner", "Type a length first", "Deselect"}
	case hit.Corner:
		return Help{"Drag to move; Delete removes it; arrows nudge", "", "Deselect"}
	case hit.Door:
		return Help{"Drag along the edge; click its numbers to type them", "", "Deselect"}
	case hit.Slab:
		if m.Selected.Loop == 0 {
			return Help{"Ctrl+drag moves the whole slab; arrows nudge it", "", "Deselect"}
		}
		return Help{"Drag to move; Delete removes it; arrows nudge", "", "Deselect"}
	case hit.Pad, hit.Strip, hit.Fall:
		return Help{"Drag to move; Delete removes it; arrows nudge", "", "Deselect"}
	}
	if len(m.Plan().Outline) == 0 {
		return Help{"Choose Outline (L) or Rectangle (R) to start a slab", "", ""}
	}
	return Help{"Click a thing, or a number to change it; Tab steps through", "", ""}
}

// Move implements State.
func (s *Select) Move(m *Machine) {
	m.Hover = hit.At(m.Plan(), m.View, m.Dims(), m.Pointer)
	m.Snap.Guides = nil
}

// Press implements State.
func (s *Select) Press(m *Machine) {
	t := hit.At(m.Plan(), m.View, m.Dims(), m.Pointer)
	s.grabbed = t
	if t.Kind == hit.Dim {
		m.Hover = hit.Target{}
		m.pressed = false
		m.Use(&Resize{Dim: t.Dim})
		return
	}
	m.Selected = t
	m.Hover = hit.Target{}
}

// Drag implements State.
func (s *Select) Drag(m *Machine) {
	switch t := s.grabbed; t.Kind {
	case hit.Nothing:
		m.StartPan()
	case hit.Slab:
		if t.Loop == 0 && !m.Mods.Ctrl {
			m.StartPan()
			return
		}
		m.hand(&DragThing{target: t})
	case hit.Corner:
		m.hand(&DragCorner{target: t})
	case hit.Edge:
		m.hand(&DragEdge{target: t})
	case hit.Door:
		m.hand(&DragDoor{target: t})
	default:
		m.hand(&DragThing{target: t})
	}
}

// hand gives a drag under way to another state.
func (m *Machine) hand(s State) {
	m.state = s
	m.Hover = hit.Target{}
	if b, ok := s.(interface{ Begin(*Machine) }); ok {
		b.Begin(m)
	}
	m.state.Drag(m)
}

// Double implements State.
func (s *Select) Double(m *Machine) {
	t := hit.At(m.Plan(), m.View, nil, m.Pointer)
	if t.Kind != hit.Edge {
		return
	}
	l := m.Plan().Loops()[t.Loop]
	a, b := l.Ends(t.Index)
	along := plan.Foot(a, b, m.Snap.At)
	p, err := m.Plan().SplitEdge(t.Loop, t.Index, along)
	if m.commit("Add a corner on "+edgeName(t.Loop, t.Index), p, err) {
		m.Selected = hit.Target{Kind: hit.Corner, Loop: t.Loop, Index: t.Index + 1}
	}
}

// Takes implements State.
func (s *Select) Takes(m *Machine, r rune) bool {
	if m.Selected.Kind != hit.Edge || !startsNumber(r) || r == '<' || r == '-' {
		return false
	}
	for _, d := range m.Dims() {
		if d.Kind == 0 && d.Loop == m.Selected.Loop && d.Edge == m.Selected.Index {
			m.Use(&Resize{Dim: d})
			return true
		}
	}
	return false
}

// Key implements State.
func (s *Select) Key(m *Machine, key string) bool {
	switch key {
	case Delete, Backspace:
		return m.remove()
	case Tab:
		m.next(m.Mods.Shift)
		return true
	case Up, Down, Left, Right:
		return m.nudge(key)
	}
	return false
}

// remove deletes what is selected.
func (m *Machine) remove() bool {
	t, p := m.Selected, m.Plan()
	if !Exists(p, t) {
		m.Selected = hit.Target{}
		return t.Kind != hit.Nothing
	}
	var err error
	label := ""
	switch t.Kind {
	case hit.Corner:
		label = fmt.Sprintf("Remove corner %d", t.Index+1)
		p, err = p.RemoveCorner(t.Loop, t.Index)
	case hit.Door:
		label = "Remove a door"
		p, err = p.RemoveDoor(t.Loop, t.Index, t.Sub)
	case hit.Pad:
		label = "Remove a pad"
		p = p.Clone()
		p.Pads = append(p.Pads[:t.Index], p.Pads[t.Index+1:]...)
	case hit.Strip:
		label = "Remove a strip"
		p = p.Clone()
		p.Strips = append(p.Strips[:t.Index], p.Strips[t.Index+1:]...)
	case hit.Fall:
		label = "Remove a fall"
		p = p.Clone()
		p.Top.Falls = append(p.Top.Falls[:t.Index], p.Top.Falls[t.Index+1:]...)
	case hit.Slab:
		if t.Loop == 0 {
			return false
		}
		label = "Remove a hole"
		p, err = p.RemoveHole(t.Loop - 1)
	default:
		return false
	}
	if m.commit(label, p, err) {
		m.Selected, m.Hover = hit.Target{}, hit.Target{}
	}
	return true
}

// next selects the next thing of the plan, or the one before.
func (m *Machine) next(backwards bool) {
	all := things(m.Plan())
	if len(all) == 0 {
		return
	}
	at := -1
	for i, t := range all {
		if t.On(m.Selected) {
			at = i
		}
	}
	switch {
	case at < 0 && backwards:
		at = len(all) - 1
	case at < 0:
		at = 0
	case backwards:
		at = (at + len(all) - 1) % len(all)
	default:
		at = (at + 1) % len(all)
	}
	m.Selected = all[at]
}

// things lists what can be selected, edge by edge.
func things(p plan.Plan) []hit.Target {
	var all []hit.Target
	for k, l := range p.Loops() {
		for i, e := range l {
			all = append(all, hit.Target{Kind: hit.Corner, Loop: k, Index: i}, hit.Target{Kind: hit.Edge, Loop: k, Index: i})
			for d := range e.Doors {
				all = append(all, hit.Target{Kind: hit.Door, Loop: k, Index: i, Sub: d})
			}
		}
	}
	for i := range p.Pads {
		all = append(all, hit.Target{Kind: hit.Pad, Index: i, Sub: -1})
	}
	for i := range p.Strips {
		all = append(all, hit.Target{Kind: hit.Strip, Index: i, Sub: -1})
	}
	for i := range p.Top.Falls {
		all = append(all, hit.Target{Kind: hit.Fall, Index: i, Sub: -1})
	}
	return all
}

// nudge moves what is selected by one small step: an inch or 10 mm, with Shift a
// sixteenth or a millimetre, with Ctrl a foot or 100 mm.
func (m *Machine) nudge(key string) bool {
	step := nudgeStep(m.Units(), m.Mods)
	by := map[string]geometry.Point{Up: {Y: step}, Down: {Y: -step}, Left: {X: -step}, Right: {X: step}}[key]
	t := m.Selected
	if t.Kind == hit.Nothing {
		const px = 40
		d := map[string][2]float64{Up: {0, px}, Down: {0, -px}, Left: {px, 0}, Right: {-px, 0}}[key]
		m.View = m.View.Pan(d[0], d[1])
		return true
	}
	p, err := moved(m.Plan(), t, by)
	m.commit("Nudge", p, err)
	return true
}

func nudgeStep(u geometry.Units, mods Mods) geometry.Length {
	steps := [3]geometry.Length{geometry.Sixteenth, geometry.Inch, geometry.Foot}
	if u == geometry.Millimetres {
		steps = [3]geometry.Length{geometry.Millimetre, geometry.Centimetre, 10 * geometry.Centimetre}
	}
	switch {
	case mods.Shift:
		return steps[0]
	case mods.Ctrl:
		return steps[2]
	}
	return steps[1]
}

// moved gives the plan with a thing moved by a vector, as far as the thing can
// go that way: edges sideways, doors along their edge.
func moved(p plan.Plan, t hit.Target, by geometry.Point) (plan.Plan, error) {
	if !Exists(p, t) {
		return p, fmt.Errorf("that is no longer on the plan")
	}
	loops := p.Loops()
	switch t.Kind {
	case hit.Corner:
		return p.MoveCorner(t.Loop, t.Index, loops[t.Loop][t.Index].At.Add(by))
	case hit.Edge:
		a, b := loops[t.Loop].Ends(t.Index)
		return p.MoveEdge(t.Loop, t.Index, sideways(a, b, by))
	case hit.Door:
		a, b := loops[t.Loop].Ends(t.Index)
		d := loops[t.Loop][t.Index].Doors[t.Sub]
		d.From += plan.Foot(a, b, a.Add(by))
		return p.SetDoor(t.Loop, t.Index, t.Sub, d)
	case hit.Slab:
		if t.Loop == 0 {
			return p.Translate(by), nil
		}
		p = p.Clone()
		h := p.Holes[t.Loop-1].Loop
		for i := range h {
			h[i].At = h[i].At.Add(by)
		}
		return p, nil
	}
	p = p.Clone()
	switch t.Kind {
	case hit.Pad:
		p.Pads[t.Index].Centre = p.Pads[t.Index].Centre.Add(by)
	case hit.Strip:
		for i, q := range p.Strips[t.Index].Path {
			if t.Sub < 0 || t.Sub == i {
				p.Strips[t.Index].Path[i] = q.Add(by)
			}
		}
	case hit.Fall:
		f := &p.Top.Falls[t.Index]
		if t.Sub != 1 {
			f.From = f.From.Add(by)
		}
		if t.Sub != 0 {
			f.To = f.To.Add(by)
		}
	}
	return p, nil
}

// sideways gives how far a vector leads away from the slab across an edge.
func sideways(a, b, by geometry.Point) geometry.Length {
	return -plan.Foot(a, leftOf(a, b), a.Add(by))
}

// leftOf gives the point to the left of a-b that is as far from a as b is.
func leftOf(a, b geometry.Point) geometry.Point {
	return a.Add(plan.Turn(b.Sub(a), 90))
}
