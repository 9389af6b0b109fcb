package pour

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
)

// Shape is a part of the slab in plan: rings counter-clockwise round it and
// clockwise round its holes. More than one runs round it where an opening or a
// notch parts it.
type Shape []geometry.Ring

// Area gives the area in m².
func (s Shape) Area() float64 {
	sum := 0.0
	for _, r := range s {
		sum += r.Area()
	}
	return sum
}

// uv is a place in a frame, meters.
type uv struct{ u, v float64 }

// shape is a part of a plane: rings counter-clockwise round it and clockwise
// round its holes, so that it lies left of every side.
type shape [][]uv

// line parts the plane. It runs so that the side to keep is on its left.
type line struct {
	side  func(uv) float64 // distance to the left, meters
	along func(uv) float64 // distance in its direction, meters
}

func above(v float64) line {
	return line{func(q uv) float64 { return q.v - v }, func(q uv) float64 { return q.u }}
}

func below(v float64) line {
	return line{func(q uv) float64 { return v - q.v }, func(q uv) float64 { return -q.u }}
}

func after(u float64) line {
	return line{func(q uv) float64 { return q.u - u }, func(q uv) float64 { return -q.v }}
}

func before(u float64) line {
	return line{func(q uv) float64 { return u - q.u }, func(q uv) float64 { return q.v }}
}

// onLine is how near to a line a corner lies on it, meters: more than turning a
// plan by an angle rounds off, and far less than anything that is built.
const onLine = 1e-8

// chain is a stretch of a ring left of a line, from where it enters to where it
// leaves.
type chain struct {
	points []uv
	next   int // the chain that goes on from its end
}

// gate is where a ring crosses the line.
type gate struct {
	along float64
	leave bool
	chain int
}

// keep cuts a shape to the left of a line. Where that splits it, its parts come
// as rings of their own. Corners on the line count as right of it, so that two
// parts that only share a stretch of the line are not joined.
func (s shape) keep(l line) shape {
	var out shape
	var chains []chain
	for _, ring := range s {
		sides := make([]float64, len(ring))
		left, first := 0, -1
		for i, q := range ring {
			if d := l.side(q); math.Abs(d) > onLine {
				sides[i] = d
			}
			if sides[i] > 0 {
				left++
			}
		}
		for i := range ring {
			if sides[i] <= 0 && sides[(i+1)%len(ring)] > 0 {
				first = i
				break
			}
		}
		switch {
		case left == len(ring):
			out = append(out, ring)
		case first >= 0:
			chains = appendChains(chains, ring, sides, first)
		}
	}
	link(chains, l)
	used := make([]bool, len(chains))
	for i := range chains {
		var ring []uv
		for k := i; !used[k]; k = chains[k].next {
			used[k] = true
			ring = append(ring, chains[k].points...)
		}
		if ring = tidy(ring); ring != nil {
			out = append(out, ring)
		}
	}
	return out
}

// appendChains walks a ring from a place where it enters, and appends what of it
// lies left of the line.
func appendChains(chains []chain, ring []uv, sides []float64, first int) []chain {
	for n := range ring {
		i, k := (first+n)%len(ring), (first+n+1)%len(ring)
		a, b := ring[i], ring[k]
		cross := func() uv { t := sides[i] / (sides[i] - sides[k]); return uv{a.u + t*(b.u-a.u), a.v + t*(b.v-a.v)} }
		switch {
		case sides[i] <= 0 && sides[k] > 0:
			chains = append(chains, chain{points: []uv{cross(), b}})
		case sides[i] > 0:
			c := &chains[len(chains)-1]
			if sides[k] > 0 {
				c.points = append(c.points, b)
			} else {
				c.points = append(c.points, cross())
			}
		}
	}
	return chains
}

// link finds for each chain the one that goes on from its end. Along the line,
// the shape lies between a place where a ring leaves and the next where one
// enters. Places too near to each other to be told apart are taken in that order.
func link(chains []chain, l line) {
	gates := make([]gate, 0, 2*len(chains))
	for i, c := range chains {
		gates = append(gates, gate{l.along(c.points[0]), false, i}, gate{l.along(c.points[len(c.points)-1]), true, i})
	}
	slices.SortStableFunc(gates, func(a, b gate) int { return cmp.Compare(a.along, b.along) })
	for i := range gates {
		for k := i; k < len(gates); k++ {
			if gates[k].leave == (i%2 == 0) {
				g := gates[k]
				copy(gates[i+1:k+1], gates[i:k])
				gates[i] = g
				break
			}
		}
	}
	for i := 0; i+1 < len(gates); i += 2 {
		chains[gates[i].chain].next = gates[i+1].chain
	}
}

// tidy drops corners that fall together; nil for a ring without an area.
func tidy(ring []uv) []uv {
	out := ring[:0:0]
	for i, q := range ring {
		p := ring[(i+len(ring)-1)%len(ring)]
		if math.Hypot(q.u-p.u, q.v-p.v) > onLine/10 {
			out = append(out, q)
		}
	}
	if len(out) < 3 || math.Abs(ringArea(out)) < onLine*onLine {
		return nil
	}
	return out
}

// ringArea gives the signed area of a ring, m².
func ringArea(r []uv) float64 {
	sum := 0.0
	for i := 1; i+1 < len(r); i++ {
		sum += (r[i].u-r[0].u)*(r[i+1].v-r[0].v) - (r[i+1].u-r[0].u)*(r[i].v-r[0].v)
	}
	return sum / 2
}

// parts gives the connected parts of a shape, each with its holes.
func (s shape) parts() []shape {
	var out []shape
	for _, r := range s {
		if ringArea(r) > 0 {
			out = append(out, shape{r})
		}
	}
	for _, r := range s {
		if ringArea(r) > 0 {
			continue
		}
		for i := range out {
			if (shape{out[i][0]}).contains(r[0]) {
				out[i] = append(out[i], r)
				break
			}
		}
	}
	return out
}

// contains tells whether q lies in the shape; places on its border may count
// either way.
func (s shape) contains(q uv) bool {
	in := false
	for _, r := range s {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			if (a.v > q.v) != (b.v > q.v) && q.u < a.u+(q.v-a.v)/(b.v-a.v)*(b.u-a.u) {
				in = !in
			}
		}
	}
	return in
}

// distance gives how far q lies from the shape; 0 within.
func (s shape) distance(q uv) float64 {
	if s.contains(q) {
		return 0
	}
	least := math.Inf(1)
	for _, r := range s {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			du, dv := b.u-a.u, b.v-a.v
			t := ((q.u-a.u)*du + (q.v-a.v)*dv) / (du*du + dv*dv)
			t = max(0, min(1, t))
			least = min(least, math.Hypot(a.u+t*du-q.u, a.v+t*dv-q.v))
		}
	}
	return least
}

// crossings lists where the border crosses a line along u, sorted: the shape lies
// between the first and the second, the third and the fourth, and so on.
func (s shape) crossings(v float64) []float64 {
	var us []float64
	for _, r := range s {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			if (a.v > v) != (b.v > v) {
				us = append(us, a.u+(v-a.v)/(b.v-a.v)*(b.u-a.u))
			}
		}
	}
	slices.Sort(us)
	return us
}

// extent gives the box round a shape, which must not be empty.
func (s shape) extent() rectangle {
	e := rectangle{math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)}
	for _, r := range s {
		for _, q := range r {
			e = rectangle{min(e.u0, q.u), max(e.u1, q.u), min(e.v0, q.v), max(e.v1, q.v)}
		}
	}
	return e
}

// area gives the area, m².
func (s shape) area() float64 {
	sum := 0.0
	for _, r := range s {
		sum += ringArea(r)
	}
	return sum
}

// middle gives a place well inside the largest part of the shape, for its name.
func (s shape) middle() uv {
	part := slices.MaxFunc(s.parts(), func(a, b shape) int { return cmp.Compare(a.area(), b.area()) })
	e := part.extent()
	var best uv
	widest := 0.0
	for _, share := range []float64{0.5, 0.3, 0.7} { // the middle if nothing is much wider
		v := e.v0 + share*(e.v1-e.v0)
		us := part.crossings(v)
		for i := 0; i+1 < len(us); i += 2 {
			if w := us[i+1] - us[i]; w > 1.3*widest {
				widest, best = w, uv{(us[i] + us[i+1]) / 2, v}
			}
		}
	}
	return best
}
