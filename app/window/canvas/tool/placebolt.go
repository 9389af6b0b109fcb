package tool

import (
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/app/field"
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// PlaceBolt puts the bolt marks that the builder gives on a wall, one click or
// one typed distance each.
type PlaceBolt struct {
	still
	edge  Target
	along geometry.Length
	ok    bool
	far   bool // measured from the edge's end corner
}

// Name implements State.
func (*PlaceBolt) Name() string { return "Bolt marks" }

// Help implements State.
func (s *PlaceBolt) Help(m *Machine) Help {
	if !s.ok {
		return Help{"Point at an edge with a wall", "", "Stop"}
	}
	return Help{"Click, or type distances: 1', 5'-6\"; Tab: other corner; Space: " + boltKind(!m.NewBolt.HoldDown), "Put it there", "Stop"}
}

func boltKind(holdDown bool) string {
	if holdDown {
		return "hold-down"
	}
	return "anchor bolt"
}

// aBolt is boltKind with its article.
func aBolt(holdDown bool) string {
	if holdDown {
		return "a hold-down"
	}
	return "an anchor bolt"
}

// Move implements State.
func (s *PlaceBolt) Move(m *Machine) {
	m.Hover = Target{}
	p := m.Plan()
	if !m.Inside {
		if t := m.Selected; t.Kind == Edge && m.Exists(t) && p.Loops()[t.Loop][t.Index].Wall != "" {
			s.edge, s.ok = t, true
			s.along = p.Loops()[t.Loop].Length(t.Index) / 2
		}
		return
	}
	best, reach := Target{}, 40.0
	for k, l := range p.Loops() {
		for i, e := range l {
			a, b := l.Ends(i)
			if d := hit.ToSegment(m.View.Screen(a), m.View.Screen(b), m.Pointer); e.Wall != "" && a != b && d < reach {
				best, reach = Target{Kind: Edge, Loop: k, Index: i}, d
			}
		}
	}
	s.edge, s.ok = best, best.Kind == Edge
	if !s.ok {
		return
	}
	l := p.Loops()[best.Loop]
	a, b := l.Ends(best.Index)
	s.along = m.roundOn(a, b, l.Length(best.Index), plan.Foot(a, b, m.View.Plan(m.Pointer)), s.far)
}

// roundOn rounds a distance along an edge as it is measured, from its start or
// from its far corner, to an inch or a centimeter, with Shift to the finest step.
func (m *Machine) roundOn(a, b geometry.Point, length, along geometry.Length, far bool) geometry.Length {
	step := m.along()
	if far {
		along = length - (length - along).Round(step)
	} else {
		along = along.Round(step)
	}
	along = max(0, min(along, length))
	m.Snap = snap.Result{At: geometry.Along(a, b, along), Name: "on wall, to " + step.Text(m.Units())}
	return along
}

// Press implements State.
func (s *PlaceBolt) Press(m *Machine) {
	s.Move(m)
	if !s.ok && m.chooseUnder() {
		return
	}
	if !s.ok {
		m.Notice = "No wall here: bolts stand on edges with a wall. Paint one first (P)"
		return
	}
	s.put(m, []geometry.Length{s.along})
}

// Key implements State.
func (s *PlaceBolt) Key(m *Machine, key string) bool {
	switch key {
	case Tab:
		s.far = !s.far
		return true
	case Space:
		if m.Text != "" {
			return false
		}
		m.NewBolt.HoldDown = !m.NewBolt.HoldDown
		return true
	case Up, Down, Left, Right:
		return s.turn(m, key == Down || key == Left)
	}
	return false
}

// turn goes on to the next edge with a wall, with the keys alone.
func (s *PlaceBolt) turn(m *Machine, backwards bool) bool {
	l := m.Plan().Outline
	n := len(l)
	at, by := s.edge.Index, 1
	if backwards {
		by = n - 1
	}
	if !s.ok || s.edge.Loop != 0 {
		at = 0
		by = 0
	}
	for range n {
		at = (at + by) % n
		by = max(by, 1)
		if l[at].Wall != "" {
			s.edge, s.ok, m.Inside = Target{Kind: Edge, Index: at}, true, false
			m.Selected = s.edge
			s.along = l.Length(at) / 2
			return true
		}
	}
	m.Notice = "No edge has a wall yet. Paint one first (P)"
	return n > 0
}

// Takes implements State.
func (*PlaceBolt) Takes(_ *Machine, r rune) bool { return startsNumber(r) && r != '-' }

// distances reads one or more distances from the marked corner.
func (s *PlaceBolt) distances(m *Machine, text string) ([]geometry.Length, error) {
	var out []geometry.Length
	for _, part := range strings.Split(text, ",") {
		if strings.TrimSpace(part) == "" {
			continue
		}
		l, err := field.Feet.ParseLength(part, m.Units())
		if err != nil {
			return nil, err
		}
		out = append(out, l)
	}
	return out, nil
}

// Meaning says how what is typed is read.
func (s *PlaceBolt) Meaning(m *Machine, text string) (string, error) {
	ls, err := s.distances(m, text)
	if err != nil {
		return "", err
	}
	words := make([]string, len(ls))
	for i, l := range ls {
		words[i] = l.Full(m.Units())
	}
	return strings.Join(words, ", ") + " from the marked corner", nil
}

// Enter implements State.
func (s *PlaceBolt) Enter(m *Machine, text string) {
	if !s.ok || !m.Exists(s.edge) {
		m.Notice = "Point at an edge with a wall first, or step to one with the arrow keys"
		return
	}
	along := []geometry.Length{s.along}
	if text != "" {
		ls, err := s.distances(m, text)
		if err != nil {
			m.say(err)
			return
		}
		length := m.Plan().Loops()[s.edge.Loop].Length(s.edge.Index)
		for i, l := range ls {
			if l < 0 || l > length {
				m.Notice = fmt.Sprintf("%s is not on this wall, which is %s long", l.Full(m.Units()), length.Text(m.Units()))
				return
			}
			if s.far {
				ls[i] = length - l
			}
		}
		along = ls
	}
	s.put(m, along)
}

func (s *PlaceBolt) put(m *Machine, along []geometry.Length) {
	p := m.Plan()
	marks := slices.Clone(p.Loops()[s.edge.Loop][s.edge.Index].Bolts)
	label := ""
	for _, a := range along {
		if slices.ContainsFunc(marks, func(b plan.BoltMark) bool { return b.Along == a }) {
			m.Notice = "There is a mark at " + a.Full(m.Units()) + " already"
			return
		}
		marks = append(marks, plan.BoltMark{Along: a, HoldDown: m.NewBolt.HoldDown})
		label = "Mark " + aBolt(m.NewBolt.HoldDown) + " on " + edgeName(s.edge)
	}
	p, err := p.SetBolts(s.edge.Loop, s.edge.Index, marks)
	if m.commit(label, p, err) {
		m.Text = ""
	}
}

// Overlay implements State.
func (s *PlaceBolt) Overlay(m *Machine, o *Overlay) {
	if !s.ok || !m.Exists(s.edge) {
		return
	}
	l := m.Plan().Loops()[s.edge.Loop]
	face, inner, ok := l.BoltLine(s.edge.Index, s.along)
	if !ok {
		return
	}
	m.target(o, s.edge, Hovered)
	o.line(m, face, inner, Draft)
	o.ring(m, face, 5, Draft)
	corner, _ := l.Ends(s.edge.Index)
	from := s.along
	if s.far {
		_, corner = l.Ends(s.edge.Index)
		from = l.Length(s.edge.Index) - s.along
	}
	o.ring(m, corner, 8, Marker)
	o.placing(m, face, boltKind(m.NewBolt.HoldDown), from)
}

// Describe gives the fields of the marks about to be put.
func (*PlaceBolt) Describe(m *Machine, s Sheet) {
	s.Heading("Next bolt mark")
	nextOf(s, &m.NewBolt).Check("Hold-down (Space)", func(b *plan.BoltMark) *bool { return &b.HoldDown })
	s.Explain("Click on a wall, to the inch; Shift for sixteenths. Or type distances from the marked corner, with commas: 1', 5'-6\", 9'-11 3/16\". Tab takes the other corner. Where a wall has marks, all its bolts are the builder's; hold-downs come on top.")
}
