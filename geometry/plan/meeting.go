package plan

import (
	"cmp"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

// Meeting is a stretch of an edge of one slab that an edge of another slab of the job lies
// on: between them there is no free edge, and one form for both.
type Meeting struct {
	Slab, Loop, Edge int // whose stretch it is
	From, To         geometry.Length
	Other            int             // the other slab
	Later            bool            // this slab is poured against the other one, which is formed; else the other against it
	Doweled          bool            // dowels hold both level; else a strip of filler keeps them apart
	Marked           bool            // the edge, or that of the other slab, is marked as a joint with what is there
	Field            geometry.Length // thickness of the other slab
	Lower, Least     geometry.Length // of its top, below this one's: at most and at least along the stretch
}

// EdgeMeets tells what is done where an edge lies on an edge of another slab of the job.
type EdgeMeets = geometry.Choice[edgeMeets]

type edgeMeets struct{}

// Names implements geometry.Named.
func (edgeMeets) Names() []string { return []string{"isolated", "doweled"} }

// What is done there.
const (
	IsolatedThere EdgeMeets = iota // a strip of filler keeps the two slabs apart
	DoweledThere                   // dowels, as at a joint with a slab that is there, hold them level
)

// LeastMeeting is the shortest stretch that counts: own figure.
const LeastMeeting = geometry.Inch

// Meetings finds where slabs of a job, oriented, lie against each other within a sixteenth of
// an inch: a stretch of each of the two edges, in the order of slabs, loops, edges and places.
// The slab whose edge is marked as a joint is poured against the other; where none is, the
// later of the list. Where both are, each is as it is drawn, and the stretch is none. Tops count
// as level here: what falls is layout's.
func Meetings(slabs []Plan) []Meeting {
	var out []Meeting
	facing(slabs, geometry.Sixteenth, func(s, t facingEdge) {
		if s.e.Joint && t.e.Joint {
			return
		}
		first := stretchOf(s.a, s.b, t.a, t.b, geometry.Sixteenth)
		second := stretchOf(t.a, t.b, s.a, s.b, geometry.Sixteenth)
		if first.To-first.From < LeastMeeting || second.To-second.From < LeastMeeting {
			return
		}
		how := t.e // of the slab that is poured later
		if s.e.Joint {
			how = s.e
		}
		m := Meeting{Doweled: how.Meets == DoweledThere, Marked: s.e.Joint || t.e.Joint}
		lower := slabs[s.slab].Height - slabs[t.slab].Height
		one, other := m, m
		one.Slab, one.Loop, one.Edge, one.From, one.To, one.Other = s.slab, s.loop, s.i, first.From, first.To, t.slab
		other.Slab, other.Loop, other.Edge, other.From, other.To, other.Other = t.slab, t.loop, t.i, second.From, second.To, s.slab
		one.Later, other.Later = s.e.Joint, !s.e.Joint
		one.Field, other.Field = slabs[t.slab].Field, slabs[s.slab].Field
		one.Lower, one.Least, other.Lower, other.Least = lower, lower, -lower, -lower
		out = append(out, one, other)
	})
	slices.SortFunc(out, func(a, b Meeting) int {
		return cmp.Or(cmp.Compare(a.Slab, b.Slab), cmp.Compare(a.Loop, b.Loop), cmp.Compare(a.Edge, b.Edge), cmp.Compare(a.From, b.From), cmp.Compare(a.Other, b.Other))
	})
	return out
}

// Gap is where two slabs of a job all but meet.
type Gap struct {
	Slab, Other int
	At          geometry.Point // in the middle of it
	Wide        geometry.Length
}

// Gaps finds where edges of two slabs run beside each other nearer than near, and do not meet.
func Gaps(slabs []Plan, near geometry.Length) (out []Gap) {
	facing(slabs, near, func(s, t facingEdge) {
		at := stretchOf(s.a, s.b, t.a, t.b, near)
		if at.To-at.From < geometry.Foot {
			return
		}
		if on := stretchOf(s.a, s.b, t.a, t.b, geometry.Sixteenth); on.To > on.From {
			return
		}
		mid := geometry.Along(s.a, s.b, (at.From+at.To)/2)
		_, wide := geometry.Nearest(mid, t.a, t.b)
		out = append(out, Gap{s.slab, t.slab, mid, wide})
	})
	slices.SortFunc(out, func(a, b Gap) int {
		return cmp.Or(cmp.Compare(a.Slab, b.Slab), cmp.Compare(a.Other, b.Other), cmp.Compare(a.At.X, b.At.X), cmp.Compare(a.At.Y, b.At.Y))
	})
	return out
}

// facingEdge is an edge of one of several slabs.
type facingEdge struct {
	slab, loop, i int
	a, b          geometry.Point
	e             *Edge
}

// facing calls visit for edges of two slabs that come nearer to each other than near, that of
// the earlier slab first.
func facing(slabs []Plan, near geometry.Length, visit func(s, t facingEdge)) {
	if len(slabs) < 2 {
		return
	}
	var all []facingEdge
	var boxes []plane.Box
	for k, p := range slabs {
		for n, l := range p.Loops() {
			for i := range l {
				if a, b := l.Ends(i); a != b && l[i].Middle == 0 && !l.OfArc(i) { // no two are poured along an arc
					all = append(all, facingEdge{k, n, i, a, b, &l[i]})
					boxes = append(boxes, plane.BoxOf(a, b).Grown(float64(near)))
				}
			}
		}
	}
	plane.NewIndex(boxes).Pairs(func(i, j int) {
		s, t := all[i], all[j]
		if s.slab > t.slab {
			s, t = t, s
		}
		if s.slab != t.slab {
			visit(s, t)
		}
	})
}

// stretchOf gives the stretch of a-b that p-q, which runs the other way, lies on; none where
// it lies farther off.
func stretchOf(a, b, p, q geometry.Point, off geometry.Length) plane.Stretch {
	f := plane.FrameAlong(a, b)
	u, v := f.In(p), f.In(q)
	near := off.Meters()
	if u.X <= v.X { // it runs the same way: one lies over the other
		return plane.Stretch{}
	}
	long := geometry.Distance(a, b).Meters()
	lo, hi := max(v.X, 0), min(u.X, long)
	if hi <= lo {
		return plane.Stretch{}
	}
	at := func(x float64) float64 { return u.Y + (v.Y-u.Y)*(x-u.X)/(v.X-u.X) }
	if y := at(lo); y > near || y < -near {
		return plane.Stretch{}
	}
	if y := at(hi); y > near || y < -near {
		return plane.Stretch{}
	}
	snap := func(x float64) geometry.Length {
		switch l := geometry.FromMeters(x); {
		case l < geometry.Sixteenth:
			return 0
		case geometry.Distance(a, b)-l < geometry.Sixteenth:
			return geometry.Distance(a, b)
		default:
			return l
		}
	}
	return plane.Stretch{From: snap(lo), To: snap(hi)}
}

// Covered tells whether all of a stretch of an edge of the outline lies against other slabs,
// by the meetings of its slab.
func Covered(met []Meeting, edge int, from, to geometry.Length) bool {
	at := from
	for _, m := range met { // in the order of their places
		if m.Loop == 0 && m.Edge == edge && m.From <= at+LeastMeeting {
			at = max(at, m.To)
		}
	}
	return at >= to-LeastMeeting
}

// OfSlab gives the meetings of one slab.
func OfSlab(all []Meeting, slab int) (out []Meeting) {
	for _, m := range all {
		if m.Slab == slab {
			out = append(out, m)
		}
	}
	return out
}

// Formed gives the stretches of an edge, so long, that have a form of their own, by the
// meetings of its slab: none of a joint, and of another edge where it is not poured against a
// slab of the job.
func Formed(met []Meeting, e Edge, loop, edge int, long geometry.Length) []plane.Stretch {
	return stretches(met, e, long, func(m Meeting) bool { return m.Laid(loop, edge) })
}

// Free gives the stretches of an edge, so long, that nothing lies against in the end: no slab
// that is there, and none of the job, whichever is poured first.
func Free(met []Meeting, e Edge, loop, edge int, long geometry.Length) []plane.Stretch {
	return stretches(met, e, long, func(m Meeting) bool { return m.Loop == loop && m.Edge == edge })
}

// stretches gives those of an edge that is no joint which are left without some meetings.
func stretches(met []Meeting, e Edge, long geometry.Length, taken func(Meeting) bool) []plane.Stretch {
	if e.Joint {
		return nil
	}
	free := []plane.Stretch{{To: long}}
	for _, m := range met {
		if !taken(m) {
			continue
		}
		free = without(free, plane.Stretch{From: m.From, To: m.To})
	}
	return slices.DeleteFunc(free, func(s plane.Stretch) bool { return s.To-s.From < LeastMeeting })
}

// Laid tells whether it is a stretch of that edge at which its slab is poured against the
// other, but for an edge that is marked as a joint, which is one from end to end.
func (m Meeting) Laid(loop, edge int) bool {
	return m.Loop == loop && m.Edge == edge && m.Later && !m.Marked
}
