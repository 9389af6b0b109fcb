package dim

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Also is what is dimensioned besides the edges of a plan.
type Also struct {
	Bolt   *Bolt       // a bolt mark
	Slabs  []plan.Plan // of the job: those beside this one are dimensioned to
	Worked int         // the number of this one
}

// Bolt names a bolt mark of the plan.
type Bolt struct{ Loop, Edge, Mark int }

// bolt dimensions a bolt mark from both corners, on the slab's side of the edge.
func (pl *placer) bolt(p plan.Plan, b *Bolt) {
	if b == nil {
		return
	}
	loops := p.Loops()
	if b.Loop >= len(loops) || b.Edge >= len(loops[b.Loop]) || b.Mark >= len(loops[b.Loop][b.Edge].Bolts) {
		return
	}
	l := loops[b.Loop]
	from, to := l.Ends(b.Edge)
	along, length := l[b.Edge].Bolts[b.Mark].Along, l.Length(b.Edge)
	if from == to || along < 0 || along > length {
		return
	}
	at := geometry.Along(from, to, along)
	d := Dim{Loop: b.Loop, Edge: b.Edge, Door: b.Mark}
	for _, part := range []struct {
		kind  Kind
		value geometry.Length
		p, q  geometry.Point
	}{{BoltFrom, along, from, at}, {BoltTo, length - along, at, to}} {
		if part.value > 0 {
			d.Kind, d.Value = part.kind, part.value
			pl.put(d, part.p, part.q, -inner-step)
		}
	}
}

// gaps dimensions the clear distance to each slab beside this one, where two
// level or plumb edges face each other.
func (pl *placer) gaps(p plan.Plan, a Also) {
	for k, o := range a.Slabs {
		if k == a.Worked {
			continue
		}
		for _, axis := range []plan.Axis{plan.AcrossX, plan.AcrossY} {
			if from, to, ok := facing(p.Outline, o.Outline, axis); ok {
				pl.put(Dim{Kind: Gap, Edge: -1, Axis: axis, Other: k, Value: geometry.Distance(from, to)}, from, to, 0)
			}
		}
	}
}

// facing gives the shortest way between two outlines along an axis, in the middle
// of where the two edges that it joins face each other.
func facing(p, q plan.Loop, axis plan.Axis) (from, to geometry.Point, ok bool) {
	best := geometry.Length(0)
	for i := range p {
		a, b, out := across(p, i, axis)
		if out == 0 {
			continue
		}
		for j := range q {
			c, d, back := across(q, j, axis)
			lo, hi := max(min(a.Y, b.Y), min(c.Y, d.Y)), min(max(a.Y, b.Y), max(c.Y, d.Y))
			gap := (c.X - a.X) * out
			if back != -out || lo >= hi || gap <= 0 || ok && gap >= best {
				continue
			}
			best, ok = gap, true
			mid := lo + (hi-lo)/2
			from, to = swap(geometry.Point{X: a.X, Y: mid}, axis), swap(geometry.Point{X: c.X, Y: mid}, axis)
		}
	}
	return from, to, ok
}

// across gives edge i as if distances along the axis were along X, and which way
// is out of the slab: 1, -1, or 0 for an edge that does not stand across the axis.
func across(l plan.Loop, i int, axis plan.Axis) (a, b geometry.Point, out geometry.Length) {
	a, b = l.Ends(i)
	a, b = swap(a, axis), swap(b, axis)
	if a.X != b.X || a.Y == b.Y {
		return a, b, 0
	}
	out = 1
	if (b.Y < a.Y) != (axis == plan.AcrossY) {
		out = -1
	}
	return a, b, out
}

func swap(p geometry.Point, axis plan.Axis) geometry.Point {
	if axis == plan.AcrossY {
		return geometry.Point{X: p.Y, Y: p.X}
	}
	return p
}
