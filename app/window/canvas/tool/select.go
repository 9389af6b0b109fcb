package tool

import (
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
	grabbed Target
}

// Name implements State.
func (*Select) Name() string { return selectName }

// Help implements State.
func (s *Select) Help(m *Machine) Help {
	if t := m.Selected; t.Kind != nil {
		return Help{t.Kind.Help(t), "", "Deselect"}
	}
	if len(m.Plan().Outline) == 0 {
		return Help{"Choose Outline (L) or Rectangle (R) to start a slab", "", ""}
	}
	return Help{"Click a thing, or a number to change it; Tab steps through", "", ""}
}

// Move implements State.
func (s *Select) Move(m *Machine) {
	m.Hover = Target{}
	if m.clearanceUnder() < 0 {
		m.Hover = m.under(m.Dims())
	}
	m.Snap.Guides = nil
}

// Press implements State.
func (s *Select) Press(m *Machine) {
	if i := m.clearanceUnder(); i >= 0 {
		m.pressed = false
		m.Use(&SetClearance{of: m.Selected, which: i})
		return
	}
	t := m.under(m.Dims())
	if t.Kind == Other {
		m.Choose(t.Index)
		t = m.under(nil)
	}
	s.grabbed = t
	m.Hover = Target{}
	if t.Kind == Dim {
		m.pressed = false
		m.Use(&Resize{Dim: t.Dim})
		return
	}
	m.Selected = t
}

// Drag implements State.
func (s *Select) Drag(m *Machine) {
	t := s.grabbed
	if h, ok := t.Kind.(held); t.Kind == nil || ok && !h.Held(m, t) {
		m.StartPan()
		return
	}
	m.state = m.newDrag(t)
	m.Hover = Target{}
	m.state.Drag(m)
}

// Double implements State.
func (s *Select) Double(m *Machine) {
	if t := at(m.on(), m.Pointer); t.Kind == Edge {
		a, b := m.Plan().Loops()[t.Loop].Ends(t.Index)
		m.split(t, plan.Foot(a, b, m.Snap.At))
	}
}

// Takes implements State: a number typed on what is selected is its dimension. A
// plus is taken too: by how much it grows; and a minus, to be told how one writes that.
func (s *Select) Takes(m *Machine, r rune) bool {
	t := m.Selected
	k, ok := t.Kind.(typed)
	if !ok || !m.Exists(t) || !startsNumber(r) && r != '+' {
		return false
	}
	m.Use(&Resize{Dim: m.dimension(k.Typed(), t)})
	return true
}

// dimension gives a dimension of what is selected, as it stands on the screen or,
// where there is no room for it, by the thing itself.
func (m *Machine) dimension(kind planview.MeasureKind, t Target) size.Dim {
	for _, d := range m.Dims() {
		if d.Kind == kind && d.Loop == t.Loop && d.Edge == t.Index && (kind == planview.EdgeLength || d.Sub == t.Sub) {
			return d
		}
	}
	p := m.Plan()
	l := p.Loops()[t.Loop]
	a, b := l.Ends(t.Index)
	value, mid := l.Length(t.Index), geometry.Point{X: a.X/2 + b.X/2, Y: a.Y/2 + b.Y/2}
	if l[t.Index].Middle != 0 { // what is typed is its radius
		value, mid = l.Arc(t.Index).Radius(), l.Arc(t.Index).At(0.5, 0)
	}
	switch kind {
	case planview.DoorFrom:
		value = doorOf(&p, t).From
	case planview.BoltFrom:
		value = boltOf(&p, t).Along
	}
	return size.Dim{Measure: planview.Measure{Kind: kind, Loop: t.Loop, Edge: t.Index, Sub: t.Sub, Value: value}, Text: value.Text(m.Units()),
		At: m.View.Screen(mid)}
}

// Key implements State.
func (s *Select) Key(m *Machine, key string) bool {
	t := m.Selected
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
		if t.Kind != Edge || !m.Exists(t) {
			return false
		}
		m.split(t, half(m.Plan(), t))
		return true
	case ArcKey:
		if t.Kind != Edge || !m.Exists(t) {
			return false
		}
		m.Use(&ArcThrough{of: t})
		return true
	case Space:
		k, ok := t.Kind.(spaced)
		if !ok || m.Text != "" || !m.Exists(t) {
			return false
		}
		k.Space(m, t)
		return true
	}
	return false
}

// remove deletes what is selected.
func (m *Machine) remove() bool {
	t := m.Selected
	switch {
	case t.Kind == nil:
		return false
	case !m.Exists(t):
		m.Deselect()
		return true
	case t.Kind == Slab && t.Loop == 0:
		m.RemoveSlab()
		return true
	}
	name := t.Kind.Called(m.on(), t)
	j, err := t.Kind.Remove(m.base(), t)
	if m.commitJob("Remove "+name, j, err) {
		m.Selected, m.Hover = Target{}, Target{}
	}
	return true
}

// things lists what can be selected.
func things(o On) (all []Target) {
	for _, k := range Kinds {
		all = append(all, k.All(o)...)
	}
	return all
}

// next selects the next thing of the plan, or the one before.
func (m *Machine) next(backwards bool) {
	all := things(m.on())
	if len(all) == 0 {
		return
	}
	at := -1
	for i, t := range all {
		if t.On(m.Selected) {
			at = i
		}
	}
	by := 1
	switch {
	case at < 0 && backwards:
		at, by = 0, -1
	case backwards:
		by = -1
	}
	m.Selected = all[(at+by+len(all))%len(all)]
}

// nudge moves what is selected by one small step: an inch or 10 mm, with Shift a
// sixteenth or a millimeter, with Ctrl a foot or 100 mm. With nothing selected it
// moves the view.
func (m *Machine) nudge(key string) bool {
	way := map[string]geometry.Point{Up: {Y: 1}, Down: {Y: -1}, Left: {X: -1}, Right: {X: 1}}[key]
	t := m.Selected
	switch t.Kind {
	case nil:
		const px = 40
		m.View = m.View.Pan(-float64(way.X)*px, float64(way.Y)*px)
		return true
	case North:
		return false
	}
	step := nudgeStep(m.Units(), m.Mods)
	if !m.Exists(t) {
		m.say(errGone)
		return true
	}
	j, is, err := t.Kind.Move(m.base(), t, geometry.Point{X: way.X * step, Y: way.Y * step})
	if m.commitJob("Nudge", j, err) {
		m.Selected = is
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
