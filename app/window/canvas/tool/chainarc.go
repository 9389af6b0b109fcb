package tool

import (
	"math"

	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/arc"
	"haunchbook.example/geometry/plan"
)

// ArcKey is the key by which the next edge that is drawn, or the one that is selected, is an
// arc through a point.
const ArcKey = "("

// bow makes the next leg an arc, or a straight one again; false where none can be.
func (c *Chain) bow(m *Machine) bool {
	if c.What.open() || len(c.Points) == 0 {
		m.Notice = "An arc starts at a corner: click one first"
		return !c.What.open()
	}
	c.bows, c.by = !c.bows, nil
	c.held = nil
	c.snap(m)
	return true
}

// take takes a point: one that an arc passes, or where the leg ends.
func (c *Chain) take(m *Machine, p geometry.Point) {
	n := len(c.Points)
	switch {
	case !c.bows:
		c.add(m, p)
	case p == c.Points[n-1]:
	case c.by == nil:
		c.by, c.held, m.Text = &p, nil, ""
		c.snap(m)
	default:
		c.end(m, p)
	}
}

// end ends an arc at a place. One of more than half a circle is parted in its middle, since an
// edge is at most half of one.
func (c *Chain) end(m *Machine, to geometry.Point) {
	n := len(c.Points)
	a, _ := arc.Through(c.Points[n-1], *c.by, to)
	c.bows, c.by = false, nil
	parts := []arc.Arc{a}
	if math.Abs(a.Sweep()) > math.Pi+1e-9 {
		first, second := a.Halves()
		parts = []arc.Arc{first, second}
	}
	for _, part := range parts {
		for len(c.arcs) < len(c.Points)-1 {
			c.arcs = append(c.arcs, 0)
		}
		c.arcs = append(c.arcs, part.Middle)
		c.add(m, part.B)
	}
}

// halve parts a single arc, which closed by its chord would make but two edges.
func (c *Chain) halve() {
	if c.What.open() || len(c.Points) != 2 || len(c.arcs) == 0 || c.arcs[0] == 0 {
		return
	}
	first, second := arc.Arc{A: c.Points[0], B: c.Points[1], Middle: c.arcs[0]}.Halves()
	c.Points = []geometry.Point{first.A, second.A, second.B}
	c.arcs = []geometry.Length{first.Middle, second.Middle}
}

// drawn gives the legs so far as lines.
func (c *Chain) drawn() []geometry.Point {
	var out []geometry.Point
	for i, p := range c.Points {
		if i > 0 && i <= len(c.arcs) && c.arcs[i-1] != 0 {
			a := arc.Arc{A: c.Points[i-1], B: p, Middle: c.arcs[i-1]}
			out = append(out, a.Chords(a.Parts(plan.Near))...)
			continue
		}
		out = append(out, p)
	}
	return out
}

// bowed makes arcs of the edges of a loop that were drawn as such; no wall stands on one.
func (c *Chain) bowed(l plan.Loop) plan.Loop {
	for i := range min(len(c.arcs), len(l)) {
		if c.arcs[i] != 0 {
			l[i].Middle, l[i].Wall = c.arcs[i], ""
		}
	}
	return l
}

// overArc shows the arc that is being drawn from a corner; false where none is.
func (c *Chain) overArc(m *Machine, o *Overlay, from, to geometry.Point) bool {
	if !c.bows {
		return false
	}
	text := "a point of the arc"
	if c.by == nil {
		o.line(m, from, to, Guide)
	} else {
		text = m.overArc(o, from, *c.by, to)
	}
	if m.Text != "" {
		text = m.Typing()
	}
	o.label(text, offset(m.View.Screen(to), 16, -18), Typing)
	return true
}

// overArc shows the arc from one place to another by a third, and says its radius.
func (m *Machine) overArc(o *Overlay, from, by, to geometry.Point) string {
	o.ring(m, by, 3.5, Draft)
	a, ok := arc.Through(from, by, to)
	if !ok {
		o.line(m, from, to, Draft)
		return geometry.Distance(from, to).Text(m.Units())
	}
	m.path(o, a.Chords(a.Parts(m.View.Length(0.5))), Draft)
	return "R " + a.Radius().Text(m.Units())
}

// ArcThrough makes an edge the arc that passes a point.
type ArcThrough struct {
	still
	of Target
}

// Name implements State.
func (*ArcThrough) Name() string { return "Arc through a point" }

// Help implements State.
func (*ArcThrough) Help(*Machine) Help {
	return Help{"Click a point that the arc passes, or type the place: 12' along, 4' off", "Pass that point", "Leave the edge as it is"}
}

// Takes implements State.
func (*ArcThrough) Takes(_ *Machine, r rune) bool { return startsNumber(r) }

// Meaning says how what is typed is read.
func (*ArcThrough) Meaning(m *Machine, text string) (string, error) { return placeMeaning(m, text) }

// Move implements State.
func (a *ArcThrough) Move(m *Machine) {
	r := m.request()
	r.Square = false
	r.Except = func(loop, i int) bool { return loop == a.of.Loop && i == a.of.Index }
	m.Snap.At, m.Snap.Name = m.View.Plan(m.Pointer), ""
	if !r.Free {
		m.Snap = snap.To(r)
	}
}

// Drag implements State.
func (a *ArcThrough) Drag(m *Machine) { a.Move(m) }

// Press implements State.
func (a *ArcThrough) Press(m *Machine) {
	a.Move(m)
	a.pass(m, m.Snap.At)
}

// Enter implements State.
func (a *ArcThrough) Enter(m *Machine, text string) {
	if at, ok := typedPlace(m, text); ok {
		a.pass(m, at)
	}
}

func (a *ArcThrough) pass(m *Machine, by geometry.Point) {
	p, err := m.Plan().ArcThrough(a.of.Loop, a.of.Index, by)
	if !m.commit("Make "+edgeName(a.of)+" pass a point", p, err) {
		return
	}
	of := a.of
	m.Use(&Select{})
	m.Selected = of
}

// Overlay implements State.
func (a *ArcThrough) Overlay(m *Machine, o *Overlay) {
	l := loopOf(m.Plan(), a.of)
	if l == nil {
		return
	}
	from, to := l.Ends(a.of.Index)
	text := ""
	if m.Inside {
		text = m.overArc(o, from, m.Snap.At, to)
	}
	if m.Text != "" {
		text = m.Typing()
	}
	if text != "" {
		o.label(text, offset(m.Pointer, 16, -18), Typing)
	}
	m.snapped(o)
}
