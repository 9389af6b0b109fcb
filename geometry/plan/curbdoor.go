package plan

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

// opening is what is kept open at a door, as far in as the widest curb.
type opening struct {
	loop, edge int // as they are drawn
	door       int
	ring       geometry.Ring
}

// openings are those of all doors, by where they are.
type openings struct {
	of    []opening
	index *plane.Index
}

// openings gives what is kept open at doors.
func (c *curbing) openings() *openings {
	if c.doors != nil {
		return c.doors
	}
	c.doors = &openings{}
	deep := geometry.Length(0)
	for _, l := range c.plan.Loops() {
		for _, e := range l {
			deep = max(deep, e.CurbWide())
		}
	}
	var boxes []plane.Box
	for k, l := range c.parted.Loops() {
		for i, e := range l {
			if len(e.Doors) == 0 {
				continue
			}
			a, b := l.Ends(i)
			in := plane.Vec{X: (b.X - a.X).Meters(), Y: (b.Y - a.Y).Meters()}.Unit().Left()
			for n, d := range e.Doors {
				p, q := geometry.Along(a, b, d.From), geometry.Along(a, b, d.From+d.Width)
				o := opening{k, l.Drawn(i), n, geometry.Ring{p, q, inside(q, in, deep), inside(p, in, deep)}}
				c.doors.of, boxes = append(c.doors.of, o), append(boxes, plane.BoxOf(o.ring...))
			}
		}
	}
	c.doors.index = plane.NewIndex(boxes)
	return c.doors
}

// open gives what is kept open at doors as a region.
func (c *curbing) open() (out plane.Region) {
	for _, o := range c.openings().of {
		out = append(out, o.ring)
	}
	if len(out) > 1 {
		return plane.Union(out)
	}
	return out
}

// CurbCut is where a curb ends square before a door of another edge that opens into it.
type CurbCut struct {
	Loop, Edge int
	From, To   geometry.Length // along the edge
	At         geometry.Point  // in the middle of it, on the edge's face
	// The door: its edge, and which of that edge's doors it is.
	OfLoop, Of, Door int
}

// stretches gives the stretches of an edge, as it is drawn, that have its curb: without what
// doors of other edges open into. Along arcs a curb is cut there and goes on.
func (c *curbing) stretches(loop int, l Loop, i int) []plane.Stretch {
	on := c.free(loop, l, i)
	for _, x := range c.cuts(loop, l, i, on) {
		on = without(on, plane.Stretch{From: x.From, To: x.To})
	}
	return deleteShort(on)
}

func deleteShort(of []plane.Stretch) (out []plane.Stretch) {
	for _, s := range of {
		if s.To-s.From >= leastCurb {
			out = append(out, s)
		}
	}
	return out
}

// cuts gives where the curb on stretches of an edge ends before doors of others.
func (c *curbing) cuts(loop int, l Loop, i int, on []plane.Stretch) (out []CurbCut) {
	if len(on) == 0 || l[i].Middle != 0 {
		return nil
	}
	a, b := l.Ends(i)
	in := plane.Vec{X: (b.X - a.X).Meters(), Y: (b.Y - a.Y).Meters()}.Unit().Left()
	u := plane.Vec{X: in.Y, Y: -in.X}
	doors := c.openings()
	for _, s := range on {
		w := band{a: l.Along(i, s.From), b: l.Along(i, s.To), in: in, width: l[i].CurbWide()}
		ring := w.ring()
		for _, n := range doors.index.Near(plane.BoxOf(ring...), nil) {
			o := doors.of[n]
			if o.loop == loop && o.edge == i {
				continue
			}
			both := plane.Intersect(plane.Intersect(plane.Region{ring}, plane.Region{o.ring}), c.slab)
			from, to := math.Inf(1), math.Inf(-1)
			for _, r := range both {
				for _, p := range r {
					at := u.Dot(plane.Vec{X: (p.X - a.X).Meters(), Y: (p.Y - a.Y).Meters()})
					from, to = math.Min(from, at), math.Max(to, at)
				}
			}
			if to-from < geometry.Millimeter.Meters() {
				continue
			}
			x := CurbCut{Loop: loop, Edge: i, From: max(s.From, geometry.FromMeters(from)), To: min(s.To, geometry.FromMeters(to)), OfLoop: o.loop, Of: o.edge, Door: o.door}
			x.At = l.Along(i, (x.From+x.To)/2)
			out = append(out, x)
		}
	}
	return out
}
