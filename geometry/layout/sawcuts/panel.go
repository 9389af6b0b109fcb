package sawcuts

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plane"
)

// panel is slab between cuts, edges and holes.
type panel struct {
	hull []slab.Vec // the corners of the least convex shape round it, in meters
	area float64    // m²
	box  rectangle
}

// rectangle is the smallest round a panel, in meters.
type rectangle struct {
	mid           slab.Vec
	along         slab.Vec // unit vector of its longer side
	length, width float64
}

const (
	kerf   = geometry.Inch / 8        // no panel is narrower than the saw
	slit   = 10 * geometry.Micrometer // half of what parts the panels as they are found
	beyond = geometry.Inch / 50       // cuts run so far past their ends, to reach what they end on
	meter  = float64(geometry.Meter)  // in nanometers
	thin   = float64(2*foot) / meter  // a narrower panel cracks across if it is long
	square = float64(kerf+2*slit) / meter
)

// divided is the slab as cuts divide it, with the region of each panel.
type divided struct {
	cuts   []Cut
	panels []panel
	parts  []plane.Region
}

func (t *sawing) divide(cuts []Cut) divided { return dividedBy(plane.Region(t.Rings), cuts, t.Over) }

// dividedBy gives what cuts leave of a region; nothing once over tells that nobody wants it.
func dividedBy(g plane.Region, cuts []Cut, over func() bool) divided {
	var slits plane.Region
	for _, c := range cuts {
		s := slab.NewSide(0, 0, c.A, c.B)
		slits = append(slits, geometry.Ring{s.At(-beyond, -slit), s.At(s.Length+beyond, -slit), s.At(s.Length+beyond, slit), s.At(-beyond, slit)})
	}
	parts := plane.SubtractUntil(over, g, slits).Parts()
	out := make([]panel, len(parts))
	for i, g := range parts {
		at := make([]slab.Vec, len(g[0]))
		for k, p := range g[0] {
			at[k] = slab.Vec{X: p.X.Meters(), Y: p.Y.Meters()}
		}
		out[i] = panelOf(at, g.Area())
	}
	return divided{cuts, out, parts}
}

// panelOf gives the panel of an area that has corners, among other places.
func panelOf(at []slab.Vec, area float64) panel {
	p := panel{hull: hull(at), area: area}
	p.box = around(p.hull)
	return p
}

// with gives the panel that two make.
func (p panel) with(q panel) panel {
	return panelOf(append(slices.Clone(p.hull), q.hull...), p.area+q.area)
}

// none tells that a panel is but what rounding leaves.
func (p panel) none() bool { return p.box.width < square }

// strip tells that a panel is so narrow and long that it cracks across. Judgment, no
// source.
func (p panel) strip() bool { return p.box.width < thin && p.box.length > 3*p.box.width }

// crumb tells that a panel is better off as part of another.
func (p panel) crumb() bool { return p.box.width < thin || p.fill() < fullest }

// fill tells how much of its rectangle a panel covers.
func (p panel) fill() float64 { return p.area / (p.box.length * p.box.width) }

// fullest is how much of its rectangle a panel covers that counts as one.
const fullest = 0.8

// The weights by which panels are compared: judgment, no source.
const (
	perStrip = 6.0
	perSmall = 2.0
	perBent  = 5.0
	perLong  = 4.0
)

// slack is by how much of itself a panel may be slimmer than asked: a cut lies on a whole
// sixteenth or millimeter, so that a panel drawn at the limit comes out just beside it.
const slack = 1 + 1e-4

// fault weighs what is wrong with a panel.
func (t *sawing) fault(p panel, limit float64) float64 {
	if p.none() {
		return perSmall
	}
	sum, ratio := 0.0, p.box.length/p.box.width
	switch {
	case p.strip():
		sum += perStrip
	case ratio > t.spec.Aspect*slack:
		sum += perSlim * min(ratio-t.spec.Aspect+0.2, 2)
	}
	if p.box.width < thin {
		sum += perSmall
	}
	if f := p.fill(); f < fullest {
		sum += perBent * (1 + fullest - f)
	}
	if p.box.length > limit+float64(inch)/meter {
		sum += perLong * p.box.length / limit
	}
	return sum
}

// hull gives the corners of the least convex shape round places, counter-clockwise:
// A. M. Andrew, Another efficient algorithm for convex hulls in two dimensions,
// Information Processing Letters 9, 1979.
func hull(at []slab.Vec) []slab.Vec {
	at = slices.Clone(at)
	slices.SortFunc(at, func(a, b slab.Vec) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	var out []slab.Vec
	for range 2 {
		first := len(out)
		for _, p := range at {
			for len(out) > first+1 && out[len(out)-1].Sub(out[len(out)-2]).Cross(p.Sub(out[len(out)-2])) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		out = out[:len(out)-1]
		slices.Reverse(at)
	}
	return out
}

// around gives the smallest rectangle round a convex shape, which has a side along
// one of its sides: H. Freeman and R. Shapira, Determining the minimum-area encasing
// rectangle for an arbitrary closed curve, Communications of the ACM 18, 1975.
func around(hull []slab.Vec) rectangle {
	var best rectangle
	least := math.Inf(1)
	for i, a := range hull {
		u := hull[(i+1)%len(hull)].Sub(a)
		l := u.Length()
		if l == 0 {
			continue
		}
		u = u.Times(1 / l)
		v := u.Left()
		x0, x1, y1 := 0.0, 0.0, 0.0
		for _, p := range hull {
			x, y := p.Sub(a).Dot(u), p.Sub(a).Dot(v)
			x0, x1, y1 = min(x0, x), max(x1, x), max(y1, y)
		}
		if area := (x1 - x0) * y1; area < least {
			least = area
			best = rectangle{a.Add(u.Times((x0 + x1) / 2)).Add(v.Times(y1 / 2)), u, x1 - x0, y1}
			if best.length < best.width {
				best.along, best.length, best.width = v, y1, x1-x0
			}
		}
	}
	return best
}
