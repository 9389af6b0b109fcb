package tool

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// gap says what becomes of the misclosure of a chain of legs: 0 keeps it as an
// edge of its own, 1 spreads it over all legs, and 2 and on put it in one leg,
// the last one first.
type gap int

// leg gives the leg that the gap goes into.
func (g gap) leg(t plan.Traverse) int { return len(t.Legs) + 1 - int(g) }

func (g gap) name(t plan.Traverse) string {
	switch g {
	case 0:
		return "kept as an edge"
	case 1:
		return "spread over all"
	}
	return fmt.Sprintf("put in edge %d", g.leg(t)+1)
}

// next gives the choice after this one, or the one before.
func (g gap) next(t plan.Traverse, backwards bool) gap {
	n := gap(len(t.Legs) + 2)
	if backwards {
		return (g + n - 1) % n
	}
	return (g + 1) % n
}

// apply gives the legs with the gap dealt with.
func (g gap) apply(t plan.Traverse) plan.Traverse {
	switch {
	case g == 1:
		return t.Spread()
	case g > 1:
		if in, err := t.InLeg(g.leg(t)); err == nil {
			return in
		}
	}
	return t
}

// misclosed gives the chain as legs where it ends so near to its start that it was
// meant to end there: within a twentieth of its length.
func (c *Chain) misclosed() (plan.Traverse, bool) {
	if c.What.open() || len(c.Points) < 4 {
		return plan.Traverse{}, false
	}
	t := plan.Through(c.Points)
	total := geometry.Length(0)
	for _, v := range t.Legs {
		total += geometry.Distance(geometry.Point{}, v)
	}
	miss := t.Misclosure()
	return t, miss > 0 && miss < total/20
}

// ring gives the corners that were drawn, with the misclosure dealt with.
func (c *Chain) ring() geometry.Ring {
	t, open := c.misclosed()
	if !open {
		return c.Points
	}
	ring := c.gap.apply(t).Ring()
	for i := range ring {
		ring[i] = ring[i].Add(c.Points[0])
	}
	return ring
}
