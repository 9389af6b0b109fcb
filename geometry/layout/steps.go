package layout

import (
	"cmp"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// settle gives a meeting how far one top lies below the other, where either falls: at its ends,
// and where a crease of either top reaches it, since between those both are planes.
func settle(m *plan.Meeting, plans []plan.Plan, slabs []Slab) {
	this, other := slabs[m.Slab].Solid, slabs[m.Other].Solid
	if this == nil || other == nil || plans[m.Slab].Top.Level() && plans[m.Other].Top.Level() {
		return
	}
	a, b := plans[m.Slab].Loops()[m.Loop].Ends(m.Edge)
	level := m.Lower
	m.Lower, m.Least = extremes(bends(a, b, m.From, m.To, this, other), func(along geometry.Length) geometry.Length {
		q := geometry.Along(a, b, along)
		return level + this.TopAt(q) - other.TopAt(q)
	})
}

// extremes gives the most and the least of what a height is at places, 0 for level but for rounding.
func extremes(places []geometry.Length, height func(along geometry.Length) geometry.Length) (most, least geometry.Length) {
	for i, along := range places {
		h := height(along)
		if i == 0 {
			most, least = h, h
		}
		most, least = max(most, h), min(least, h)
	}
	for _, l := range [...]*geometry.Length{&most, &least} {
		if l.Abs() < geometry.Sixteenth/2 {
			*l = 0
		}
	}
	return most, least
}

// bends gives the ends of a stretch of a line, and where the creases of two tops reach it between
// them: between those both are planes.
func bends(a, b geometry.Point, from, to geometry.Length, tops ...*solid.Solid) []geometry.Length {
	places := []geometry.Length{from, to}
	for _, s := range tops {
		if s == nil {
			continue
		}
		for _, c := range s.Surface().Creases {
			for _, q := range [...]geometry.Point{c.A, c.B} {
				along := plan.Foot(a, b, q)
				if _, off := geometry.Nearest(q, a, b); off < geometry.Sixteenth && along > from && along < to {
					places = append(places, along)
				}
			}
		}
	}
	return places
}

// upstands gives the curbs of other slabs that a slab is poured against, by its meetings, and each
// of these the highest of its curbs.
func upstands(met []Meeting, plans []plan.Plan, slabs []Slab) (out []slab.Upstand) {
	for i := range met {
		m := &met[i]
		if !m.Later {
			continue
		}
		this, other := slabs[m.Slab].Solid, slabs[m.Other].Solid
		a, b := plans[m.Slab].Loops()[m.Loop].Ends(m.Edge)
		level := plans[m.Slab].Height - plans[m.Other].Height
		for _, r := range slabs[m.Other].Curbs.Runs {
			from, to := max(plan.Foot(a, b, r.Arc.B), m.From), min(plan.Foot(a, b, r.Arc.A), m.To) // it runs the other way
			if !r.Arc.Straight() || to-from < plan.LeastMeeting || away(r, geometry.Along(a, b, from)) || away(r, geometry.Along(a, b, to)) {
				continue
			}
			u := slab.Upstand{Loop: m.Loop, Edge: m.Edge, From: from, To: to}
			u.Most, u.Least = extremes(bends(a, b, from, to, this, other), func(along geometry.Length) geometry.Length {
				q := geometry.Along(a, b, along)
				high, over := slabs[m.Other].Curbs.High(r, q), level
				if this != nil && other != nil {
					over += this.TopAt(q) - other.TopAt(q)
				}
				if high > m.Curb {
					m.Curb, m.CurbWide = high, r.Width
				}
				return over - high
			})
			out = append(out, u)
		}
	}
	slices.SortStableFunc(out, func(a, b slab.Upstand) int { return cmp.Compare(a.From, b.From) })
	return out
}

// away tells whether a place lies off the face of a run.
func away(r plan.CurbRun, p geometry.Point) bool {
	_, off := geometry.Nearest(p, r.Arc.A, r.Arc.B)
	return off > geometry.Sixteenth
}
