package slab

import "haunchbook.example/geometry/plan"

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
