package plan

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

// opening is what is kept open at a door, as far in as the widest curb.
type opening struct {
	loop, edge int // as they are drawn
	door       int
	ring       geometry.Ring
}

// doorways are the openings of all doors, by where they are.
type doorways struct {
	of    []opening
	index *plane.Index
}

// openings gives what is kept open at the doors of a plan whose arcs are parted.
func openings(p, parted Plan) doorways {
	deep := geometry.Length(0)
	for _, l := range p.Loops() {
		for _, e := range l {
			deep = max(deep, e.CurbWide())
		}
	}
	var out doorways
	var boxes []plane.Box
	for k, l := range parted.Loops() {
		for i, e := range l {
			if len(e.Doors) == 0 {
				continue
			}
			a, b := l.Ends(i)
			in := across(a, b)
			for n, d := range e.Doors {
				p, q := geometry.Along(a, b, d.From), geometry.Along(a, b, d.From+d.Width)
				o := opening{k, l.Drawn(i), n, geometry.Ring{p, q, inside(q, in, deep), inside(p, in, deep)}}
				out.of, boxes = append(out.of, o), append(boxes, plane.BoxOf(o.ring...))
			}
		}
	}
	out.index = plane.NewIndex(boxes)
	return out
}

// region gives them as one.
func (d doorways) region() (out plane.Region) {
	for _, o := range d.of {
		out = append(out, o.ring)
	}
	if len(out) > 1 {
		return plane.Union(out)
	}
	return out
}

// free gives the stretches of an edge, as it is drawn, that have its curb.
func (c *curbing) free(loop int, l Loop, i int) []plane.Stretch {
	e := l[i]
	if e.Curb <= 0 {
		return nil
	}
	out := Formed(c.met, e, loop, i, l.Length(i))
	for _, d := range e.Doors {
		out = without(out, plane.Stretch{From: d.From, To: d.From + d.Width})
	}
	for _, w := range c.plan.Walls { // their openings are doors too
		if k, n, back, ok := c.plan.Along(w); ok && k == loop && n == i {
			a, b := l.Ends(i)
			from := geometry.Rounded(float64(geometry.Distance(a, b)) * share(w.From, a, b))
			for _, d := range w.Doors {
				s := plane.Stretch{From: from + d.From, To: from + d.From + d.Width}
				if back {
					s = plane.Stretch{From: from - d.From - d.Width, To: from - d.From}
				}
				out = without(out, s)
			}
		}
	}
	return longEnough(out)
}

// longEnough leaves out the stretches that are too short for a curb.
func longEnough(of []plane.Stretch) []plane.Stretch {
	return slices.DeleteFunc(of, func(s plane.Stretch) bool { return s.To-s.From < leastCurb })
}

func share(p, a, b geometry.Point) float64 {
	f, _ := geometry.Nearest(p, a, b)
	return f
}

// without takes a stretch out of others.
func without(of []plane.Stretch, s plane.Stretch) (out []plane.Stretch) {
	for _, f := range of {
		for _, r := range [...]plane.Stretch{{From: f.From, To: min(f.To, s.From)}, {From: max(f.From, s.To), To: f.To}} {
			if r.To > r.From {
				out = append(out, r)
			}
		}
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

// before gives where the curb on stretches of an edge ends before doors of others. Along arcs it
// does not: a curb is cut there and goes on.
func (c *curbing) before(doors doorways, loop int, l Loop, i int, on []plane.Stretch) (out []CurbCut) {
	if len(on) == 0 || l[i].Middle != 0 {
		return nil
	}
	a, b := l.Ends(i)
	in := across(a, b)
	u := plane.Vec{X: in.Y, Y: -in.X}
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
