package pour

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// divide cuts a length into the fewest equal parts of at most most each. A hair
// over is no further part.
func divide(length, most float64) int {
	if most <= 0 {
		return 1
	}
	return max(1, int(math.Ceil(length/most-1e-9)))
}

// LaneWidth gives the greatest width of a lane: what the straightedge spans
// with its overlap, and what the bull float reaches across from one side.
func (r Reach) LaneWidth() geometry.Length {
	w := r.Straightedge - r.Overlap
	if r.Float > 0 {
		w = min(w, r.Float)
	}
	return w
}

// turns lists the directions of lanes to choose from: the given one, or those of
// the outline's edges, each once, longest edge first.
func turns(p plan.Plan, r Reach) []float64 {
	if r.Turned {
		return []float64{r.Turn * math.Pi / 180}
	}
	type edge struct {
		turn   float64
		length geometry.Length
	}
	var edges []edge
	for i := range p.Outline {
		a, b := p.Outline.Ends(i)
		d := b.Sub(a)
		turn := math.Atan2(float64(d.Y), float64(d.X))
		if turn < -1e-9 {
			turn += math.Pi
		} else if turn > math.Pi-1e-9 {
			turn -= math.Pi
		}
		edges = append(edges, edge{turn, geometry.Distance(a, b)})
	}
	slices.SortStableFunc(edges, func(a, b edge) int { return cmp.Compare(b.length, a.length) })
	var out []float64
	for _, e := range edges {
		if !slices.ContainsFunc(out, func(t float64) bool { return math.Abs(t-e.turn) < 1e-6 }) {
			out = append(out, e.turn)
		}
	}
	// Past some dozens nothing is gained, on an outline of many short edges.
	return out[:min(len(out), 32)]
}

// cut is one way to lay the lanes.
type cut struct {
	frame  frame
	slab   shape
	extent rectangle
	lanes  int
	trucks []uv    // their places
	away   float64 // how far the nearest truck stands beyond the last lane; negative beside them
}

// chooseCut takes the direction with the fewest lanes, and of several the one
// whose last lane the truck stands behind.
func chooseCut(p plan.Plan, r Reach, stations []geometry.Point) cut {
	var best cut
	for i, t := range turns(p, r) {
		c := cut{frame: newFrame(p.Outline[0].At, t)}
		c.slab = c.frame.slab(p)
		c.extent = c.slab.extent()
		c.lanes = divide(c.extent.v1-c.extent.v0, r.LaneWidth().Meters())
		for _, st := range stations {
			c.trucks = append(c.trucks, c.frame.in(st))
		}
		q := nearestPlace(c.trucks, c.extent)
		c.away = max(q.v-c.extent.v1, c.extent.v0-q.v)
		if i == 0 || c.lanes < best.lanes || c.lanes == best.lanes && c.away > best.away+1e-6 {
			best = c
		}
	}
	return best
}

// upward tells whether the lanes are placed from the low side to the high one:
// the last lane is on the side that a truck stands nearest to, the low one
// without any.
func (c cut) upward() bool {
	low, high := c.extent, c.extent
	low.v1, high.v0 = low.v0, high.v1
	least := func(r rectangle) float64 { return r.distance(nearestPlace(c.trucks, r)) }
	return least(high) < least(low)-1e-6
}

// nearestPlace gives the place nearest to r; its low corner where there is none.
func nearestPlace(places []uv, r rectangle) uv {
	if len(places) == 0 {
		return uv{r.u0, r.v0}
	}
	return slices.MinFunc(places, func(a, b uv) int { return cmp.Compare(r.distance(a), r.distance(b)) })
}
