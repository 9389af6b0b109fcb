package solid

import (
	"cmp"
	"slices"

	"haunchbook.example/geometry/plane"
)

// The tolerances, in meters and square meters. Plans come in whole nanometers;
// these lie at or below one, so that what they drop cannot be seen: a face of
// sliver area holds less than 1e-11 m³.
const (
	tiny   = 1e-9  // shorter than this is a point
	sliver = 1e-12 // a smaller area is nothing
	level  = 1e-12 // depths that differ by less are equal
)

// piece is a convex polygon, counter-clockwise, over which one feature's depth
// is one plane. Pieces of one feature do not overlap.
type piece struct {
	poly    []plane.Vec
	depth   plane.Linear
	feature int32
}

func boxesOf(pieces []piece) []plane.Box {
	boxes := make([]plane.Box, len(pieces))
	for i, p := range pieces {
		boxes[i] = plane.BoxAround(p.poly...)
	}
	return boxes
}

// loss is a convex part of a piece where another piece is deeper.
type loss struct {
	piece int32
	size  float64
	poly  []plane.Vec
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
	var s scratch
	losses := make([]loss, 0, len(pieces))
	lose := func(i int, part []plane.Vec) {
		if a := plane.Area(part); a > sliver {
			losses = append(losses, loss{int32(i), a, mem.keep(part)})
		}
	}
	plane.NewIndex(boxesOf(pieces)).Pairs(func(i, j int) {
		p, q := pieces[i], pieces[j]
		if p.feature == q.feature {
			return
		}
		common := s.Within(p.poly, q.poly, tiny)
		if plane.Area(common) <= sliver {
			return
		}
		g := q.depth.Minus(p.depth) // positive where q is deeper
		lo, hi := g.At(common[0]), g.At(common[0])
		for _, v := range common[1:] {
			d := g.At(v)
			lo, hi = min(lo, d), max(hi, d)
		}
		switch {
		case hi <= level:
			lose(j, common)
		case lo >= -level:
			lose(i, common)
		default:
			s.c = plane.Clip(s.c[:0], common, g)
			lose(i, s.c)
			s.c = plane.Clip(s.c[:0], common, g.Negated())
			lose(j, s.c)
		}
	})
	// Large losses first: a piece that is lost whole goes at once.
	slices.SortFunc(losses, func(a, b loss) int {
		return cmp.Or(cmp.Compare(a.piece, b.piece), cmp.Compare(b.size, a.size))
	})
	kept := make([]piece, 0, len(pieces)+len(losses))
	var left, next [][]plane.Vec
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
func (s *scratch) subtract(dst [][]plane.Vec, p, q []plane.Vec, mem *arena) [][]plane.Vec {
	if !plane.BoxAround(p...).Overlaps(plane.BoxAround(q...)) || plane.Area(s.Within(p, q, tiny)) <= sliver {
		return append(dst, p)
	}
	rest, other := append(s.a[:0], p...), s.b[:0]
	for i, a := range q {
		b := q[(i+1)%len(q)]
		if b.Sub(a).Length() <= tiny {
			continue
		}
		inside := plane.LeftOf(a, b)
		s.c = plane.Clip(s.c[:0], rest, inside.Negated())
		if plane.Area(s.c) > sliver {
			dst = append(dst, mem.keep(s.c))
		}
		other = plane.Clip(other[:0], rest, inside)
		rest, other = other, rest
		if plane.Area(rest) <= sliver {
			break
		}
	}
	s.a, s.b = rest, other
	return dst
}

// scratch holds the buffers of polygon work that is thrown away.
type scratch struct {
	plane.Clipper
	a, b, c []plane.Vec
}

// arena hands out polygons that live as long as the solid, from few blocks.
type arena struct{ free []plane.Vec }

func (m *arena) keep(p []plane.Vec) []plane.Vec {
	if cap(m.free)-len(m.free) < len(p) {
		m.free = make([]plane.Vec, 0, max(2*cap(m.free), 256, len(p)))
	}
	n := len(m.free)
	m.free = append(m.free, p...)
	return m.free[n:len(m.free):len(m.free)]
}
