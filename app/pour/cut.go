package pour

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// divide cuts a length into the fewest equal parts of at most most each. A hair
// over is no further part.
func divide(length, most float64) int {
	if most <= 0 {
		return 1
	}
	return max(1, int(math.Ceil(length/most-1e-9)))
}

// Span gives how far the straightedge reaches between a form and a pad, or between
// two pads.
func (r Reach) Span() geometry.Length { return r.Straightedge - r.Overlap }

// LaneWidth gives the greatest width of a lane: what the straightedge spans, and
// what the bull float reaches across from one side.
func (r Reach) LaneWidth() geometry.Length {
	if r.Float > 0 {
		return min(r.Span(), r.Float)
	}
	return r.Span()
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
	round := !slices.ContainsFunc(p.Outline, func(e plan.Edge) bool { return e.Middle == 0 })
	for i, e := range p.Outline {
		if e.Middle != 0 && !round {
			continue // an arc has no direction
		}
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

// cut is one way to lay the lanes: along X of its frame, side by side along Y.
type cut struct {
	frame  plane.Frame
	slab   plane.Region
	sides  *plane.Sides
	extent plane.Box // of the slab, in the frame
	lanes  int
	trucks []plane.Vec // their places
	away   float64     // how far the nearest truck stands beyond the last lane; negative beside them
}

// chooseCut takes the direction with the fewest lanes, and of several the one
// whose last lane the truck stands behind.
func chooseCut(s Slab, r Reach, stations []geometry.Point) cut {
	var best cut
	p, slab := s.Plan, s.region()
	for i, t := range turns(p, r) {
		c := cut{frame: plane.NewFrame(p.Outline[0].At, t), slab: slab}
		c.extent = c.frame.Bounds(slab)
		c.lanes = divide(c.extent.MaxY-c.extent.MinY, r.LaneWidth().Meters())
		for _, st := range stations {
			c.trucks = append(c.trucks, c.frame.In(st))
		}
		q := nearestPlace(c.trucks, c.extent)
		c.away = max(q.Y-c.extent.MaxY, c.extent.MinY-q.Y)
		if i == 0 || c.lanes < best.lanes || c.lanes == best.lanes && c.away > best.away+1e-6 {
			best = c
		}
	}
	best.sides = plane.NewSides(slab)
	return best
}

// across gives the line across the whole slab at a height of the frame; the places
// above it are on its left.
func (c *cut) across(y float64) (a, b geometry.Point) {
	return c.frame.Out(plane.Vec{X: c.extent.MinX - 1, Y: y}), c.frame.Out(plane.Vec{X: c.extent.MaxX + 1, Y: y})
}

// up gives the line across the lanes at a place along them; the places before it
// are on its left.
func (c *cut) up(x float64) (a, b geometry.Point) {
	return c.frame.Out(plane.Vec{X: x, Y: c.extent.MinY - 1}), c.frame.Out(plane.Vec{X: x, Y: c.extent.MaxY + 1})
}

// hair is a width that only rounding makes, as where a border lies on a side of
// the slab that is askew.
const hair = 10 * geometry.Nanometer

// band gives the lane from one border to the next, numbered from 0 as y grows.
// The outer borders are the slab's own.
func (c *cut) band(k int) plane.Region {
	g := c.slab
	if k > 0 {
		a, b := c.across(c.border(k))
		g = g.Left(a, b)
	}
	if k < c.lanes-1 {
		a, b := c.across(c.border(k + 1))
		g = g.Left(b, a)
	}
	return g.Without(hair)
}

// border gives the height at which lane k begins.
func (c *cut) border(k int) float64 {
	return c.extent.MinY + float64(k)*(c.extent.MaxY-c.extent.MinY)/float64(c.lanes)
}

// upward tells whether the lanes are placed from the low side to the high one:
// the last lane is on the side that a truck stands nearest to, the low one
// without any.
func (c *cut) upward() bool {
	low, high := c.extent, c.extent
	low.MaxY, high.MinY = low.MinY, high.MaxY
	least := func(b plane.Box) float64 { return b.Distance(nearestPlace(c.trucks, b)) }
	return least(high) < least(low)-1e-6
}

// nearestPlace gives the place nearest to a box; its low corner where there is none.
func nearestPlace(places []plane.Vec, b plane.Box) plane.Vec {
	if len(places) == 0 {
		return plane.Vec{X: b.MinX, Y: b.MinY}
	}
	return slices.MinFunc(places, func(p, q plane.Vec) int { return cmp.Compare(b.Distance(p), b.Distance(q)) })
}
