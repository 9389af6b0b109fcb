package slab

import (
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Upstand is a stretch of an edge at which the slab is poured against a curb of another slab.
type Upstand struct {
	Loop, Edge  int
	From, To    geometry.Length
	Most, Least geometry.Length // by which the slab's top stands over that of the curb; less than 0 where it lies lower
}

// Face is a stretch of an edge of a slab with what it is poured against there.
type Face struct {
	From, To    geometry.Length
	Most, Least geometry.Length // by which the slab's top stands over it; less than 0 where it lies lower
}

// Against gives the stretches of an edge at which this slab is poured against another of the
// job, but for an edge that is marked as a joint, which is one from end to end.
func (t *Slab) Against(s Side) (out []plan.Meeting) {
	for _, m := range t.Meetings {
		if m.Laid(s.Loop, s.Edge) {
			out = append(out, m)
		}
	}
	return out
}

// Formed gives the stretches of an edge that have a form of their own.
func (t *Slab) Formed(s Side) []Interval {
	return plan.Formed(t.Meetings, t.Edge(s), s.Loop, s.Edge, s.Length)
}

// Faces parts a meeting, at which the slab is poured against another, by the curbs of that one:
// beside them the slab's face is against the curb as high as it stands.
func (t *Slab) Faces(m plan.Meeting) (out []Face) {
	at := m.From
	for _, u := range t.Upstands { // in the order of their places
		if u.Loop != m.Loop || u.Edge != m.Edge || u.To <= at || u.From >= m.To {
			continue
		}
		from, to := max(u.From, at), min(u.To, m.To)
		out = append(out, Face{at, from, m.Lower, m.Least}, Face{from, to, u.Most, u.Least})
		at = to
	}
	out = append(out, Face{at, m.To, m.Lower, m.Least})
	return slices.DeleteFunc(out, func(f Face) bool { return f.To-f.From < plan.LeastMeeting && f.To-f.From < m.To-m.From })
}
