package solid

import (
	"slices"

	"haunchbook.example/geometry"
)

// piece is a convex polygon, counter-clockwise, over which one feature's depth
// is one plane. Pieces of one feature do not overlap.
type piece struct {
	poly    []vec
	depth   plane
	feature int32
}

func (p piece) box() geometry.Box { return boxOf(p.poly) }

func boxOf(poly []vec) geometry.Box {
	b := geometry.Box{MinX: poly[0].x, MinY: poly[0].y, MaxX: poly[0].x, MaxY: poly[0].y}
	for _, v := range poly[1:] {
		b.MinX, b.MaxX = min(b.MinX, v.x), max(b.MaxX, v.x)
		b.MinY, b.MaxY = min(b.MinY, v.y), max(b.MaxY, v.y)
	}
	return b
}

// loss is a convex part of a piece where another piece is deeper.
type loss struct {
	piece int32
	size  float64
	poly  []vec
}

// envelope gives the deepest surface over all pieces, as pieces that do not
// overlap. Where depths tie, the piece of lower number counts.
//
// For each two pieces that overlap, their common part is cut once, along the
// line where their depths are equal, and each half is booked as a loss of the
// shallower piece: so every point is lost by all pieces but one, whatever the
// last bits of the cuts. What a piece keeps is itself less its losses; each is
// convex, and a convex polygon less a convex polygon is at most as many convex
// polygons as the latter has sides. Cutting convex polygons by lines has no
// topology to get wrong; an error of the last bit moves an edge by it and loses
// no face.
func envelope(pieces []piece, mem *arena) []piece {
	boxes := make([]geometry.Box, len(pieces))
	for i, p := range pieces {
		boxes[i] = p.box()
	}
	s := newScratch()
	losses := make([]loss, 0, len(pieces))
	lose := func(i int, part []vec) {
		if a := area(part); a > sliver {
			losses = append(losses, loss{int32(i), a, mem.keep(part)})
		}
	}
	geometry.NewIndex(boxes).Pairs(func(i, j int) {
		p, q := pieces[i], pieces[j]
		if p.feature == q.feature {
			return
		}
		common := s.intersect(p.poly, q.poly)
		if area(common) <= sliver {
			return
		}
		g := q.depth.minus(p.depth) // positive where q is deeper
		lo, hi := g.at(common[0]), g.at(common[0])
		for _, v := range common[1:] {
			d := g.at(v)
			lo, hi = min(lo, d), max(hi, d)
		}
		switch {
		case hi <= level:
			lose(j, common)
		case lo >= -level:
			lose(i, common)
		default:
			s.c = clip(s.c[:0], common, g)
			lose(i, s.c)
			s.c = clip(s.c[:0], common, plane{}.minus(g))
			lose(j, s.c)
		}
	})
	// Large losses first: a piece that is lost whole goes at once.
	slices.SortFunc(losses, func(a, b loss) int {
		if a.piece != b.piece {
			return int(a.piece) - int(b.piece)
		}
		switch {
		case a.size > b.size:
			return -1
		case a.size < b.size:
			return 1
		}
		return 0
	})
	kept := make([]piece, 0, len(pieces)+len(losses))
	var left, next [][]vec
	for i, p := range pieces {
		left = append(left[:0], p.poly)
		for len(losses) > 0 && losses[0].piece == int32(i) {
			next = next[:0]
			for _, part := range left {
				next = s.subtract(next, part, losses[0].poly, mem)
			}
			left, next = next, left
			losses = losses[1:]
		}
		for _, part := range left {
			kept = append(kept, piece{part, p.depth, p.feature})
		}
	}
	return kept
}

// subtract appends to dst the convex parts of convex p outside convex q.
func (s *scratch) subtract(dst [][]vec, p, q []vec, mem *arena) [][]vec {
	if !boxOf(p).Overlaps(boxOf(q)) || area(s.intersect(p, q)) <= sliver {
		return append(dst, p)
	}
	rest := append(s.a[:0], p...)
	other := s.b[:0]
	for i, a := range q {
		b := q[(i+1)%len(q)]
		if b.sub(a).length() <= tiny {
			continue
		}
		inside := leftOf(a, b)
		s.c = clip(s.c[:0], rest, plane{}.minus(inside))
		if area(s.c) > sliver {
			dst = append(dst, mem.keep(s.c))
		}
		other = clip(other[:0], rest, inside)
		rest, other = other, rest
		if area(rest) <= sliver {
			break
		}
	}
	s.a, s.b = rest, other
	return dst
}
