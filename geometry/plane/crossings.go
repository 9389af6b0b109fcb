package plane

import (
	"cmp"
	"slices"

	"haunchbook.example/geometry"
)

// Crossing is a place where two sides of rings meet that should not.
type Crossing struct {
	I, J int            // the sides, I < J; a side starts at the corner of its number
	At   geometry.Point // where, rounded to the nanometer
}

// Crossings lists, in order of their sides, the places where sides touch or cross
// other than neighbors in their common corner. A ring that has none, and no side
// of zero length, is a simple polygon. It is exact. Sides are numbered through,
// ring after ring; with sides of like size it takes n log n time. limit bounds how
// many are returned; 0 is no bound.
func Crossings(rings []geometry.Ring, limit int) []Crossing {
	type side struct {
		a, b       geometry.Point
		ring, k, n int // the k-th of the n sides of its ring
	}
	var sides []side
	var boxes []Box
	for ri, r := range rings {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			sides = append(sides, side{a, b, ri, i, len(r)})
			boxes = append(boxes, BoxOf(a, b))
		}
	}
	var found []Crossing
	NewIndex(boxes).Pairs(func(i, j int) {
		s, t := sides[i], sides[j]
		var at geometry.Point
		var ok bool
		switch {
		case s.ring == t.ring && (s.k+1)%s.n == t.k:
			at, ok = s.b, foldsBack(s.a, s.b, t.b)
		case s.ring == t.ring && (t.k+1)%s.n == s.k:
			at, ok = t.b, foldsBack(t.a, t.b, s.b)
		default:
			at, ok = geometry.Meet(s.a, s.b, t.a, t.b)
		}
		if ok {
			found = append(found, Crossing{i, j, at})
		}
	})
	slices.SortFunc(found, func(a, b Crossing) int {
		return cmp.Or(cmp.Compare(a.I, b.I), cmp.Compare(a.J, b.J))
	})
	if limit > 0 && len(found) > limit {
		found = found[:limit]
	}
	return found
}

// foldsBack tells whether the side b-c runs back over a-b.
func foldsBack(a, b, c geometry.Point) bool {
	return a != b && b != c && geometry.Orientation(a, b, c) == 0 && !ahead(b.Sub(a), c.Sub(b))
}
