package layout

import (
	"haunchbook.example/geometry"
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
	places := []geometry.Length{m.From, m.To}
	for _, s := range [...]*solid.Solid{this, other} {
		for _, c := range s.Surface().Creases {
			for _, q := range [...]geometry.Point{c.A, c.B} {
				along := plan.Foot(a, b, q)
				if _, off := geometry.Nearest(q, a, b); off < geometry.Sixteenth && along > m.From && along < m.To {
					places = append(places, along)
				}
			}
		}
	}
	level := m.Lower
	for i, along := range places {
		q := geometry.Along(a, b, along)
		lower := level + this.TopAt(q) - other.TopAt(q)
		if i == 0 {
			m.Lower, m.Least = lower, lower
		}
		m.Lower, m.Least = max(m.Lower, lower), min(m.Least, lower)
	}
	for _, l := range [...]*geometry.Length{&m.Lower, &m.Least} {
		if l.Abs() < geometry.Sixteenth/2 { // level, but for rounding
			*l = 0
		}
	}
}
