package plane

import (
	"slices"

	"haunchbook.example/geometry"
)

// linker joins edges, which do not cross and have the region on their left, into
// rings.
type linker struct {
	used []bool
	walk []geometry.Point
	last map[geometry.Point]int // where a corner stands in walk
}

// rings gives the rings of some edges. Each visits a corner once: where parts of
// the region, or a hole and its rim, meet in one point, they are rings of their own.
func (k *linker) rings(edges []noded) Region {
	slices.SortFunc(edges, func(e, f noded) int { return compare(e.u, f.u) })
	k.used = append(k.used[:0], make([]bool, len(edges))...)
	if k.last == nil {
		k.last = map[geometry.Point]int{}
	}
	var out Region
	for i := range edges {
		if k.used[i] {
			continue
		}
		k.walk = k.walk[:0]
		clear(k.last)
		for at := i; !k.used[at]; at = next(edges, at) {
			k.used[at] = true
			u := edges[at].u
			if from, seen := k.last[u]; seen {
				out = k.take(out, from)
			}
			k.last[u] = len(k.walk)
			k.walk = append(k.walk, u)
		}
		out = k.take(out, 0)
	}
	return out
}

// take cuts the walk's end off as a ring: from the place where it was at its
// present corner before.
func (k *linker) take(out Region, from int) Region {
	loop := k.walk[from:]
	ring := make(geometry.Ring, 0, len(loop))
	for i, p := range loop {
		delete(k.last, p)
		a, b := loop[(i+len(loop)-1)%len(loop)], loop[(i+1)%len(loop)]
		if geometry.Orientation(a, p, b) != 0 {
			ring = append(ring, p)
		}
	}
	k.walk = k.walk[:from]
	if len(ring) < 3 {
		return out
	}
	return append(out, ring)
}

// next gives the edge that goes on round the same part of the region: of those
// that leave where edge i arrives, the first one clockwise from the way back.
func next(edges []noded, i int) int {
	at, back := edges[i].v, edges[i].u.Sub(edges[i].v)
	k, _ := slices.BinarySearchFunc(edges, at, func(e noded, p geometry.Point) int { return compare(e.u, p) })
	best := k
	for k++; k < len(edges) && edges[k].u == at; k++ {
		if clockwise(back, edges[k].v.Sub(at), edges[best].v.Sub(at)) {
			best = k
		}
	}
	return best
}

// clockwise tells whether, turning clockwise from the direction of from, one
// comes to u before v. It is exact.
func clockwise(from, u, v geometry.Point) bool {
	// The half turn clockwise from from is first.
	half := func(w geometry.Point) bool {
		t := turn(from, w)
		return t > 0 || t == 0 && !ahead(from, w)
	}
	if hu, hv := half(u), half(v); hu != hv {
		// Straight back belongs to the second half and comes first in it.
		return !hu
	}
	return turn(u, v) < 0
}
