package slab

import "haunchbook.example/geometry/plan"

// Against gives the stretches of an edge at which this slab is poured against another of the
// job, but for an edge that is marked as a joint, which is one from end to end.
func (t *Slab) Against(s Side) (out []plan.Meeting) {
	for _, m := range t.Meetings {
		if m.Loop == s.Loop && m.Edge == s.Edge && m.Later && !m.Marked {
			out = append(out, m)
		}
	}
	return out
}

// Formed gives the stretches of an edge that have a form of their own: none of a joint, and of
// another edge where it is not poured against a slab of the job.
func (t *Slab) Formed(s Side) []Interval {
	if t.Edge(s).Joint {
		return nil
	}
	free := []Interval{{To: s.Length}}
	for _, m := range t.Against(s) {
		var rest []Interval
		for _, f := range free {
			for _, r := range [...]Interval{{From: f.From, To: min(f.To, m.From)}, {From: max(f.From, m.To), To: f.To}} {
				if r.To-r.From >= plan.LeastMeeting {
					rest = append(rest, r)
				}
			}
		}
		free = rest
	}
	return free
}
