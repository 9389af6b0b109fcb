package tool

import (
	"fmt"
	"slices"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/size"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
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
		return Help{"Drag to move; type a length; double-click: new corner", "", "Deselect"}
	case hit.Corner:
		return Help{"Drag to move; Delete removes it; arrows nudge", "", "Deselect"}
	case hit.Door:
		return Help{"Drag along the edge; click its numbers to type them", "", "Deselect"}
	case hit.Bolt:
		return Help{"Drag it; type its distance; Space: hold-down; Delete", "", "Deselect"}
	case hit.North:
		return Help{"Drag its point round, or type the degrees in the panel; Delete removes it", "", "Deselect"}
	case hit.Benchmark, hit.Note:
		return Help{"Drag to move; words in the panel; Delete removes it", "", "Deselect"}
	case hit.Slab:
		if m.Selected.Loop == 0 {
			return Help{"Ctrl+drag moves the slab; arrows nudge; Delete removes", "", "Deselect"}
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
	m.Hover = m.under(m.Dims())
	m.Snap.Guides = nil
}

// Press implements State.
func (s *Select) Press(m *Machine) {
	t := m.under(m.Dims())
	if t.Kind == hit.Other {
		m.Choose(t.Index)
		t = m.under(nil)
	}
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
	case hit.Bolt:
		m.hand(&DragBolt{target: t})
	case hit.North:
		m.hand(&DragNorth{})
	case hit.Benchmark, hit.Note:
		m.hand(&DragMark{target: t})
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

// under gives what lies under the pointer: of the slab that is worked on, then of
// what stands around it, then another slab.
func (m *Machine) under(dims []size.Dim) hit.Target {
	j := m.Doc.Job()
	t := hit.At(m.Plan(), m.View, dims, m.Pointer)
	if t.Kind == hit.Nothing || t.Kind == hit.Slab {
		if u := hit.Around(j.Survey, m.View, m.Measure, m.Pointer); u.Kind != hit.Nothing {
			return u
		}
	}
	if t.Kind == hit.Nothing {
		return hit.Beside(j.Slabs, m.Doc.Slab(), m.View, m.Pointer)
	}
	return t
}

// Takes implements State: a number typed on what is selected is its dimension. A
// plus is taken too, to say what it would not mean.
func (s *Select) Takes(m *Machine, r rune) bool {
	t := m.Selected
	kind, ok := map[hit.Kind]planview.MeasureKind{hit.Edge: planview.EdgeLength, hit.Door: planview.DoorFrom, hit.Bolt: planview.BoltFrom}[t.Kind]
	if !ok || !exists(m.Plan(), t) || !startsNumber(r) && r != '+' || r == '<' || r == '-' {
		return false
	}
	m.Use(&Resize{Dim: m.dimension(kind, t)})
	return true
}

// dimension gives a dimension of what is selected, as it stands on the screen or,
// where there is no room for it, by the thing itself.
func (m *Machine) dimension(kind planview.MeasureKind, t hit.Target) size.Dim {
	for _, d := range m.Dims() {
		if d.Kind == kind && d.Loop == t.Loop && d.Edge == t.Index && (kind == planview.EdgeLength || d.Sub == t.Sub) {
			return d
		}
	}
	l := m.Plan().Loops()[t.Loop]
	a, b := l.Ends(t.Index)
	at, value := geometry.Point{X: a.X/2 + b.X/2, Y: a.Y/2 + b.Y/2}, l.Length(t.Index)
	switch kind {
	case planview.DoorFrom:
		value = l[t.Index].Doors[t.Sub].From
	case planview.BoltFrom:
		value = l[t.Index].Bolts[t.Sub].Along
	}
	return size.Dim{Measure: planview.Measure{Kind: kind, Loop: t.Loop, Edge: t.Index, Sub: t.Sub, Value: value}, Text: value.Text(m.Units()), At: m.View.Screen(at)}
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
	case PageDown:
		m.step(1)
		return true
	case PageUp:
		m.step(-1)
		return true
	case Insert:
		return m.insert()
	case Space:
		return m.Text == "" && m.toggleHoldDown()
	}
	return false
}

// insert puts a corner into the middle of the selected edge.
func (m *Machine) insert() bool {
	t, p := m.Selected, m.Plan()
	if t.Kind != hit.Edge || !exists(p, t) {
		return false
	}
	p, err := p.SplitEdge(t.Loop, t.Index, p.Loops()[t.Loop].Length(t.Index)/2)
	if m.commit("Add a corner on "+edgeName(t.Loop, t.Index), p, err) {
		m.Selected = hit.Target{Kind: hit.Corner, Loop: t.Loop, Index: t.Index + 1}
	}
	return true
}

// remove deletes what is selected.
func (m *Machine) remove() bool {
	t, p := m.Selected, m.Plan()
	if !m.Exists(t) {
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
		p, err = without(p, plan.Thing{Kind: plan.KindDoor, Loop: t.Loop, Index: t.Index, Sub: t.Sub})
	case hit.Bolt:
		label = "Remove a bolt mark"
		marks := slices.Clone(p.Loops()[t.Loop][t.Index].Bolts)
		p, err = p.SetBolts(t.Loop, t.Index, slices.Delete(marks, t.Sub, t.Sub+1))
	case hit.Benchmark, hit.Note, hit.North:
		m.removeMark(t)
		return true
	case hit.Pad:
		label = "Remove a pad"
		p = p.Clone()
		p.Pads = append(p.Pads[:t.Index], p.Pads[t.Index+1:]...)
	case hit.Strip:
		label = "Remove a thickened strip"
		p = p.Clone()
		p.Strips = append(p.Strips[:t.Index], p.Strips[t.Index+1:]...)
	case hit.Fall:
		label = "Remove a fall"
		p = p.Clone()
		p.Top.Falls = append(p.Top.Falls[:t.Index], p.Top.Falls[t.Index+1:]...)
	case hit.Slab:
		if t.Loop == 0 {
			name := p.Called(m.Doc.Slab())
			m.Doc.RemoveSlab()
			m.Selected, m.Hover = hit.Target{}, hit.Target{}
			m.Info = "Removed " + name + "; undo brings it back"
			return true
		}
		label = "Remove a hole"
		p, err = without(p, plan.Thing{Kind: plan.KindHole, Index: t.Loop - 1})
	default:
		return false
	}
	if m.commit(label, p, err) {
		m.Selected, m.Hover = hit.Target{}, hit.Target{}
	}
	return true
}

// without gives the plan less a thing.
func without(p plan.Plan, t plan.Thing) (plan.Plan, error) {
	s, err := plan.Site{Plan: p}.Remove(t)
	return s.Plan, err
}

// next selects the next thing of the plan, or the one before.
func (m *Machine) next(backwards bool) {
	all := append(things(m.Plan()), surveyed(m.Doc.Job().Survey)...)
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
			for b := range e.Bolts {
				all = append(all, hit.Target{Kind: hit.Bolt, Loop: k, Index: i, Sub: b})
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
// sixteenth or a millimeter, with Ctrl a foot or 100 mm.
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
	if t.Kind == hit.North {
		return false
	}
	if sv, ok := movedMark(m.Doc.Job().Survey, t, by); ok {
		m.commitSurvey("Nudge", sv)
		return true
	}
	was := m.Plan()
	p, err := moved(was, t, by)
	if m.commit("Nudge", p, err) && t.Kind == hit.Bolt {
		m.Selected = renumbered(was, p, t)
	}
	return true
}

func nudgeStep(u geometry.Units, mods Mods) geometry.Length {
	steps := [3]geometry.Length{geometry.Sixteenth, geometry.Inch, geometry.Foot}
	if u == geometry.Millimeters {
		steps = [3]geometry.Length{geometry.Millimeter, geometry.Centimeter, 10 * geometry.Centimeter}
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
	if !exists(p, t) {
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
	case hit.Bolt:
		a, b := loops[t.Loop].Ends(t.Index)
		return setBolt(p, t, loops[t.Loop][t.Index].Bolts[t.Sub].Along+plan.Foot(a, b, a.Add(by)))
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
		p.Pads[t.Index].Center = p.Pads[t.Index].Center.Add(by)
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
