package tool

import (
	"math"

	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// clearance is how far something is from an edge of the outline, along the datum's side
// or square off it.
type clearance struct {
	from, to geometry.Point // on the thing, and on the edge
	way      geometry.Point // of the datum's axes: from the thing to the edge
}

func (c clearance) length() geometry.Length { return geometry.Distance(c.from, c.to) }

// at is where its number stands on the screen: the middle of its left side.
func (c clearance) at(v view.View) view.XY {
	a, b := v.Screen(c.from), v.Screen(c.to)
	return view.XY{X: (a.X + b.X) / 2, Y: (a.Y+b.Y)/2 - 10}
}

// cleared is a kind whose clearances from the edges are shown where one is selected, and
// set by a click on their numbers: those of the ring that it gives.
type cleared interface {
	Clear(o On, t Target) geometry.Ring
}

// ringOf gives what the clearances of a target are measured from; none where it has none.
func ringOf(o On, t Target) geometry.Ring {
	if k, ok := t.Kind.(cleared); ok && t.Kind.Has(o, t) {
		return k.Clear(o, t)
	}
	return nil
}

// clearances measures how far a ring is from the edges of the outline, along the datum's
// side and square off it: each way to the nearer of the two edges.
func clearances(p plan.Plan, of geometry.Ring) (all []clearance) {
	if len(p.Outline) < 3 || len(of) == 0 {
		return nil
	}
	d := p.Datum()
	for _, way := range []geometry.Point{{X: 1}, {Y: 1}} {
		best, found := clearance{}, false
		for _, sign := range []geometry.Length{-1, 1} {
			way := geometry.Point{X: way.X * sign, Y: way.Y * sign}
			from := foremost(d, of, way)
			far := d.Of(from).Add(geometry.Point{X: way.X * reachOfSlab, Y: way.Y * reachOfSlab})
			rim := p.Outline.Rim()
			for i, a := range rim {
				to, ok := geometry.Meet(from, d.Place(far), a, rim[(i+1)%len(rim)])
				if c := (clearance{from, to, way}); ok && (!found || c.length() < best.length()) {
					best, found = c, true
				}
			}
		}
		if found && best.from != best.to {
			all = append(all, best)
		}
	}
	return all
}

// clear shows the clearances of a ring.
func (m *Machine) clear(o *Overlay, of geometry.Ring) {
	for _, c := range clearances(m.Plan(), of) {
		o.line(m, c.from, c.to, Guide)
		o.label(c.length().Text(m.Units()), c.at(m.View), Value)
	}
}

// clearanceUnder gives which clearance of what is selected has its number under the
// pointer; -1 for none.
func (m *Machine) clearanceUnder() int {
	for i, c := range clearances(m.Plan(), ringOf(m.on(), m.Selected)) {
		const around = 10 // of the plate under the number
		at := c.at(m.View)
		w, h := m.Measure(c.length().Text(m.Units()))
		if x := m.Pointer.X - at.X; x >= 0 && x <= w+around && math.Abs(m.Pointer.Y-at.Y) <= h/2+3 {
			return i
		}
	}
	return -1
}

// SetClearance moves what is selected so that it has a typed distance from an edge.
type SetClearance struct {
	still
	of    Target
	which int
}

// Name implements State.
func (*SetClearance) Name() string { return "Distance to the edge" }

// Help implements State.
func (*SetClearance) Help(*Machine) Help {
	return Help{"Type how far from the edge; the edge stays", "Set it", "Leave it as it is"}
}

// Takes implements State.
func (*SetClearance) Takes(_ *Machine, r rune) bool { return startsNumber(r) || r == '+' }

// Press implements State: what is clicked then is selected as ever.
func (*SetClearance) Press(m *Machine) {
	m.Use(&Select{})
	m.state.Press(m)
}

// clearance gives what is set, on a job.
func (s *SetClearance) clearance(o On) (c clearance, ok bool) {
	all := clearances(o.Plan(), ringOf(o, s.of))
	if s.which >= len(all) {
		return c, false
	}
	return all[s.which], true
}

func (s *SetClearance) parse(m *Machine, text string) (c clearance, l geometry.Length, err error) {
	c, ok := s.clearance(m.base())
	if !ok {
		return c, 0, errGone
	}
	l, err = field.Feet.ParseSize(text, c.length(), m.Units())
	return c, l, err
}

// Meaning says how what is typed is read.
func (s *SetClearance) Meaning(m *Machine, text string) (string, error) {
	_, l, err := s.parse(m, text)
	return l.Full(m.Units()), err
}

// Enter implements State.
func (s *SetClearance) Enter(m *Machine, text string) {
	if text == "" {
		m.Use(&Select{})
		return
	}
	c, l, err := s.parse(m, text)
	var j job.Job
	o := m.base()
	if err == nil {
		d := o.Plan().Datum()
		by := c.length() - l
		to := d.Place(d.Of(c.from).Add(geometry.Point{X: c.way.X * by, Y: c.way.Y * by}))
		j, _, err = s.of.Kind.Move(o, s.of, to.Sub(c.from))
	}
	if err != nil {
		m.say(err)
		return
	}
	if m.commitJob("Set the distance of "+s.of.Kind.Called(o, s.of)+" to "+l.Text(m.Units()), j, nil) {
		m.Use(&Select{})
	}
}

// Overlay implements State.
func (s *SetClearance) Overlay(m *Machine, o *Overlay) {
	c, ok := s.clearance(m.on())
	if !ok {
		return
	}
	o.line(m, c.from, c.to, Chosen)
	text := "How far from the edge?"
	if m.Text != "" {
		text = m.Typing()
	}
	at := c.at(m.View)
	w, _ := m.Measure(c.length().Text(m.Units()))
	o.label(text, offset(at, w/2, 24), Question)
}

// reachOfSlab is farther than a slab reaches.
const reachOfSlab = 4000 * geometry.Foot

// foremost gives the place of a ring that lies farthest a way from the datum, in the
// middle of where several do.
func foremost(d plan.Datum, of geometry.Ring, way geometry.Point) geometry.Point {
	var sum geometry.Point
	n, most := geometry.Length(0), geometry.Length(0)
	for _, q := range of {
		at := d.Of(q)
		by := at.X*way.X + at.Y*way.Y
		switch {
		case n == 0 || by > most+geometry.Micrometer:
			sum, n, most = q, 1, by
		case by > most-geometry.Micrometer:
			sum, n = sum.Add(q), n+1
		}
	}
	return geometry.Point{X: sum.X / n, Y: sum.Y / n}
}
